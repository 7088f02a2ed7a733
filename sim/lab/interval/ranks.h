#pragma once
#include <cstddef>
#include <vector>

namespace cistern::lab {

/// Shares of healthy animals that lie below the lower and below the upper reference limit.
inline constexpr double lowerShare = 0.025, upperShare = 0.975;

/// Below this number of animals the least value says nothing about the lower limit with 90 %
/// confidence: 0.975^n > 0.05. Arithmetic.
inline constexpr std::size_t fewestForRanks = 119;

/// The value at rank p (n + 1) of sorted values, straight between two of them; the first or the
/// last where the rank lies beyond. p in 0..1. Throws std::invalid_argument for no values or
/// another p. Source: EP28-A3c (from memory).
double percentile(const std::vector<double>& sorted, double p);

/// Ranks of two values, counted from 1, with a limit between them.
struct Ranks {
    std::size_t from = 0, to = 0;
};

/// Between which of n sorted values a limit lies with 90 % confidence: outside of each at most 5 %
/// by the binomial distribution. Throws std::invalid_argument below fewestForRanks and above a
/// million. Source: EP28-A3c (from memory); exact.
Ranks lowerLimitRanks(std::size_t n);
Ranks upperLimitRanks(std::size_t n);

/// How often the true lower limit lies between two such ranks of n animals, 0..1. Exact.
double coverage(std::size_t n, Ranks ranks);

} // namespace cistern::lab
