// `vessel`, as a process.
#include "base/file.h"
#include "program.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace cistern;
using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

TEST_CASE("vessel draws the organ that lies furthest from health", "[terminal]") {
    const Outcome outcome = program({"vessel", "no_smoke_from_the_chimney"});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK_THAT(outcome.out, StartsWith("<?xml") && Contains("<svg"));
    // A liver of which an eighth is left makes no more ALT than in health.
    for (const char* text :
         {"No smoke from the chimney: the liver opened", "ALT 70 U/L", "ALT 76 U/L", "13 %",
          "100 %", "× 4.8", "below the upper limit", "as it was before anything happened",
          "spent and quiet", "Not for diagnosing or treating"})
        CHECK_THAT(outcome.out, Contains(text));
}

TEST_CASE("vessel draws another organ, animal or unit if asked to", "[terminal]") {
    const Outcome ducts = program({"vessel", "the_biscuit_thief", "--organ", "bile ducts"});
    CHECK(ducts.code == 0);
    CHECK_THAT(ducts.out, Contains("the bile ducts opened") && Contains("GGT 12 U/L"));
    const Outcome usual = program({"vessel", "the_biscuit_thief"});
    CHECK(program({"vessel", "the_biscuit_thief"}).out == usual.out);
    CHECK(program({"vessel", "the_biscuit_thief", "--seed", "5"}).out != usual.out);
}

TEST_CASE("every shipped case has a vessel, or is told in a sentence why not", "[terminal]") {
    int drawn = 0;
    for (const std::string& path : base::Disk().list(CISTERN_SOURCE "/scenarios", ".yaml")) {
        INFO(path);
        const Outcome outcome = program({"vessel", path});
        if (outcome.code == 0) {
            ++drawn;
            CHECK_THAT(outcome.out, Contains("</svg>") && Contains("<desc"));
        } else {
            refused(outcome, "asks about leaks what the laboratory measures in blood");
        }
    }
    CHECK(drawn > 30);
}

TEST_CASE("vessel writes a picture whole or not at all", "[terminal]") {
    const std::string folder = std::filesystem::temp_directory_path() / "cistern_vessel_test";
    std::filesystem::create_directories(folder);
    for (const char* name : {"a.svg", "a.png"}) {
        const std::string path = folder + "/" + name;
        const Outcome outcome = program({"vessel", "the_biscuit_thief", "--out", path});
        CHECK(outcome.code == 0);
        CHECK(outcome.out == "");
        CHECK_THAT(outcome.err, Contains("is written"));
        const std::string bytes = base::Disk().read(path);
        CHECK_THAT(bytes, Contains(std::string(name) == "a.png" ? "PNG" : "</svg>"));
    }
    std::filesystem::remove_all(folder);
    refused(program({"vessel", "the_biscuit_thief", "--out", folder + "/a.gif"}),
            "ends in .svg or .png");
    CHECK_FALSE(std::filesystem::exists(folder));
}

TEST_CASE("vessel refuses what it cannot draw", "[terminal]") {
    refused(program({"vessel"}), "FILE is missing");
    refused(program({"vessel", "the_biscuit_thife"}), "perhaps you mean \"the_biscuit_thief\"");
    refused(program({"vessel", "the_biscuit_thief", "--organ", "lung"}),
            "allowed: liver or bile ducts");
    refused(program({"vessel", "the_biscuit_thief", "--units", "imperial"}), "--units");
    refused(program({"vessel", "the_biscuit_thief", "--seed", "-1"}), "--seed");
}
