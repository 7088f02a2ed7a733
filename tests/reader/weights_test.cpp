#include "reader/weights.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace cistern;
using Catch::Detail::Approx;

constexpr double never = -std::numeric_limits<double>::infinity();

TEST_CASE("weights from logarithms add up to one, however small they are") {
    const auto w = reader::normalized({-1000, -1000 + std::log(3.), never});
    CHECK(w[0] == Approx(0.25));
    CHECK(w[1] == Approx(0.75));
    CHECK(w[2] == 0);
    CHECK(reader::normalized({never, never}) == std::vector<double>{0, 0});
}

// Kong 1992, from memory: (sum w)^2 / sum w^2.
TEST_CASE("the effective number is that of even weights, and one where one has all") {
    CHECK(reader::effective({1, 1, 1, 1}) == Approx(4));
    CHECK(reader::effective({0, 5, 0}) == Approx(1));
    CHECK(reader::effective({2, 1}) == Approx(9. / 5));
    CHECK(reader::effective({0, 0}) == 0);
}

TEST_CASE("tempering softens weights just so far as is wanted") {
    const std::vector<double> logs{0, -10, -20, -30};
    const double power = reader::tempering(logs, 2);
    CHECK(power > 0);
    CHECK(power < 1);
    std::vector<double> softer(logs);
    for (double& log : softer) log *= power;
    CHECK(reader::effective(reader::normalized(softer)) == Approx(2).epsilon(5e-3));
    CHECK(reader::tempering({0, 0, 0}, 2) == 1);
}

TEST_CASE("picks fall on each weight as often as it weighs, to within one") {
    const std::vector<double> weights{0.1, 0.6, 0.0, 0.3};
    const auto chosen = reader::picks(weights, 100);
    REQUIRE(chosen.size() == 100);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const auto times = std::count(chosen.begin(), chosen.end(), i);
        CHECK(std::abs(static_cast<double>(times) - 100 * weights[i]) <= 1);
    }
}

TEST_CASE("a weighted quantile is the value at which that share of the weight is reached") {
    std::vector<reader::Weighted> values{{3, 0.2}, {1, 0.5}, {2, 0.3}};
    CHECK(reader::quantile(values, 0.5) == 1);
    CHECK(reader::quantile(values, 0.6) == 2);
    CHECK(reader::quantile(values, 0.9) == 3);
}

// Shannon 1948: a fair coin 1 bit, four even sides 2 bits. Kullback and Leibler 1951: 0 for the
// same distribution.
TEST_CASE("entropy and divergence count bits") {
    CHECK(reader::entropy({0.5, 0.5}) == Approx(1));
    CHECK(reader::entropy({0.25, 0.25, 0.25, 0.25}) == Approx(2));
    CHECK(reader::entropy({1, 0}) == 0);
    CHECK(reader::divergence({0.5, 0.5}, {0.5, 0.5}) == 0);
    CHECK(reader::divergence({1, 0}, {0.25, 0.75}) == Approx(2));
}
