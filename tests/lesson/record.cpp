#include "lesson/record.h"

#include "case_at_hand.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace cistern::lesson {

namespace {

std::string faultsOf(const std::function<void()>& work) {
    try {
        work();
    } catch (const base::InputError& error) {
        std::string all;
        for (const base::Fault& fault : error.faults()) all += base::sentence(fault) + "\n";
        return all;
    }
    return "no fault";
}

std::string answerFaults(const std::string& text) {
    const Case subject = scarredLiver();
    return faultsOf([&] { readAnswers(text, "answers.json", subject, known()); });
}

} // namespace

TEST_CASE("A lesson done again from its record comes to the same marks exactly", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::plan});
    lesson.apply(ChooseTests{1, {}});
    lesson.apply(Go{Stage::reading});
    lesson.apply(SetLeak{body::Tissue::liver, {1.0 / 3, 0.1, 7.7}});
    lesson.apply(Undo{});
    lesson.apply(SetDistrusted{{body::Analyte::ALT}});
    answerAll(lesson);
    lesson.apply(SetWork{body::Tissue::liver, {100.0 / 3, 10.1, 66.6}});
    lesson.apply(Commit{});
    lesson.apply(Go{Stage::marks});

    const std::string text = toJson(lesson).dump();
    const Replay again = replay(text, "record.json", subject, known());
    CHECK(again.sameMarks);
    CHECK(again.lesson.stage() == Stage::marks);
    CHECK(again.lesson.actions() == lesson.actions());
    CHECK(again.lesson.marks().learner.total == lesson.marks().learner.total);
    CHECK(again.lesson.marks().naive.total == lesson.marks().naive.total);
    CHECK(toJson(again.lesson).dump() == text);
}

TEST_CASE("A record may end before the commitment", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::report});
    const Replay again = replay(toJson(lesson).dump(), "record.json", subject, known());
    CHECK(again.sameMarks);
    CHECK(again.lesson.stage() == Stage::report);
}

TEST_CASE("A record with altered marks is noticed", "[lesson]") {
    const Case subject = scarredLiver();
    nlohmann::json record = toJson(finished(subject));
    record["marks"]["learner"]["total"] = 100;
    CHECK_FALSE(replay(record.dump(), "record.json", subject, known()).sameMarks);
}

TEST_CASE("A record that does not fit is refused with its place", "[lesson]") {
    const Case subject = scarredLiver();
    const nlohmann::json good = toJson(finished(subject));
    const auto faults = [&](const nlohmann::json& record) {
        return faultsOf([&] { replay(record.dump(), "record.json", subject, known()); });
    };
    nlohmann::json other = good;
    other["seed"] = 1;
    CHECK(faults(other) == "seed contradicts another statement: found \"1\"; allowed: the seed of "
                           "the case at hand, 4711.\n");
    other = good;
    other["actions"][1]["organ"] = "livr";
    CHECK(faults(other) ==
          "actions[1].organ is not a name known here: found \"livr\"; allowed: liver.\n");
    other = good;
    other["actions"][0]["do"] = "goo";
    CHECK_THAT(faults(other), Catch::StartsWith("actions[0].do is not a name known here"));
    other = good;
    other["actions"].erase(1); // a band is missing at the commitment
    CHECK_THAT(faults(other), Catch::Contains("The leak of the liver has no answer yet."));
    other = good;
    other["cistern record"] = 2;
    CHECK_THAT(faults(other), Catch::Contains("cistern record is out of range: found \"2\""));
    for (const char* text : {"", "[]", "3", "{\"a\": 1e999}", "{\"seed\": 1, \"seed\": 2}", "{"})
        CHECK(faultsOf([&] { replay(text, "record.json", subject, known()); }) != "no fault");
    const std::string deep = std::string(5000, '[') + std::string(5000, ']');
    CHECK_THAT(faultsOf([&] { replay(deep, "record.json", subject, known()); }),
               Catch::Contains("too large"));
}

