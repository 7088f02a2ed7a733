#pragma once
#include <utility>

namespace cistern::base {

/// P(at most k of n), each with chance p: the binomial distribution function. 0 below k = 0, 1 from
/// k = n on. Throws std::domain_error unless n >= 0 and p lies in 0..1.
double binomialAtMost(int k, int n, double p);

/// Exact two-sided limits of a share of which k of n were seen (Clopper and Pearson 1934,
/// Biometrika 26:404): each tail holds at most (1 - confidence) / 2. Throws std::domain_error
/// unless 0 <= k <= n, n > 0 and the confidence lies in (0, 1).
std::pair<double, double> shareLimits(int k, int n, double confidence);

/// Quantile of Student's distribution with `freedom` >= 1 degrees of freedom at p in (0, 1). Throws
/// std::domain_error otherwise.
double studentQuantile(double p, int freedom);

} // namespace cistern::base
