#include "lab/counter/checks.h"
#include "real_bench.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

using namespace cistern;
using body::Analyte;
using body::Kind;
using Catch::Contains;

namespace {

const std::vector<std::string> everything{"blood count", "film", "PCV and protein"};

lab::Report measure(const lab::Blood& blood, const std::vector<std::string>& tests,
                    std::uint64_t number = 1, const lab::Machine& machine = {},
                    const lab::Handling& handling = {}) {
    lab::Specimen specimen = hand::specimen();
    specimen.handling = handling;
    return lab::measure(real::bench(), real::animal(blood.kind), real::truth(blood), specimen,
                        tests, number, machine);
}

/// An EDTA tube that was hardly turned over.
lab::Handling hardlyMixed() {
    lab::Handling handling;
    handling.tubes = {lab::usualTube("edta")};
    handling.tubes[0].inversions = 3;
    return handling;
}

/// What a herd of tubes of the same blood prints.
struct Printed {
    double mean = 0, deviation = 0, stated = 0;
};
std::map<Analyte, Printed> repeated(const lab::Blood& blood, const lab::Machine& machine = {},
                                    int n = 1000) {
    std::map<Analyte, std::vector<double>> values;
    std::map<Analyte, Printed> all;
    for (int i = 0; i < n; ++i)
        for (const lab::Result& one :
             measure(blood, everything, static_cast<std::uint64_t>(i), machine).results) {
            values[one.analyte].push_back(one.value);
            all[one.analyte].stated += one.halfWidth / 1.96 / n;
        }
    for (auto& [analyte, seen] : values) {
        Printed& one = all[analyte];
        for (const double value : seen) one.mean += value / n;
        for (const double value : seen)
            one.deviation += (value - one.mean) * (value - one.mean) / (n - 1);
        one.deviation = std::sqrt(one.deviation);
    }
    return all;
}

struct Level {
    const char* words;
    lab::Blood blood;
    std::vector<Analyte> exceptions; ///< whose stated doubt does not fit there, see below
};

std::vector<Level> levels() {
    const lab::Blood dog = real::blood(Kind::dog), cat = real::blood(Kind::cat);
    lab::Blood anemic = dog, poor = dog, left = dog;
    anemic.red = 2, anemic.volume = 75, anemic.reticulocytes = 300;
    anemic.white = {25, 4, 1, 2, 0.5};
    anemic.platelets = 150;
    poor.red = 3, poor.reticulocytes = 5;
    poor.white = {0.6, 0.1, 0.7, 0.2, 0.1};
    poor.platelets = 20;
    left.white = {7, 3, 1, 0.6, 0.3};
    left.toxic = 0.25;
    return {
        {"dog", dog, {Analyte::toxic}}, // none: nothing scatters
        {"cat", cat, {Analyte::toxic}}, // none: nothing scatters
        {"regenerating dog", anemic, {Analyte::lymphocytes, Analyte::eosinophils, Analyte::toxic}},
        // few kinds among many others scatter more
        {"dog with few cells", poor, {Analyte::reticulocytes, Analyte::bands, Analyte::toxic}},
        // few among few red cells, few among few white cells: they scatter less
        {"left shift", left, {Analyte::neutrophils}}}; // less the film's many bands
}

} // namespace

TEST_CASE("Counts scatter as their methods state and are not biased", "[lab]") {
    for (const Level& level : levels()) {
        const auto printed = repeated(level.blood);
        const body::Snapshot truth = real::truth(level.blood);
        for (const auto& [analyte, seen] : printed) {
            if (analyte == Analyte::Hb || analyte == Analyte::TP) continue; // not the counter's
            CAPTURE(level.words, body::name(analyte), seen.mean, seen.deviation, seen.stated);
            const auto& spared = level.exceptions;
            if (std::find(spared.begin(), spared.end(), analyte) == spared.end()) {
                // Rounding an amount to its step adds or hides up to the root of a twelfth of it.
                const double rounding = real::step(analyte) / std::sqrt(12.);
                CHECK(seen.deviation > 0.6 * seen.stated - rounding);
                CHECK(seen.deviation < 1.6 * seen.stated + rounding);
            }
            if (analyte == Analyte::MCH || analyte == Analyte::MCHC) continue; // not in the truth
            // Four standard errors of the mean, and 1 % (of size 0.3 %). Rounding may shift what is
            // only a few steps large.
            const double held = truth.level(analyte), few = 5 * real::step(analyte);
            const bool taken = level.blood.reticulocytes > 200 &&
                               (analyte == Analyte::WBC || analyte == Analyte::lymphocytes);
            if (held < few || taken) continue; // nucleated red cells are taken for white ones
            const double bias = (analyte == Analyte::MCV ? 0.003 : 0.01) * held;
            CHECK(seen.mean == Approx(held).margin(bias + 4 * seen.deviation / std::sqrt(1000.)));
        }
    }
}

TEST_CASE("Which other tests are asked for changes no count", "[lab]") {
    const lab::Blood blood = real::blood(Kind::cat);
    const auto measure = [](const lab::Blood& of, const std::vector<std::string>& tests) {
        return ::measure(of, tests, 1, {}, hardlyMixed());
    };
    const lab::Report all = measure(blood, everything);
    for (const std::string& test : everything)
        for (const lab::Result& one : measure(blood, {test}).results) {
            CAPTURE(test, body::name(one.analyte));
            CHECK(one.value == all.find(one.analyte)->value);
        }
    CHECK(all.blood);
    CHECK_FALSE(measure(blood, {"chemistry"}).blood);
}

