// The command line of the desk: good, odd and bad input, one sentence and the right exit code.
#include "at_desk.h"
#include "desk/command.h"

#include <catch2/catch.hpp>

#include <map>
#include <sstream>

using namespace cistern;
using namespace cistern::desk;

namespace {

/// The disk for what the program ships with, and a few files of a test's own.
class SomeFiles : public base::Disk {
public:
    std::map<std::string, std::string> mine, written;
    bool full = false;
    std::string read(const std::string& path, std::size_t limit = 1u << 20) const override {
        const auto at = mine.find(path);
        return at != mine.end() ? at->second : base::Disk::read(path, limit);
    }
    void write(const std::string& path, const std::string& text) override {
        if (full) throw std::runtime_error("The disk is full.");
        written[path] = text;
    }
};

struct Ran {
    int code;
    std::string out, err;
    std::map<std::string, std::string> written;
    int windows = 0, frames = -1, kept = 0; ///< kept: asked where to keep
};

Ran run(const std::vector<std::string>& arguments, const std::string& script = "",
        bool display = false, bool full = false) {
    SomeFiles files;
    files.mine["s.desk"] = script;
    files.full = full;
    std::ostringstream out, err;
    Ran ran{};
    Surroundings around{{&files, {CISTERN_SOURCE}, "", ""},
                        out,
                        err,
                        display,
                        [&](Outside&) { ++ran.kept; },
                        [&](Desk&, int frames, bool) {
                            ++ran.windows;
                            ran.frames = frames;
                        }};
    ran.code = runDesk(arguments, around);
    ran.out = out.str();
    ran.err = err.str();
    ran.written = files.written;
    return ran;
}

} // namespace

TEST_CASE("the desk tells how it is used, and its version", "[desk]") {
    const Ran help = run({"--help"});
    CHECK(help.code == 0);
    CHECK(help.out.find("--script FILE") != std::string::npos);
    CHECK(help.out.find("Not for diagnosing or treating.") != std::string::npos);
    CHECK(help.err.empty());
    CHECK(help.kept == 0);
    CHECK(run({"--version"}).out.starts_with("cistern-desk "));
}

TEST_CASE("without a display the desk says so plainly", "[desk]") {
    const Ran ran = run({});
    CHECK(ran.code == 1);
    CHECK(ran.err == "cistern-desk: There is no display here, so no window can be opened; "
                     "\"cistern play\" works a case at the prompt.\n");
    CHECK(ran.windows == 0);
}

TEST_CASE("with a display a window is shown, with the case that is named", "[desk]") {
    CHECK(run({}, "", true).windows == 1);
    CHECK(run({}, "", true).kept == 1);
    CHECK(run({"all_legs", "--frames", "3"}, "", true).frames == 3);
    const Ran near = run({"all_leg"}, "", true);
    CHECK(near.code == 2);
    CHECK(near.err == "cistern-desk: There is no case named \"all_leg\"; perhaps you mean "
                      "\"all_legs\".\n");
    CHECK(near.windows == 0);
}

TEST_CASE("wrong use of the desk is one sentence, and nothing is shown or written", "[desk]") {
    const auto refused = [](const std::vector<std::string>& arguments, const std::string& why) {
        const Ran ran = run(arguments, "shot a\n", true);
        INFO(ran.err);
        CHECK(ran.code == 2);
        CHECK(ran.err.find(why) != std::string::npos);
        CHECK(ran.windows == 0);
        CHECK(ran.written.empty());
    };
    refused({"--scrip", "s.desk"}, "perhaps you mean \"--script\"");
    refused({"--script"}, "needs a value after it");
    refused({"--frames", "many"}, "not a whole number from 1 to 1000000");
    refused({"--frames", "0"}, "not a whole number from 1 to 1000000");
    refused({"--flood"}, "say how many frames");
    refused({"--shots", "."}, "name it with --script");
    refused({"--script", "s.desk"}, "say where they go with --shots DIR");
    refused({"all_legs", "just_old"}, "is one too many");
    refused({"--script", "no/such/file"}, "no/such/file");
}

TEST_CASE("a script's pictures are written whole, or it is told why not", "[desk]") {
    const Ran ran =
        run({"--script", "s.desk", "--shots", "folder"}, "shot one\npage Class\nshot two\n");
    CHECK(ran.code == 0);
    CHECK(ran.written.size() == 2);
    CHECK(ran.kept == 0); // a script begins the same each time
    CHECK(ran.written.count("folder/one.png") == 1);
    const Ran full = run({"--script", "s.desk", "--shots", "folder"}, "shot one\n", false, true);
    CHECK(full.code != 0);
    CHECK(full.err.find("The disk is full.") != std::string::npos);
}

TEST_CASE("a script with faults, or one that cannot go on, ends in its exit code", "[desk]") {
    const Ran faulty = run({"--script", "s.desk"}, "page\n");
    CHECK(faulty.code == 2);
    CHECK(faulty.err.find("s.desk:1:1") != std::string::npos);
    const Ran stopped = run({"--script", "s.desk"}, "expect what is not there\n");
    CHECK(stopped.code == 1);
    CHECK(stopped.err.find("s.desk:1: ") != std::string::npos);
}
