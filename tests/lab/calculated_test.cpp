#include "hand_bench.h"
#include "lab/calculated.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace cistern;
using body::Analyte;
using lab::Units;

namespace {

constexpr std::array classes{Analyte::neutrophils, Analyte::bands, Analyte::lymphocytes,
                             Analyte::monocytes, Analyte::eosinophils};

/// A counter, electrodes and two proteins of inflammation, each read with a few percent of error.
lab::Bench bench() {
    lab::Bench bench;
    const auto add = [&](Analyte analyte, const char* words, lab::Writing writing) {
        lab::Method m = hand::method(analyte, 0, 0.02, 0.01, 0, 1e4, writing, writing, "counted");
        m.words = words;
        m.calculated = lab::recipe(analyte) != nullptr;
        bench.methods.push_back(std::move(m));
    };
    add(Analyte::RBC, "red cells", {"10*6/uL", 1, 0.01});
    add(Analyte::Hb, "hemoglobin", {"g/dL", 0.1, 0.1});
    add(Analyte::MCV, "mean cell volume", {"fL", 1, 0.1});
    add(Analyte::Hct, "hematocrit", {"%", 100, 0.1});
    add(Analyte::MCH, "mean cell hemoglobin", {"pg", 1, 0.1});
    add(Analyte::MCHC, "mean cell hemoglobin concentration", {"g/dL", 0.1, 0.1});
    for (Analyte kind : classes) add(kind, "one kind of white cells", {"10*3/uL", 1, 0.1});
    add(Analyte::Na, "sodium", {"mmol/L", 1, 1});
    add(Analyte::K, "potassium", {"mmol/L", 1, 0.1});
    add(Analyte::Cl, "chloride", {"mmol/L", 1, 1});
    add(Analyte::tCO2, "total carbon dioxide", {"mmol/L", 1, 1});
    add(Analyte::anionGap, "anion gap", {"mmol/L", 1, 1});
    add(Analyte::PCV, "packed cell volume", {"%", 100, 1});
    add(Analyte::albumin, "albumin", {"g/L", 1, 1});
    add(Analyte::globulin, "globulin", {"g/L", 1, 1});
    add(Analyte::protein, "protein", {"g/L", 1, 1});
    add(Analyte::fibrinogen, "fibrinogen", {"g/L", 1, 0.1});
    add(Analyte::TP, "plasma protein", {"g/L", 1, 1});
    add(Analyte::CRP, "C-reactive protein", {"mg/L", 1, 1});
    add(Analyte::SAA, "serum amyloid A", {"mg/L", 1, 1});
    hand::edit(bench, Analyte::CRP).cat = false;
    hand::edit(bench, Analyte::SAA).dog = false;
    bench.tests = {
        {"blood count",
         {Analyte::RBC, Analyte::Hb, Analyte::Hct, Analyte::MCV, Analyte::MCH, Analyte::MCHC,
          Analyte::neutrophils, Analyte::bands, Analyte::lymphocytes, Analyte::monocytes,
          Analyte::eosinophils},
         ""},
        {"salts", {Analyte::Na, Analyte::K, Analyte::Cl, Analyte::tCO2, Analyte::anionGap}, ""},
        {"PCV and protein", {Analyte::PCV, Analyte::TP}, ""},
        {"proteins", {Analyte::protein, Analyte::fibrinogen}, ""},
        {"CRP", {Analyte::CRP, Analyte::SAA}, ""},
        {"SAA", {Analyte::SAA}, ""}};
    return bench;
}

/// Adult dog, common practice: hematocrit 45 %, 6.5 million cells, 15 g/dL.
body::Snapshot healthy() {
    body::Snapshot truth = hand::healthyLevels();
    const auto set = [&](Analyte analyte, double value) { hand::level(truth, analyte) = value; };
    set(Analyte::RBC, 6.5);
    set(Analyte::Hb, 150);
    set(Analyte::Hct, 0.45);
    set(Analyte::PCV, 0.45);
    set(Analyte::MCV, 450 / 6.5);
    set(Analyte::MCH, 150 / 6.5);
    set(Analyte::MCHC, 150 / 0.45);
    set(Analyte::neutrophils, 6);
    set(Analyte::bands, 0.05);
    set(Analyte::lymphocytes, 2);
    set(Analyte::monocytes, 0.5);
    set(Analyte::eosinophils, 0.4);
    set(Analyte::Na, 147);
    set(Analyte::K, 4.6);
    set(Analyte::Cl, 110);
    set(Analyte::tCO2, 20);
    set(Analyte::fibrinogen, 2);
    set(Analyte::CRP, 3);
    set(Analyte::SAA, 2);
    return truth;
}

lab::Report measure(const lab::Bench& bench, const body::Individual& animal, double hour,
                    const char* test, std::uint64_t number = 1) {
    body::Snapshot truth = healthy();
    truth.hour = hour;
    return lab::measure(bench, animal, truth, hand::specimen(hour), {test}, number);
}

} // namespace

