// Charts of control materials, read on the hand-built bench as patients are.
#include "hand_bench.h"
#include "lab/analyzer.h"
#include "lab/control/chart.h"
#include "lab/control/state.h"
#include "lab/report.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <thread>

using namespace cistern;
using body::Analyte;
using lab::Rule;
using lab::Rules;

namespace {

lab::Bench guarded() {
    lab::Bench bench = hand::bench();
    bench.controls.materials = {{"Still Water", 0.5}, {"High Water", 2}};
    bench.tests.push_back({"control chart", {}, "", true});
    return bench;
}

lab::ChartPlan creatinine(std::uint64_t runs, std::uint64_t seed = 1) {
    lab::ChartPlan plan;
    plan.analyte = Analyte::creatinine;
    plan.runs = runs;
    plan.seed = seed;
    return plan;
}

lab::Machine drifting(double by) {
    return {{{lab::MachineFault::drift, Analyte::creatinine, by}}};
}

} // namespace

TEST_CASE("controls hold what the law gives them, clear of both ends of the range", "[lab]") {
    const lab::Bench bench = guarded();
    const auto& [middle, high] =
        std::pair(bench.controls.materials[0], bench.controls.materials[1]);
    // Dog 0.5 to 1.4 mg/dL: its middle, and one width above it.
    CHECK(lab::amount(bench, middle, Analyte::creatinine) / hand::creatininePerMg == Approx(0.95));
    CHECK(lab::amount(bench, high, Analyte::creatinine) / hand::creatininePerMg == Approx(2.3));
    // Bilirubin is measured from 1 umol/L on, with 0.5 umol/L of spread there: 4 of them above it.
    CHECK(lab::amount(bench, middle, Analyte::bilirubin) == Approx(3.0).margin(0.01));
    for (const lab::Method& method : bench.methods) {
        CHECK(lab::controlled(bench, method.analyte) != method.calculated);
        if (method.calculated || method.analyte == Analyte::USG)
            continue; // it has no interval here
        CHECK(lab::amount(bench, high, method.analyte) <= 0.8 * method.most * (1 + 1e-12));
        CHECK(lab::amount(bench, middle, method.analyte) >
              method.least + 3.9 * lab::spread(method, method.least));
    }
    CHECK_THROWS_AS(lab::amount(bench, high, Analyte::USG), std::out_of_range);
    CHECK_THROWS_AS(lab::chart(bench, {Analyte::globulin}), std::out_of_range);
}

TEST_CASE("controls are read as patients are: scores of sound runs have mean 0 and SD 1", "[lab]") {
    const lab::Chart chart = lab::chart(guarded(), creatinine(4000));
    for (std::size_t m = 0; m < 2; ++m) {
        double sum = 0, squares = 0;
        for (const lab::ControlRun& run : chart.runs) {
            sum += run.scores[m];
            squares += run.scores[m] * run.scores[m];
        }
        const double n = 4000, mean = sum / n;
        CHECK(std::abs(mean) < 4 / std::sqrt(n)); // four standard errors
        CHECK(std::abs(squares / n - mean * mean - 1) < 4 * std::sqrt(2 / n)); // of a variance
    }
}

TEST_CASE("a learning period gives nearly the mean and spread that the method states", "[lab]") {
    lab::ChartPlan plan = creatinine(2);
    const lab::Chart stated = lab::chart(guarded(), plan);
    plan.learning = 20; // runs, common practice
    const lab::Chart learned = lab::chart(guarded(), plan);
    for (std::size_t m = 0; m < 2; ++m) {
        const lab::Target a = stated.levels[m].target, b = learned.levels[m].target;
        CHECK(std::abs(b.mean - a.mean) < 4 * a.deviation / std::sqrt(20.0));
        CHECK(b.mean != a.mean);
        CHECK(std::abs(b.deviation / a.deviation - 1) < 4 / std::sqrt(2.0 * 19)); // of an SD
        CHECK(learned.runs[1].values == stated.runs[1].values);
    }
    CHECK(lab::learned({1, 2, 3}).mean == Approx(2));
    CHECK(lab::learned({1, 2, 3}).deviation == Approx(1));
    CHECK_THROWS_AS(lab::learned({1}), std::invalid_argument);
    CHECK_THROWS_AS(lab::learned({1, 1, 1}), std::invalid_argument);
}

