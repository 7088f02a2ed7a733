#include "base/chance.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::base {

// The counter of a stream, so that no two streams ever share a block:
//   word 0: purpose in the high 8 bits, number of the block in the low 24
//   word 1: item
//   words 2, 3: animal, low half first
// The key is the seed, low half first. A stream holds 2^24 blocks, two numbers each.

namespace {

constexpr std::uint32_t blockBits = 24;
constexpr std::uint32_t lastBlock = (1u << blockBits) - 1;

std::uint32_t low(std::uint64_t wide) {
    return static_cast<std::uint32_t>(wide);
}
std::uint32_t high(std::uint64_t wide) {
    return static_cast<std::uint32_t>(wide >> 32);
}

/// (a0 + a1 x + ...) with the coefficients given from the lowest power.
template<std::size_t count>
double polynomial(const std::array<double, count>& coefficients, double x) {
    double sum = 0;
    for (std::size_t i = count; i-- > 0;) sum = sum * x + coefficients[i];
    return sum;
}

} // namespace

std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter,
                                    std::array<std::uint32_t, 2> key) {
    // Multipliers and key increments of Philox 4x32, ten rounds: Salmon, Moraes, Dror, Shaw,
    // "Parallel random numbers: as easy as 1, 2, 3", 2011.
    for (int round = 0; round < 10; ++round) {
        const std::uint64_t first = 0xD2511F53ull * counter[0];
        const std::uint64_t second = 0xCD9E8D57ull * counter[2];
        counter = {high(second) ^ counter[1] ^ key[0], low(second),
                   high(first) ^ counter[3] ^ key[1], low(first)};
        key[0] += 0x9E3779B9u;
        key[1] += 0xBB67AE85u;
    }
    return counter;
}

Chance::Chance(std::uint64_t seed, Purpose purpose, std::uint64_t animal, std::uint32_t item)
    : key_{low(seed), high(seed)},
      counter_{static_cast<std::uint32_t>(purpose) << blockBits, item, low(animal), high(animal)} {
    if (static_cast<std::uint32_t>(purpose) > 0xFF)
        throw std::invalid_argument("a purpose of chance must be a number below 256");
}

std::uint32_t Chance::next() {
    if (used_ == 4) {
        block_ = philox(counter_, key_);
        used_ = 0;
        if ((counter_[0] & lastBlock) == lastBlock)
            throw std::length_error("a stream of chance has run out; use another item");
        ++counter_[0];
    }
    return block_[static_cast<std::size_t>(used_++)];
}

double Chance::uniform() {
    // 53 bits, the most that a double in (0, 1) carries evenly; zero is drawn again.
    for (;;) {
        const std::uint64_t upper = next() >> 5; // 27 bits
        const std::uint64_t lower = next() >> 6; // 26 bits
        const std::uint64_t bits = (upper << 26) | lower;
        if (bits != 0) return static_cast<double>(bits) * 0x1p-53;
    }
}

double Chance::normal() {
    return normalQuantile(uniform());
}

double Chance::poisson(double mean) {
    constexpr double few = 30;
    if (!(mean >= 0) || !std::isfinite(mean))
        throw std::invalid_argument("the mean of a Poisson count must be a finite number >= 0");
    if (mean < few) { // by inversion
        const double u = uniform();
        double term = std::exp(-mean), sum = term, count = 0;
        while (u > sum && term > 0) {
            term *= mean / ++count;
            sum += term;
        }
        return count;
    }
    const double z = normal(), skew = (z * z - 1) / 6;
    return std::max(0., std::round(mean + z * std::sqrt(mean) + skew));
}

double normalQuantile(double p) {
    // Wichura 1988, "Algorithm AS 241: the percentage points of the normal distribution", routine
    // PPND16, coefficients as published: about 16 digits.
    static constexpr std::array<double, 8> a{3.3871328727963666080e0,  1.3314166789178437745e+2,
                                             1.9715909503065514427e+3, 1.3731693765509461125e+4,
                                             4.5921953931549871457e+4, 6.7265770927008700853e+4,
                                             3.3430575583588128105e+4, 2.5090809287301226727e+3};
    static constexpr std::array<double, 8> b{1.0,
                                             4.2313330701600911252e+1,
                                             6.8718700749205790830e+2,
                                             5.3941960214247511077e+3,
                                             2.1213794301586595867e+4,
                                             3.9307895800092710610e+4,
                                             2.8729085735721942674e+4,
                                             5.2264952788528545610e+3};
    static constexpr std::array<double, 8> c{1.42343711074968357734e0,  4.63033784615654529590e0,
                                             5.76949722146069140550e0,  3.64784832476320460504e0,
                                             1.27045825245236838258e0,  2.41780725177450611770e-1,
                                             2.27238449892691845833e-2, 7.74545014278341407640e-4};
    static constexpr std::array<double, 8> d{1.0,
                                             2.05319162663775882187e0,
                                             1.67638483018380384940e0,
                                             6.89767334985100004550e-1,
                                             1.48103976427480074590e-1,
                                             1.51986665636164571966e-2,
                                             5.47593808499534494600e-4,
                                             1.05075007164441684324e-9};
    static constexpr std::array<double, 8> e{6.65790464350110377720e0,  5.46378491116411436990e0,
                                             1.78482653991729133580e0,  2.96560571828504891230e-1,
                                             2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                             2.71155556874348757815e-5, 2.01033439929228813265e-7};
    static constexpr std::array<double, 8> f{1.0,
                                             5.99832206555887937690e-1,
                                             1.36929880922735805310e-1,
                                             1.48753612908506148525e-2,
                                             7.86869131145613259100e-4,
                                             1.84631831751005468180e-5,
                                             1.42151175831644588870e-7,
                                             2.04426310338993978564e-15};

    if (!(p > 0 && p < 1))
        throw std::domain_error("a normal quantile needs a probability between 0 and 1");
    const double q = p - 0.5;
    if (std::abs(q) <= 0.425) {
        const double r = 0.180625 - q * q;
        return q * polynomial(a, r) / polynomial(b, r);
    }
    const double r = std::sqrt(-std::log(q < 0 ? p : 1 - p));
    const double size = r <= 5 ? polynomial(c, r - 1.6) / polynomial(d, r - 1.6)
                               : polynomial(e, r - 5) / polynomial(f, r - 5);
    return q < 0 ? -size : size;
}

} // namespace cistern::base
