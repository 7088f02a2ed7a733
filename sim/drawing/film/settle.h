#pragma once
#include "drawing/film/draft.h"
#include "drawing/film/forms.h"

#include <array>
#include <vector>

/// Cells make room for one another.
namespace cistern::drawing::film {

/// Beyond this two cells do not touch [um].
inline constexpr double touching = 2 * static_cast<double>(mostRed);

/// How far a cell moves at most in each round [um].
inline constexpr std::array<double, 8> moves{2.8, 1.9, 1.4, 1.1, 0.8, 0.6, 0.5, 0.4};

/// Where the seams cannot show. Of a block of patches the cells of the next patches are missing;
/// those lie at most the overhang within the block. In a round what is missing, or wrong for it,
/// spoils cells up to `touching` off, and a cell then moves: after all rounds spoiled cells lie
/// overhang + 8 touching + moves deep. Dents look as far once more, and a cell of the patch within
/// may have moved towards them all the while.
constexpr double seam() {
    double moved = 0;
    for (const double move : moves) moved += move;
    return overhang + touching * (static_cast<double>(moves.size()) + 1) + 2 * moved;
}
static_assert(seam() < patchSide - .5, "a cell may hang on what lies beyond the next patch");

/// Pushes cells apart, draws some together, and dents red ones. `cells` in the order of their
/// patches, rows first; those of the outermost patches come out wrong, for they lack neighbors.
void settle(std::vector<Cell>& cells, const Slide& slide);

} // namespace cistern::drawing::film
