#include "lab/analyzer.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using body::Analyte;

namespace {

const lab::EndPoint& endPoint(Analyte analyte) {
    return std::get<lab::EndPoint>(test::assets().knowledge.bench.method(analyte).assay);
}

template<class Change>
lab::Signal quiet(const lab::EndPoint& assay, double content, Change change) {
    lab::Setting setting;
    setting.content = content;
    change(setting);
    return lab::run(assay, setting, lab::Noise());
}

const auto sound = [](lab::Setting&) {};

} // namespace

TEST_CASE("A blank cancels the color of serum, a second wavelength only some of it", "[lab]") {
    const auto dark = [](lab::Setting& s) { s.color = {2, 200, 6}; };
    const double glucose = quiet(endPoint(Analyte::glucose), 5, dark).content;
    CHECK(glucose == Approx(5).epsilon(0.01));
    // Xylidyl blue has no blank: hemoglobin absorbs more at 520 than at 600 nm.
    const lab::EndPoint& magnesium = endPoint(Analyte::Mg);
    const auto red = [](lab::Setting& s) { s.color.hemolysis = 2; };
    const double share = magnesium.volumes.fraction();
    const double expected = 2 * (magnesium.tint.hemoglobin - magnesium.second.hemoglobin) * share;
    CHECK(quiet(magnesium, 0.8, red).content - quiet(magnesium, 0.8, sound).content ==
          Approx(expected * magnesium.calibration).epsilon(0.01));
    // A cloud is thinner at the longer wavelength, so most of it goes, but not all.
    lab::EndPoint alone = magnesium;
    alone.otherWavelength = 0;
    const auto hazy = [](lab::Setting& s) { s.color.lipemia = 10; };
    const auto rise = [&](const lab::EndPoint& assay) {
        return quiet(assay, 0.8, hazy).content - quiet(assay, 0.8, sound).content;
    };
    CHECK(rise(magnesium) > 0);
    CHECK(rise(magnesium) < rise(alone) / 3);
}

TEST_CASE("An end point does not mind the warmth of the block; a rate does", "[lab]") {
    const auto warm = [](lab::Setting& s) { s.warm = 3; };
    CHECK(quiet(endPoint(Analyte::glucose), 5, warm).content == Approx(5).epsilon(0.002));
    const double urea = quiet(endPoint(Analyte::urea), 10, warm).content;
    CHECK(urea > 11.5); // 2^0.3 = 1.23 faster, less what is eaten sooner
    CHECK(urea < 12.3);
}

TEST_CASE("A reagent that is used up is noticed, and believed where nobody looks", "[lab]") {
    const lab::Method& urea = test::assets().knowledge.bench.method(Analyte::urea);
    base::Chance chance(1, base::Purpose::test);
    lab::Machine careless;
    careless.linearityCheck = false;
    // More than an animal holds: 3 mmol/L in the cuvette, of which 12 s take 0.09, leave 0.04 of
    // the reagent for the reading.
    const lab::Reading believed = lab::read(urea, {300}, careless, 1, chance);
    CHECK_FALSE(believed.diluted);
    CHECK(believed.value < 30);
    const lab::Reading checked = lab::read(urea, {300}, {}, 1, chance);
    CHECK(checked.diluted);
    CHECK(checked.value == Approx(300).margin(4.25 * lab::spread(urea, 300, true)));
}

TEST_CASE("A weak lot of an end point reads low only when it has too little left", "[lab]") {
    const auto weak = [](double left) { return [left](lab::Setting& s) { s.lot = left; }; };
    const lab::EndPoint& glucose = endPoint(Analyte::glucose);
    CHECK(quiet(glucose, 5, weak(0.7)).content == Approx(5).epsilon(0.005));
    CHECK(quiet(glucose, 30, weak(0.3)).content < 22);
}

TEST_CASE("Hemoglobin spoils the diazo color and not the biuret's", "[lab]") {
    const auto mean = [](Analyte analyte, double amount, double hemolysis) {
        const lab::Method& method = test::assets().knowledge.bench.method(analyte);
        base::Chance chance(3, base::Purpose::test);
        lab::Cup cup{amount};
        cup.color.hemolysis = hemolysis;
        double sum = 0;
        for (int i = 0; i < 400; ++i) sum += lab::read(method, cup, {}, 1, chance).value;
        return sum / 400;
    };
    // 3 % for 1 g/L (2 to 5 %, assumed)
    CHECK(mean(Analyte::bilirubin, 100, 3) / mean(Analyte::bilirubin, 100, 0) ==
          Approx(0.91).epsilon(0.005));
    CHECK(mean(Analyte::protein, 60, 3) / mean(Analyte::protein, 60, 0) ==
          Approx(1).epsilon(0.005));
}
