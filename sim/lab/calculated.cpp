#include "lab/calculated.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr double twoSided95 = 1.96;

// As laboratories do it (common practice): an impedance counter counts red cells, sizes them and
// measures hemoglobin; the rest is arithmetic. 10*12/L times fL is 10^-3 of the whole.
const std::array recipes{
    Recipe{Analyte::globulin,
           "protein less albumin",
           false,
           1,
           {{Analyte::protein, 1}, {Analyte::albumin, -1}}},
    Recipe{Analyte::anionGap,
           "sodium and potassium less chloride and total CO2",
           false,
           1,
           {{Analyte::Na, 1}, {Analyte::K, 1}, {Analyte::Cl, -1}, {Analyte::tCO2, -1}}},
    Recipe{Analyte::Hct,
           "red cells times their mean volume",
           true,
           1e-3,
           {{Analyte::RBC, 1}, {Analyte::MCV, 1}}},
    Recipe{
        Analyte::MCH, "hemoglobin over red cells", true, 1, {{Analyte::Hb, 1}, {Analyte::RBC, -1}}},
    Recipe{Analyte::MCHC,
           "hemoglobin over hematocrit",
           true,
           1e3,
           {{Analyte::Hb, 1}, {Analyte::RBC, -1}, {Analyte::MCV, -1}}},
};

} // namespace

const Recipe* recipe(Analyte analyte) {
    const auto found = std::find_if(recipes.begin(), recipes.end(),
                                    [&](const Recipe& one) { return one.analyte == analyte; });
    return found == recipes.end() ? nullptr : &*found;
}

Calculation calculate(const Recipe& recipe, const std::vector<Result>& parts) {
    double value = recipe.product ? recipe.times : 0;
    double variance = 0; // of a product: as a share of its square
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const int sign = recipe.parts[i].sign;
        const double part = parts[i].value, deviation = parts[i].halfWidth / twoSided95;
        if (recipe.product) {
            value *= sign > 0 ? part : 1 / part;
            variance += deviation / part * (deviation / part);
        } else {
            value += sign * part;
            variance += deviation * deviation;
        }
    }
    return {value, std::sqrt(variance) * (recipe.product ? value : 1)};
}

} // namespace cistern::lab
