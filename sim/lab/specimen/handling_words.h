#pragma once
#include "lab/specimen/handling.h"

#include <string>
#include <vector>

namespace cistern::lab {

/// How a specimen was handled where that is not the usual, in plain words: "EDTA tube 20 % full",
/// "spun after 5 min on the clot", "3 h on its cells". Empty if all was as it should be; tubes of
/// the usual kind are not told, nor are the vein and the time since food, which every report
/// states.
std::vector<std::string> said(const Handling& handling);

/// What whoever was not there can know of it: fill and times, which a tube or its label shows, the
/// vein and the time since food, which the report states. All else is as usual.
Handling shownPart(const Handling& handling);

/// Of the lines only those that tell of this part.
std::vector<std::string> shownByTubes(const Handling& handling);

/// Such lines in one, "; " between; "" if there is nothing to say.
std::string inOne(const std::vector<std::string>& lines);

} // namespace cistern::lab
