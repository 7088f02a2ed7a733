#include "reader/normal.h"

#include <cmath>

namespace cistern::reader {

namespace {

const double rootTwo = std::sqrt(2.);
const double rootTwoPi = std::sqrt(8 * std::atan(1.));

double density(double x) {
    return std::exp(-x * x / 2) / rootTwoPi;
}
double below(double x) {
    return std::erfc(-x / rootTwo) / 2;
}

/// A standard normal known to lie above x: its mean.
double meanAbove(double x) {
    // Far out the quotient is 0 / 0; its series is 1 part in 1e4 off there.
    constexpr double far = 8;
    return x > far ? x + 1 / x - 2 / (x * x * x) : density(x) / below(-x);
}

} // namespace

void Normal::reset(std::size_t size) {
    size_ = size;
    mean_.assign(size, 0);
    covariance_.assign(size * size, 0);
}

double Normal::see(std::size_t i, const Sight& sight, double astray) {
    const double variance = covariance(i, i);
    const double deviation = std::sqrt(variance);
    const double off = (sight.at - mean_[i]) / deviation; // standardized
    double chance = 0, elsewhere = 0;                     // if sound; if astray
    double moved = 0, left = 0; // of the standardized quantity: its mean, and its variance
    if (sight.bound == lab::Bound::exact) {
        chance = density(off) / deviation;
        elsewhere = sight.broad;
        moved = off;
    } else {
        constexpr double either = 0.5; // side of a limit
        const double side = sight.bound == lab::Bound::above ? 1 : -1;
        chance = below(-side * off);
        elsewhere = either;
        const double mean = meanAbove(side * off);
        moved = side * mean;
        left = 1 - mean * (mean - side * off);
    }
    const double sound = (1 - astray) * chance;
    const double all = sound + astray * elsewhere;
    if (i + 1 == size_ || !(all > 0)) return all;
    // Means and covariances of the mixture of both, that it was sound and that it says nothing.
    const double share = sound / all;
    const double* row = &covariance_[i * size_];
    const double shrink = share * (1 - left) - share * (1 - share) * moved * moved;
    for (std::size_t j = i + 1; j < size_; ++j) {
        if (row[j] == 0) continue;
        mean_[j] += share * moved * row[j] / deviation;
        const double times = shrink * row[j] / variance;
        for (std::size_t k = j; k < size_; ++k) covariance_[j * size_ + k] -= times * row[k];
    }
    return all;
}

} // namespace cistern::reader
