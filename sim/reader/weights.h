#pragma once
#include <cstddef>
#include <utility>
#include <vector>

namespace cistern::reader {

/// Weights with sum 1 from their logarithms; minus infinity weighs nothing. All zero if none has
/// any weight.
std::vector<double> normalized(const std::vector<double>& logs);

/// Effective number of a weighted sample, (sum w)^2 / sum w^2; 0 if nothing has weight. Kong 1992,
/// from memory.
double effective(const std::vector<double>& weights);

/// The power, at most 1, to which weights are taken so that they are worth at least so many (or as
/// many as there are): a step towards even weights.
double tempering(const std::vector<double>& logs, double wanted);

/// Numbers of `count` picks by weight, ascending: systematic resampling with its one random number
/// at 1/2. Weights sum to 1.
std::vector<std::size_t> picks(const std::vector<double>& weights, std::size_t count);

/// A value with its weight.
using Weighted = std::pair<double, double>;
/// The value below which this share of the weight lies; values are sorted first. 0 if there is
/// none.
double quantile(std::vector<Weighted>& values, double share);

/// Entropy of a distribution [bits].
double entropy(const std::vector<double>& shares);
/// Kullback-Leibler divergence of `to` from `from` [bits]. Where `from` has nothing, nothing is
/// counted.
double divergence(const std::vector<double>& to, const std::vector<double>& from);

} // namespace cistern::reader
