// A lesson at the prompt, driven with typed lines.
#include "person.h"
#include "program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace cistern::test;
using Catch::Contains;

namespace {

const std::vector<std::string> biscuits = {"play", "the_biscuit_thief"};
const std::vector<std::string> recorded = {"play", "the_biscuit_thief", "--record", "r.json"};

// Page by page: bedside, tests, report; liver leak and work, bile ducts leak and work; points, next
// step, specimen, commitment; cutaway; name of the record.
const std::string opening = "\n\n\n";
const std::string organs = "1\n\n\n90 70 100\n1.5\n1\n3\n95\n\n\n";
const std::string rest = "2.5\n2.5\n2.5\n5\n2.5\n85\n3\n\n"; // as listed, by the alphabet
const std::string wholeLesson = opening + organs + rest + "commit\n\n";

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++found;
    return found;
}

} // namespace

TEST_CASE("a lesson is worked from the bedside to the marks", "[terminal]") {
    Person person;
    person.types(wholeLesson + "no\n", biscuits);
    CHECK(person.code == 0);
    CHECK(person.told == "");
    const std::vector<std::string> pages = {"The biscuit thief",
                                            "Exam",
                                            "Draw 1",
                                            "Laboratory report",
                                            "Question 1 of 7: Liver, leak",
                                            "Question 7 of 7",
                                            "Your reading",
                                            "Liver, opened",
                                            "Marks: ",
                                            "What to try next"};
    std::size_t at = 0;
    for (const std::string& page : pages) {
        INFO(page);
        at = person.seen.find(page, at);
        REQUIRE(at != std::string::npos);
    }
    CHECK_THAT(person.seen, Contains("Invented animal, for teaching."));
    CHECK_THAT(person.seen, Contains("sharps and blood are hazards"));
    CHECK(tooWide(person.seen) == "");
    CHECK(person.desk.written.empty());
}

TEST_CASE("the record is saved where the person says", "[terminal]") {
    Person person;
    person.types(wholeLesson + "\n", biscuits);
    CHECK(person.code == 0);
    REQUIRE(person.desk.written.contains("the_biscuit_thief.record.json"));
    const auto record =
        nlohmann::json::parse(person.desk.written.at("the_biscuit_thief.record.json"));
    CHECK(record.contains("marks"));
    person.types(wholeLesson + "\n", biscuits); // the first is kept
    CHECK(person.desk.written.contains("the_biscuit_thief-2.record.json"));
}

TEST_CASE("the answers typed are the answers recorded", "[terminal]") {
    Person person;
    person.types(wholeLesson, recorded);
    const std::string record = person.desk.written.at("r.json");
    const auto json = nlohmann::json::parse(record);
    INFO(record);
    // The same lesson from an answers file holds the same marks.
    const Folder folder;
    const std::string answers = folder.with("a.json", R"({"cistern answers": 1, "organs": {
        "liver": {"leak": {"best": 1, "low": 0.5, "high": 2},
                  "work": {"best": 90, "low": 70, "high": 100}},
        "bile ducts": {"leak": {"best": 1.5, "low": 1, "high": 3},
                       "work": {"best": 95, "low": 80, "high": 110}}},
        "points": {"nothing wrong": 5, "steroid tablets effect": 85,
                   "bile duct obstruction": 2.5, "chronic liver disease": 2.5,
                   "phenobarbital effect": 2.5, "acute hepatocyte necrosis": 2.5},
        "next": "repeat 6 weeks after the last tablet"})");
    Person script;
    script.types("", {"play", "the_biscuit_thief", "--answers", answers, "--record", "s.json"});
    CHECK(script.code == 0);
    const auto other = nlohmann::json::parse(script.desk.written.at("s.json"));
    CHECK(json.at("marks") == other.at("marks"));
}

TEST_CASE("a lesson that is left is gone on with where it stood", "[terminal]") {
    Person person;
    person.types(opening + "1 0.5 2\nq\n", recorded);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("The record is in r.json"));
    person.types("90 70 100\n1.5\n1\n3\n95\n\n\n" + rest + "commit\n\n", recorded);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("Going on with The biscuit thief"));
    CHECK(person.seen.find("Complaint") == std::string::npos);
    CHECK_THAT(person.seen, Contains("Question 2 of 7: Liver, work"));
    const auto pieces = nlohmann::json::parse(person.desk.written.at("r.json")).at("marks");
    Person other;
    other.types(wholeLesson, recorded);
    CHECK(nlohmann::json::parse(other.desk.written.at("r.json")).at("marks") == pieces);
}

TEST_CASE("a finished record shows its marks again and is left alone", "[terminal]") {
    Person person;
    person.types(wholeLesson, recorded);
    const std::string record = person.desk.written.at("r.json");
    const int writes = person.desk.writes;
    person.types("\n", recorded);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("This lesson is finished") && Contains("Marks: "));
    CHECK(person.desk.written.at("r.json") == record);
    CHECK(person.desk.writes == writes);
}

TEST_CASE("the end of the input saves and leaves", "[terminal]") {
    Person named;
    named.types(opening + "1 0.5 2\n", recorded);
    CHECK(named.code == 0);
    CHECK(named.desk.written.contains("r.json"));
    Person unnamed;
    unnamed.types(opening + "1 0.5 2\n", biscuits);
    CHECK(unnamed.code == 0);
    CHECK_THAT(unnamed.seen, Contains("The record is in the_biscuit_thief.record.json"));
    CHECK(unnamed.desk.written.size() == 1);
    Person idle;
    idle.types("", biscuits);
    CHECK(idle.code == 0);
    CHECK(idle.desk.written.empty()); // nothing was done, so nothing is kept
}

