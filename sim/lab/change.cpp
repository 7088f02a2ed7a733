#include "lab/change.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double twoSided95 = 1.96;      // quantile of the normal distribution
constexpr double symmetricUpTo = 0.15;   // combined coefficient of variation
const double twoResults = std::sqrt(2.); // both of them vary

double deviation(const Result& result) {
    return result.halfWidth / twoSided95;
}

} // namespace

double criticalDifference(double analytical, double within, double z) {
    return twoResults * z * std::hypot(analytical, within);
}

Change referenceChange(double analytical, double within) {
    const double both = std::hypot(analytical, within);
    if (both <= symmetricUpTo) {
        const double change = criticalDifference(analytical, within, twoSided95);
        return {change, -change};
    }
    const double s = std::sqrt(std::log1p(both * both));
    return {std::expm1(twoSided95 * twoResults * s), std::expm1(-twoSided95 * twoResults * s)};
}

double individuality(double analytical, double within, double between) {
    return std::hypot(analytical, within) / between;
}

int samplesForSetPoint(double analytical, double within, double share) {
    if (!(share > 0)) throw std::invalid_argument("a set point is known to a share above 0");
    const double samples = std::pow(twoSided95 * std::hypot(analytical, within) / share, 2);
    constexpr double slack = 1e-9; // a whole number of samples stays one
    return std::max(1, static_cast<int>(std::ceil(samples - slack)));
}

double changeAllowed(const Result& previous, const Result& now, double within) {
    const double zero = origin(now.analyte);
    const double before = previous.value - zero, after = now.value - zero;
    if (!(before > 0) || !(after > 0)) {
        const double analyzer = std::hypot(deviation(previous), deviation(now));
        return twoSided95 * std::hypot(analyzer, within * std::hypot(before, after));
    }
    const double analytical =
        std::hypot(deviation(previous) / before, deviation(now) / after) / twoResults;
    const Change allowed = referenceChange(analytical, within);
    return before * (after > before ? allowed.up : -allowed.down);
}

bool moved(const Result& previous, const Result& now, double within) {
    const bool rises = now.value > previous.value;
    if (rises && (now.bound == Bound::below || previous.bound == Bound::above)) return false;
    if (!rises && (now.bound == Bound::above || previous.bound == Bound::below)) return false;
    return std::abs(now.value - previous.value) > changeAllowed(previous, now, within);
}

} // namespace cistern::lab