TEST_CASE("The example of answers is one that a lesson accepts", "[lesson]") {
    for (const Case& subject : {scarredLiver(), healthyCat()}) {
        Lesson lesson(subject, known());
        const auto actions = readAnswers(exampleAnswers(lesson), "answers.json", subject, known());
        for (const Action& action : actions) lesson.apply(action);
        CHECK(lesson.committed());
    }
}

TEST_CASE("Answers may leave out draws and tests and write units", "[lesson]") {
    const Case subject = scarredLiver();
    const auto actions = readAnswers(R"({"cistern answers": 1,
        "draws": [{"draw": 1, "tests": ["chemistry"]}],
        "organs": {"liver": {"leak": {"best": "2 fold", "low": 1, "high": 4},
                             "work": {"best": "30 %", "low": 10, "high": 50}},
                   "bile ducts": {"leak": {"best": 1, "low": 1, "high": 1},
                                  "work": {"best": 90, "low": 60, "high": 100}}},
        "points": {"chronic liver disease": 100}, "next": "bile acids",
        "distrust": ["ALT"]})",
                                     "answers.json", subject, known());
    Lesson lesson(subject, known());
    for (const Action& action : actions) lesson.apply(action);
    REQUIRE(lesson.taken().size() == 1);
    CHECK_FALSE(lesson.taken()[0].report.find(body::Analyte::bileAcids));
    CHECK(lesson.answers().organs.at(body::Tissue::liver).work == Band{30, 10, 50});
    CHECK(lesson.answers().distrusted == std::vector<body::Analyte>{body::Analyte::ALT});
}

TEST_CASE("Wrong answers are told all at once, each with its path", "[lesson]") {
    const std::string told = answerFaults(R"({"cistern answers": 1, "pionts": 3,
        "draws": [1, {"draw": 3}],
        "organs": {"livr": {}, "liver": {"leak": {"best": 9, "low": 1, "high": 4}, "wrk": 1,
                                         "work": {"best": "30 mg", "low": 10}}},
        "points": {"nothing wrnog": 100}, "next": "bile acid", "distrust": ["ALTT"]})");
    for (const char* line :
         {"pionts is not a key known here: found \"pionts\"; allowed: points.",
          "draws[1] is out of range: found \"3\"; allowed: a draw from 1 to 2.",
          "organs.livr is not a name known here: found \"livr\"; allowed: liver.",
          "organs.liver.wrk is not a key known here: found \"wrk\"; allowed: work.",
          "organs.liver.work.best has a unit of the wrong kind: found \"\"30 mg\"\"; allowed: a "
          "number of %.",
          "organs.liver.work.high is missing; allowed: a value.",
          "organs.liver.leak is out of range",
          "points.nothing wrnog is not a name known here: found \"nothing wrnog\"; allowed: "
          "nothing "
          "wrong.",
          "next is not a name known here: found \"bile acid\"; allowed: bile acids.",
          "distrust[0] is not a name known here: found \"ALTT\"; allowed: ALT."})
        CHECK_THAT(told, Catch::Contains(line));
}

TEST_CASE("Unfinished answers are told what they lack", "[lesson]") {
    const std::string told = answerFaults(R"({"cistern answers": 1,
        "points": {"nothing wrong": 60}})");
    for (const char* line : {"organs.liver.leak is missing", "organs.bile ducts.work is missing",
                             "points is out of range: found \"60 in all\"; allowed: points that "
                             "add up to 100.",
                             "next is missing; allowed: bile acids, repeat in 3 days or look"})
        CHECK_THAT(told, Catch::Contains(line));
    CHECK_THAT(answerFaults(R"({"cistern answers": 1, "draws": []})"),
               Catch::Contains("draws is out of range"));
}

TEST_CASE("Text that is not JSON is told with line and column", "[lesson]") {
    const Case subject = scarredLiver();
    try {
        readAnswers("{\"cistern answers\": 1,\n  \"next\" \"x\"}", "answers.json", subject,
                    known());
        FAIL("not refused");
    } catch (const base::InputError& error) {
        const base::Place& place = error.faults().at(0).place;
        CHECK(place.file == "answers.json");
        CHECK(place.line == 2);
        CHECK(place.column >= 10); // at or inside the text that follows the key
        CHECK(place.column <= 12);
    }
}

} // namespace cistern::lesson
