#include "lab/interval/ranks.h"

#include "base/statistics.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double tail = 0.05;                // on either side of 90 %
constexpr std::size_t mostAnimals = 1000000; // binomials beyond it were never checked

/// P(at most k of n animals lie below the lower limit).
double below(std::size_t k, std::size_t n) {
    return base::binomialAtMost(static_cast<int>(k), static_cast<int>(n), lowerShare);
}

} // namespace

double percentile(const std::vector<double>& sorted, double p) {
    if (sorted.empty()) throw std::invalid_argument("no values have no percentile");
    if (!(p >= 0 && p <= 1)) throw std::invalid_argument("a percentile must lie in 0..1");
    const auto n = static_cast<double>(sorted.size());
    const double rank = std::clamp(p * (n + 1), 1.0, n);
    const auto at = static_cast<std::size_t>(rank) - 1;
    const double low = sorted[at], high = sorted[std::min(at + 1, sorted.size() - 1)];
    return low + (rank - std::floor(rank)) * (high - low);
}

Ranks lowerLimitRanks(std::size_t n) {
    if (n < fewestForRanks)
        throw std::invalid_argument("ranks give a limit's confidence from 119 animals on");
    if (n > mostAnimals) throw std::invalid_argument("ranks are found for a million animals");
    Ranks ranks{1, 1};
    while (below(ranks.from, n) <= tail) ++ranks.from; // the greatest: P(at most from - 1) <= 5 %
    while (below(ranks.to - 1, n) < 1 - tail) ++ranks.to; // the least: P(at least to) <= 5 %
    return ranks;
}

Ranks upperLimitRanks(std::size_t n) {
    const Ranks lower = lowerLimitRanks(n);
    return {n + 1 - lower.to, n + 1 - lower.from};
}

double coverage(std::size_t n, Ranks ranks) {
    return below(ranks.to - 1, n) - below(ranks.from - 1, n);
}

} // namespace cistern::lab
