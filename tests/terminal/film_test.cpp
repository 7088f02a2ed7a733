// `film`, as a process, and the film at the prompt.
#include "base/file.h"
#include "drawing/painter.h"
#include "person.h"
#include "program.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace cistern;
using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

TEST_CASE("film tells a field and the whole film in words", "[terminal]") {
    const Outcome outcome = program({"film", "yellow_and_pale"});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK(tooWide(outcome.out) == "");
    CHECK_THAT(outcome.out, StartsWith("Yellow, and pale: the film"));
    for (const char* text :
         {"draw 1: monolayer, field 1 of", "120 by 120", "red cells", "Feathered edge",
          "Monolayer: red cells", "(spherocytes)", "(agglutination)", "Polychromasia",
          "up to 4 in a field are met in health", "Monolayer: white cells", "200 white cells apart",
          "95 % limits", "Monolayer: platelets", "nothing is judged but clumps",
          "Not for diagnosing or treating"})
        CHECK_THAT(outcome.out, Contains(text));
    // What is seen, never what it means.
    for (const char* text : {"hemolysis", "immune", "anemia", "left shift"})
        CHECK_THAT(outcome.out, !Contains(text));
    CHECK(program({"film", "yellow_and_pale"}).out == outcome.out);
    CHECK(program({"film", "yellow_and_pale", "--seed", "7"}).out != outcome.out);
    CHECK_THAT(program({"film", "yellow_and_pale", "--draw", "2"}).out, Contains("draw 2"));
}

TEST_CASE("films of the shipped cases are told, asked for or not", "[terminal]") {
    int unasked = 0;
    for (const std::string& name : shipped()) {
        INFO(name);
        const Outcome outcome = program({"film", name});
        CHECK(outcome.code == 0);
        CHECK(tooWide(outcome.out) == "");
        CHECK_THAT(outcome.out, Contains("Monolayer: red cells") && !Contains(" nan "));
        unasked += outcome.out.find("asks for no film") != std::string::npos;
    }
    CHECK(unasked > 0);
}

TEST_CASE("a field keeps its white cells' names until the key", "[terminal]") {
    // At 10x a field of 1200 um holds white cells for certain.
    const std::vector<std::string> field = {"film", "after_the_feast", "--field",
                                            "2",    "--power",         "10"};
    const Outcome plain = program(field);
    CHECK(plain.code == 0);
    CHECK_THAT(plain.out, Contains("10x, 1200 by 1200") && Contains("with a nucleus, to be named"));
    for (const char* name : {"neutrophil", "monocyte", "lymphocyte"})
        CHECK_THAT(plain.out, !Contains(name));
    std::vector<std::string> withKey = field;
    withKey.push_back("--key");
    const Outcome key = program(withKey);
    CHECK(key.code == 0);
    CHECK(tooWide(key.out) == "");
    for (const char* text : {"The key", "segmented neutrophil", "band neutrophil", "What decides",
                             "Pixels from the left upper corner"})
        CHECK_THAT(key.out, Contains(text));
}

TEST_CASE("film draws a field whole or not at all", "[terminal]") {
    const Folder folder;
    const std::string path = folder.path("field.png"), again = folder.path("again.png");
    const std::vector<std::string> line = {"film",   "thirty_eight", "--area", "edge",
                                           "--size", "300x200",      "--out"};
    const auto drawnTo = [&](const std::string& out) {
        std::vector<std::string> all = line;
        all.push_back(out);
        return program(all);
    };
    const Outcome outcome = drawnTo(path);
    CHECK(outcome.code == 0);
    CHECK(outcome.out == "");
    CHECK_THAT(outcome.err, Contains("is written"));
    const std::string bytes = base::Disk().read(path);
    const drawing::Pixels pixels = drawing::readPng(bytes);
    CHECK(pixels.width == 300);
    CHECK(pixels.height == 200);
    CHECK(drawnTo(again).code == 0);
    CHECK(base::Disk().read(again) == bytes);
    refused(drawnTo(folder.path("field.svg")), "ends in .png");
    CHECK_FALSE(std::filesystem::exists(folder.path("field.svg")));
}

TEST_CASE("film refuses what it cannot show", "[terminal]") {
    const auto with = [](std::vector<std::string> more) {
        more.insert(more.begin(), {"film", "thirty_eight"});
        return program(more);
    };
    refused(program({"film"}), "FILE is missing");
    refused(program({"film", "thirty_eigth"}), "perhaps you mean \"thirty_eight\"");
    refused(with({"--draw", "3"}), "--draw");
    refused(with({"--draw", "0"}), "--draw");
    refused(with({"--area", "middle"}), "allowed: edge, monolayer or body");
    refused(with({"--power", "40"}), "allowed: 10, 50 or 100");
    refused(with({"--focus", "near"}), "-10 to 10 um");
    refused(with({"--focus", "nan"}), "-10 to 10 um");
    refused(with({"--size", "1000x"}), "--size is \"1000x\"");
    refused(with({"--size", "5x5"}), "16x16 to 4000x4000");
    refused(with({"--field", "0"}), "--field");
    refused(with({"--field", "100000"}), "but the monolayer of this film has");
    refused(with({"--seed", "-1"}), "--seed");
    const Folder folder;
    const std::string none = folder.with("none.yaml", "cistern: 1\ntitle: No draw\npatient: "
                                                      "{species: dog, age: 5 y, weight: 18 kg, "
                                                      "seed: 1}\ndraws: []\n");
    CHECK(program({"film", none}).code == 2);
}

TEST_CASE("f tells the films at the prompt, once there are any", "[terminal]") {
    Person person;
    person.types("f\n\n\n\n?\nf\nq\n", {"play", "yellow_and_pale"});
    CHECK(person.code == 0);
    CHECK_THAT(person.seen, Contains("No film was made yet.") &&
                                Contains("f tells what is seen on the blood film") &&
                                Contains("Draw 1, the film") && Contains("Draw 2, the film") &&
                                Contains("(spherocytes)"));
    CHECK(tooWide(person.seen) == "");
    person.types("\nnone\n1\n\nf\nq\n", {"play", "yellow_and_pale"});
    CHECK_THAT(person.seen, Contains("no film was made"));
}
