#include "lab/change.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using lab::Bound;

namespace {

lab::Result result(double value, double cv, Bound bound = Bound::exact) {
    lab::Result r;
    r.analyte = body::Analyte::creatinine;
    r.value = value;
    r.bound = bound;
    r.halfWidth = 1.96 * cv * value;
    return r;
}

} // namespace

TEST_CASE("Reference change values match worked examples", "[lab]") {
    // Within-animal variation of cats: Baral and others 2014, J Feline Med Surg 16:317; the
    // analyzer's 2 % is assumed. Quoted to one decimal.
    CHECK(100 * lab::referenceChange(0.02, 0.0597).up == Approx(17.5).margin(0.1)); // creatinine
    CHECK(100 * lab::referenceChange(0, 0.1074).up == Approx(29.8).margin(0.1));    // cholesterol
    CHECK(100 * lab::referenceChange(0, 0.0086).up == Approx(2.38).margin(0.1));    // sodium
    CHECK(100 * lab::referenceChange(0.02, 0.0597).down == Approx(-17.5).margin(0.1));
}

TEST_CASE("The analyzer's share of the whole variation is as Fraser gives it", "[lab]") {
    // Fraser and Harris 1989 (from memory), arithmetic: CV_A of a quarter, a half and all of CV_I
    // widens the whole by 3.1, 11.8 and 41.4 %.
    const auto widened = [](double share) {
        const double alone = lab::referenceChange(0, 0.04).up;
        return 100 * (lab::referenceChange(0.04 * share, 0.04).up / alone - 1);
    };
    CHECK(widened(0.25) == Approx(3.1).margin(0.1));
    CHECK(widened(0.5) == Approx(11.8).margin(0.1));
    CHECK(widened(1) == Approx(41.4).margin(0.1));
}

TEST_CASE("Wide variation has a lopsided reference change", "[lab]") {
    // Log-normal form, Fokkema and others 2006 (from memory): 20 % gives +73.1 and -42.2 %.
    const lab::Change wide = lab::referenceChange(0, 0.2);
    CHECK(100 * wide.up == Approx(73.1).margin(0.1));
    CHECK(100 * wide.down == Approx(-42.2).margin(0.1));
    CHECK((1 + wide.up) * (1 + wide.down) ==
          Approx(1).epsilon(1e-12)); // as far up as down by ratio
    const lab::Change narrow = lab::referenceChange(0, 0.149);
    CHECK(narrow.up == Approx(-narrow.down).epsilon(1e-12));
}

TEST_CASE("One-sided critical differences match published ones", "[lab]") {
    // Ruaux and others 2011, J Vet Intern Med, doi 10.1111/j.1939-1676.2011.0729.x: C-reactive
    // protein of dogs 269.9 %, pancreatic lipase 452.6 %, from variation within a dog and of the
    // analyzer. Quoted to one decimal.
    CHECK(100 * lab::criticalDifference(0.063, 1.155, 1.65) == Approx(269.9).margin(0.1));
    CHECK(100 * lab::criticalDifference(0.084, 1.938, 1.65) == Approx(452.6).margin(0.1));
    // The symmetric form at 20 %, beside the log-normal one above: arithmetic.
    CHECK(100 * lab::criticalDifference(0, 0.2, 1.96) == Approx(55.4).margin(0.1));
}

TEST_CASE("The index of individuality is what varies within over what varies between", "[lab]") {
    // Cats, Baral and others 2014 without the analyzer: creatinine 5.97 of 11.43, sodium 0.86 of
    // 0.57; printed the other way up 1.91 and 0.66. To two decimals.
    CHECK(1 / lab::individuality(0, 0.0597, 0.1143) == Approx(1.91).margin(0.005));
    CHECK(1 / lab::individuality(0, 0.0086, 0.0057) == Approx(0.66).margin(0.005));
    CHECK(lab::individuality(0, 0.0597, 0.1143) < lab::ownBelow);
    CHECK(lab::individuality(0, 0.0086, 0.0057) > lab::intervalAbove);
    CHECK(1 / lab::ownBelow == Approx(1.7).margin(0.05));
    CHECK(1 / lab::intervalAbove == Approx(0.7).margin(0.05));
    // Dog C-reactive protein, Ruaux and others 2011: 90.8 between, 115.5 within, 6.3 of the
    // analyzer. Their 0.74 adds the two plainly; in quadrature, as here, it is 0.785.
    CHECK(1 / lab::individuality(0.063, 1.155, 0.908) == Approx(0.785).margin(0.0005));
    CHECK(0.908 / (0.063 + 1.155) == Approx(0.745).margin(0.0005));
}

