// Reference limits from healthy animals: ranks, robust, parametric, transference.
#include "lab/interval/limits.h"
#include "lab/interval/ranks.h"
#include "lab/interval/transference.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

using namespace cistern;
using lab::LimitMethod;

namespace {

base::Chance stream(std::uint32_t item = 0) {
    return {7, base::Purpose::bootstrap, 0, item};
}

/// Log-normal amounts with a median of 30, as of an enzyme: ln-deviation s.
std::vector<double> animals(std::size_t n, double s, std::uint32_t item) {
    base::Chance chance(11, base::Purpose::test, 0, item);
    std::vector<double> values(n);
    for (double& value : values) value = 30 * std::exp(s * chance.normal());
    return values;
}

/// Evenly spread values 1 to n.
std::vector<double> counting(std::size_t n) {
    std::vector<double> values(n);
    std::iota(values.begin(), values.end(), 1.0);
    return values;
}

} // namespace

TEST_CASE("Limits by ranks lie at 0.025 and 0.975 (n + 1)", "[lab]") {
    // EP28-A3c (from memory), arithmetic: 120 animals give 3.025 and 117.975, 119 exactly 3 and
    // 117, and 39 are the fewest whose ranks lie within the values. The value of rank r is r here.
    CHECK(lab::percentile(counting(120), 0.025) == Approx(3.025).epsilon(1e-12));
    CHECK(lab::percentile(counting(120), 0.975) == Approx(117.975).epsilon(1e-12));
    CHECK(lab::percentile(counting(119), 0.025) == Approx(3).epsilon(1e-12));
    CHECK(lab::percentile(counting(119), 0.975) == Approx(117).epsilon(1e-12));
    CHECK(lab::percentile(counting(39), 0.025) == Approx(1).epsilon(1e-12));
    CHECK(lab::percentile(counting(39), 0.975) == Approx(39).epsilon(1e-12));
    CHECK(lab::percentile(counting(4), 0.5) == 2.5);
    CHECK(lab::percentile({5}, 0.9) == 5);
    CHECK_THROWS_AS(lab::percentile({}, 0.5), std::invalid_argument);
    CHECK_THROWS_AS(lab::percentile({1, 2}, std::nan("")), std::invalid_argument);
}

TEST_CASE("Ranks of the 90 % confidence of a limit are those of the table", "[lab]") {
    // The binomial tail rule, whole from 119 to 417; agrees with the table of EP28-A3c (from
    // memory), which begins at 120.
    struct Row {
        std::size_t first, last, from, to;
    };
    const std::vector<Row> table{{119, 132, 1, 7},  {133, 160, 1, 8},  {161, 187, 1, 9},
                                 {188, 189, 2, 9},  {190, 218, 2, 10}, {219, 248, 2, 11},
                                 {249, 249, 2, 12}, {250, 279, 3, 12}, {280, 307, 3, 13},
                                 {308, 309, 4, 13}, {310, 340, 4, 14}, {341, 363, 4, 15},
                                 {364, 372, 5, 15}, {373, 403, 5, 16}, {404, 417, 5, 17}};
    for (const Row& row : table)
        for (std::size_t n = row.first; n <= row.last; ++n) {
            CAPTURE(n);
            const lab::Ranks low = lab::lowerLimitRanks(n), high = lab::upperLimitRanks(n);
            CHECK(low.from == row.from);
            CHECK(low.to == row.to);
            CHECK(high.from == n + 1 - row.to); // of 120: 114 and 120
            CHECK(high.to == n + 1 - row.from);
            CHECK(lab::coverage(n, low) >= 0.9);
        }
    CHECK(lab::coverage(120, lab::lowerLimitRanks(120)) == Approx(0.9205).margin(0.00005));
    CHECK_THROWS_AS(lab::lowerLimitRanks(118), std::invalid_argument);
}

