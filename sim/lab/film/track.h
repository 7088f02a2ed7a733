#pragma once
#include "lab/film/slide.h"

#include <vector>

namespace cistern::lab {

/// A field of view on a film [um].
struct FilmField {
    double left = 0, top = 0, width = 0, height = 0;
};

/// Fields of one size in the order in which a reader meets them: up, along, down and along again as
/// the top of a wall goes, so that no cell is met twice and no place of the film is preferred.
/// Within the area, from its side near the feathered edge on; never empty: a field larger than the
/// area stands in its middle. Throws std::invalid_argument for a size that is not above 0.
std::vector<FilmField> track(const Slide& slide, FilmArea area, double width, double height);

} // namespace cistern::lab
