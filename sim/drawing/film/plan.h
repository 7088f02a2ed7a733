#pragma once
#include "drawing/film/cell.h"

#include <vector>

namespace cistern::drawing::film {

/// Side of the squares in which a film is planned [um]. A cell's place hangs on nothing further off
/// than this, so a patch planned with its eight neighbors is the same whoever asks.
inline constexpr double patchSide = 120;

/// Patches from the first to before the end, in both directions.
struct Patches {
    int fromX = 0, fromY = 0, endX = 1, endY = 1;
};

/// All cells that belong to these patches. The same cells whichever region is asked for, on any
/// thread; nothing lies beyond the film. The slide must be valid.
std::vector<Cell> plan(const Slide& slide, const Patches& patches);
/// The same patch by patch, rows first.
std::vector<std::vector<Cell>> planEach(const Slide& slide, const Patches& patches);

} // namespace cistern::drawing::film