TEST_CASE("Limits by ranks of 120 animals cover the true limits as often as they promise",
          "[lab]") {
    // 2000 herds of 120: the share must lie within four standard errors of 0.9205, the exact
    // coverage, (0.9205 * 0.0795 / 2000)^0.5 = 0.0060 each, of which
    // 0.90 lies three and more below.
    constexpr int herds = 2000;
    const double s = 0.5, low = 30 * std::exp(-1.959964 * s), high = 30 * std::exp(1.959964 * s);
    int lowCovered = 0, highCovered = 0;
    for (int herd = 0; herd < herds; ++herd) {
        const lab::Rebuilt found =
            lab::rebuild(animals(120, s, static_cast<std::uint32_t>(herd)), stream());
        REQUIRE(found.method == LimitMethod::ranks);
        lowCovered += found.limits->low.from <= low && low <= found.limits->low.to;
        highCovered += found.limits->high.from <= high && high <= found.limits->high.to;
    }
    CHECK(lowCovered / double(herds) == Approx(0.9205).margin(0.0242));
    CHECK(highCovered / double(herds) == Approx(0.9205).margin(0.0242));
    CHECK(std::min(lowCovered, highCovered) >= 0.9 * herds);
}

TEST_CASE("The robust method gives the limits of the guideline's example", "[lab]") {
    // EP28-A3c appendix B: twenty values; results by arithmetic, to the digits that they are
    // quoted with.
    const std::vector<double> values{8.9, 9.2, 9.4, 9.4, 9.5, 9.5, 9.5, 9.6, 9.6, 9.6,
                                     9.6, 9.7, 9.7, 9.7, 9.7, 9.7, 9.8, 9.9, 9.9, 10.2};
    const lab::Robust found = lab::robust(values);
    CHECK(found.center == Approx(9.6245).margin(0.0005));
    CHECK(found.spread == Approx(0.2704).margin(0.0005));
    CHECK(found.limits.low == Approx(9.050).margin(0.005));
    CHECK(found.limits.high == Approx(10.199).margin(0.005));

    const lab::Rebuilt rebuilt = lab::rebuild(values, stream());
    CHECK(rebuilt.method == LimitMethod::robust);
    CHECK_FALSE(rebuilt.logarithms);
    CHECK(rebuilt.limits->low.value == found.limits.low);
    CHECK(rebuilt.limits->high.value == found.limits.high);
    CHECK(rebuilt.limits->low.from < rebuilt.limits->low.value);
    CHECK(rebuilt.limits->low.to > rebuilt.limits->low.value);
    CHECK(rebuilt.cautions.front() == "limits of so few animals are rough: look at each value");
}

TEST_CASE("One wild value hardly moves robust limits", "[lab]") {
    std::vector<double> values = counting(60);
    const lab::Limits calm = lab::robust(values).limits;
    values.back() = 100000;
    const lab::Limits wild = lab::robust(values).limits;
    const double width = calm.high - calm.low;
    CHECK(std::abs(wild.low - calm.low) < 0.05 * width);
    CHECK(std::abs(wild.high - calm.high) < 0.05 * width);
    CHECK(lab::parametricLimits(values).high.value > 10 * calm.high);
}

TEST_CASE("Robust limits of normal animals are near the true ones, and cover them by bootstrap",
          "[lab]") {
    // 400 herds of 60, true limits -+1.96 about 100 in units of 10. The mean limit of a herd has a
    // standard error of about 10 (1/60 + 1.92/59)^0.5 = 2.2, that of 400 herds 0.11; the wider
    // Student quantile moves them out by 0.4. Bootstrap covers a little less than its 90 %:
    // between 80 and 95 % with a standard error of 2 %.
    constexpr int herds = 400;
    double low = 0, high = 0;
    int covered = 0;
    for (int herd = 0; herd < herds; ++herd) {
        base::Chance chance(5, base::Purpose::test, 1, static_cast<std::uint32_t>(herd));
        std::vector<double> values(60);
        for (double& value : values) value = 100 + 10 * chance.normal();
        const lab::KnownLimits found =
            lab::robustLimits(values, stream(static_cast<std::uint32_t>(herd)));
        low += found.low.value / herds;
        high += found.high.value / herds;
        covered += found.high.from <= 119.6 && 119.6 <= found.high.to;
    }
    CHECK(low == Approx(80.4).margin(1));
    CHECK(high == Approx(119.6).margin(1));
    CHECK(covered / double(herds) > 0.80);
    CHECK(covered / double(herds) < 0.95);
}

