// A case that asks about every organ and for every test, through every command.
#include "person.h"
#include "program.h"

#include <catch2/catch.hpp>

using namespace cistern::test;
using Catch::Contains;

namespace {

const std::string everything = R"(cistern: 1
title: Everything at once
level: graduate
minutes: 30
patient: {name: Pike, species: dog, age: 9 y, sex: spayed female, weight: 18 kg, condition: 4, seed: 4711}
complaint: All that can be.
insults:
  - {insult: myocardial necrosis, severity: 20 %, from: -60 h, to: -48 h}
  - {insult: pancreatitis, severity: 12 fold, from: -72 h, to: 0 h}
  - {insult: protein-losing enteropathy, severity: 0.3 g/kg/d, from: -40 d, to: 0 d}
  - {insult: nephron loss, severity: 70 %, from: -90 d, to: -10 d}
  - {insult: hemolysis, severity: 12 %/d, from: -6 d, to: 0 h}
  - {insult: hypoadrenocorticism, severity: 96 %, from: -60 d, to: -10 d}
  - {insult: hyperthyroidism, severity: 4 fold, from: -90 d, to: 0 h}
  - {insult: inflammation, severity: 80 %, from: -3 d, to: 0 h}
  - {insult: thrombocyte destruction, severity: 80 %/d, from: -5 d, to: 0 h}
draws:
  - at: -24 h
    tests: [chemistry, blood count, film, urine, UPC, SDMA, bile acids, ammonia, clotting, T4, cortisol,
            TLI, lipase, troponin, CRP, PCV and protein]
  - at: 0 h
    tests: [chemistry, blood count, film, urine, UPC, SDMA, bile acids, ammonia, clotting, T4, cortisol,
            TLI, lipase, troponin, CRP, PCV and protein]
ask:
  organs: [ORGANS]
  explanations: [nothing wrong, pancreatitis, hemolysis]
  next: [repeat in 3 days, look elsewhere]
answer:
  explanation: [pancreatitis, hemolysis]
  next: [repeat in 3 days]
)";

/// The case with these organs, as a file in a folder.
std::string caseOf(const Folder& folder, const std::string& organs) {
    std::string text = everything;
    return folder.with("everything.yaml", text.replace(text.find("ORGANS"), 6, organs));
}

const std::string allOrgans = "liver, bile ducts, skeletal muscle, heart, kidney, pancreas, bone, "
                              "gut, red cells, adrenal cortex, thyroid, white cells, platelets";

} // namespace

TEST_CASE("every command takes every organ and every test, in 80 columns", "[terminal]") {
    const Folder folder;
    const std::string file = caseOf(folder, allOrgans);
    const Outcome page = program({"play", file});
    const std::string answers =
        folder.with("answers.json", page.out.substr(page.out.find("\n{") + 1));
    for (const std::vector<std::string>& arguments : {std::vector<std::string>{"check", file},
                                                      {"run", file},
                                                      {"run", file, "--units", "si"},
                                                      {"run", file, "--at", "0 h"},
                                                      {"run", file, "--at", "0 h", "--units", "si"},
                                                      {"play", file},
                                                      {"play", file, "--answers", answers}}) {
        const Outcome outcome = program(arguments);
        INFO(arguments[0]);
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        CHECK(tooWide(outcome.out) == "");
    }
    const Outcome run = program({"run", file});
    for (const char* group :
         {"\nwhat leaks\n", "\nwhat works\n", "\nwhat is cleared\n", "\nsalts\n", "\nclotting\n",
          "\nred cells\n", "\nwhite cells and platelets\n", "\nspun tube\n", "\nsignals\n"})
        CHECK_THAT(run.out, Contains(group));
    const Outcome drawn = program({"course", file, "--format", "svg"});
    CHECK(drawn.code == 0);
    CHECK_THAT(drawn.out, Contains(">adrenal cortex") && Contains(">platelets"));
}

TEST_CASE("a report asked for by its draw is the same with the parts it needs", "[terminal]") {
    const Folder folder;
    const std::string file = caseOf(folder, "liver");
    const auto both = csv(program({"run", file, "--format", "csv"}).out);
    const auto one = csv(program({"run", file, "--at", "0 h", "--format", "csv"}).out);
    REQUIRE(one.size() > 50);
    std::vector<std::vector<std::string>> second{both[0]};
    for (const auto& row : both)
        if (row[0] == "0") second.push_back(row);
    CHECK(one == second);
}

TEST_CASE("a sitting asks no leak of an organ of which it has no meaning", "[terminal]") {
    const Folder folder;
    const std::string file = caseOf(folder, "adrenal cortex, gut");
    // bedside, two draws, report; leak and work of the gut; work of the cortex; points, next step,
    // specimen, commitment, cutaway, no record
    Person person;
    person.types("\n\n\n\n5 2 20\n60 40 80\n20 5 40\neven\n1\n\ncommit\n\nno\n", {"play", file});
    INFO(person.seen);
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("Question 1 of 6: Gut, leak"));
    CHECK_THAT(person.seen, Contains("Question 3 of 6: Adrenal cortex, work"));
    CHECK_THAT(person.seen, Contains("How much protein did the gut lose at 0 h"));
    CHECK_THAT(person.seen, !Contains("Adrenal cortex, leak"));
    CHECK_THAT(person.seen, Contains("The way there: adrenal cortex and cortisol"));
    CHECK_THAT(person.seen, Contains("Marks: "));
    CHECK(tooWide(person.seen) == "");
}
