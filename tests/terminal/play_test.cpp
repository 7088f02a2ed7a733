// `play` without a terminal, as a process.
#include "program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace cistern::test;
using Catch::Contains;

namespace {

/// The answers file that the page without a terminal shows.
std::string exampleOf(const std::string& page) {
    const auto at = page.find("\n{");
    REQUIRE(at != std::string::npos);
    return page.substr(at + 1);
}

} // namespace

TEST_CASE("without a terminal play prints case, report and questions, and says how to answer",
          "[terminal]") {
    for (const std::string& name : shipped()) {
        const Outcome outcome = program({"play", name}, "commit\ncommit\n");
        INFO(name);
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        for (const char* part : {"Complaint", "Exam", "Laboratory report", "The questions",
                                 "How to answer", "--answers", "Invented animal, for teaching."})
            CHECK_THAT(outcome.out, Contains(part));
        CHECK(outcome.out.find("opened at") == std::string::npos); // the truth stays inside
        CHECK(tooWide(outcome.out.substr(0, outcome.out.find("\n{"))) == "");
    }
}

TEST_CASE("the example of an answers file works as it stands", "[terminal]") {
    const Folder folder;
    for (const std::string& name : shipped()) {
        const std::string answers =
            folder.with(name + ".json", exampleOf(program({"play", name}).out));
        const Outcome outcome = program({"play", name, "--answers", answers});
        INFO(name << outcome.err);
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        for (const char* part : {"Your reading", "opened at", "Marks: ", "What to try next"})
            CHECK_THAT(outcome.out, Contains(part));
        CHECK(tooWide(outcome.out) == "");
    }
}

TEST_CASE("a scripted lesson leaves a record that the same script may write again", "[terminal]") {
    const Folder folder;
    const std::string answers =
        folder.with("a.json", exampleOf(program({"play", "the_sore_thigh"}).out));
    const std::string record = folder.path("r.json");
    const std::vector<std::string> line = {"play",  "the_sore_thigh", "--answers",
                                           answers, "--record",       record};
    CHECK(program(line).code == 0);
    const std::string text = textOf(record);
    CHECK(nlohmann::json::parse(text).contains("marks"));
    CHECK(program(line).code == 0);
    CHECK(textOf(record) == text);
    CHECK(folder.names() == std::vector<std::string>{"a.json", "r.json"});
    folder.with("r.json", "{\"mine\": true}");
    const Outcome kept = program(line);
    CHECK(kept.code == 2);
    CHECK_THAT(kept.err, Contains("holds something else already"));
    CHECK(textOf(record) == "{\"mine\": true}");
}

TEST_CASE("a record that cannot be written is told, exit code 1", "[terminal]") {
    const Folder folder;
    const std::string answers =
        folder.with("a.json", exampleOf(program({"play", "the_sore_thigh"}).out));
    for (const std::string& record : {folder.path("no/such/r.json"), std::string("/dev/full")}) {
        const Outcome outcome =
            program({"play", "the_sore_thigh", "--answers", answers, "--record", record});
        CHECK(outcome.code == 1);
        CHECK_THAT(outcome.err, Contains("cannot be written"));
    }
}

TEST_CASE("answers with faults are refused with every fault at once", "[terminal]") {
    const Folder folder;
    const auto refused = [&](const std::string& text, const std::vector<std::string>& words) {
        const Outcome outcome =
            program({"play", "the_sore_thigh", "--answers", folder.with("a.json", text)});
        INFO(outcome.err);
        CHECK(outcome.code == 2);
        CHECK(outcome.out == "");
        for (const std::string& word : words) CHECK_THAT(outcome.err, Contains(word));
    };
    refused("", {"a.json"});
    refused("{", {"a.json"});
    refused("[]", {"a.json"});
    auto json = nlohmann::json::parse(exampleOf(program({"play", "the_sore_thigh"}).out));
    json["organs"]["livr"] = json["organs"]["liver"];
    json["points"]["nothing wrong"] = 250;
    json["next"] = "repeat in 2 dais";
    refused(json.dump(), {"livr", "nothing wrong", "repeat in 2 days"});
    const Outcome absent =
        program({"play", "the_sore_thigh", "--answers", folder.path("not_there.json")});
    CHECK(absent.code == 2);
    CHECK_THAT(absent.err, Contains("not_there.json"));
}

TEST_CASE("a record asked for where nobody answers is not written, and that is said",
          "[terminal]") {
    const Folder folder;
    const Outcome outcome = program({"play", "the_sore_thigh", "--record", folder.path("r.json")});
    CHECK(outcome.code == 0);
    CHECK_THAT(outcome.err, Contains("no record was written"));
    CHECK(folder.names().empty());
}

TEST_CASE("a lesson is marked beside the ideal reader, the same on every run", "[terminal]") {
    const Folder folder;
    const std::string answers =
        folder.with("a.json", exampleOf(program({"play", "the_sore_thigh"}).out));
    const std::vector<std::string> line = {"play",  "the_sore_thigh", "--answers",
                                           answers, "--record",       folder.path("r.json")};
    const Outcome outcome = program(line);
    INFO(outcome.out);
    CHECK(outcome.code == 0);
    CHECK_THAT(outcome.err, !Contains("weighing")); // nobody watches
    for (const char* part : {"  ideal", "weight [%]", "The ideal reader: ", "What the results hold",
                             "What a next test would tell"})
        CHECK_THAT(outcome.out, Contains(part));
    CHECK(tooWide(outcome.out) == "");
    CHECK(program(line).out == outcome.out);
    CHECK_THAT(textOf(folder.path("r.json")), !Contains("ideal"));
}
