#include "base/statistics.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace cistern::base {

namespace {

/// The continued fraction of the incomplete beta function, by Lentz's method as modified by
/// Thompson and Barnett 1986; converges fast for x < (a + 1) / (a + b + 2).
double betaFraction(double a, double b, double x) {
    constexpr int most = 10000; // terms; about sqrt(max(a, b)) are needed
    constexpr double enough = 1e-15, tiny = 1e-300;
    const auto held = [](double y) { return std::abs(y) < tiny ? tiny : y; };
    double c = 1, d = 1 / held(1 - (a + b) * x / (a + 1)), value = d;
    const auto take = [&](double term) {
        d = 1 / held(1 + term * d);
        c = held(1 + term / c);
        value *= c * d;
    };
    for (int m = 1; m <= most; ++m) {
        const double twice = 2. * m;
        take(m * (b - m) * x / ((a + twice - 1) * (a + twice)));
        const double before = value;
        take(-(a + m) * (a + b + m) * x / ((a + twice) * (a + twice + 1)));
        if (std::abs(value / before - 1) < enough) return value;
    }
    throw std::domain_error("the incomplete beta function did not settle");
}

/// log Gamma(z), z > 0, by Stirling's series after a shift: unlike the library's it leaves no mark
/// in a global sign, so that threads do not meet.
double logGamma(double z) {
    constexpr double large = 16; // from here on the series below is good to 1e-16
    constexpr double logRootTwoPi = 0.91893853320467274178;
    double shift = 0;
    for (; z < large; ++z) shift += std::log(z);
    const double r = 1 / (z * z);
    const double series = (1. / 12 - r * (1. / 360 - r * (1. / 1260 - r * (1. / 1680)))) / z;
    return (z - 0.5) * std::log(z) - z + logRootTwoPi + series - shift;
}

/// Regularized incomplete beta function I_x(a, b), a, b > 0. `rest` is 1 - x, given so that it may
/// be close to 0.
double incompleteBeta(double a, double b, double x, double rest) {
    if (x <= 0) return 0;
    if (rest <= 0) return 1;
    const double front = std::exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * std::log(x) +
                                  b * std::log(rest));
    return x < (a + 1) / (a + b + 2) ? front * betaFraction(a, b, x) / a
                                     : 1 - front * betaFraction(b, a, rest) / b;
}

/// Regularized incomplete gamma function Q(a, x) = 1 - P(a, x), a > 0, x >= 0: by the series of P
/// below a + 1, by the continued fraction of Q (Lentz) above. Abramowitz and Stegun 6.5.29, 6.5.31.
double incompleteGammaRest(double a, double x) {
    constexpr int most = 100000; // terms; some sqrt(a) are needed
    constexpr double enough = 1e-16, tiny = 1e-300;
    if (x <= 0) return 1;
    const double front = std::exp(a * std::log(x) - x - logGamma(a));
    if (x < a + 1) {
        double term = 1 / a, sum = term;
        for (int m = 1; m <= most && term > enough * sum; ++m) {
            term *= x / (a + m);
            sum += term;
        }
        return 1 - front * sum;
    }
    double b = x + 1 - a, c = 1 / tiny, d = 1 / b, value = d;
    for (int m = 1; m <= most; ++m) {
        const double numerator = -m * (m - a);
        b += 2;
        d = 1 / (numerator * d + b);
        c = b + numerator / c;
        value *= c * d;
        if (std::abs(c * d - 1) < 1e-15) return front * value;
    }
    throw std::domain_error("the incomplete gamma function did not settle");
}

/// log of the number of ways to take k of n.
double logWays(int n, int k) {
    return logGamma(n + 1.) - logGamma(k + 1.) - logGamma(n - k + 1.);
}

/// Where a rising function reaches `goal` between two points, to the last bit but a few.
template<typename Function>
double crossing(Function&& rising, double goal, double low, double high) {
    for (int halving = 0; halving < 200; ++halving) {
        const double middle = low + (high - low) / 2;
        if (middle == low || middle == high) break;
        (rising(middle) < goal ? low : high) = middle;
    }
    return low + (high - low) / 2;
}

/// P(T > t), t >= 0.
double studentTail(double t, int freedom) {
    const double square = t * t, v = freedom;
    return incompleteBeta(v / 2, 0.5, v / (v + square), square / (v + square)) / 2;
}

} // namespace

double binomialAtMost(int k, int n, double p) {
    if (!(n >= 0 && p >= 0 && p <= 1))
        throw std::domain_error("a binomial tail needs n >= 0 and a chance between 0 and 1");
    if (k < 0) return 0;
    if (k >= n) return 1;
    return incompleteBeta(n - k, k + 1., 1 - p, p);
}

std::pair<double, double> shareLimits(int k, int n, double confidence) {
    if (!(n > 0 && k >= 0 && k <= n && confidence > 0 && confidence < 1))
        throw std::domain_error("limits of a share need 0 <= k <= n, n > 0, confidence in (0, 1)");
    const double tail = (1 - confidence) / 2;
    const auto atLeast = [&](double p) { return 1 - binomialAtMost(k - 1, n, p); };
    const auto beyond = [&](double p) { return 1 - binomialAtMost(k, n, p); };
    return {k == 0 ? 0 : crossing(atLeast, tail, 0, 1),
            k == n ? 1 : crossing(beyond, 1 - tail, 0, 1)};
}