TEST_CASE("q asks where to save, and no saves nothing", "[terminal]") {
    Person person;
    person.types("\nq\nmine.json\n", biscuits);
    CHECK(person.code == 0);
    CHECK(person.desk.written.contains("mine.json"));
    Person other;
    other.types("\nq\nno\n", biscuits);
    CHECK(other.code == 0);
    CHECK(other.desk.written.empty());
}

TEST_CASE("a full disk is told and the lesson can be saved elsewhere or given up", "[terminal]") {
    Person person;
    person.desk.full = true;
    person.types("\nq\nmine.json\nno\n", biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("the disk is full"));
    person.types(opening, recorded); // a record that was asked for and cannot be kept
    CHECK(person.code == 1);
    CHECK_THAT(person.told, Contains("the disk is full"));
}

TEST_CASE("every question explains itself at a question mark", "[terminal]") {
    Person person;
    person.types(
        "?\n\n?\n\n?\n\n?\n1 1 1\n?\n1 1 1\n?\n1 1 1\n?\n1 1 1\n?\neven\n?\n1\n?\n\n?\nq\nno\n",
        biscuits);
    CHECK(person.code == 0);
    CHECK(count(person.seen, "b goes back, q saves and leaves") == 11);
    CHECK(tooWide(person.seen) == "");
}

TEST_CASE("b goes back, and answers given stand as defaults", "[terminal]") {
    Person person;
    person.types("b\n" + opening + "3 1 9\nb\n\n\n\nq\nno\n", biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("This is the first page."));
    CHECK(count(person.seen, "Question 1 of 7") == 2);
    CHECK(count(person.seen, "Question 2 of 7") == 2);
    CHECK_THAT(person.seen, Contains("most likely [fold] [3]") && Contains("high end [fold] [9]"));
}

TEST_CASE("answers that cannot be are refused in a sentence and asked again", "[terminal]") {
    Person person;
    person.types("now\n\n7\n\n\nmuch\n-1\n5000\n1 kg\n3 4 5\n1,5\n1 0.5 2\nq\nno\n", biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("Nothing is asked here"));
    CHECK_THAT(person.seen, Contains("There is no number 7 on the list"));
    CHECK_THAT(person.seen, Contains("\"much\" is not a number in fold"));
    CHECK_THAT(person.seen, Contains("must lie between 0.1 and 1000 fold"));
    CHECK_THAT(person.seen, Contains("\"1 kg\" is not a number in fold"));
    CHECK_THAT(person.seen, Contains("must lie inside its band"));
    CHECK_THAT(person.seen, Contains("\"1,5\" is not a number in fold"));
    CHECK_THAT(person.seen, Contains("Question 2 of 7"));
}

TEST_CASE("points never pass a hundred, and what is left over is asked for again", "[terminal]") {
    Person person;
    person.types(opening + organs + "60\n50\n20\n5\n0\n0\n0\n" + // 15 are left over
                     "10\neven\n1\n\n" + "q\nno\n",
                 biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("Only 40 points are left."));
    CHECK_THAT(person.seen, Contains("15 points are left over; go round once more."));
    CHECK_THAT(person.seen, Contains("10 acute hepatocyte necrosis; 18 bile duct"));
}

TEST_CASE("the review changes one answer without asking the rest again", "[terminal]") {
    Person person;
    person.types(opening + organs + rest + "1\n7 5 9\n6\n2\n9\nhm\n3\nb\ncommit\n\nno\n", biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("7 fold (5 to 9)"));
    CHECK_THAT(person.seen, Contains("neither \"commit\" nor a number from 1 to 7"));
    CHECK(count(person.seen, "Your reading") == 6);
    CHECK_THAT(person.seen, Contains("Marks: "));
}

TEST_CASE("without a draw there is nothing to read, and the plan page comes back", "[terminal]") {
    Person person;
    person.types("\nnone\nall\n\nq\nno\n", biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("Nothing was drawn"));
    CHECK_THAT(person.seen, Contains("Question 1 of 7"));
}

TEST_CASE("u switches units and r shows the report again", "[terminal]") {
    Person person;
    person.types(opening + "r\nu\nq\nno\n", biscuits);
    CHECK(person.code == 0);
    CHECK(count(person.seen, "Laboratory report") == 3);
    CHECK(count(person.seen, "conventional units") == 2);
    CHECK(count(person.seen, "SI units") == 1);
}

TEST_CASE("results can be doubted by number and by name", "[terminal]") {
    Person person;
    person.types(opening + organs + rest.substr(0, rest.size() - 1) + "ALT, 2-3\nq\nno\n",
                 biscuits);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("Results not trusted") && Contains("ALT, AST, ALP"));
}

TEST_CASE("a record of another case, or none at all, is refused and not overwritten",
          "[terminal]") {
    Person person;
    person.types(opening + "1 1 1\n", recorded);
    const std::string record = person.desk.written.at("r.json");
    person.types("", {"play", "the_sore_thigh", "--record", "r.json"});
    CHECK(person.code == 2);
    CHECK_THAT(person.told, Contains("r.json"));
    CHECK(person.desk.written.at("r.json") == record);
    person.desk.written["r.json"] = "not a record";
    person.types("", recorded);
    CHECK(person.code == 2);
    CHECK(person.desk.written.at("r.json") == "not a record");
}
