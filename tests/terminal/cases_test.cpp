// `cases` and `check`, as a process.
#include "program.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

TEST_CASE("cases lists every shipped case in a table of 80 columns", "[terminal]") {
    const Outcome outcome = program({"cases"});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK_THAT(outcome.out, StartsWith("case"));
    for (const std::string& name : shipped()) CHECK_THAT(outcome.out, Contains("\n" + name + " "));
    CHECK(tooWide(outcome.out) == "");
}

TEST_CASE("cases lists a folder of one's own, sound cases first and faults on stderr",
          "[terminal]") {
    const Folder folder;
    folder.with("mine.yaml", textOf(CISTERN_SOURCE "/scenarios/the_biscuit_thief.yaml"));
    CHECK(program({"cases", folder.path("")}).code == 0);
    folder.with("broken.yaml", "cistern: 1\ntitle: [\n");
    const Outcome outcome = program({"cases", folder.path("")});
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.out, Contains("mine"));
    CHECK_THAT(outcome.err, Contains("broken.yaml:"));
}

TEST_CASE("cases of a folder without any is wrong input", "[terminal]") {
    const Folder folder;
    for (const std::string& path : {folder.path(""), folder.path("not_there")}) {
        const Outcome outcome = program({"cases", path});
        CHECK(outcome.code == 2);
        CHECK(outcome.out == "");
        CHECK_THAT(outcome.err, Contains("There are no cases"));
    }
}

TEST_CASE("every shipped case passes check", "[terminal]") {
    std::vector<std::string> arguments = {"check"};
    for (const std::string& name : shipped()) arguments.push_back(name);
    const Outcome outcome = program(arguments);
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    for (const std::string& name : shipped()) CHECK_THAT(outcome.out, Contains(name + ": ok: "));
    CHECK(tooWide(outcome.out) == "");
}

TEST_CASE("check tells the author what is true and what the marks go by", "[terminal]") {
    const Outcome outcome = program({"check", "the_biscuit_thief"});
    CHECK_THAT(outcome.out, Contains("leak [fold]") && Contains("work [%]"));
    CHECK_THAT(outcome.out, Contains("bile ducts"));
    CHECK_THAT(outcome.out, Contains("True explanation: steroid tablets effect."));
    CHECK_THAT(outcome.out, Contains("Flagged at draw 1: "));
}

TEST_CASE("check tells all faults of all files and still checks the rest", "[terminal]") {
    const Folder folder;
    std::string text = textOf(CISTERN_SOURCE "/scenarios/the_biscuit_thief.yaml");
    const auto swap = [&](const std::string& from, const std::string& to) {
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
    };
    swap("species: dog", "species: dgo");
    swap("weight: 24 kg", "weight: 24");
    const std::string path = folder.with("broken.yaml", text);
    const Outcome outcome = program({"check", path, folder.path("absent.yaml"), "the_sore_thigh"});
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.out, Contains("the_sore_thigh: ok: "));
    const auto place = [&](const std::string& part) {
        const auto before = text.substr(0, text.find(part));
        return path + ":" + std::to_string(std::count(before.begin(), before.end(), '\n') + 1) +
               ":";
    };
    CHECK_THAT(outcome.err, Contains(place("dgo")) && Contains("\"dgo\"") && Contains("dog"));
    CHECK_THAT(outcome.err, Contains(place("weight: 24")) && Contains("has no unit"));
    CHECK_THAT(outcome.err, Contains("absent.yaml"));
}

TEST_CASE("a misspelt case name is answered with the nearest one", "[terminal]") {
    for (const char* command : {"check", "run", "play", "course"}) {
        const Outcome outcome = program({command, "the_biscit_thief"});
        CHECK(outcome.code == 2);
        CHECK(outcome.out == "");
        CHECK_THAT(outcome.err, Contains("perhaps you mean \"the_biscuit_thief\""));
    }
}

TEST_CASE("a file that is not text, a folder and an empty file are wrong input", "[terminal]") {
    const Folder folder;
    for (const std::string& path : {folder.with("noise.yaml", std::string("\xff\xfe\x00\x01", 4)),
                                    folder.with("empty.yaml", ""), folder.path("")}) {
        for (const char* command : {"check", "run", "play", "course"}) {
            const Outcome outcome = program({command, path});
            INFO(command << " " << path);
            CHECK(outcome.code == 2);
            CHECK(outcome.out == "");
            CHECK_THAT(outcome.err, Contains(path));
        }
    }
}
