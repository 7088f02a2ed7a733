#include "lab/analyzer.h"
#include "lab/assay/ligand.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using body::Analyte;

namespace {

template<class Principle>
const Principle& assay(Analyte analyte) {
    return std::get<Principle>(test::assets().knowledge.bench.method(analyte).assay);
}

template<class Principle, class Change>
double quiet(const Principle& principle, double content, Change change) {
    lab::Setting setting;
    setting.content = content;
    change(setting);
    return lab::run(principle, setting, lab::Noise()).content;
}

const auto sound = [](lab::Setting&) {};

} // namespace

TEST_CASE("A four-parameter curve stands half way at its middle and is read backward", "[lab]") {
    lab::Ligand curve;
    curve.start = 1e6;
    curve.end = 1e4;
    curve.middle = 40;
    curve.steepness = 1.2;
    CHECK(lab::signalOf(curve, 40) == Approx((1e6 + 1e4) / 2).epsilon(1e-12));
    CHECK(lab::signalOf(curve, 0) == 1e6);
    for (const double amount : {0.1, 3.0, 40.0, 500.0})
        CHECK(lab::amountOf(curve, lab::signalOf(curve, amount)) == Approx(amount).epsilon(1e-9));
    CHECK(lab::amountOf(curve, 1.01e6) == 0);
    CHECK(std::isinf(lab::amountOf(curve, 0.99e4)));
}

TEST_CASE("A weak lot lowers a sandwich assay and raises a competitive one", "[lab]") {
    const auto weak = [](lab::Setting& s) { s.lot = 0.8; };
    const auto& sandwich = assay<lab::Ligand>(Analyte::cTnI);
    const auto& competitive = assay<lab::Ligand>(Analyte::cortisol);
    CHECK(quiet(sandwich, 1, sound) == Approx(1).epsilon(1e-9));
    CHECK(quiet(competitive, 100, sound) == Approx(100).epsilon(1e-9));
    CHECK(quiet(sandwich, 1, weak) ==
          Approx(0.8).epsilon(0.01)); // in proportion, far below the top
    // the signal of 100 with a middle of 60 is 1 / 2.667 of the most; 0.8 of it is that of 140
    CHECK(quiet(competitive, 100, weak) == Approx(140).epsilon(0.02));
    const auto dark = [](lab::Setting& s) { s.lamp = 0.5; };
    CHECK(quiet(sandwich, 1, dark) == quiet(sandwich, 1, sound)); // the label shines by itself
}

TEST_CASE("A competitive assay is least certain beside its middle's share", "[lab]") {
    // Error of the amount for a signal off by a share c: c (middle + x), for a steepness of 1 and
    // an end near zero (arithmetic of the curve).
    lab::Ligand curve;
    curve.start = 1e6;
    curve.end = 0;
    curve.middle = 50;
    for (const double x : {5.0, 50.0, 150.0}) {
        const double off = lab::amountOf(curve, lab::signalOf(curve, x) * 0.999);
        CHECK((off - x) / 0.001 == Approx(50 + x).epsilon(0.01));
    }
}

TEST_CASE("Clots form sooner in warmth and later with a weak reagent", "[lab]") {
    const auto& time = assay<lab::Timer>(Analyte::PT);
    CHECK(quiet(time, 8, sound) == Approx(8).epsilon(1e-9));
    CHECK(quiet(time, 8, [](lab::Setting& s) { s.warm = -5; }) ==
          Approx(8 * std::sqrt(1.5)).epsilon(1e-9));
    CHECK(quiet(time, 8, [](lab::Setting& s) { s.lot = 0.5; }) ==
          Approx(8 * std::pow(0.5, -0.3)).epsilon(1e-9));
    CHECK(quiet(time, 8, [](lab::Setting& s) { s.taken = 0.7; }) > 8.5);
    const auto& amount = assay<lab::Timer>(Analyte::fibrinogen);
    CHECK(quiet(amount, 2.5, sound) == Approx(2.5).epsilon(1e-9));
    CHECK(quiet(amount, 2.5, [](lab::Setting& s) { s.warm = -5; }) < 2.2); // late is little
}

TEST_CASE("A refractometer reads whole lines, less in a warm sample", "[lab]") {
    const auto& scale = assay<lab::Refractometer>(Analyte::USG);
    CHECK(quiet(scale, 0.0302, sound) == Approx(0.030).margin(1e-9));
    CHECK(quiet(scale, 0.0302, [](lab::Setting& s) { s.warm = 10; }) == Approx(0.029).margin(1e-9));
    CHECK(quiet(scale, 0.0302, [](lab::Setting& s) { s.lot = 0.5; }) == Approx(0.030).margin(1e-9));
}
