#pragma once
#include "desk/sheet.h"
#include "report/film.h"

#include <vector>

namespace cistern::desk {

/// A film told in words and counts, area by area, for those who cannot see it or have no time.
void filmInWords(Flow& flow, const std::vector<report::FilmPart>& parts);

} // namespace cistern::desk
