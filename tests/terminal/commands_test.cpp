// The program as a whole: no command, help, version, and every wrong way to call it.
#include "program.h"
#include "terminal/commands.h"

#include <catch2/catch.hpp>

using namespace cistern;
using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

namespace {

/// Wrong use: nothing on stdout, one sentence on stderr, exit code 2.
void refuses(const std::vector<std::string>& arguments, const std::string& words) {
    refused(program(arguments), words);
}

} // namespace

TEST_CASE("with no command the program says what it is and lists the cases", "[terminal]") {
    const Outcome outcome = program({});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK_THAT(outcome.out, StartsWith("Cistern is a teaching simulator"));
    for (const std::string& name : shipped()) CHECK_THAT(outcome.out, Contains(name));
    CHECK_THAT(outcome.out, Contains("cistern play ") && Contains("cistern --help"));
    CHECK_THAT(outcome.out, Contains("Invented animal, for teaching."));
    CHECK(tooWide(outcome.out) == "");
}

TEST_CASE("help is there for the program and for every command", "[terminal]") {
    const Outcome all = program({"--help"});
    CHECK(all.code == 0);
    CHECK(all.err == "");
    CHECK(tooWide(all.out) == "");
    for (const terminal::Command& command : terminal::commands()) {
        const std::string name(command.name);
        CHECK_THAT(all.out, Contains("  " + name + " "));
        const Outcome one = program({name, "--help"});
        INFO(name);
        CHECK(one.code == 0);
        CHECK(one.err == "");
        CHECK_THAT(one.out, StartsWith("Usage: cistern " + name));
        CHECK_THAT(one.out, Contains("--help"));
        CHECK(tooWide(one.out) == "");
        CHECK(program({"help", name}).out == one.out);
    }
}

TEST_CASE("the version stands alone", "[terminal]") {
    const Outcome outcome = program({"--version"});
    CHECK(outcome.code == 0);
    CHECK_THAT(outcome.out, Catch::Matches("cistern [0-9]+\\.[0-9]+\\.[0-9]+\n"));
    refuses({"--version", "run"}, "stands alone");
}

TEST_CASE("an unknown command is refused with the nearest known one", "[terminal]") {
    refuses({"corse"}, "perhaps you mean \"course\"");
    refuses({"paly", "x"}, "perhaps you mean \"play\"");
    refuses({"frobnicate"}, "the commands are cases, check, play");
    refuses({""}, "There is no command");
}

TEST_CASE("an unknown option is refused with the nearest known one", "[terminal]") {
    refuses({"run", "the_biscuit_thief", "--sed", "3"}, "perhaps you mean \"--seed\"");
    refuses({"run", "the_biscuit_thief", "--formt=csv"}, "perhaps you mean \"--format\"");
    refuses({"course", "the_biscuit_thief", "--frobnicate"}, "the options are --help, --every");
    refuses({"--hlep"}, "perhaps you mean \"--help\"");
}

TEST_CASE("arguments that are missing, repeated or too many are refused", "[terminal]") {
    refuses({"run"}, "FILE is missing");
    refuses({"check"}, "FILE is missing");
    refuses({"herd"}, "SPECIES is missing");
    refuses({"run", ""}, "FILE is empty");
    refuses({"run", "a", "b"}, "one too many");
    refuses({"run", "the_biscuit_thief", "--seed"}, "--seed needs a value");
    refuses({"run", "the_biscuit_thief", "--seed", "1", "--seed", "2"}, "may be given once");
}

TEST_CASE("a missing data folder is told in one sentence, exit code 1", "[terminal]") {
    const Environment nowhere = {{"CISTERN_DATA", "/nowhere/at/all"}};
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{}, {"run", "the_biscuit_thief"}, {"herd", "dog"}, {"sources"}}) {
        const Outcome outcome = program(arguments, "", nowhere);
        CHECK(outcome.code == 1);
        CHECK(outcome.out == "");
        CHECK_THAT(outcome.err, Contains("/nowhere/at/all"));
        CHECK(lines(outcome.err).size() == 1);
    }
    CHECK(program({"--help"}, "", nowhere).code == 0);
    CHECK(program({"run", "the_biscuit_thief"}, "", {{"CISTERN_DATA", CISTERN_SOURCE}}).code == 0);
}

TEST_CASE("a full disk behind standard output is told, exit code 1", "[terminal]") {
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{"--help"}, {"cases"}, {"course", "the_biscuit_thief"}}) {
        const Outcome outcome = programInto("/dev/full", arguments);
        CHECK(outcome.code == 1);
        CHECK_THAT(outcome.err, Contains("could not be written"));
    }
}

TEST_CASE("nothing but text goes out where there is no terminal", "[terminal]") {
    // No terminal here: neither TERM nor NO_COLOR may bring escape sequences in.
    for (const Environment& environment :
         {Environment{{"TERM", "xterm"}}, Environment{{"TERM", "dumb"}},
          Environment{{"TERM", "xterm"}, {"NO_COLOR", "1"}}}) {
        const Outcome outcome = program({"play", "the_biscuit_thief"}, "", environment);
        CHECK(outcome.code == 0);
        CHECK(outcome.out.find('\x1b') == std::string::npos);
    }
}
