#include "lab/analyzer.h"
#include "lab/assay/electrode.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using body::Analyte;

namespace {

const lab::Electrode& electrode(Analyte analyte) {
    return std::get<lab::Electrode>(test::assets().knowledge.bench.method(analyte).assay);
}

double quiet(const lab::Electrode& assay, lab::Setting setting) {
    return lab::run(assay, setting, lab::Noise()).content;
}

lab::Setting setting(double content, double solids = 0.07) {
    lab::Setting one;
    one.content = content;
    one.solids = solids;
    return one;
}

} // namespace

TEST_CASE("An ideal electrode follows Nernst", "[lab]") {
    // Arithmetic of R T ln 10 / F.
    CHECK(lab::nernstSlope(37) == Approx(61.54).margin(0.005));
    CHECK(lab::nernstSlope(25) == Approx(59.16).margin(0.005));
    CHECK(lab::nernstSlope(37, 2) == Approx(30.77).margin(0.005));
    const auto error = [](double millivolt, double charge) {
        return 100 * (std::pow(10, millivolt / lab::nernstSlope(37, charge)) - 1);
    };
    CHECK(error(1, 1) == Approx(3.81).margin(0.005));
    CHECK(error(1, 2) == Approx(7.77).margin(0.005));
    CHECK(error(0.1, 1) == Approx(0.375).margin(0.0005));
}

TEST_CASE("After dilution an electrode reads less where serum holds less water", "[lab]") {
    lab::Electrode sodium = electrode(Analyte::Na);
    sodium.others = 0;
    // medicalalgorithms.com; Am J Physiol Renal 2007;292:F1652: 140 x 80 / 93 = 120.4
    CHECK(quiet(sodium, setting(140, 0.20)) == Approx(120.4).margin(0.05));
    CHECK(quiet(sodium, setting(140)) == Approx(140).epsilon(1e-9));
    // Waterhouse (from memory): fat 0.6 and protein 7 g/dL leave 93.4 % water, fat 10 leaves 83.7
    // and sodium of 140 reads 126; protein 12 and fat 1 leave 89.3, it reads 134.
    CHECK(100 - 100 * lab::solids(70, 6) == Approx(93.4).margin(0.05));
    CHECK(100 - 100 * lab::solids(70, 100) == Approx(83.7).margin(0.05));
    CHECK(quiet(sodium, setting(140, lab::solids(70, 100))) == Approx(126).margin(0.5));
    CHECK(quiet(sodium, setting(140, lab::solids(120, 10))) == Approx(134).margin(0.5));
}

TEST_CASE("An electrode feels its own faults only", "[lab]") {
    const lab::Electrode& potassium = electrode(Analyte::K);
    const double sound = quiet(potassium, setting(6));
    CHECK(sound == Approx(6).epsilon(1e-9));
    lab::Setting dark = setting(6);
    dark.lamp = 0.5;
    dark.color = {5, 300, 5}; // color alone, the solids said apart
    CHECK(quiet(potassium, dark) == sound);
    lab::Setting warm = setting(6);
    warm.warm = 3.1015; // 1 % of 310.15 K: the voltage of (6 / 4.5) grows by 1 %
    CHECK(quiet(potassium, warm) ==
          Approx(4.53 * std::pow(6.03 / 4.53, 1.01) - 0.03).epsilon(1e-4));
    lab::Setting shortOf = setting(6);
    shortOf.taken = 0.7; // 0.7 / 32.7 of 1 / 33
    CHECK(quiet(potassium, shortOf) == Approx(6.03 * 0.7 / 32.7 * 33 - 0.03).epsilon(1e-9));
}

TEST_CASE("Ions in the way raise what an electrode reads when it does not know them", "[lab]") {
    // Nikolsky and Eisenman: they add to the ion's own amount.
    lab::Electrode potassium = electrode(Analyte::K);
    lab::Electrode naive = potassium;
    naive.others = 0;
    lab::Setting with = setting(4 + potassium.others);
    CHECK(quiet(naive, with) == Approx(4 + potassium.others).epsilon(1e-9));
    CHECK(quiet(potassium, setting(4)) == Approx(4).epsilon(1e-9));
}

TEST_CASE("A short sample is noticed by the probe", "[lab]") {
    const lab::Method& sodium = test::assets().knowledge.bench.method(Analyte::Na);
    base::Chance chance(1, base::Purpose::test);
    lab::Cup cup{140};
    CHECK(lab::read(sodium, cup, {}, 1, chance).remarks.empty());
    cup.drawn = 0.7;
    const lab::Reading reading = lab::read(sodium, cup, {}, 1, chance);
    REQUIRE(reading.remarks.size() == 1);
    CHECK(reading.remarks[0] == "short sample: the probe drew air");
    CHECK(reading.value < 110);
}
