// `weigh`, as a process.
#include "program.h"
#include "terminal/progress.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <sstream>

using namespace cistern;
using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

namespace {

/// A weighing as JSON, without the time it took.
nlohmann::json weighed(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "weigh");
    arguments.insert(arguments.end(), {"--format", "json"});
    const Outcome outcome = program(arguments);
    REQUIRE(outcome.code == 0);
    CHECK(outcome.err == "");
    nlohmann::json json = nlohmann::json::parse(outcome.out);
    CHECK(json.at("seconds").get<double>() > 0);
    json.erase("seconds");
    return json;
}

} // namespace

TEST_CASE("weigh tells in sentences first, then in tables of 80 columns", "[terminal]") {
    const Outcome outcome = program({"weigh", "no_smoke_from_the_chimney", "--animals", "10000"});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK_THAT(outcome.out, StartsWith("Of "));
    CHECK_THAT(outcome.out, Contains("stories that may lie behind Teasel"));
    CHECK_THAT(outcome.out, Contains("effective stories"));
    CHECK_THAT(outcome.out, Contains("before [%]") && Contains("error [%]"));
    CHECK_THAT(outcome.out, Contains("work [%]") && Contains("leak [fold]"));
    CHECK_THAT(outcome.out, Contains("What moved the reader most") && Contains("[bits]"));
    CHECK_THAT(outcome.out, Contains("What would tell more") && Contains("bits per cost"));
    CHECK_THAT(outcome.out, Contains("Invented animal, for teaching."));
    CHECK(tooWide(outcome.out) == "");
}

TEST_CASE("weigh as JSON holds weights that add up to 1, and organs in their order of size",
          "[terminal]") {
    const auto json = weighed({"the_closed_gate", "--animals", "10000"});
    CHECK(json.at("animals") == 10000);
    CHECK(json.at("effective").get<double>() >= 1);
    CHECK(json.at("effective").get<double>() <= json.at("stories").get<double>());
    double sum = 0, before = 2;
    for (const auto& one : json.at("explanations")) {
        const double weight = one.at("weight").get<double>();
        CHECK(weight >= 0);
        CHECK(weight <= before);
        before = weight;
        sum += weight;
    }
    CHECK(std::abs(sum - 1) < 1e-9);
    CHECK(json.at("explanations").size() == 6);
    for (const char* organ : {"liver", "bile ducts"})
        for (const char* what : {"work", "leak"}) {
            const auto& points = json.at("organs").at(organ).at(what);
            INFO(organ << " " << what);
            CHECK(points.at("low").get<double>() <= points.at("median").get<double>());
            CHECK(points.at("median").get<double>() <= points.at("high").get<double>());
            CHECK(points.at("low").get<double>() >= 0);
        }
    for (const auto& one : json.at("next")) {
        CHECK(one.at("bits").get<double>() >= 0);
        CHECK(one.at("cost").get<double>() >= 0);
        CHECK_FALSE(one.at("test").get<std::string>().empty());
    }
    CHECK_FALSE(json.at("next").empty());
}

TEST_CASE("one ensemble seed gives one weighing, another a slightly different one", "[terminal]") {
    const std::vector<std::string> small{"the_sore_thigh", "--animals", "2000"};
    const auto first = weighed(small);
    CHECK(weighed(small) == first);
    std::vector<std::string> other = small;
    other.insert(other.end(), {"--seed", "2"});
    CHECK(weighed(other) != first);
}

TEST_CASE("weigh refuses what it cannot weigh, in one sentence", "[terminal]") {
    const std::string name = "the_sore_thigh";
    refused(program({"weigh"}), "FILE is missing");
    refused(program({"weigh", "the_sore_thihg"}), "perhaps you mean \"the_sore_thigh\"");
    for (const char* animals : {"999", "1000001", "many", "-5", "1e5", "1.5"})
        refused(program({"weigh", name, "--animals", animals}), "from 1000 to 1000000");
    refused(program({"weigh", name, "--seed", "-1"}), "--seed");
    refused(program({"weigh", name, "--format", "csv"}), "allowed: text or json");
    refused(program({"weigh", name, "--units", "imperial"}), "--units");
    refused(program({"weigh", name, "--animlas", "1000"}), "perhaps you mean \"--animals\"");
    const Outcome set = program({"weigh", CISTERN_SOURCE "/scenarios/sets/leak_is_not_loss.yaml"});
    CHECK(set.code == 2);
    CHECK(set.out == "");
    CHECK_THAT(set.err, Contains("a set of cases"));
}

TEST_CASE("a line of progress is written over, cleared, and kept from those who do not watch",
          "[terminal]") {
    std::istringstream in;
    std::ostringstream out, err;
    base::Disk disk;
    terminal::World world{in, out, err, disk, {}};
    {
        terminal::Progress unseen(world);
        unseen.show(0.5, "half");
    }
    CHECK(err.str() == "");
    world.progress = true;
    {
        terminal::Progress progress(world);
        progress.show(0.25, "a quarter of it");
        CHECK(err.str() == "\r[#####...............]  25 %  a quarter of it");
        progress.show(1, "all");
        progress.show(1, std::string(40, 'a') + " " + std::string(60, 'b'));
    }
    std::istringstream shown(err.str());
    std::string last;
    for (std::string one; std::getline(shown, one, '\r');) {
        CHECK(one.size() < 80);
        if (!one.empty()) last = one;
    }
    CHECK(last.find_first_not_of(' ') == std::string::npos); // the line is left empty
    CHECK(out.str() == "");
}
