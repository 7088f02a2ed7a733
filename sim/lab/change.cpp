#include "lab/change.h"

#include <cmath>

namespace cistern::lab {

namespace {

constexpr double twoSided95 = 1.96;      // quantile of the normal distribution
constexpr double symmetricUpTo = 0.15;   // combined coefficient of variation
const double twoResults = std::sqrt(2.); // both of them vary

double deviation(const Result& result) {
    return result.halfWidth / twoSided95;
}

/// Beyond chance where a value of 0 allows no ratio: the difference against its own spread.
bool differs(const Result& previous, const Result& now, double within) {
    const double wobble = within * std::hypot(previous.value, now.value);
    const double spread = std::hypot(deviation(previous), deviation(now), wobble);
    return std::abs(now.value - previous.value) > twoSided95 * spread;
}

} // namespace

Change referenceChange(double analytical, double within) {
    const double both = std::hypot(analytical, within);
    if (both <= symmetricUpTo) {
        const double change = twoResults * twoSided95 * both;
        return {change, -change};
    }
    const double s = std::sqrt(std::log1p(both * both));
    return {std::expm1(twoSided95 * twoResults * s), std::expm1(-twoSided95 * twoResults * s)};
}

bool moved(const Result& previous, const Result& now, double within) {
    const bool rises = now.value > previous.value;
    if (rises && (now.bound == Bound::below || previous.bound == Bound::above)) return false;
    if (!rises && (now.bound == Bound::above || previous.bound == Bound::below)) return false;
    if (!(previous.value > 0) || !(now.value > 0)) return differs(previous, now, within);

    const double analytical =
        std::hypot(deviation(previous) / previous.value, deviation(now) / now.value) / twoResults;
    const Change allowed = referenceChange(analytical, within);
    const double change = now.value / previous.value - 1;
    return change > allowed.up || change < allowed.down;
}

} // namespace cistern::lab
