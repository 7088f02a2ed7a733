// A script drives the desk as a person would, and says in one sentence what it cannot do.
#include "at_desk.h"

#include "base/fault.h"
#include "desk/script.h"

#include <catch2/catch.hpp>

#include <map>

using namespace cistern;
using namespace cistern::desk;

namespace {

std::map<std::string, std::string> played(AtDesk& at, const std::string& text) {
    std::map<std::string, std::string> shots;
    play(at.desk, readScript(text, "s"), "s",
         [&](const std::string& name, const std::string& png) { shots[name] = png; });
    return shots;
}

std::string faultsOf(const std::string& text) {
    try {
        readScript(text, "s");
    } catch (const base::InputError& error) {
        return error.what();
    }
    return "";
}

std::string stopOf(const std::string& text) {
    AtDesk at(PageName::shelf);
    try {
        played(at, text);
    } catch (const ScriptStopped& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("A script opens a case, turns pages and takes pictures", "[desk]") {
    AtDesk at(PageName::shelf);
    const auto shots = played(at, "# a comment\n\nopen no_smoke_from_the_chimney\nexpect Teasel\n"
                                  "page Report\nshot report\n");
    CHECK(at.desk.session().page() == PageName::report);
    REQUIRE(shots.count("report") == 1);
    CHECK(shots.at("report").substr(1, 3) == "PNG");
}

TEST_CASE("Every fault of a script is told with its place", "[desk]") {
    const std::string said = faultsOf("opne x\nsize 1280\nwait soon\nkey Fifth\n");
    CHECK(said.find("s:1:1") != std::string::npos);
    CHECK(said.find("open") != std::string::npos);
    CHECK(said.find("s:2:1") != std::string::npos);
    CHECK(said.find("s:3:6") != std::string::npos);
    CHECK(said.find("s:4:5") != std::string::npos);
    CHECK(faultsOf("open x 1.5\n").find("a whole number") != std::string::npos);
    CHECK(faultsOf("open x\n").empty());
}

TEST_CASE("A script stops where it cannot go on, and says where", "[desk]") {
    CHECK(stopOf("open no_such_case_at_all\n").starts_with("s:1: there is no case"));
    CHECK(stopOf("open all_leg\n").find("perhaps you mean \"all_legs\"") != std::string::npos);
    CHECK(stopOf("press nothing.here\n").starts_with("s:1: there is no \"nothing.here\""));
    CHECK(stopOf("page Cellar\n").find("there are Shelf, Bedside") != std::string::npos);
    CHECK(stopOf("\npage Report\n") == "s:2: Choose a case on the shelf first.");
    CHECK(stopOf("expect a word that nobody wrote\n").find("does not stand") != std::string::npos);
    CHECK(stopOf("write open 3\n").find("is no line of text") != std::string::npos);
}

TEST_CASE("Time passes in a script, and drops fall in its pictures", "[desk]") {
    AtDesk at(PageName::shelf);
    const auto shots = played(at, "page Counter\nshot before\nwait 2\nshot after\n");
    CHECK(shots.at("before") != shots.at("after"));
}
