#pragma once

namespace cistern::lab {

/// Cells in a counting chamber of 0.1 mm depth: what was counted, over which area [mm2], in blood
/// thinned so many times. Improved Neubauer: a corner square 1 mm2, all nine 9 mm2, one of the 25
/// groups in the center 0.04 mm2.
struct Chamber {
    double area = 4;      ///< [mm2], > 0
    double dilution = 20; ///< volumes in which one of blood is thinned, >= 1
};

/// Cells of blood per cell counted [10*9/L]. Throws std::invalid_argument for no area or dilution.
double perCell(const Chamber& chamber);
/// Cells of blood [10*9/L] from the mean of both sides.
double chamberCount(const Chamber& chamber, double firstSide, double secondSide);
/// The chance of counting alone, as coefficient of variation: one over the root of all cells.
double countVariation(double cells);
/// Whether two sides differ no more than chance lets 19 in 20: by twice the root of their sum.
bool sidesAgree(double first, double second);

} // namespace cistern::lab
