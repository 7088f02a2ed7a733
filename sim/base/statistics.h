#pragma once
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace cistern::base {

/// P(at most k of n), each with chance p: the binomial distribution function. 0 below k = 0, 1 from
/// k = n on. Throws std::domain_error unless n >= 0 and p lies in 0..1.
double binomialAtMost(int k, int n, double p);

/// Exact two-sided limits of a share of which k of n were seen (Clopper and Pearson 1934,
/// Biometrika 26:404): each tail holds at most (1 - confidence) / 2. Throws std::domain_error
/// unless 0 <= k <= n, n > 0 and the confidence lies in (0, 1).
std::pair<double, double> shareLimits(int k, int n, double confidence);

/// Chance that a count of n lies as far off as k or farther, to either side: twice the smaller tail
/// (k itself in it), at most 1. Throws std::domain_error unless 0 <= k <= n and p lies in 0..1.
double binomialTwoSided(int k, int n, double p);

/// The counts of n between which the central `confidence` of the binomial distribution lies: the
/// fewest and the most that leave less than (1 - confidence) / 2 beyond. Throws std::domain_error
/// as above, or for a confidence not in (0, 1).
std::pair<int, int> binomialRange(int n, double p, double confidence);

/// P(at most k) of a Poisson count with this mean, >= 0. 0 below k = 0. Throws std::domain_error
/// for a mean that is negative or not finite.
double poissonAtMost(int k, double mean);

/// Exact two-sided limits of the mean of which a count k >= 0 was seen (Garwood 1936, Biometrika
/// 28:437): half the chi-square quantiles with 2k and 2k + 2 degrees of freedom, found here by the
/// Poisson tails that they stand for. Throws std::domain_error for a negative count or a confidence
/// not in (0, 1).
std::pair<double, double> countLimits(int k, double confidence);

/// Fisher's exact test of two shares, k of n each: chance, both totals given, of a split no
/// likelier than the one seen (two-sided, as R's fisher.test). Throws std::domain_error unless
/// 0 <= k <= n for both and neither is empty.
double fisherExact(int k1, int n1, int k2, int n2);

/// Quantile of Student's distribution with `freedom` >= 1 degrees of freedom at p in (0, 1). Throws
/// std::domain_error otherwise.
double studentQuantile(double p, int freedom);

/// Ranks from 1, in the order of the values; equal values share the mean of their ranks.
std::vector<double> ranks(std::span<const double> values);

/// Spearman's rank correlation, -1..1: the product-moment correlation of the ranks, ties sharing
/// their mean. Empty if one side is all ties or there are fewer than two pairs. Throws
/// std::domain_error for lists of two lengths or a value that is not finite.
std::optional<double> rankCorrelation(std::span<const double> x, std::span<const double> y);

/// 95 % limits of a rank correlation of n pairs: by Fisher's z with the standard error
/// sqrt((1 + r^2 / 2) / (n - 3)) of Bonett and Wright 2000 (Psychometrika 65:23). From n = 4 on;
/// empty below. Throws std::domain_error unless r lies in -1..1.
std::optional<std::pair<double, double>> rankCorrelationLimits(double r, std::size_t n);

} // namespace cistern::base
