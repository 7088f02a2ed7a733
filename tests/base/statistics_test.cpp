#include "base/chance.h"
#include "base/statistics.h"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace cistern::base;

TEST_CASE("Exact limits of a share are those of the published tables", "[base]") {
    // Clopper and Pearson's limits as the differential tables print them to two places [%]; the
    // last digit may be half off.
    struct Row {
        int k, n;
        double low, high;
    };
    for (const Row& row :
         {Row{0, 100, 0, 3.62}, Row{1, 100, 0.03, 5.45}, Row{5, 100, 1.64, 11.28},
          Row{10, 100, 4.90, 17.62}, Row{50, 100, 39.83, 60.17}, Row{10, 200, 2.42, 9.00},
          Row{100, 200, 42.87, 57.13}, Row{100, 1000, 8.21, 12.03}}) {
        const auto [low, high] = shareLimits(row.k, row.n, 0.95);
        INFO(row.k << " of " << row.n);
        CHECK(100 * low == Approx(row.low).margin(0.0051));
        CHECK(100 * high == Approx(row.high).margin(0.0051));
        const auto [otherLow, otherHigh] = shareLimits(row.n - row.k, row.n, 0.95);
        CHECK(otherLow == Approx(1 - high).margin(1e-12));
        CHECK(otherHigh == Approx(1 - low).margin(1e-12));
    }
    // none of n: the upper limit is 1 - 0.025^(1/n), closed form
    CHECK(shareLimits(0, 100, 0.95).second == Approx(1 - std::pow(0.025, 0.01)).epsilon(1e-12));
}

TEST_CASE("Binomial tails and Student quantiles agree with an independent library", "[base]") {
    namespace boost = boost::math;
    // Twelve digits: both sides work in double precision through logarithms of some hundreds.
    for (const int n : {1, 7, 100, 1000, 100000})
        for (const double p : {1e-6, 0.025, 0.3, 0.5, 0.97})
            for (const double share : {0., 0.01, 0.3, 0.5, 0.98, 1.}) {
                const int k = static_cast<int>(share * n);
                INFO(k << " of " << n << " at " << p);
                CHECK(binomialAtMost(k, n, p) ==
                      Approx(boost::cdf(boost::binomial(n, p), k)).epsilon(1e-9).margin(1e-12));
            }
    for (const int freedom : {1, 2, 3, 10, 29, 120, 10000})
        for (const double p : {1e-6, 0.025, 0.4, 0.5, 0.75, 0.95, 0.975, 0.995}) {
            INFO(freedom << " degrees at " << p);
            CHECK(studentQuantile(p, freedom) ==
                  Approx(boost::quantile(boost::students_t(freedom), p)).epsilon(1e-9));
        }
}

TEST_CASE("Student quantiles are those printed in every table", "[base]") {
    // The common t table, three places.
    CHECK(studentQuantile(0.975, 1) == Approx(12.706).margin(0.0005));
    CHECK(studentQuantile(0.975, 10) == Approx(2.228).margin(0.0005));
    CHECK(studentQuantile(0.95, 5) == Approx(2.015).margin(0.0005));
    CHECK(studentQuantile(0.995, 30) == Approx(2.750).margin(0.0005));
    CHECK(studentQuantile(0.025, 10) == Approx(-2.228).margin(0.0005));
}

TEST_CASE("Statistics refuse what is no question", "[base]") {
    const double none = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(binomialAtMost(1, 2, none), std::domain_error);
    CHECK_THROWS_AS(binomialAtMost(1, -1, 0.5), std::domain_error);
    CHECK_THROWS_AS(shareLimits(3, 2, 0.95), std::domain_error);
    CHECK_THROWS_AS(shareLimits(0, 0, 0.95), std::domain_error);
    CHECK_THROWS_AS(shareLimits(1, 2, none), std::domain_error);
    CHECK_THROWS_AS(studentQuantile(1, 5), std::domain_error);
    CHECK_THROWS_AS(studentQuantile(0.5, 0), std::domain_error);
    CHECK(binomialAtMost(-1, 5, 0.5) == 0);
    CHECK(binomialAtMost(5, 5, 0.5) == 1);
}

TEST_CASE("Rank correlations are those of published examples and of R, ties included", "[base]") {
    // Hollander and Wolfe 1973, lightness of canned tuna against its grade: example of R's
    // cor.test(); cor(x, y, method = "spearman") of R 4.2 gives 0.6.
    const std::vector<double> lightness{44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1};
    const std::vector<double> grade{2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8};
    CHECK(*rankCorrelation(lightness, grade) == Approx(0.6).epsilon(1e-12));
    // With ties: the first ten rows of R's data set mtcars, miles per gallon and cylinders:
    // cor(mtcars$mpg[1:10], mtcars$cyl[1:10], method = "spearman") of R 4.2.
    const std::vector<double> miles{21, 21, 22.8, 21.4, 18.7, 18.1, 14.3, 24.4, 22.8, 19.2};
    const std::vector<double> cylinders{6, 6, 4, 6, 8, 6, 8, 4, 4, 6};
    CHECK(*rankCorrelation(miles, cylinders) == Approx(-0.8804279494843).epsilon(1e-12));
    CHECK(ranks(cylinders) == std::vector<double>{6, 6, 2, 6, 9.5, 6, 9.5, 2, 2, 6});
}

TEST_CASE("A rank correlation hears order alone, and is silent where all is equal", "[base]") {
    const std::vector<double> x{3, 1, 2, 10}, cubes{27, 1, 8, 1000}, back{-3, -1, -2, -10};
    CHECK(*rankCorrelation(x, cubes) == 1);
    CHECK(*rankCorrelation(x, back) == -1);
    CHECK_FALSE(rankCorrelation(x, std::vector<double>{7, 7, 7, 7}));
    CHECK_FALSE(rankCorrelation(std::vector<double>{1}, std::vector<double>{1}));
    const double none = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(rankCorrelation(x, std::vector<double>{1, 2}), std::domain_error);
    CHECK_THROWS_AS(rankCorrelation(x, std::vector<double>{1, 2, 3, none}), std::domain_error);
}

TEST_CASE("Limits of a rank correlation hold the truth 95 times in a hundred", "[base]") {
    // By hand for r = 0.6, n = 9: z = 0.693147, standard error sqrt(1.18 / 6) = 0.443471.
    const auto limits = rankCorrelationLimits(0.6, 9);
    CHECK(limits->first == Approx(std::tanh(0.693147 - 1.959964 * 0.443471)).epsilon(1e-5));
    CHECK(limits->second == Approx(std::tanh(0.693147 + 1.959964 * 0.443471)).epsilon(1e-5));
    CHECK_FALSE(rankCorrelationLimits(0.6, 3));
    CHECK_THROWS_AS(rankCorrelationLimits(1.1, 9), std::domain_error);
    // Pairs that have nothing to do with one another, a dozen at a time: the limits hold 0. Of 2000
    // sets 95 % is 1900, standard deviation 9.7; the method is approximate at this size, so 2 %
    // (40) are allowed besides four deviations.
    Chance chance(7, Purpose::test);
    int held = 0;
    for (int set = 0; set < 2000; ++set) {
        std::vector<double> x, y;
        for (int i = 0; i < 12; ++i) {
            x.push_back(chance.uniform());
            y.push_back(chance.uniform());
        }
        const auto around = rankCorrelationLimits(*rankCorrelation(x, y), x.size());
        held += around->first <= 0 && around->second >= 0;
    }
    CHECK(std::abs(held - 1900) < 4 * 9.7 + 40);
}
