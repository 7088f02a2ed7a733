#include "hand_bench.h"
#include "lab/analyzer.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace cistern;
using lab::Bound;

namespace {

struct Moments {
    double mean = 0, deviation = 0;
};

Moments moments(int n, const std::function<double(int)>& draw) {
    double sum = 0, squares = 0;
    for (int i = 0; i < n; ++i) {
        const double x = draw(i);
        sum += x;
        squares += x * x;
    }
    const double mean = sum / n;
    return {mean, std::sqrt((squares - n * mean * mean) / (n - 1))};
}

// The standard error of a standard deviation from n normal values is sd / sqrt(2 (n - 1)), that of
// a mean sd / sqrt(n). Four of them: one fixed seed in 16,000 would fail by chance.
constexpr int repeats = 10000;
const double deviationTolerance = 4 / std::sqrt(2.0 * (repeats - 1));
const double meanTolerance = 4 / std::sqrt(1.0 * repeats); // in standard deviations

lab::Method profile(double a, double b) {
    lab::Method m;
    m.a = a;
    m.b = b;
    m.most = 1e6;
    return m;
}

} // namespace

TEST_CASE("Imprecision follows the precision profile", "[lab]") {
    // Arithmetic of sd^2 = a^2 + (b x)^2 (Rocke and Lorenzato 1995) at a = 2, b = 0.03; the values
    // are quoted to 0.02 percentage points.
    const lab::Method m = profile(2, 0.03);
    const auto cv = [&](double x) { return 100 * lab::repeatability(m, x) / x; };
    CHECK(cv(20) == Approx(10.4).margin(0.05));
    CHECK(cv(50) == Approx(5.0).margin(0.02));
    CHECK(cv(100) == Approx(3.61).margin(0.02));
    CHECK(cv(500) == Approx(3.03).margin(0.02));
    CHECK(cv(10.11) == Approx(20).margin(0.02)); // limit of quantitation at 20 %
    CHECK(cv(2 / 0.03) == Approx(100 * 0.03 * std::sqrt(2.)).epsilon(1e-12)); // at a / b
}

TEST_CASE("Limits of blank and detection come from the spreads of blank and low specimen",
          "[lab]") {
    // Armbruster and Pry 2008, Clin Biochem Rev 29 Suppl 1:S49; arithmetic, exact but for rounding.
    const double blank = lab::limitOfBlank(0.5, 0.3);
    CHECK(blank == Approx(0.9935).epsilon(1e-12));
    CHECK(lab::limitOfDetection(blank, 0.4) == Approx(1.6515).epsilon(1e-12));
}

TEST_CASE("Repeats in one run scatter as the profile says at every level", "[lab]") {
    const lab::Method m = profile(2, 0.03);
    const double level = GENERATE(20.0, 50.0, 100.0, 500.0);
    base::Chance chance(1, base::Purpose::test, 0, static_cast<std::uint32_t>(level));
    const Moments seen =
        moments(repeats, [&](int) { return lab::read(m, {level}, {}, 1, chance).value; });
    const double expected = lab::repeatability(m, level);
    CHECK(seen.deviation / expected == Approx(1).margin(deviationTolerance));
    CHECK((seen.mean - level) / expected == Approx(0).margin(meanTolerance));
}

TEST_CASE("A run reads all its repeats too high or too low by one factor", "[lab]") {
    const lab::Method m = profile(1, 0.01);
    base::Chance chance(2, base::Purpose::test);
    const Moments seen =
        moments(repeats, [&](int) { return lab::read(m, {200}, {}, 1.05, chance).value; });
    CHECK((seen.mean - 210) / seen.deviation == Approx(0).margin(meanTolerance));
}

TEST_CASE("Runs scatter by their own coefficient of variation", "[lab]") {
    lab::Method m = profile(0, 0);
    m.betweenRun = 0.03;
    base::Chance chance(3, base::Purpose::test);
    const Moments seen = moments(repeats, [&](int) { return lab::runFactor(m, chance); });
    CHECK(seen.deviation / 0.03 == Approx(1).margin(deviationTolerance));
    CHECK((seen.mean - 1) / 0.03 == Approx(0).margin(meanTolerance));
}

TEST_CASE("Repeats in many runs scatter by repeatability and run together", "[lab]") {
    const lab::Bench bench = hand::bench();
    const lab::Method& m = bench.method(body::Analyte::ALP);
    base::Chance chance(4, base::Purpose::test);
    const Moments seen = moments(repeats, [&](int) {
        const double run = lab::runFactor(m, chance);
        return lab::read(m, {300}, {}, run, chance).value;
    });
    // variance = 1^2 + (0.015 * 300)^2 + (0.01 * 300)^2
    CHECK(lab::spread(m, 300) == Approx(std::sqrt(1 + 20.25 + 9)).epsilon(1e-12));
    CHECK(seen.deviation / lab::spread(m, 300) == Approx(1).margin(deviationTolerance));
}

