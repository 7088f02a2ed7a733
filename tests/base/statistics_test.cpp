#include "base/chance.h"
#include "base/statistics.h"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/hypergeometric.hpp>
#include <boost/math/distributions/poisson.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
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

TEST_CASE("Limits of a differential are those of the table of percents", "[base]") {
    // Clopper and Pearson's limits [%] of so many percent seen of 100, 200, 500 and 1000 cells,
    // worked out beforehand to two places; the last digit may be half off.
    struct Limits {
        double low, high;
    };
    struct Row {
        int percent;
        Limits limits[4];
    };
    for (const Row& row :
         {Row{0, {{0.00, 3.62}, {0.00, 1.83}, {0.00, 0.74}, {0.00, 0.37}}},
          Row{1, {{0.03, 5.45}, {0.12, 3.57}, {0.33, 2.32}, {0.48, 1.83}}},
          Row{2, {{0.24, 7.04}, {0.55, 5.04}, {0.96, 3.65}, {1.23, 3.07}}},
          Row{3, {{0.62, 8.52}, {1.11, 6.42}, {1.69, 4.90}, {2.03, 4.26}}},
          Row{4, {{1.10, 9.93}, {1.74, 7.73}, {2.46, 6.11}, {2.87, 5.41}}},
          Row{5, {{1.64, 11.28}, {2.42, 9.00}, {3.26, 7.29}, {3.73, 6.54}}},
          Row{6, {{2.23, 12.60}, {3.14, 10.25}, {4.08, 8.45}, {4.61, 7.66}}},
          Row{7, {{2.86, 13.89}, {3.88, 11.47}, {4.92, 9.60}, {5.50, 8.76}}},
          Row{8, {{3.52, 15.16}, {4.64, 12.67}, {5.78, 10.73}, {6.39, 9.86}}},
          Row{9, {{4.20, 16.40}, {5.42, 13.85}, {6.64, 11.86}, {7.30, 10.95}}},
          Row{10, {{4.90, 17.62}, {6.22, 15.02}, {7.51, 12.97}, {8.21, 12.03}}},
          Row{15, {{8.65, 23.53}, {10.35, 20.72}, {11.98, 18.44}, {12.84, 17.37}}},
          Row{20, {{12.67, 29.18}, {14.69, 26.22}, {16.58, 23.78}, {17.56, 22.62}}},
          Row{25, {{16.88, 34.66}, {19.16, 31.60}, {21.26, 29.04}, {22.34, 27.81}}},
          Row{30, {{21.24, 39.98}, {23.74, 36.86}, {26.01, 34.23}, {27.17, 32.95}}},
          Row{35, {{25.73, 45.18}, {28.41, 42.05}, {30.82, 39.36}, {32.04, 38.05}}},
          Row{40, {{30.33, 50.28}, {33.15, 47.15}, {35.68, 44.44}, {36.95, 43.11}}},
          Row{45, {{35.03, 55.27}, {37.98, 52.18}, {40.58, 49.48}, {41.89, 48.14}}},
          Row{50, {{39.83, 60.17}, {42.87, 57.13}, {45.53, 54.47}, {46.85, 53.15}}}}) {
        constexpr std::array cells{100, 200, 500, 1000};
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const auto [low, high] = shareLimits(row.percent * cells[i] / 100, cells[i], 0.95);
            INFO(row.percent << " % of " << cells[i]);
            CHECK(100 * low == Approx(row.limits[i].low).margin(0.0051));
            CHECK(100 * high == Approx(row.limits[i].high).margin(0.0051));
        }
    }
}

TEST_CASE("Exact limits of every share agree with an independent library", "[base]") {
    using Binomial = boost::math::binomial;
    for (const int n : {100, 200, 500})
        for (int k = 0; k <= n; ++k) {
            const auto [low, high] = shareLimits(k, n, 0.95);
            INFO(k << " of " << n);
            // Boost finds roots to about half of a double's digits more than these ten.
            CHECK(low == Approx(Binomial::find_lower_bound_on_p(n, k, 0.025)).margin(1e-10));
            CHECK(high == Approx(Binomial::find_upper_bound_on_p(n, k, 0.025)).margin(1e-10));
        }
}