TEST_CASE("the same seed gives the same chart on any thread, and a longer one begins with it",
          "[lab]") {
    const lab::Bench bench = guarded();
    const lab::Chart one = lab::chart(bench, creatinine(30, 9));
    lab::Chart other, longer;
    std::thread a([&] { other = lab::chart(bench, creatinine(30, 9)); });
    std::thread b([&] { longer = lab::chart(bench, creatinine(60, 9)); });
    a.join();
    b.join();
    for (std::size_t r = 0; r < 30; ++r) {
        CHECK(other.runs[r].values == one.runs[r].values);
        CHECK(other.runs[r].breaks == one.runs[r].breaks);
        CHECK(longer.runs[r].values == one.runs[r].values);
    }
    CHECK(lab::chart(bench, creatinine(30, 10)).runs[0].values != one.runs[0].values);
    lab::ChartPlan late = creatinine(20, 9); // runs keep their number on another chart
    late.first = 10;
    CHECK(lab::chart(bench, late).runs[0].values == one.runs[10].values);
}

TEST_CASE("a drift shows from its run on, and nowhere before it", "[lab]") {
    lab::ChartPlan plan = creatinine(30);
    const lab::Chart sound = lab::chart(guarded(), plan);
    plan.machine = drifting(0.2);
    plan.faultFrom = 24;
    const lab::Chart chart = lab::chart(guarded(), plan);
    for (std::size_t r = 0; r < 24; ++r) CHECK(chart.runs[r].values == sound.runs[r].values);
    for (std::size_t r = 24; r < 30; ++r)
        for (std::size_t m = 0; m < 2; ++m) {
            const double more = chart.runs[r].values[m] / sound.runs[r].values[m];
            CHECK(more > 1.15); // 20 % of the amount, less the repeat's own share of the reading
            CHECK(more < 1.25);
        }
    // Two runs of two controls beyond 1 SD: 4-1s from the second on.
    CHECK(chart.runs[25].broken.has(Rule::fourOne));
    CHECK(chart.runs[29].broken.has(Rule::twoTwo));
    CHECK(chart.runs[29].broken.has(Rule::ten));
    CHECK(chart.oneSided >= 6);
}

TEST_CASE("a report tells of the charts only where they are asked for", "[lab]") {
    const lab::Bench bench = guarded();
    const auto measure = [&](const std::vector<std::string>& tests, const lab::Machine& machine) {
        return lab::measure(bench, hand::dog(), hand::healthyLevels(), hand::specimen(), tests, 0,
                            machine);
    };
    CHECK_FALSE(measure({"chemistry"}, drifting(0.2)).controls);
    const lab::Report plain = measure({"chemistry"}, {});
    const lab::Report asked = measure({"chemistry", "control chart"}, {});
    REQUIRE(asked.controls);
    CHECK(asked.notRun.empty());
    REQUIRE(asked.results.size() == plain.results.size());
    for (std::size_t i = 0; i < plain.results.size(); ++i)
        CHECK(asked.results[i].value == plain.results[i].value); // asking changes no result
    const lab::ControlState& sound = *asked.controls;
    CHECK(sound.notes.size() + sound.warned.size() + sound.inControl == 9); // all but globulin

    const lab::Report drifted = measure({"chemistry", "control chart"}, drifting(0.2));
    REQUIRE(drifted.controls);
    const auto& notes = drifted.controls->notes;
    const auto note = std::find_if(notes.begin(), notes.end(), [](const lab::ControlNote& one) {
        return one.analyte == Analyte::creatinine;
    });
    REQUIRE(note != notes.end());
    CHECK(note->broken.has(Rule::fourOne));
    CHECK(note->oneSided >= bench.controls.faultFor);
    CHECK(note->side == 1);
    CHECK(note->since >= bench.controls.faultFor);
    // Creatinine alone has moved.
    const std::size_t before = static_cast<std::size_t>(
        std::count_if(sound.notes.begin(), sound.notes.end(), [](const lab::ControlNote& one) {
            return one.analyte != Analyte::creatinine;
        }));
    CHECK(notes.size() == before + 1);
}
