#pragma once
#include "drawing/film/cell.h"
#include "drawing/film/density.h"

#include <cstdint>

namespace cistern::drawing::film {

/// Adds a cell's dyes to a density. One function a family of cells; paint() knows which.
void paint(const Cell& cell, const Light& light, Density& to);
void paintRed(const Cell& cell, const Light& light, Density& to);      // red_paint.cpp
void paintWhite(const Cell& cell, const Light& light, Density& to);    // white_paint.cpp
void paintSmudge(const Cell& cell, const Light& light, Density& to);   // smudge.cpp
void paintPlatelet(const Cell& cell, const Light& light, Density& to); // platelet.cpp, clumps too
void paintPrecipitate(const Cell& cell, const Light& light, Density& to);
/// Dried plasma between the cells.
void paintGround(const Slide& slide, const Light& light, Density& to);

/// What follows from a white cell's shape without a pixel: told to the learner, and tested.
struct Shaped {
    int lobes = 1;
    float neck = 1;          ///< narrowest over widest width of the nucleus
    std::uint16_t marks = 0; ///< the cell's, with what the shape adds: vacuoles, Doehle bodies
};
Shaped shaped(const Cell& cell);

} // namespace cistern::drawing::film