TEST_CASE("Two-sided chances and ranges of a count agree with summed tails", "[base]") {
    for (const int n : {1, 20, 100, 200})
        for (const double p : {0., 0.001, 0.03, 0.08, 0.5, 0.77, 1.}) {
            const boost::math::binomial whole(n, p);
            double below = 0, above = 1; // up to k; from k on
            const auto [low, high] = binomialRange(n, p, 0.95);
            for (int k = 0; k <= n; ++k) {
                const double here = pdf(whole, k);
                below += here;
                INFO(k << " of " << n << " at " << p);
                // Sums of up to 200 terms in double precision.
                CHECK(binomialTwoSided(k, n, p) ==
                      Approx(std::min(1., 2 * std::min(below, above))).margin(1e-12));
                CHECK((low <= k && k <= high) == (below > 0.025 && above > 0.025));
                above -= here;
            }
        }
    CHECK(binomialRange(100, 0.08, 0.95) == std::pair(3, 14)); // by the sums above
}

TEST_CASE("Exact limits of a count are Garwood's, by chi-square quantiles", "[base]") {
    using boost::math::chi_squared;
    for (const double confidence : {0.90, 0.95, 0.99})
        for (const int k : {0, 1, 2, 5, 10, 16, 29, 30, 100, 160, 500, 3000}) {
            const double tail = (1 - confidence) / 2;
            const auto [low, high] = countLimits(k, confidence);
            INFO(k << " at " << confidence);
            const double below = k == 0 ? 0 : quantile(chi_squared(2. * k), tail) / 2;
            const double above = quantile(complement(chi_squared(2. * k + 2), tail)) / 2;
            CHECK(low == Approx(below).epsilon(1e-10)); // bisection on tails good to 1e-13
            CHECK(high == Approx(above).epsilon(1e-10));
        }
    // Garwood's table as every text on Poisson limits prints it: 0 is 0-3.689, 10 is 4.795-18.390.
    CHECK(countLimits(0, 0.95).second == Approx(3.689).margin(0.0005));
    CHECK(countLimits(10, 0.95).first == Approx(4.795).margin(0.0005));
    CHECK(countLimits(10, 0.95).second == Approx(18.390).margin(0.0005));
    for (const double mean : {0.3, 4., 40., 400.})
        for (const double off : {0.2, 0.9, 1., 1.3}) {
            const int k = static_cast<int>(mean * off);
            INFO(k << " at mean " << mean);
            CHECK(poissonAtMost(k, mean) ==
                  Approx(cdf(boost::math::poisson(mean), k)).epsilon(1e-10).margin(1e-13));
        }
    CHECK(poissonAtMost(3, 0) == 1);
}

TEST_CASE("Fisher's exact test sums hypergeometric chances", "[base]") {
    for (const int n1 : {10, 100, 200})
        for (const int n2 : {12, 100})
            for (const auto& [k1, k2] : {std::pair{0, 0}, {0, 5}, {3, 3}, {9, 2}, {10, 12}}) {
                const auto both = static_cast<unsigned>(k1 + k2);
                const boost::math::hypergeometric split(both, static_cast<unsigned>(n1),
                                                        static_cast<unsigned>(n1 + n2));
                const auto fewest = static_cast<unsigned>(std::max(0, k1 + k2 - n2));
                const double seen = pdf(split, static_cast<unsigned>(k1));
                double sum = 0;
                for (unsigned k = fewest; k <= std::min(both, static_cast<unsigned>(n1)); ++k)
                    if (pdf(split, k) <= seen * (1 + 1e-7)) sum += pdf(split, k);
                INFO(k1 << " of " << n1 << ", " << k2 << " of " << n2);
                CHECK(fisherExact(k1, n1, k2, n2) == Approx(sum).epsilon(1e-9));
            }
    // Fisher's lady tasting tea, 3 of 4 cups: two-sided 0.4857 (34/70), as R's help prints it.
    CHECK(fisherExact(3, 4, 1, 4) == Approx(34. / 70).epsilon(1e-12));
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
    CHECK_THROWS_AS(binomialTwoSided(3, 2, 0.5), std::domain_error);
    CHECK_THROWS_AS(binomialRange(2, 0.5, none), std::domain_error);
    CHECK_THROWS_AS(poissonAtMost(3, none), std::domain_error);
    CHECK_THROWS_AS(poissonAtMost(3, -1), std::domain_error);
    CHECK_THROWS_AS(countLimits(-1, 0.95), std::domain_error);
    CHECK_THROWS_AS(countLimits(1, none), std::domain_error);
    CHECK_THROWS_AS(fisherExact(3, 2, 0, 2), std::domain_error);
    CHECK_THROWS_AS(fisherExact(0, 0, 0, 2), std::domain_error);
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