TEST_CASE("A reading above the range is diluted, run again, and scatters more", "[lab]") {
    const lab::Bench bench = hand::bench();
    const lab::Method& m = bench.method(body::Analyte::ALT); // to 500 U/L, diluted 1:10
    base::Chance chance(5, base::Purpose::test);
    int diluted = 0;
    const Moments seen = moments(repeats, [&](int) {
        const double run = lab::runFactor(m, chance);
        const lab::Reading reading = lab::read(m, {2000}, {}, run, chance);
        diluted += reading.diluted && reading.bound == Bound::exact;
        return reading.value;
    });
    CHECK(diluted == repeats);
    // At 200 U/L in the cup: repeatability 10 * sqrt(1 + 3^2); run 1 %, dilution 2 % of 2000. The
    // factors multiply, which adds a share of 1e-4 that the tolerance covers.
    const double expected = std::sqrt(100 * (1 + 9) + 20.0 * 20 + 40.0 * 40);
    CHECK(lab::spread(m, 2000, true) == Approx(expected).epsilon(1e-12));
    CHECK(seen.deviation / expected == Approx(1).margin(deviationTolerance));
    CHECK((seen.mean - 2000) / expected == Approx(0).margin(meanTolerance));
}

TEST_CASE("Beyond the range a reading is only known to lie beyond a limit", "[lab]") {
    lab::Method m = profile(0, 0);
    m.least = 3;
    m.most = 500;
    m.dilution = 10;
    base::Chance chance(6, base::Purpose::test);
    const auto at = [&](double amount) { return lab::read(m, {amount}, {}, 1, chance); };

    CHECK(at(2.9).bound == Bound::below);
    CHECK(at(2.9).value == 3);
    CHECK(at(3).bound == Bound::exact);
    CHECK(at(500).bound == Bound::exact);
    CHECK_FALSE(at(500).diluted);
    CHECK(at(501).diluted);
    CHECK(at(501).value == Approx(501).epsilon(1e-12));
    CHECK(at(5001).bound == Bound::above);
    CHECK(at(5001).value == 5000);

    m.dilution = 1; // does not dilute
    CHECK(at(501).bound == Bound::above);
    CHECK(at(501).value == 500);
    CHECK_FALSE(at(501).diluted);
}

TEST_CASE("A count that finds none reads zero", "[lab]") {
    lab::Method m = profile(0.1, 0.1); // its range begins at nothing
    m.analyte = body::Analyte::bands;
    m.most = 500;
    base::Chance chance(8, base::Purpose::test);
    int zeros = 0;
    for (int i = 0; i < 1000; ++i) {
        const lab::Reading reading = lab::read(m, {0}, {}, 1, chance);
        CHECK(reading.bound == Bound::exact);
        CHECK(reading.value >= 0);
        zeros += reading.value == 0;
    }
    // Half of a normal error lies below zero: 500 of 1000, four standard errors of 15.8 each way.
    CHECK(zeros == Approx(500).margin(4 * 15.8));
}

TEST_CASE("No more than all cells can be toxic", "[lab]") {
    lab::Method m = profile(0, 0.2);
    m.analyte = body::Analyte::toxic;
    m.most = 1;
    base::Chance chance(9, base::Purpose::test);
    int all = 0;
    for (int i = 0; i < 1000; ++i) {
        const lab::Reading reading = lab::read(m, {1}, {}, 1, chance);
        CHECK(reading.bound == Bound::exact);
        CHECK(reading.value <= 1);
        all += reading.value == 1;
    }
    CHECK(all == Approx(500).margin(4 * 15.8)); // as above
}

TEST_CASE("Errors of urine gravity are shares of what lies above water", "[lab]") {
    lab::Method m = profile(0.0005, 0.01);
    m.analyte = body::Analyte::USG;
    m.betweenRun = 0.02;
    CHECK(lab::repeatability(m, 1.05) == Approx(std::hypot(0.0005, 0.0005)).epsilon(1e-9));
    CHECK(lab::spread(m, 1.05) == Approx(std::hypot(0.0005, 0.0005, 0.001)).epsilon(1e-9));
    base::Chance chance(7, base::Purpose::test);
    const Moments seen =
        moments(repeats, [&](int) { return lab::read(m, {1.05}, {}, 1.1, chance).value; });
    CHECK((seen.mean - 1.055) / seen.deviation == Approx(0).margin(meanTolerance));
}
