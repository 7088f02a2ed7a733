#pragma once
#include "drawing/film/cell.h"

/// What one cell is by chance, wherever it lies: size, dye, marks. All of it follows from the
/// cell's seed and the slide.
namespace cistern::drawing::film {

/// Widest radius of a red cell or a platelet, of a clump [um]. The plan's seams hang on the first.
inline constexpr float mostRed = 5, mostClump = 25;

/// A red cell of a form the slide's shares give by chance; nucleated ones only if asked for.
void formRed(Cell& cell, const Slide& slide, bool nucleated = false);
void formWhite(Cell& cell, const Slide& slide, FilmCell kind);
void formPlatelet(Cell& cell, const Slide& slide);
void formClump(Cell& cell, const Slide& slide);
void formPrecipitate(Cell& cell);

/// What the film's thickness there [um] makes of it: flattened, or drawn up and heaped.
void settleIn(Cell& cell, const Slide& slide, double thickness);

} // namespace cistern::drawing::film
