#pragma once
#include "lab/report.h"

#include <vector>

namespace cistern::lab {

/// How an analyte that is not measured follows from others of the same specimen: as a sum with
/// signs, or as a product with powers. Amounts in the model's units.
struct Recipe {
    struct Part {
        body::Analyte analyte;
        int sign; ///< +1 added or multiplied, -1 taken off or divided by
    };
    body::Analyte analyte;
    std::string_view words; ///< "protein less albumin"
    bool product = false;
    double times = 1; ///< factor between the units of a product
    std::vector<Part> parts;
};

/// The one way in which an analyte is calculated; null for those that can only be measured.
const Recipe* recipe(body::Analyte analyte);

/// What results give by a recipe, and the standard deviation that their half-widths leave it, all
/// errors being independent. `parts` in the recipe's order, each above zero for a product.
struct Calculation {
    double value = 0, deviation = 0;
};
Calculation calculate(const Recipe& recipe, const std::vector<Result>& parts);

} // namespace cistern::lab