TEST_CASE("The samples for a set point grow as the square of what is asked", "[lab]") {
    // n = (1.96 CV / D)^2, arithmetic: cat creatinine 6.30 % in all to 10 %: 1.52, so 2 samples; to
    // 5 %: 6.09, so 7; CRP of 115.7 % to 20 %: 128.5, so 129.
    CHECK(lab::samplesForSetPoint(0.02, 0.0597, 0.10) == 2);
    CHECK(lab::samplesForSetPoint(0.02, 0.0597, 0.05) == 7);
    CHECK(lab::samplesForSetPoint(0.063, 1.155, 0.20) == 129);
    CHECK(lab::samplesForSetPoint(0, 0, 0.05) == 1);
    CHECK_THROWS_AS(lab::samplesForSetPoint(0, 0.1, 0), std::invalid_argument);
}

TEST_CASE("A change counts as moved only beyond the reference change", "[lab]") {
    // The cat's creatinine of the worked example: +15 % is nothing, +20.8 % is something.
    const double within = 0.0597;
    CHECK_FALSE(lab::moved(result(120, 0.02), result(138, 0.02), within));
    CHECK(lab::moved(result(120, 0.02), result(145, 0.02), within));
    CHECK_FALSE(lab::moved(result(120, 0.02), result(100, 0.02), within));
    CHECK(lab::moved(result(120, 0.02), result(98, 0.02), within));
    CHECK_FALSE(lab::moved(result(120, 0.02), result(120, 0.02), within));
}

TEST_CASE("A result beyond a limit moved only if the limit settles it", "[lab]") {
    const double within = 0.06;
    CHECK(lab::moved(result(300, 0.02), result(1500, 0.02, Bound::above), within));
    CHECK_FALSE(lab::moved(result(1450, 0.02), result(1500, 0.02, Bound::above), within));
    CHECK_FALSE(lab::moved(result(2000, 0.02), result(1500, 0.02, Bound::above), within));
    CHECK(lab::moved(result(100, 0.02), result(10, 0.02, Bound::below), within));
    CHECK_FALSE(lab::moved(result(5, 0.02), result(10, 0.02, Bound::below), within));
    CHECK(lab::moved(result(10, 0.02, Bound::below), result(100, 0.02), within));
    CHECK_FALSE(lab::moved(result(1500, 0.02, Bound::above), result(2000, 0.02), within));
    CHECK_FALSE(lab::moved(result(10, 0.02, Bound::below), result(10, 0.02, Bound::below), within));
}

TEST_CASE("A change from nothing is judged by the analyzer's own doubt", "[lab]") {
    lab::Result nothing = result(0, 0);
    nothing.halfWidth = 1;
    lab::Result little = nothing, much = nothing;
    little.value = 1.3; // below sqrt(2) * 1 and the wobble of 1.3
    much.value = 2;
    CHECK_FALSE(lab::moved(nothing, little, 0.2));
    CHECK(lab::moved(nothing, much, 0.2));
}

TEST_CASE("Urine gravity is compared by what lies above water", "[lab]") {
    lab::Result concentrated = result(1.040, 0), thin = result(1.010, 0);
    concentrated.analyte = thin.analyte = body::Analyte::USG;
    concentrated.halfWidth = thin.halfWidth = 0.001;
    CHECK(lab::moved(concentrated, thin, 0.25)); // to a quarter, though 1.010 is 97 % of 1.040
    thin.value = 1.030;
    CHECK_FALSE(lab::moved(concentrated, thin, 0.25));
}

TEST_CASE("The chance of one outside is 1 - 0.95^k", "[lab]") {
    // Arithmetic, four decimals.
    CHECK(lab::chanceOfOneOutside(20) == Approx(0.6415).margin(0.00005));
    CHECK(lab::chanceOfOneOutside(12) == Approx(0.4596).margin(0.00005));
    // To three decimals.
    for (const auto& [results, chance] :
         {std::pair{5, 0.226}, {10, 0.401}, {14, 0.512}, {25, 0.723}, {30, 0.785}})
        CHECK(lab::chanceOfOneOutside(results) == Approx(chance).margin(0.0005));
    CHECK(lab::chanceOfOneOutside(1) == Approx(0.05).epsilon(1e-12));
    CHECK(lab::chanceOfOneOutside(0) == 0);
}