TEST_CASE("Parametric limits have their standard error", "[lab]") {
    // Arithmetic: 1 to 100 have mean 50.5 and deviation 29.0115; the error of a limit is
    // s (1/100 + 1.96^2 / 198)^0.5 = 4.970, and 1.6449 of it is 8.176.
    const lab::KnownLimits found = lab::parametricLimits(counting(100));
    CHECK(found.low.value == Approx(50.5 - 1.959964 * 29.0115).margin(0.001));
    CHECK(found.high.value == Approx(50.5 + 1.959964 * 29.0115).margin(0.001));
    CHECK(found.high.to - found.high.value == Approx(8.176).margin(0.01));
    CHECK(found.low.value - found.low.from == Approx(8.176).margin(0.01));
}

TEST_CASE("The number of animals decides the method", "[lab]") {
    // Friedrichs and others 2012 (from memory).
    const auto of = [](std::size_t n) { return lab::rebuild(counting(n), stream()).method; };
    CHECK(of(0) == LimitMethod::none);
    CHECK(of(9) == LimitMethod::none);
    CHECK(of(10) == LimitMethod::listing);
    CHECK(of(19) == LimitMethod::listing);
    CHECK(of(20) == LimitMethod::robust);
    CHECK(of(119) == LimitMethod::robust);
    CHECK(of(120) == LimitMethod::ranks);
    const lab::Rebuilt listed = lab::rebuild(counting(15), stream());
    CHECK_FALSE(listed.limits);
    CHECK(listed.least == 1);
    CHECK(listed.median == 8);
    CHECK(listed.most == 15);
    CHECK(listed.cautions == std::vector<std::string>{"too few animals for limits"});
}

TEST_CASE("Another method is used where there are animals enough for it", "[lab]") {
    CHECK(lab::rebuild(counting(200), stream(), LimitMethod::robust).method == LimitMethod::robust);
    CHECK(lab::rebuild(counting(25), stream(), LimitMethod::parametric).method ==
          LimitMethod::parametric);
    CHECK(lab::rebuild(counting(50), stream(), LimitMethod::ranks).method == LimitMethod::robust);
    CHECK(lab::rebuild(counting(12), stream(), LimitMethod::parametric).method ==
          LimitMethod::listing);
}

TEST_CASE("Skewed values are taken by their logarithms", "[lab]") {
    // 100 log-normal animals with ln-deviation 0.8: skewness about 3, twelve standard errors.
    const lab::Rebuilt skewed = lab::rebuild(animals(100, 0.8, 1), stream());
    CHECK(skewed.method == LimitMethod::robust);
    CHECK(skewed.logarithms);
    CHECK(skewed.limits->low.value > 0);
    // True limits 30 exp(-+1.568); standard error of a log limit 0.8 (0.01 + 1.92/99)^0.5 = 0.137.
    CHECK(std::log(skewed.limits->low.value / 30) == Approx(-1.568).margin(4 * 0.137));
    CHECK(std::log(skewed.limits->high.value / 30) == Approx(1.568).margin(4 * 0.137));
}

