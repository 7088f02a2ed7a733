#include "lab/counter/chamber.h"

#include <cmath>
#include <stdexcept>

namespace cistern::lab {

double perCell(const Chamber& chamber) {
    constexpr double depth = 0.1;          // [mm]; a mm3 is a uL
    constexpr double perMicroliter = 1e-3; // [10*9/L]
    if (!(chamber.area > 0 && chamber.dilution >= 1))
        throw std::invalid_argument("a chamber count needs an area and a dilution");
    return chamber.dilution / (chamber.area * depth) * perMicroliter;
}

double chamberCount(const Chamber& chamber, double firstSide, double secondSide) {
    return (firstSide + secondSide) / 2 * perCell(chamber);
}

double countVariation(double cells) {
    if (!(cells > 0)) throw std::invalid_argument("no cells, no variation");
    return 1 / std::sqrt(cells);
}

bool sidesAgree(double first, double second) {
    return std::abs(first - second) <= 2 * std::sqrt(first + second);
}

} // namespace cistern::lab
