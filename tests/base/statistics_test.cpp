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
