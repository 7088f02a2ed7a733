#include "base/chance.h"

#include <boost/math/distributions/normal.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <vector>

using namespace cistern::base;

TEST_CASE("Philox gives its published known answers", "[base]") {
    // Random123 1.14, tests/kat_vectors, lines "philox4x32 10".
    using Words = std::array<std::uint32_t, 4>;
    const std::uint32_t ones = 0xffffffff;
    CHECK(philox({0, 0, 0, 0}, {0, 0}) == Words{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
    CHECK(philox({ones, ones, ones, ones}, {ones, ones}) ==
          Words{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
    CHECK(philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}) ==
          Words{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("A stream repeats for the same seed, purpose, animal and item", "[base]") {
    Chance one(4711, Purpose::test, 12, 3), other(4711, Purpose::test, 12, 3);
    for (int i = 0; i < 100; ++i) CHECK(one.uniform() == other.uniform());
}

TEST_CASE("A stream is pinned, so that a seed keeps its meaning from release to release",
          "[base]") {
    // Follows from the known answers of Philox: block 0 of counter 0, key 0 cannot be had (purposes
    // start at 1), so the first number is worked out here from the generator itself.
    const auto block = philox({99u << 24, 5, 7, 0}, {42, 0});
    const double expected =
        static_cast<double>((std::uint64_t{block[0] >> 5} << 26) | (block[1] >> 6)) /
        9007199254740992.0;
    CHECK(Chance(42, Purpose::test, 7, 5).uniform() == expected);
}

TEST_CASE("Streams of other seeds, purposes, animals and items differ", "[base]") {
    std::set<double> firsts;
    const unsigned long long beyond32 = 1ull << 32; // high halves count as well
    for (std::uint64_t seed : {1ull, 2ull, 1ull + beyond32})
        for (Purpose purpose : {Purpose::setPoints, Purpose::specimen, Purpose::test})
            for (std::uint64_t animal : {0ull, 1ull, beyond32})
                for (std::uint32_t item : {0u, 1u, 0xffffffffu})
                    firsts.insert(Chance(seed, purpose, animal, item).uniform());
    CHECK(firsts.size() == 3 * 3 * 3 * 3);
}

TEST_CASE("A long stream never runs into the stream of another purpose", "[base]") {
    // 2^16 blocks of two numbers each is the least a stream must hold.
    Chance stream(1, Purpose::setPoints);
    const double next = Chance(1, Purpose::halfLives).uniform();
    const double first = Chance(1, Purpose::setPoints).uniform();
    int met = 0, first_again = 0;
    for (int i = 0; i < 2 * (1 << 16) + 4; ++i) {
        const double number = stream.uniform();
        met += number == next;
        first_again += number == first;
    }
    CHECK(met == 0);
    CHECK(first_again == 1);
}

TEST_CASE("A purpose that the counter cannot hold is refused", "[base]") {
    CHECK_THROWS_AS(Chance(1, static_cast<Purpose>(256)), std::invalid_argument);
    CHECK_NOTHROW(Chance(1, static_cast<Purpose>(255)));
}

TEST_CASE("Uniform numbers fill the open interval evenly", "[base]") {
    constexpr int count = 100000, bins = 20;
    Chance chance(2024, Purpose::test);
    std::vector<int> hits(bins);
    double sum = 0;
    for (int i = 0; i < count; ++i) {
        const double number = chance.uniform();
        REQUIRE((number > 0 && number < 1));
        ++hits[static_cast<std::size_t>(number * bins)];
        sum += number;
    }
    // Five standard errors of a mean of uniform numbers, sd = 1/sqrt(12).
    CHECK(std::abs(sum / count - 0.5) < 5 / std::sqrt(12.0 * count));
    // Chi-square with 19 degrees of freedom: 50.8 is passed once in ten thousand tables
    // (R: qchisq(0.9999, 19) = 50.80); the seed is fixed, so the outcome is too.
    double chiSquare = 0;
    for (int hit : hits) chiSquare += std::pow(hit - count / bins, 2) / (count / bins);
    CHECK(chiSquare < 50.8);
}

TEST_CASE("Neighboring animals are not correlated", "[base]") {
    constexpr int count = 20000;
    double sum = 0;
    for (std::uint64_t animal = 0; animal < count; ++animal)
        sum += Chance(7, Purpose::test, animal).normal() *
               Chance(7, Purpose::test, animal + 1).normal();
    CHECK(std::abs(sum / count) < 5 / std::sqrt(double(count))); // five standard errors
}

TEST_CASE("Normal numbers have the moments of the standard normal", "[base]") {
    constexpr int count = 100000;
    Chance chance(11, Purpose::test);
    double sum = 0, squares = 0, fourths = 0;
    for (int i = 0; i < count; ++i) {
        const double number = chance.normal();
        sum += number;
        squares += number * number;
        fourths += std::pow(number, 4);
    }
    // Five standard errors each: the variances of x, x^2 and x^4 are 1, 2 and 96.
    CHECK(std::abs(sum / count) < 5 * std::sqrt(1.0 / count));
    CHECK(std::abs(squares / count - 1) < 5 * std::sqrt(2.0 / count));
    CHECK(std::abs(fourths / count - 3) < 5 * std::sqrt(96.0 / count));
}

TEST_CASE("The normal quantile gives the check values of its publication", "[base]") {
    // Wichura 1988, Applied Statistics 37:477, test values of PPND16 (from memory; the next test
    // stands on an independent program). 1e-14: rounding of about sixteen digits.
    CHECK(normalQuantile(0.25) == Approx(-0.6744897501960817).epsilon(1e-14));
    CHECK(normalQuantile(0.001) == Approx(-3.090232306167814).epsilon(1e-14));
    CHECK(normalQuantile(1e-20) == Approx(-9.262340089798408).epsilon(1e-14));
}

TEST_CASE("The normal quantile agrees with Boost.Math over its whole range", "[base]") {
    const boost::math::normal normal;
    std::vector<double> probabilities;
    for (int i = 1; i < 1000; ++i) probabilities.push_back(i / 1000.0);
    for (int e = 3; e < 300; ++e) probabilities.push_back(std::pow(10.0, -e));
    probabilities.push_back(0x1p-53);
    probabilities.push_back(1 - 0x1p-53);
    double worst = 0;
    for (double p : probabilities) {
        const double wanted = boost::math::quantile(normal, p);
        worst = std::max(worst, std::abs(normalQuantile(p) - wanted) / (1 + std::abs(wanted)));
    }
    CHECK(worst < 2e-15); // ten units in the last place: both round a few times
}

TEST_CASE("The normal quantile is odd about one half and rises", "[base]") {
    CHECK(normalQuantile(0.5) == 0);
    double before = -40;
    for (int i = 1; i < 1024; ++i) {
        const double p = i / 1024.0; // exact in binary, and so is 1 - p
        CHECK(normalQuantile(p) == -normalQuantile(1 - p));
        CHECK(normalQuantile(p) > before);
        before = normalQuantile(p);
    }
}

TEST_CASE("The normal quantile refuses what is no probability", "[base]") {
    for (double p : {0.0, 1.0, -0.1, 1.1, std::numeric_limits<double>::quiet_NaN()})
        CHECK_THROWS_AS(normalQuantile(p), std::domain_error);
}

TEST_CASE("Poisson counts have the mean and the variance of what they count", "[base]") {
    constexpr int n = 400000;
    for (const double mean : {0.5, 5., 29.9, 30., 100., 1e4}) {
        Chance chance(11, Purpose::test, 0, static_cast<std::uint32_t>(mean));
        double sum = 0, squares = 0;
        for (int i = 0; i < n; ++i) {
            const double count = chance.poisson(mean);
            REQUIRE(count == std::floor(count));
            sum += count - mean;
            squares += (count - mean) * (count - mean);
        }
        const double off = sum / n, variance = squares / n - off * off;
        INFO("mean " << mean);
        // Four standard errors; above 30 rounding a continuous quantile adds its own twelfth.
        CHECK(std::abs(off) < 4 * std::sqrt(mean / n) + 0.01);
        CHECK(std::abs(variance - mean) <
              4 * mean * std::sqrt(2. / n + 1 / (n * mean)) + (mean < 30 ? 0 : 0.15));
    }
    Chance chance(11, Purpose::test);
    CHECK(chance.poisson(0) == 0);
    for (const double bad : {-1., std::nan(""), HUGE_VAL})
        CHECK_THROWS_AS(chance.poisson(bad), std::invalid_argument);
}

TEST_CASE("Few Poisson counts fall as their formula has it", "[base]") {
    // P(0) = exp(-m), P(1) = m exp(-m), P(2) = m^2/2 exp(-m); four standard errors.
    constexpr int n = 200000;
    constexpr double mean = 1.5;
    Chance chance(12, Purpose::test);
    std::array<int, 3> seen{};
    for (int i = 0; i < n; ++i)
        if (const double count = chance.poisson(mean); count < 3)
            ++seen[static_cast<std::size_t>(count)];
    double p = std::exp(-mean);
    for (std::size_t k = 0; k < seen.size(); ++k) {
        CHECK(std::abs(static_cast<double>(seen[k]) - n * p) < 4 * std::sqrt(n * p * (1 - p)));
        p *= mean / static_cast<double>(k + 1);
    }
}
