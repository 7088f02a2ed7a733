#pragma once
#include "base/chance.h"

#include <vector>

namespace cistern::lab {

/// Two reference limits.
struct Limits {
    double low = 0, high = 0;
};

/// A reference limit, and between which values it lies with 90 % confidence.
struct Limit {
    double value = 0, from = 0, to = 0;
};
struct KnownLimits {
    Limit low, high;
};

/// Limits that a few odd values cannot pull away, and what they come from.
struct Robust {
    double center = 0; ///< biweight mean, c = 3.7
    double spread = 0; ///< biweight deviation of the values, c = 205.6
    double doubt = 0;  ///< deviation of the center, c = 3.7
    Limits limits{};   ///< center -+ t (spread^2 + doubt^2)^0.5
};

/// The robust method for values that lie evenly about their middle. Throws std::invalid_argument
/// for fewer than two values, and where more than half of them are the same. Sources: Horn, Pesce
/// and Copeland 1998, Clin Chem 44:622; EP28-A3c appendix B (from memory).
Robust robust(const std::vector<double>& values);

/// The same with the 90 % confidence of both limits: the middle 90 % of the limits of herds drawn
/// anew from these values. `chance` is a stream for Purpose::bootstrap.
KnownLimits robustLimits(const std::vector<double>& values, base::Chance chance);

/// Mean -+ 1.96 standard deviations, for values that are normally distributed. Standard error of a
/// limit: s (1/n + z^2 / (2 (n - 1)))^0.5. Throws std::invalid_argument for fewer than two values.
/// Source: EP28-A3c (from memory).
KnownLimits parametricLimits(const std::vector<double>& values);

} // namespace cistern::lab
