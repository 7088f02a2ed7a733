#include "lab/interval/limits.h"

#include "lab/interval/ranks.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double suspectFence = 1.5, farFence = 3; // interquartile ranges
constexpr double aloneFrom = 1.0 / 3;              // of the range
constexpr double widest =
    0.2; // of the interval, in which a limit lies: Friedrichs 2012 (from memory)

/// Third moment in units of the standard deviation; 0 where nothing varies.
double skewness(const std::vector<double>& values) {
    const auto n = static_cast<double>(values.size());
    double sum = 0, squares = 0, cubes = 0;
    for (const double value : values) sum += value;
    for (const double value : values) {
        const double d = value - sum / n;
        squares += d * d;
        cubes += d * d * d;
    }
    return squares > 0 ? std::sqrt(n) * cubes / std::pow(squares, 1.5) : 0;
}

std::vector<double> logarithms(std::vector<double> values) {
    for (double& value : values) value = std::log(value);
    return values;
}

/// More skewed than a sample of a normal distribution is in 19 of 20 cases, and less so in the
/// logarithm.
bool evenerInLogarithms(const std::vector<double>& sorted) {
    if (sorted.size() < 3 || !(sorted.front() > 0)) return false;
    const auto n = static_cast<double>(sorted.size());
    const double error = std::sqrt(6 * n * (n - 1) / ((n - 2) * (n + 1) * (n + 3)));
    const double skew = std::abs(skewness(sorted));
    return skew > 1.96 * error && std::abs(skewness(logarithms(sorted))) < skew;
}

KnownLimits rankLimits(const std::vector<double>& sorted) {
    const auto limit = [&](double share, Ranks ranks) {
        return Limit{percentile(sorted, share), sorted[ranks.from - 1], sorted[ranks.to - 1]};
    };
    return {limit(lowerShare, lowerLimitRanks(sorted.size())),
            limit(upperShare, upperLimitRanks(sorted.size()))};
}

KnownLimits fromLogarithms(const KnownLimits& found) {
    const auto back = [](const Limit& limit) {
        return Limit{std::exp(limit.value), std::exp(limit.from), std::exp(limit.to)};
    };
    return {back(found.low), back(found.high)};
}

bool enoughFor(LimitMethod method, std::size_t animals) {
    return animals >= (method == LimitMethod::ranks ? animalsForRanks : animalsForCaution);
}

void addCautions(Rebuilt& out) {
    const auto say = [&](std::string words) { out.cautions.push_back(std::move(words)); };
    if (out.method == LimitMethod::none) {
        say("too few animals to say anything");
        return;
    }
    if (out.method == LimitMethod::listing && out.animals < animalsForCaution)
        say("too few animals for limits");
    if (out.limits && out.animals < animalsForRobust)
        say("limits of so few animals are rough: look at each value");
    if (out.outliers.far > 0)
        say(std::to_string(out.outliers.far) + " of the values " +
            (out.outliers.far == 1 ? "lies" : "lie") + " far out");
    if (!out.outliers.alone.empty())
        say(out.outliers.alone.size() == 1 ? "the outermost value stands alone"
                                           : "the outermost values stand alone");
    if (!out.limits) return;
    if (out.limits->low.value < 0) say("the lower limit came out below zero, where nothing lies");
    const double width = out.limits->high.value - out.limits->low.value;
    for (const auto& [words, limit] :
         {std::pair{"lower", out.limits->low}, std::pair{"upper", out.limits->high}})
        if (limit.to - limit.from > widest * width)
            say(std::string("the ") + words +
                " limit is known to no better than a fifth of the interval");
}

/// Those of the robust method, unless more than half of the values are the same.
std::optional<KnownLimits> evenLimits(LimitMethod method, const std::vector<double>& values,
                                      const base::Chance& chance) {
    if (method == LimitMethod::parametric) return parametricLimits(values);
    const auto half = values.size() / 2;
    for (std::size_t i = 0; i + half < values.size(); ++i) // sorted: equal ones stand together
        if (values[i] == values[i + half]) return std::nullopt;
    return robustLimits(values, chance);
}

} // namespace

std::string_view name(LimitMethod method) {
    switch (method) {
    case LimitMethod::ranks:
        return "ranks";
    case LimitMethod::robust:
        return "robust";
    case LimitMethod::parametric:
        return "parametric";
    case LimitMethod::listing:
        return "listing";
    case LimitMethod::none:
        return "none";
    }
    return "";
}

LimitMethod advised(std::size_t animals) {
    return animals >= animalsForRanks     ? LimitMethod::ranks
           : animals >= animalsForCaution ? LimitMethod::robust
           : animals >= animalsForListing ? LimitMethod::listing
                                          : LimitMethod::none;
}

Outliers outliers(const std::vector<double>& sorted) {
    if (!std::is_sorted(sorted.begin(), sorted.end()))
        throw std::invalid_argument("outliers are looked for in sorted values");
    Outliers out;
    if (sorted.size() < 3) return out;
    const double first = percentile(sorted, 0.25), third = percentile(sorted, 0.75);
    const auto beyond = [&](double fence) {
        const double reach = fence * (third - first);
        return static_cast<std::size_t>(
            std::count_if(sorted.begin(), sorted.end(), [&](double value) {
                return value < first - reach || value > third + reach;
            }));
    };
    out.suspect = beyond(suspectFence);
    out.far = beyond(farFence);
    const double range = sorted.back() - sorted.front();
    if (sorted[1] - sorted.front() > aloneFrom * range) out.alone.push_back(sorted.front());
    if (sorted.back() - sorted[sorted.size() - 2] > aloneFrom * range)
        out.alone.push_back(sorted.back());
    return out;
}

Rebuilt rebuild(std::vector<double> values, base::Chance chance,
                std::optional<LimitMethod> wished) {
    for (const double value : values)
        if (!(value >= 0) || !std::isfinite(value))
            throw std::invalid_argument("a value is not an amount that could be measured");
    std::sort(values.begin(), values.end());
    Rebuilt out;
    out.animals = values.size();
    out.method = wished && enoughFor(*wished, out.animals) ? *wished : advised(out.animals);
    if (!values.empty()) {
        out.least = values.front();
        out.median = percentile(values, 0.5);
        out.most = values.back();
    }
    const bool even = !evenerInLogarithms(values);
    const std::vector<double> scaled = even ? values : logarithms(values);
    out.outliers = outliers(scaled);
    if (!even)
        for (double& value : out.outliers.alone) value = std::exp(value);
    if (out.method == LimitMethod::ranks) out.limits = rankLimits(values);
    if (out.method == LimitMethod::robust || out.method == LimitMethod::parametric) {
        out.logarithms = !even;
        out.limits = evenLimits(out.method, scaled, chance);
        if (out.limits && !even) out.limits = fromLogarithms(*out.limits);
        if (!out.limits) {
            out.method = LimitMethod::listing;
            out.logarithms = false;
            out.cautions.push_back("most values are the same: they have no robust limits");
        }
    }
    addCautions(out);
    return out;
}

} // namespace cistern::lab
