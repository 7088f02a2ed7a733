// What a sheet tells of its own results.
#include "hand_question.h"
#include "reader/passage.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace hand;

namespace {

body::Snapshot healthyDog() {
    return body::simulate(planOf(body::median(known().dog, adult(Kind::dog)), {}, {0})).at(0);
}

lab::Report measured(const body::Snapshot& truth, const std::vector<std::string>& tests,
                     const lab::Machine& machine = {}, const lab::Handling& handling = {}) {
    return lab::measure(known().bench, body::median(known().dog, adult(Kind::dog)), truth,
                        {"", 0, handling, {}}, tests, 1, machine);
}

double& level(body::Snapshot& truth, Analyte analyte) {
    return truth.value[static_cast<std::size_t>(body::reading::analyte) +
                       static_cast<std::size_t>(analyte)];
}

reader::Reading readingOf(const lab::Report& report, Analyte analyte) {
    return reader::readingOf(report, *report.find(analyte), known().bench);
}

} // namespace

TEST_CASE("What follows from others of its sheet is left out", "[reader]") {
    const lab::Report all = measured(healthyDog(), {"chemistry", "blood count"});
    for (const Analyte analyte : {Analyte::globulin, Analyte::anionGap, Analyte::Hct, Analyte::MCH,
                                  Analyte::MCHC, Analyte::WBC}) {
        INFO(body::name(analyte));
        REQUIRE(all.find(analyte));
        CHECK(reader::follows(all, analyte, known().bench));
    }
    CHECK_FALSE(reader::follows(all, Analyte::protein, known().bench));
    lab::Report lone;
    lone.results.push_back(*all.find(Analyte::globulin));
    CHECK_FALSE(reader::follows(lone, Analyte::globulin, known().bench));
}

TEST_CASE("A sound result is taken for what it is", "[reader]") {
    const lab::Report report = measured(healthyDog(), {"chemistry"});
    for (const lab::Result& result : report.results) {
        if (result.bound != lab::Bound::exact || !(result.value > 0)) continue;
        const reader::Reading reading = reader::readingOf(report, result, known().bench);
        INFO(body::name(result.analyte));
        CHECK_FALSE(reading.doubtful);
        // Clear serum colors no result by more than the analyzer's own doubt.
        CHECK(std::abs(reading.held - result.value) < result.halfWidth + 1e-12);
    }
}

TEST_CASE("A bent trace that nobody checked says no more than \"at least\"", "[reader]") {
    body::Snapshot truth = healthyDog();
    level(truth, Analyte::ALT) = 20000;
    lab::Machine unchecked;
    unchecked.linearityCheck = false;
    const reader::Reading blind =
        readingOf(measured(truth, {"chemistry"}, unchecked), Analyte::ALT);
    CHECK(blind.doubtful);
    CHECK(blind.bound == lab::Bound::above);
    CHECK(blind.held < 20000);
    const reader::Reading sound = readingOf(measured(truth, {"chemistry"}), Analyte::ALT);
    CHECK_FALSE(sound.doubtful); // beyond what thinning reaches: a limit all the same
    CHECK(sound.bound == lab::Bound::above);
    CHECK(sound.held ==
          known().bench.method(Analyte::ALT).most * known().bench.method(Analyte::ALT).dilution);
    level(truth, Analyte::ALT) = 5000;
    const reader::Reading thinned = readingOf(measured(truth, {"chemistry"}), Analyte::ALT);
    CHECK(thinned.bound == lab::Bound::exact);
    // Within three of its deviations, and of its day's wobble, 15 %.
    CHECK(thinned.held == Approx(5000).epsilon(3 * std::hypot(0.15, thinned.deviation / 5000)));
}

TEST_CASE("A result whose controls are out of control is off by a quarter", "[reader]") {
    lab::Machine drifting;
    drifting.faults.push_back({lab::MachineFault::drift, Analyte::creatinine, 0.3});
    const lab::Report report = measured(healthyDog(), {"chemistry", "control chart"}, drifting);
    REQUIRE(report.controls);
    const reader::Reading reading = readingOf(report, Analyte::creatinine);
    CHECK(reading.doubtful);
    CHECK(reading.deviation > 0.25 * report.find(Analyte::creatinine)->value);
    CHECK_FALSE(readingOf(report, Analyte::urea).doubtful);
}

TEST_CASE("Clumped platelets and cells in a clot are at least so many", "[reader]") {
    lab::Handling unmixed;
    unmixed.tubes.push_back(lab::usualTube("edta"));
    unmixed.tubes[0].inversions = 0; // always clots, see needle.cpp
    const lab::Report report =
        measured(healthyDog(), {"chemistry", "blood count", "film"}, {}, unmixed);
    for (const Analyte analyte : {Analyte::platelets, Analyte::neutrophils}) {
        const reader::Reading reading = readingOf(report, analyte);
        CHECK(reading.doubtful);
        CHECK(reading.bound == lab::Bound::above);
    }
    CHECK_FALSE(readingOf(report, Analyte::ALT).doubtful);
}

TEST_CASE("An icteric serum's interference is taken off by the printed index", "[reader]") {
    body::Snapshot truth = healthyDog();
    level(truth, Analyte::bilirubin) = 300;
    // Means over runs: one result scatters by the analyzer and the day.
    double printed = 0, held = 0;
    constexpr int runs = 40;
    for (int i = 0; i < runs; ++i) {
        body::Signalment who = adult(Kind::dog);
        who.seed = static_cast<std::uint64_t>(i);
        const lab::Report report = lab::measure(known().bench, body::median(known().dog, who),
                                                truth, {"", 0, {}, {}}, {"chemistry"}, 1);
        printed += report.find(Analyte::creatinine)->value / runs;
        held += readingOf(report, Analyte::creatinine).held / runs;
    }
    const double real = level(truth, Analyte::creatinine);
    CHECK(std::abs(held - real) < std::abs(printed - real));
    // Day 10 % or less and analyzer 3 %, over forty runs: four errors of the mean.
    CHECK(held == Approx(real).epsilon(4 * 0.105 / std::sqrt(runs)));
}

TEST_CASE("Red serum speaks for the slip that breaks cells", "[reader]") {
    const auto passage = [](double hemolysis) {
        reader::Question question;
        question.who = adult(Kind::dog);
        question.samples.resize(1);
        question.samples[0].handedIn = true;
        question.samples[0].report.specimen.seen.hemolysis = hemolysis;
        const reader::Passage one(question, 0, known().bench, known().dog, {{0}, {}, {}, false});
        return std::pair{one.logIndex(lab::cleanHemolysis), one.logIndex(3)};
    };
    const auto [clearUsual, clearShaken] = passage(0.05);
    const auto [redUsual, redShaken] = passage(3);
    CHECK(clearUsual - clearShaken > 5);
    CHECK(redShaken - redUsual > 3);
}