TEST_CASE("Calculated results agree with those they are made of, as printed", "[lab]") {
    const lab::Bench room = bench();
    const body::Individual dog = hand::dog();
    for (std::uint64_t number = 0; number < 20; ++number) {
        const lab::Report count = measure(room, dog, 0, "blood count", number);
        const auto of = [&](const lab::Report& report, Analyte analyte) {
            return report.find(analyte)->value;
        };
        const double cells = of(count, Analyte::RBC), size = of(count, Analyte::MCV),
                     hemoglobin = of(count, Analyte::Hb);
        // Half a printed step each: 0.05 %, 0.05 pg, 0.5 g/L.
        CHECK(of(count, Analyte::Hct) == Approx(cells * size / 1000).margin(0.000501));
        CHECK(of(count, Analyte::MCH) == Approx(hemoglobin / cells).margin(0.0501));
        CHECK(of(count, Analyte::MCHC) == Approx(1000 * hemoglobin / cells / size).margin(0.501));
        const lab::Report salts = measure(room, dog, 0, "salts", number);
        CHECK(of(salts, Analyte::anionGap) ==
              Approx(of(salts, Analyte::Na) + of(salts, Analyte::K) - of(salts, Analyte::Cl) -
                     of(salts, Analyte::tCO2))
                  .margin(0.501));
    }
}

TEST_CASE("The doubt of a calculated result follows from its parts", "[lab]") {
    lab::Result a, b;
    a.value = 6.5, a.halfWidth = 1.96 * 0.13; // 2 %
    b.value = 69, b.halfWidth = 1.96 * 0.69;  // 1 %
    const lab::Calculation volume = lab::calculate(*lab::recipe(Analyte::Hct), {a, b});
    CHECK(volume.value == Approx(0.4485).epsilon(1e-12));
    CHECK(volume.deviation == Approx(0.4485 * std::hypot(0.02, 0.01)).epsilon(1e-12));
    a.value = 70, a.halfWidth = 1.96 * 0.4;
    b.value = 40, b.halfWidth = 1.96 * 0.3;
    const lab::Calculation rest = lab::calculate(*lab::recipe(Analyte::globulin), {a, b});
    CHECK(rest.value == 30);
    CHECK(rest.deviation == Approx(0.5).epsilon(1e-12));
}

TEST_CASE("Red cells, their size and their filling wobble as one specimen", "[lab]") {
    lab::Bench room = bench();
    for (lab::Method& method : room.methods) {
        hand::makeExact(method);
        method.conventional.step = 1e-6; // nothing is lost by printing
    }
    body::Individual dog = hand::dog();
    for (Analyte analyte : {Analyte::Hct, Analyte::MCV, Analyte::MCHC, Analyte::albumin,
                            Analyte::globulin, Analyte::fibrinogen})
        dog.own.within[static_cast<std::size_t>(analyte)] = 0.05;
    bool moved = false;
    for (int day = 0; day < 20; ++day) {
        const lab::Report count = measure(room, dog, 24.0 * day, "blood count");
        const lab::Report spun = measure(room, dog, 24.0 * day, "PCV and protein");
        const lab::Report parts = measure(room, dog, 24.0 * day, "proteins");
        const double hct = count.find(Analyte::Hct)->value;
        CHECK(spun.find(Analyte::PCV)->value == Approx(hct).epsilon(1e-4)); // steps of 1e-6
        CHECK(spun.find(Analyte::TP)->value ==
              Approx(parts.find(Analyte::protein)->value + parts.find(Analyte::fibrinogen)->value)
                  .epsilon(1e-4));
        moved = moved || std::abs(hct - 0.45) > 0.01;
    }
    CHECK(moved);
}

TEST_CASE("A test prints what fits the species", "[lab]") {
    const lab::Bench room = bench();
    body::Individual animal = hand::dog();
    const lab::Report dog = measure(room, animal, 0, "CRP");
    CHECK(dog.find(Analyte::CRP));
    CHECK_FALSE(dog.find(Analyte::SAA));
    CHECK(dog.notRun.empty());
    CHECK(measure(room, animal, 0, "SAA").notRun ==
          std::vector<std::string>{"This laboratory does not run SAA in a dog."});
    animal.who.kind = body::Kind::cat;
    const lab::Report cat = measure(room, animal, 0, "CRP");
    CHECK(cat.find(Analyte::SAA));
    CHECK_FALSE(cat.find(Analyte::CRP));
}

TEST_CASE("What comes out below zero is not printed", "[lab]") {
    const lab::Bench room = bench();
    body::Snapshot truth = healthy();
    hand::level(truth, Analyte::Cl) = 160;
    const lab::Report report =
        lab::measure(room, hand::dog(), truth, hand::specimen(), {"salts"}, 1);
    CHECK_FALSE(report.find(Analyte::anionGap));
    CHECK(report.notRun ==
          std::vector<std::string>{"Anion gap was not calculated: sodium and potassium less "
                                   "chloride and total CO2 came out below zero."});
}