TEST_CASE("Values that stand apart are counted and kept", "[lab]") {
    // Fences by arithmetic: the quartiles of 1 to 11 are 3 and 9, so 1.5 ranges end at -6 and 18,
    // 3 ranges at -15 and 27.
    std::vector<double> values = counting(11);
    CHECK(lab::outliers(values).suspect == 0);
    values.back() = 18;
    CHECK(lab::outliers(values).suspect == 0);
    values.back() = 19;
    CHECK(lab::outliers(values).suspect == 1);
    CHECK(lab::outliers(values).far == 0);
    values.back() = 28;
    CHECK(lab::outliers(values).far == 1);
    // A gap of more than a third of the range: 5 of 14 is, 4 of 13 is not.
    values.back() = 15;
    CHECK(lab::outliers(values).alone == std::vector<double>{15});
    values.back() = 14;
    CHECK(lab::outliers(values).alone.empty());
    CHECK_THROWS_AS(lab::outliers({3, 1, 2}), std::invalid_argument);

    std::vector<double> wild = counting(50);
    wild.back() = 500;
    wild.front() = 0; // no logarithms
    const lab::Rebuilt found = lab::rebuild(wild, stream());
    CHECK(found.most == 500);
    const auto says = [&](const char* words) {
        return std::count(found.cautions.begin(), found.cautions.end(), words) == 1;
    };
    CHECK(says("1 of the values lies far out"));
    CHECK(says("the outermost value stands alone"));
}

TEST_CASE("A limit that is known too roughly is told", "[lab]") {
    const lab::Rebuilt few = lab::rebuild(animals(120, 0.5, 3), stream());
    const double width = few.limits->high.value - few.limits->low.value;
    REQUIRE(few.limits->high.to - few.limits->high.from > 0.2 * width); // long upper tail
    CHECK(few.cautions.back() ==
          "the upper limit is known to no better than a fifth of the interval");
    CHECK(lab::rebuild(counting(2000), stream()).cautions.empty());
}

TEST_CASE("Values that are mostly the same have no robust limits", "[lab]") {
    std::vector<double> values(40, 1.0);
    for (std::size_t i = 0; i < 19; ++i) values[i] = 2 + static_cast<double>(i);
    const lab::Rebuilt found = lab::rebuild(values, stream());
    CHECK(found.method == LimitMethod::listing);
    CHECK_FALSE(found.limits);
    CHECK_THROWS_AS(lab::robust(values), std::invalid_argument);
}

TEST_CASE("Amounts that cannot be are refused", "[lab]") {
    CHECK_THROWS_AS(lab::rebuild({1, -1}, stream()), std::invalid_argument);
    CHECK_THROWS_AS(lab::rebuild({1, std::nan("")}, stream()), std::invalid_argument);
    CHECK_THROWS_AS(lab::rebuild({1, std::numeric_limits<double>::infinity()}, stream()),
                    std::invalid_argument);
}

TEST_CASE("Twenty animals tell whether a published interval fits", "[lab]") {
    // Binomial arithmetic, to the digits quoted: with the right interval 2 or fewer of 20 lie
    // outside in .9245; where 10, 15, 20 and 30 % truly do, in .677, .405, .206 and .036.
    CHECK(lab::chanceToFitAtOnce(0.05) == Approx(0.9245).margin(0.00005));
    CHECK(lab::chanceToFitAtOnce(0.10) == Approx(0.677).margin(0.0005));
    CHECK(lab::chanceToFitAtOnce(0.15) == Approx(0.405).margin(0.0005));
    CHECK(lab::chanceToFitAtOnce(0.20) == Approx(0.206).margin(0.0005));
    CHECK(lab::chanceToFitAtOnce(0.30) == Approx(0.036).margin(0.0007)); // .0355
    CHECK(lab::chanceToFailTwice(0.05) == Approx(0.0057).margin(0.00005));
    CHECK(lab::chanceToFail(0.05) == Approx(0.0081).margin(0.00005));
    CHECK(lab::transfer(2) == lab::Transfer::fits);
    CHECK(lab::transfer(3) == lab::Transfer::twentyMore);
    CHECK(lab::transfer(4) == lab::Transfer::twentyMore);
    CHECK(lab::transfer(5) == lab::Transfer::fails);
    CHECK_THROWS_AS(lab::transfer(21), std::invalid_argument);
    CHECK_THROWS_AS(lab::transfer(-1), std::invalid_argument);
}
