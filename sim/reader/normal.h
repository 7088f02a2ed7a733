#pragma once
#include "lab/assay/cup.h"

#include <cstddef>
#include <vector>

namespace cistern::reader {

/// One result as it was seen, on the scale of a Normal.
struct Sight {
    double at = 0; ///< the value, or the limit beyond which it lies
    lab::Bound bound = lab::Bound::exact;
    double broad = 0; ///< density with which a result lies there that has gone astray
};

/// A few quantities that are jointly normal, and what is left to be known of them as one after
/// another is seen. Exact for results that are exact and none astray. Of "<" and ">" the mean and
/// the variance of what remains are carried on, as if it were normal again (Pearson 1903, Phil
/// Trans A 200:1, whose formulas also serve the orthant approximation of Mendell and Elston 1974,
/// Biometrics 30:41). A result may have gone astray, with a small chance, to anywhere: then it says
/// nothing, and no single one can make a story impossible.
class Normal {
public:
    /// Prepares for `size` quantities: means 0, no covariance.
    void reset(std::size_t size);
    double& mean(std::size_t i) { return mean_[i]; }
    double& covariance(std::size_t i, std::size_t j) { return covariance_[i * size_ + j]; }

    /// Density of the i-th quantity as seen (chance, for a bound), given all seen before; those
    /// numbered above i learn from it. `astray` is the chance that it has gone astray.
    double see(std::size_t i, const Sight& sight, double astray);

private:
    std::size_t size_ = 0;
    std::vector<double> mean_, covariance_; ///< upper triangle
};

} // namespace cistern::reader