double binomialTwoSided(int k, int n, double p) {
    if (!(k >= 0 && k <= n)) throw std::domain_error("a count lies between 0 and n");
    const double below = binomialAtMost(k, n, p), above = binomialAtMost(n - k, n, 1 - p);
    return std::min(1., 2 * std::min(below, above));
}

std::pair<int, int> binomialRange(int n, double p, double confidence) {
    if (!(confidence > 0 && confidence < 1))
        throw std::domain_error("a range needs a confidence in (0, 1)");
    const double tail = (1 - confidence) / 2;
    int low = 0, high = n;
    while (low < n && binomialAtMost(low, n, p) <= tail) ++low;
    while (high > low && binomialAtMost(n - high, n, 1 - p) <= tail) --high;
    return {low, high};
}

double poissonAtMost(int k, double mean) {
    if (!(mean >= 0 && std::isfinite(mean)))
        throw std::domain_error("a Poisson tail needs a finite mean that is not negative");
    return k < 0 ? 0 : incompleteGammaRest(k + 1., mean);
}

std::pair<double, double> countLimits(int k, double confidence) {
    if (!(k >= 0 && confidence > 0 && confidence < 1))
        throw std::domain_error("limits of a count need k >= 0 and a confidence in (0, 1)");
    const double tail = (1 - confidence) / 2;
    const auto atLeast = [&](double mean) { return 1 - poissonAtMost(k - 1, mean); };
    const auto beyond = [&](double mean) { return -poissonAtMost(k, mean); };
    double high = k + 1.;
    while (-beyond(high) > tail) high *= 2;
    return {k == 0 ? 0 : crossing(atLeast, tail, 0, k), crossing(beyond, -tail, k, high)};
}

double fisherExact(int k1, int n1, int k2, int n2) {
    if (!(k1 >= 0 && k1 <= n1 && k2 >= 0 && k2 <= n2 && n1 > 0 && n2 > 0))
        throw std::domain_error("two shares need 0 <= k <= n and n > 0");
    constexpr double slack = 1e-7; // splits that are equally likely but for their last bits
    const int both = k1 + k2;
    const double all = logWays(n1 + n2, both);
    const auto chance = [&](int k) {
        return std::exp(logWays(n1, k) + logWays(n2, both - k) - all);
    };
    const double seen = chance(k1) * (1 + slack);
    double sum = 0;
    for (int k = std::max(0, both - n2); k <= std::min(n1, both); ++k)
        if (const double one = chance(k); one <= seen) sum += one;
    return std::min(1., sum);
}

double studentQuantile(double p, int freedom) {
    if (!(p > 0 && p < 1 && freedom >= 1))
        throw std::domain_error("a Student quantile needs p in (0, 1) and freedom >= 1");
    if (p == 0.5) return 0;
    const double tail = std::min(p, 1 - p);
    double high = 1;
    while (studentTail(high, freedom) > tail && high < std::numeric_limits<double>::max() / 4)
        high *= 2;
    const double t = crossing([&](double at) { return -studentTail(at, freedom); }, -tail, 0, high);
    return p < 0.5 ? -t : t;
}

std::vector<double> ranks(std::span<const double> values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    std::vector<double> out(values.size());
    for (std::size_t i = 0; i < order.size();) {
        std::size_t end = i;
        while (end < order.size() && values[order[end]] == values[order[i]]) ++end;
        const double shared = static_cast<double>(i + 1 + end) / 2; // of ranks i + 1 .. end
        for (; i < end; ++i) out[order[i]] = shared;
    }
    return out;
}

std::optional<double> rankCorrelation(std::span<const double> x, std::span<const double> y) {
    const auto finite = [](double value) { return std::isfinite(value); };
    if (x.size() != y.size() || !std::all_of(x.begin(), x.end(), finite) ||
        !std::all_of(y.begin(), y.end(), finite))
        throw std::domain_error("a rank correlation takes pairs of finite numbers");
    const std::vector<double> a = ranks(x), b = ranks(y);
    const double middle = static_cast<double>(x.size() + 1) / 2;
    double ab = 0, aa = 0, bb = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        ab += (a[i] - middle) * (b[i] - middle);
        aa += (a[i] - middle) * (a[i] - middle);
        bb += (b[i] - middle) * (b[i] - middle);
    }
    if (!(aa > 0 && bb > 0)) return std::nullopt;
    return std::clamp(ab / std::sqrt(aa * bb), -1.0, 1.0);
}

std::optional<std::pair<double, double>> rankCorrelationLimits(double r, std::size_t n) {
    if (!(std::abs(r) <= 1)) throw std::domain_error("a correlation lies between -1 and 1");
    constexpr std::size_t fewest = 4;
    constexpr double twoSided95 = 1.959963984540054; // normal quantile at 0.975
    if (n < fewest) return std::nullopt;
    if (std::abs(r) == 1) return std::pair{r, r};
    const double z = std::atanh(r);
    const double off = twoSided95 * std::sqrt((1 + r * r / 2) / static_cast<double>(n - 3));
    return std::pair{std::tanh(z - off), std::tanh(z + off)};
}

} // namespace cistern::base