TEST_CASE("Neutrophils and bands share what the machine counted", "[lab]") {
    lab::Blood blood = real::blood(Kind::dog);
    blood.white = {6, 3, 2, 0.5, 0.5};
    for (std::uint64_t i = 0; i < 20; ++i) {
        const lab::Report report = measure(blood, everything, i);
        CHECK(report.find(Analyte::neutrophils)->value + report.find(Analyte::bands)->value ==
              Approx(report.blood->count.neutrophils).margin(0.1001)); // two printed steps' halves
    }
}

TEST_CASE("White cells are printed without nucleated red cells when the film says so", "[lab]") {
    lab::Blood blood = real::blood(Kind::dog);
    blood.reticulocytes = 1000; // 0.4 % of what is above 200: 32 per 100 white cells
    const lab::Report report = measure(blood, everything);
    const lab::Result& white = *report.find(Analyte::WBC);
    REQUIRE(report.blood->corrected());
    CHECK(report.blood->count.white == Approx(1.32 * 10.1).epsilon(0.1)); // run, dilution, count
    CHECK(white.value == Approx(10.1).epsilon(0.15)); // and some 63 met on the film, 12 %
    REQUIRE(white.notes.size() == 1);
    CHECK_THAT(white.notes[0], Contains("nucleated red cells per 100 white cells"));
    CHECK(report.find(Analyte::RBC)->notes.empty());
    CHECK(measure(real::blood(Kind::dog), everything).find(Analyte::WBC)->notes.empty());
}

TEST_CASE("A cat's clumps are told in plain words and touch only what they should", "[lab]") {
    const lab::Blood sound = real::blood(Kind::cat);
    const lab::Report clear = measure(sound, everything);
    const auto says = [](const lab::Report& one, const char* words) {
        return std::any_of(one.warnings.begin(), one.warnings.end(), [&](const std::string& line) {
            return line.find(words) != std::string::npos;
        });
    };
    CHECK_FALSE(says(clear, "look at the film"));
    CHECK_FALSE(says(clear, "feathered edge"));
    int clumped = 0; // the needle's luck differs from hour to hour
    for (int hour = 0; hour < 20; ++hour) {
        body::Snapshot truth = real::truth(sound);
        truth.hour = hour;
        lab::Specimen specimen = hand::specimen();
        specimen.handling = hardlyMixed();
        const lab::Report report =
            lab::measure(real::bench(), real::animal(Kind::cat), truth, specimen, everything, 1);
        if (!says(report, "look at the film")) continue;
        ++clumped;
        CHECK(says(report, "feathered edge"));
        CHECK(report.find(Analyte::platelets)->flag == lab::Flag::low);
        CHECK_FALSE(says(report, "slowly"));
    }
    CHECK(clumped >= 5);
}

TEST_CASE("Swollen cells of old blood raise their size and the counted hematocrit", "[lab]") {
    lab::Handling day; // 24 h at room temperature: 5.6 to 9.3 %, Crawford 2008
    day.filmAfter = 24;
    const lab::Blood dog = real::blood(Kind::dog);
    const lab::Report fresh = measure(dog, everything),
                      report = measure(dog, everything, 1, {}, day);
    const double rise = report.find(Analyte::MCV)->value / fresh.find(Analyte::MCV)->value;
    CHECK(rise > 1.06);
    CHECK(rise < 1.09);
    CHECK(report.find(Analyte::PCV)->value > 1.04 * fresh.find(Analyte::PCV)->value);
    CHECK(report.find(Analyte::RBC)->value ==
          Approx(fresh.find(Analyte::RBC)->value).epsilon(0.01));
}

TEST_CASE("Faults of the machine reach the counts", "[lab]") {
    const lab::Blood dog = real::blood(Kind::dog);
    lab::Machine dirty, drifting;
    dirty.faults = {{lab::MachineFault::dirtyAperture, std::nullopt, 0.1}};
    drifting.faults = {{lab::MachineFault::drift, Analyte::WBC, 0.2}};
    const lab::Report sound = measure(dog, everything), bad = measure(dog, everything, 1, dirty),
                      off = measure(dog, everything, 1, drifting);
    CHECK(bad.find(Analyte::MCV)->value > 1.15 * sound.find(Analyte::MCV)->value);
    CHECK(bad.find(Analyte::RBC)->value < 0.97 * sound.find(Analyte::RBC)->value);
    CHECK(bad.find(Analyte::WBC)->value < sound.find(Analyte::WBC)->value);
    CHECK(bad.find(Analyte::Hb)->value == sound.find(Analyte::Hb)->value);
    CHECK(bad.find(Analyte::PCV)->value == sound.find(Analyte::PCV)->value);
    CHECK(off.find(Analyte::WBC)->value ==
          Approx(1.2 * sound.find(Analyte::WBC)->value).margin(0.1001));
    CHECK(off.find(Analyte::neutrophils)->value == sound.find(Analyte::neutrophils)->value);
    // The counter's hematocrit no longer fits spun volume and hemoglobin.
    CHECK(disagreements(sound).empty());
    CHECK(disagreements(bad).size() == 2);
}

TEST_CASE("Sound blood seldom disagrees with itself", "[lab]") {
    int falsely = 0;
    for (std::uint64_t i = 0; i < 500; ++i)
        falsely += !disagreements(measure(real::blood(Kind::dog), everything, i)).empty();
    CHECK(falsely <= 5); // three standard deviations: 0.3 % of 500, rounding apart
}
