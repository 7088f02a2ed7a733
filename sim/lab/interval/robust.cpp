#include "lab/interval/robust.h"

#include "base/statistics.h"
#include "lab/interval/ranks.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double near = 3.7, far = 205.6; // biweight: beyond so many deviations nothing counts
constexpr double normalQuartile = 0.6745; // median absolute deviation of a standard normal
constexpr double settled = 1e-9;          // deviations that the center may still move by
constexpr int mostRounds = 200;           // it settles in some ten
constexpr std::size_t herdsDrawn = 1000;  // the 5 % ends rest on 50 of them each
constexpr double confidence = 0.9;

double median(std::vector<double>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) return *middle;
    return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

double sizeOf(const std::vector<double>& values) {
    return static_cast<double>(values.size());
}

/// Weighted mean about its own place, from the median on.
double biweightCenter(const std::vector<double>& values, double start, double deviation) {
    double center = start;
    for (int round = 0; round < mostRounds; ++round) {
        double sum = 0, weights = 0;
        for (const double value : values) {
            const double u = (value - center) / (near * deviation);
            if (std::abs(u) >= 1) continue;
            const double weight = (1 - u * u) * (1 - u * u);
            sum += weight * value;
            weights += weight;
        }
        const double next = sum / weights;
        if (std::abs(next - center) < settled * deviation) return next;
        center = next;
    }
    return center;
}

/// Biweight deviation about a center, of values scaled by c deviations: that of the values, or
/// without n that of their center.
double biweightSpread(const std::vector<double>& values, double center, double scale, double n) {
    double squares = 0, slopes = 0;
    for (const double value : values) {
        const double u = (value - center) / scale, left = 1 - u * u;
        if (left <= 0) continue;
        squares += u * u * std::pow(left, 4);
        slopes += left * (1 - 5 * u * u);
    }
    return scale * std::sqrt(n * squares / (slopes * std::max(1.0, slopes - 1)));
}

std::optional<Robust> estimate(const std::vector<double>& values, double quantile) {
    std::vector<double> work = values;
    const double middle = median(work);
    for (double& value : work) value = std::abs(value - middle);
    const double deviation = median(work) / normalQuartile;
    if (!(deviation > 0)) return std::nullopt;
    Robust out;
    out.center = biweightCenter(values, middle, deviation);
    out.spread = biweightSpread(values, middle, far * deviation, sizeOf(values));
    const double inner = biweightSpread(values, middle, near * deviation, sizeOf(values));
    out.doubt = biweightSpread(values, out.center, near * inner, 1);
    const double reach = quantile * std::hypot(out.spread, out.doubt);
    out.limits = {out.center - reach, out.center + reach};
    return out;
}

double studentFor(const std::vector<double>& values) {
    if (values.size() < 2) throw std::invalid_argument("limits need two values at least");
    return base::studentQuantile(upperShare, static_cast<int>(values.size()) - 1);
}

Limit known(double value, std::vector<double>& drawn) {
    std::sort(drawn.begin(), drawn.end());
    return {value, percentile(drawn, (1 - confidence) / 2),
            percentile(drawn, (1 + confidence) / 2)};
}

} // namespace

Robust robust(const std::vector<double>& values) {
    const auto found = estimate(values, studentFor(values));
    if (!found) throw std::invalid_argument("most values are the same: they have no robust spread");
    return *found;
}

KnownLimits robustLimits(const std::vector<double>& values, base::Chance chance) {
    const Limits limits = robust(values).limits;
    const double quantile = studentFor(values);
    std::vector<double> herd(values.size()), low, high;
    while (low.size() < herdsDrawn) {
        for (double& value : herd)
            value = values[static_cast<std::size_t>(chance.uniform() * sizeOf(values))];
        const auto found = estimate(herd, quantile); // none of a herd that drew one value too often
        if (!found) continue;
        low.push_back(found->limits.low);
        high.push_back(found->limits.high);
    }
    return {known(limits.low, low), known(limits.high, high)};
}

KnownLimits parametricLimits(const std::vector<double>& values) {
    if (values.size() < 2) throw std::invalid_argument("limits need two values at least");
    const double n = sizeOf(values);
    double sum = 0, squares = 0;
    for (const double value : values) sum += value;
    const double mean = sum / n;
    for (const double value : values) squares += (value - mean) * (value - mean);
    const double s = std::sqrt(squares / (n - 1));
    const double z = base::normalQuantile(upperShare);
    const double error = s * std::sqrt(1 / n + z * z / (2 * (n - 1)));
    const double doubt = base::normalQuantile((1 + confidence) / 2) * error;
    const auto limit = [&](double value) { return Limit{value, value - doubt, value + doubt}; };
    return {limit(mean - z * s), limit(mean + z * s)};
}

} // namespace cistern::lab
