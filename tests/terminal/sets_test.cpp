// Sets in `cases` and `check`, and `check --variants`, as a process.
#include "program.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace cistern::test;
using Catch::Contains;

namespace {

std::string shippedCase(const std::string& name) {
    return textOf(CISTERN_SOURCE "/scenarios/" + name + ".yaml");
}

std::string replaced(const std::string& text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.substr(0, at) + to + text.substr(at + from.size());
}

} // namespace

TEST_CASE("cases lists the sets that came along after the cases", "[terminal]") {
    const Outcome outcome = program({"cases"});
    CHECK_THAT(outcome.out, Contains("\nset "));
    for (const auto& entry :
         std::filesystem::directory_iterator(CISTERN_SOURCE "/scenarios/sets")) {
        std::string row = "\n";
        row += entry.path().stem().string();
        CHECK_THAT(outcome.out, Contains(row));
    }
    const Outcome folder = program({"cases", CISTERN_SOURCE "/scenarios/sets"});
    CHECK(folder.code == 0);
    CHECK(folder.err == "");
}

TEST_CASE("check tells the figures of a set of one's own", "[terminal]") {
    const Folder folder;
    folder.with("mine.yaml", replaced(shippedCase("the_biscuit_thief"), "title: The biscuit thief",
                                      "title: Mine"));
    const std::string set = folder.with(
        "hour.yaml", "cistern set: 1\ntitle: One hour\nseats: 12\nminutes: 60\ncases:\n"
                     "  - {case: mine, weight: 2, minutes: 20}\n  - {case: the_sore_thigh}\n");
    const Outcome outcome = program({"check", set});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK_THAT(outcome.out, Contains("hour.yaml: ok: \"One hour\", a set of 2 cases, 12 seats"));
    CHECK_THAT(outcome.out, Contains("leads [fold]") && Contains("lost [%]"));
    CHECK_THAT(outcome.out, Contains("\nmine x2 ") && Contains("\nthe_sore_thigh "));
    CHECK_THAT(outcome.out, Contains("The set is "));
    CHECK(tooWide(outcome.out) == "");
}

TEST_CASE("check tells every fault of a set and of its cases", "[terminal]") {
    const Folder folder;
    const std::string faulty =
        folder.with("faulty.yaml", "cistern set: 1\nseats: 0\ncases: [{case: the_sore_thihg}]\n");
    const Outcome outcome = program({"check", faulty, "the_sore_thigh"});
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.out, Contains("the_sore_thigh: ok: "));
    CHECK_THAT(outcome.err, Contains("faulty.yaml:1:1") && Contains("title") &&
                                Contains("faulty.yaml:2:8") && Contains("faulty.yaml:3:") &&
                                Contains("'the_sore_thigh', the nearest case"));
    folder.with("mine.yaml", "cistern: 1\ntitle: [\n");
    const std::string set =
        folder.with("hour.yaml", "cistern set: 1\ntitle: One\ncases: [{case: mine}]\n");
    const Outcome broken = program({"check", set});
    CHECK(broken.code == 2);
    CHECK(broken.out == "");
    CHECK_THAT(broken.err, Contains("mine.yaml:"));
    const Outcome misspelt = program({"check", "leak_is_not_los"});
    CHECK(misspelt.code == 2);
    CHECK_THAT(misspelt.err, Contains("perhaps you mean \"leak_is_not_loss\""));
}

TEST_CASE("check tries variants of a case and tells how their marks spread", "[terminal]") {
    const Outcome outcome = program({"check", "the_sore_thigh", "--variants", "3"});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK_THAT(outcome.out, Contains("most [points]") && Contains("  ideal ") &&
                                Contains("  naive ") && Contains("  shrug "));
    CHECK_THAT(outcome.out, Contains("3 animals"));
    CHECK_THAT(outcome.out, Contains("Unanswerable: ") && Contains("Trivial: "));
    CHECK(tooWide(outcome.out) == "");
}

TEST_CASE("variants that cannot be are told by their seeds", "[terminal]") {
    const Folder folder;
    // A window that may end before it begins.
    const std::string text = shippedCase("the_biscuit_thief");
    const std::string path = folder.with("mine.yaml", text.substr(0, text.find("vary:")) +
                                                          "vary: {insults.0.from: -28 d..40 d}\n");
    const Outcome outcome = program({"check", path, "--variants", "4"});
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.err, Contains("With seed "));
    CHECK_THAT(outcome.out, Contains("cannot be at all"));
}

TEST_CASE("variants are refused where they make no sense", "[terminal]") {
    for (const char* number : {"0", "1001", "some"}) {
        refused(program({"check", "the_sore_thigh", "--variants", number}), "from 1 to 1000");
    }
    const Outcome set = program({"check", "leak_is_not_loss", "--variants", "3"});
    CHECK(set.code == 2);
    CHECK(set.out == "");
    CHECK_THAT(set.err, Contains("--variants") && Contains("not at a set"));
}
