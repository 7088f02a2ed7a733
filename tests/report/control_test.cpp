// What a report tells of control charts, in words, JSON and CSV.
#include "report/control.h"
#include "report/csv.h"
#include "report/json.h"
#include "sample.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace lab = cistern::lab;
namespace report = cistern::report;
using Catch::Contains;
using cistern::body::Analyte;
using lab::Rule;

namespace {

lab::ControlState drifted() {
    lab::ControlNote note;
    note.analyte = Analyte::creatinine;
    for (const Rule rule : {Rule::warning, Rule::twoTwo, Rule::fourOne}) note.broken.add(rule);
    note.since = 6;
    note.oneSided = 6;
    note.side = 1;
    return {{note}, {Analyte::bileAcids}, 7, 20};
}

lab::Report watched() {
    lab::Report draw = sample::draw(1, 0, 1, 37, 3);
    draw.controls = drifted();
    return draw;
}

} // namespace

TEST_CASE("control sentences name what is out, since when, and count the others", "[report]") {
    CHECK(report::controlSentences(drifted()) ==
          std::vector<std::string>{
              "Controls of creatinine: out of control, 2-2s and 4-1s broken, since 6 runs; the "
              "last 6 runs all read above the mean.",
              "Controls of bile acids: a warning (1-2s), no more.",
              "Controls of the other 7 tests: in control."});
    CHECK(report::controlSentences({{}, {}, 9, 20}) ==
          std::vector<std::string>{"Controls of all 9 tests that have them: in control."});
    CHECK(report::controlSentences({{}, {}, 0, 20}) ==
          std::vector<std::string>{"Controls: none of these tests has any."});
}

TEST_CASE("a report in every form tells of its controls, and is silent without them", "[report]") {
    const lab::Bench bench = hand::bench();
    const auto text = [&](const lab::Report& draw) {
        return report::laboratoryReport(sample::bramble(), {draw}, bench, sample::within(),
                                        lab::Units::si);
    };
    const auto json = [&](const lab::Report& draw) {
        return nlohmann::json::parse(
                   report::resultsJson(sample::bramble(), {draw}, bench, lab::Units::si))
            .at("draws")
            .at(0);
    };
    const auto csv = [&](const lab::Report& draw) {
        return report::resultsCsv({draw}, bench, lab::Units::si);
    };
    CHECK_THAT(text(watched()), Contains("Controls of creatinine: out of control"));
    const auto controls = json(watched()).at("controls");
    CHECK(controls.at("rejected").at(0).at("analyte") == "creatinine");
    CHECK(controls.at("rejected").at(0).at("rules").size() == 3);
    CHECK(controls.at("warned").at(0) == "bile_acids");
    CHECK(controls.at("in_control") == 7);
    CHECK_THAT(csv(watched()), Contains("controls rejected 1-2s, 2-2s and 4-1s"));

    const lab::Report plain = sample::draw(1, 0, 1, 37, 3);
    CHECK_THAT(text(plain), !Contains("Controls of"));
    CHECK_FALSE(json(plain).contains("controls"));
    CHECK_THAT(csv(plain), !Contains("controls"));
}
