// Numbers of a weighing with no more digits than the ensemble allows.
#include "base/text.h"
#include "base/units.h"
#include "report/weigh.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace cistern::report {

namespace {

constexpr double percent = 100;
constexpr double finest = 0.1, coarsest = 10; // last digit of a share or of work [%]

// A point of a sample of n is off by about spread * factor / sqrt(n): of a normal distribution the
// 5 % point by sqrt(0.05 * 0.95) / 0.1031 deviations, the widest of the three shown.
constexpr double pointFactor = 2.11;
constexpr double deviationsBetween = 2 * 1.645; // from the 5 % to the 95 % point

double tenPower(double value, double least, double most) {
    if (!(value > 0)) return least;
    constexpr double slack = 1e-9; // a tenth is a tenth
    return std::clamp(std::pow(10, std::floor(std::log10(value) + slack)), least, most);
}

double shareStep(double error, double effective) {
    return tenPower(percent * std::max(error, effective > 0 ? 1 / effective : 1), finest, coarsest);
}

/// Standard error of the points of a distribution that reaches from `low` to `high`.
double pointError(double low, double high, double effective) {
    return pointFactor * (high - low) / deviationsBetween / std::sqrt(std::max(effective, 1.0));
}

std::string shownFold(double fold, double relativeError) {
    constexpr double oneDigitAbove = 0.1; // relative error
    const int digits = relativeError > oneDigitAbove ? 1 : 2;
    return base::significant(fold, digits);
}

} // namespace

std::string shownShare(double share, double error, double effective) {
    const double step = shareStep(error, effective);
    const double shown = percent * share;
    if (shown < step / 2) return "< " + base::rounded(step, step);
    if (shown > percent - step / 2) return "> " + base::rounded(percent - step, step);
    return base::rounded(shown, step);
}

std::string shownShareError(double error, double effective) {
    const double step = shareStep(error, effective);
    return base::rounded(std::max(percent * error, step), step);
}

ShownPoints shownWork(const reader::Points& work, double effective) {
    const double step =
        tenPower(percent * pointError(work.p05, work.p95, effective), finest, coarsest);
    const auto put = [&](double share) { return base::rounded(percent * share, step); };
    return {put(work.p05), put(work.median), put(work.p95)};
}

ShownPoints shownLeak(const reader::Points& leak, double effective) {
    constexpr double driest = 1e-3; // [fold], keeps the logarithm finite
    const double error = pointError(std::log(std::max(leak.p05, driest)),
                                    std::log(std::max(leak.p95, driest)), effective);
    const auto put = [&](double fold) { return shownFold(fold, error); };
    return {put(leak.p05), put(leak.median), put(leak.p95)};
}

std::string shownBits(double bits, double error) {
    constexpr double finestBits = 0.01, coarsestBits = 1;
    const double step = tenPower(error, finestBits, coarsestBits);
    if (bits < step / 2) return "< " + base::rounded(step, step);
    return base::rounded(bits, step);
}

int towards(const reader::Moved& moved, const std::vector<double>& prior) {
    int best = -1;
    double most = 0;
    for (std::size_t i = 0; i < moved.weights.size() && i < prior.size(); ++i) {
        if (!(moved.weights[i] > 0 && prior[i] > 0)) continue;
        const double part = moved.weights[i] * std::log2(moved.weights[i] / prior[i]);
        if (part > most) {
            most = part;
            best = static_cast<int>(i);
        }
    }
    return best;
}

std::string shownMoved(const reader::Moved& moved, const reader::Question& question,
                       const lab::Bench& bench, lab::Units units) {
    const auto analyte = body::analyteNamed(moved.what);
    if (moved.finding || !analyte || moved.sample >= question.samples.size()) return moved.what;
    const lab::Result* result = question.samples[moved.sample].report.find(*analyte);
    if (!result) return moved.what;
    std::string name = moved.what;
    std::replace(name.begin(), name.end(), '_', ' ');
    const std::string unit = base::shown(bench.method(*analyte).writing(units).unit);
    return name + " " + lab::printed(*result, bench, units) +
           (unit == "1" || unit.empty() ? "" : " " + unit);
}

std::vector<std::size_t> greatestFirst(const std::vector<double>& values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return values[a] > values[b]; });
    return order;
}

} // namespace cistern::report
