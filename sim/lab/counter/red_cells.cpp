#include "lab/counter/red_cells.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

double spunVolume(const Counter& counter, double packed, base::Chance& chance) {
    if (!(packed >= 0 && packed <= 1))
        throw std::invalid_argument("packed cells are a share of the tube");
    const double filled = packed * (1 + counter.packingSpread * chance.normal());
    const double set = filled + counter.scaleSpread * chance.normal();
    const double read = std::round(set / counter.scaleLine) * counter.scaleLine;
    return std::clamp(read, 0., 1.);
}

RedIndices redIndices(double packed, double red, double hemoglobin) {
    if (!(packed > 0 && red > 0 && hemoglobin > 0))
        throw std::invalid_argument("indices of red cells need red cells");
    constexpr double femtoliters = 1e3; // in a share over 10*12/L
    return {femtoliters * packed / red, hemoglobin / red, hemoglobin / packed};
}

double reticulocyteNumber(double share, double red) {
    return 1000 * share * red;
}

double correctedReticulocytes(double share, double packed, body::Kind kind) {
    const double usual = kind == body::Kind::dog ? 0.45 : 0.37;
    return share * packed / usual;
}

double reticulocyteDays(double packed) {
    return packed > 0.35 ? 1.0 : packed > 0.25 ? 1.5 : packed > 0.15 ? 2.0 : 2.5;
}

double productionIndex(double share, double packed, body::Kind kind) {
    return 100 * correctedReticulocytes(share, packed, kind) / reticulocyteDays(packed);
}

} // namespace cistern::lab
