// `run`, as a process.
#include "program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace cistern::test;
using Catch::Contains;

namespace {

Outcome run(std::vector<std::string> options) {
    options.insert(options.begin(), {"run", "the_biscuit_thief"});
    return program(options);
}

/// The seed that the case itself states.
std::string ownSeed() {
    const std::string text = textOf(CISTERN_SOURCE "/scenarios/the_biscuit_thief.yaml");
    const auto at = text.find("seed: ") + 6;
    return text.substr(at, text.find('\n', at) - at);
}

/// Wrong use: nothing on stdout, exit code 2.
void refuses(const std::vector<std::string>& options, const std::string& words) {
    refused(run(options), words);
}

} // namespace

TEST_CASE("run prints a report of 80 columns for every shipped case", "[terminal]") {
    for (const std::string& name : shipped()) {
        const Outcome outcome = program({"run", name});
        INFO(name);
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        // A case may ask for no chemistry: any result with its flags explained will do.
        CHECK_THAT(outcome.out, Contains("Draw 1 at") && Contains("H above, L below"));
        CHECK_THAT(outcome.out, Contains("Not for diagnosing or treating."));
        CHECK(tooWide(outcome.out) == "");
    }
}

TEST_CASE("one seed gives one report, another seed another", "[terminal]") {
    const Outcome own = run({});
    CHECK(run({}).out == own.out);
    CHECK(run({"--seed", ownSeed()}).out == own.out);
    CHECK(run({"--seed", "90210"}).out != own.out);
    CHECK(run({"--seed", "0"}).code == 0);
    CHECK(run({"--seed", "9007199254740991"}).code == 0);
    refuses({"--seed", "-1"}, "is not a whole number");
    refuses({"--seed", "9007199254740992"}, "is not a whole number");
    refuses({"--seed", "1.5"}, "is not a whole number");
    refuses({"--seed", ""}, "--seed is empty");
}

TEST_CASE("the csv of run holds each result with its unit", "[terminal]") {
    const Outcome outcome = run({"--format", "csv"});
    CHECK(outcome.code == 0);
    const auto rows = csv(outcome.out);
    REQUIRE(rows.size() > 10);
    CHECK(rows[0][0] == "time[h]");
    for (const auto& row : rows) CHECK(row.size() == rows[0].size());
    CHECK(rows[1][0] == "0");
    CHECK(rows[1][2] == "ALT");
    CHECK(std::stod(rows[1][3]) > 0);
    CHECK(rows[1][5] == "U/L");
}

TEST_CASE("the json of run is JSON and says the same as the csv", "[terminal]") {
    const Outcome outcome = run({"--format", "json"});
    CHECK(outcome.code == 0);
    const auto json = nlohmann::json::parse(outcome.out);
    const auto rows = csv(run({"--format", "csv"}).out);
    const auto& results = json.at("draws").at(0).at("results");
    REQUIRE(results.size() + 1 == rows.size());
    for (std::size_t i = 0; i < results.size(); ++i) {
        CHECK(results[i].at("analyte") == rows[i + 1][2]);
        CHECK(results[i].at("value") == std::stod(rows[i + 1][3]));
    }
    CHECK(json.at("patient").at("seed") == std::stoull(ownSeed()));
}

TEST_CASE("units can be chosen and other words are refused", "[terminal]") {
    CHECK_THAT(run({"--units", "si", "--format", "csv"}).out,
               Contains("creatinine,") && Contains("umol/L"));
    CHECK_THAT(run({"--units", "conventional"}).out, Contains("mg/dL"));
    CHECK(run({"--units", "conventional"}).out == run({}).out);
    refuses({"--units", "SI-ish"}, "allowed: conventional or si");
    refuses({"--units", "convetional"}, "perhaps you mean \"conventional\"");
}

TEST_CASE("formats that are not offered are refused in plain words", "[terminal]") {
    refuses({"--format", "xml"}, "allowed: text, csv, json or fhir");
    refuses({"--format", "fihr"}, "perhaps you mean \"fhir\"");
    refuses({"--format", "jsn"}, "perhaps you mean \"json\"");
}

TEST_CASE("run draws at other times, however they are written", "[terminal]") {
    const auto rows = csv(run({"--at", "-36h", "--at", "2 d", "--format", "csv"}).out);
    REQUIRE(rows.size() > 3);
    CHECK(rows[1][0] == "-36");
    CHECK(rows.back()[0] == "48");
    CHECK(run({"--at", "-36h", "2d"}).out == run({"--at", "2 d", "--at", "-1.5 d"}).out);
    CHECK(run({"--at", "0h"}).out == run({}).out); // the case's own draw, and its own noise
    CHECK(run({"--at", "0h", "--at", "0 d"}).out == run({}).out);
}

TEST_CASE("times without sense are refused", "[terminal]") {
    refuses({"--at", "14"}, "has no unit");
    refuses({"--at", "soon"}, "is not a time");
    refuses({"--at", "3 kg"}, "is not a unit of time");
    refuses({"--at", "nan h"}, "is not a time");
    refuses({"--at", "-8 y"}, "before Bodkin was born");
    refuses({"--at", "5000 y"}, "longer than a hundred years");
}

TEST_CASE("a report never names what is going on", "[terminal]") {
    for (const std::string& name : shipped()) {
        const std::string text = program({"run", name}).out;
        for (const char* word :
             {"steroid", "necrosis", "fibrosis", "obstruction", "injury", "shunt", "diagnosis"})
            CHECK(text.find(word) == std::string::npos);
    }
}

TEST_CASE("run shows what the photometer saw of one result", "[terminal]") {
    const Outcome chart = program({"run", "too_much_to_see", "--trace", "ALT"});
    CHECK(chart.code == 0);
    CHECK(chart.out.starts_with("Trace of ALT, specimen "));
    CHECK(program({"run", "too_much_to_see", "--trace", "Na"}).out ==
          "Na is not read from a color over time: there is no trace.\n");
    const Outcome rows = program({"run", "too_much_to_see", "--trace", "ALT", "--format", "csv"});
    CHECK(csv(rows.out).size() > 20);
    for (const auto& [arguments, words] :
         {std::pair<std::vector<std::string>, std::string>{{"--trace", "ATL"}, "ALT"},
          {{"--trace", "ALT,CK"}, "one analyte at a time"},
          {{"--trace", "ALT", "--format", "json"}, "text or csv"}}) {
        std::vector<std::string> all{"run", "too_much_to_see"};
        all.insert(all.end(), arguments.begin(), arguments.end());
        refused(program(all), words);
    }
}
