#include "at_hand.h"

#include <catch2/catch.hpp>

#include <set>

using namespace cistern;

namespace {

const std::string head = "cistern: 1\ntitle: A case\n";
const std::string dog = "patient: {species: dog, age: 9 y, weight: 18 kg, seed: 1}\n";
const std::string draw = "draws: [{at: 0 h, tests: [chemistry]}]\n";

lesson::Case read(const std::string& text) {
    test::Memory memory;
    memory.texts["a_case.yaml"] = text;
    return scenario::readCase(memory, "a_case.yaml", test::assets().knowledge);
}

std::vector<base::Fault> faults(const std::string& text) {
    try {
        read(text);
    } catch (const base::InputError& error) {
        return error.faults();
    }
    return {};
}

std::vector<std::string> shipped() {
    return base::Disk().list(CISTERN_SOURCE "/scenarios", ".yaml");
}

} // namespace

TEST_CASE("the sample of the format is read value by value", "[scenario]") {
    const lesson::Case quiet =
        scenario::readCase(base::Disk(), CISTERN_SOURCE "/tests/scenario/good/quiet_liver.yaml",
                           test::assets().knowledge);
    CHECK(quiet.name == "quiet_liver");
    CHECK(quiet.title == "The quiet liver");
    CHECK(quiet.level == "second year");
    CHECK(quiet.minutes == 20);
    CHECK(quiet.aims == std::vector<std::string>{"leak is not loss", "albumin has a long memory"});
    CHECK(quiet.patient == "Bramble");
    CHECK(quiet.who.kind == body::Kind::dog);
    CHECK(quiet.who.sex == body::Sex::spayedFemale);
    CHECK(quiet.who.age == Approx(9 * 365.25 * 24)); // h
    CHECK(quiet.who.weight == 18);
    CHECK(quiet.who.condition == 4);
    CHECK(quiet.who.seed == 4711);
    REQUIRE(quiet.exam.size() == 2);
    CHECK(quiet.exam[0].name == "ascites");
    CHECK(quiet.exam[0].degree == "moderate");
    CHECK(quiet.exam[1].value == 38.4);
    CHECK(quiet.exam[1].unit == "Cel");
    REQUIRE(quiet.insults.size() == 2);
    CHECK(quiet.insults[0].kind->name == "hepatic fibrosis");
    CHECK(quiet.insults[0].severity == Approx(0.75));
    CHECK(quiet.insults[0].from == -9600); // 400 d
    CHECK(quiet.insults[1].to == -24);
    REQUIRE(quiet.draws.size() == 1);
    CHECK(quiet.draws[0].tests == std::vector<std::string>{"chemistry", "blood count", "film"});
    CHECK(quiet.draws[0].handling.fasted == 12);
    REQUIRE(quiet.draws[0].handling.tubes.size() == 2);
    CHECK(quiet.draws[0].handling.tubes[0].clot == 0.5); // 30 min
    CHECK(quiet.draws[0].handling.tubes[1].inversions == 8);
    CHECK(quiet.organs == std::vector<body::Tissue>{body::Tissue::liver});
    CHECK(quiet.key.explanations == std::vector<std::string>{"chronic liver disease"});
    CHECK(quiet.vary.size() == 2);
}

TEST_CASE("every shipped case and every good file is read without a fault", "[scenario]") {
    auto paths = shipped();
    CHECK(paths.size() >= 11);
    const auto good = base::Disk().list(CISTERN_SOURCE "/tests/scenario/good", ".yaml");
    paths.insert(paths.end(), good.begin(), good.end());
    for (const std::string& path : paths) {
        INFO(path);
        CHECK_NOTHROW(scenario::readCase(base::Disk(), path, test::assets().knowledge));
    }
}

TEST_CASE("a shipped case asks only for what this laboratory runs, and marks all it asks",
          "[scenario]") {
    const auto& knowledge = test::assets().knowledge;
    for (const std::string& path : shipped()) {
        const lesson::Case one = scenario::readCase(base::Disk(), path, knowledge);
        INFO(path);
        for (const lesson::Draw& taken : one.draws)
            for (const std::string& test : taken.tests)
                CHECK(knowledge.bench.test(test)->missing.empty());
        CHECK_FALSE(one.key.explanations.empty());
        CHECK_FALSE(one.key.next.empty());
        for (const std::string* text : {&one.complaint, &one.history, &one.trap, &one.settles,
                                        &one.debrief, &one.level, &one.patient})
            CHECK_FALSE(text->empty());
    }
}

TEST_CASE("the pair from one shed differs in the animal and in nothing that was done to it",
          "[scenario]") {
    const auto& knowledge = test::assets().knowledge;
    const std::string both = CISTERN_SOURCE "/scenarios/two_from_one_shed_";
    const auto hound = scenario::readCase(base::Disk(), both + "dog.yaml", knowledge);
    const auto cat = scenario::readCase(base::Disk(), both + "cat.yaml", knowledge);
    CHECK(hound.who.kind != cat.who.kind);
    REQUIRE(hound.insults.size() == cat.insults.size());
    for (std::size_t i = 0; i < cat.insults.size(); ++i) {
        CHECK(hound.insults[i].kind == cat.insults[i].kind);
        CHECK(hound.insults[i].severity == cat.insults[i].severity);
        CHECK(hound.insults[i].from == cat.insults[i].from);
        CHECK(hound.insults[i].to == cat.insults[i].to);
    }
    REQUIRE(hound.draws.size() == cat.draws.size());
    for (std::size_t i = 0; i < cat.draws.size(); ++i) CHECK(hound.draws[i].at == cat.draws[i].at);
}

TEST_CASE("a scenario needs no more than format, title, patient and draws", "[scenario]") {
    const lesson::Case least = read(head + dog + draw);
    CHECK(least.insults.empty());
    CHECK(least.key.explanations.empty()); // nothing was asked
    CHECK(least.who.condition == 5);
    REQUIRE(least.draws[0].handling.tubes.size() == 2); // serum and edta, as in the format's sample
    CHECK(least.draws[0].handling.tubes[0].inversions == 5);
    CHECK(least.draws[0].handling.vein == "jugular");
}

TEST_CASE("times may be written with and without a blank, in any unit of time", "[scenario]") {
    const lesson::Case one =
        read(head + dog +
             "insults:\n"
             "  - {insult: hepatocyte injury, severity: 2, from: -14d, to: -40 min}\n"
             "  - {insult: hepatocyte injury, severity: 3 fold, at: -2 h}\n" +
             draw);
    CHECK(one.insults[0].from == -336);
    CHECK(one.insults[0].to == Approx(-40.0 / 60));
    CHECK(one.insults[1].from == -2);
    CHECK(one.insults[1].to == -1); // `at` means a window of one hour
    CHECK(one.insults[0].severity == 2);
    CHECK(one.insults[1].severity == 3);
}

TEST_CASE("with nothing done to the animal, nothing wrong is the answer", "[scenario]") {
    const lesson::Case well =
        read(head + dog + draw + "ask: {explanations: [chronic liver disease, nothing wrong]}\n");
    CHECK(well.key.explanations == std::vector<std::string>{"nothing wrong"});
}

TEST_CASE("the answer follows from the insult that is listed first, in any case of letters",
          "[scenario]") {
    const std::string two =
        "insults:\n"
        "  - {insult: hepatic fibrosis, severity: 75 %, from: -400 d, to: 0 d}\n"
        "  - {insult: hepatocyte necrosis, severity: 5 %, from: -2 d, to: 0 d}\n";
    const lesson::Case one =
        read(head + dog + two + draw +
             "ask: {explanations: [nothing wrong, Chronic liver disease, hepatocyte necrosis]}\n");
    CHECK(one.key.explanations == std::vector<std::string>{"Chronic liver disease"});
}

TEST_CASE("a stated answer stands instead of what follows from the insults", "[scenario]") {
    const lesson::Case one = read(head + dog + draw +
                                  "ask: {explanations: [nothing wrong, a, b], next: [c, d]}\n"
                                  "answer: {explanation: [b, a], next: [d], distrust: [ALT]}\n");
    CHECK(one.key.explanations == std::vector<std::string>{"b", "a"});
    CHECK(one.key.next == std::vector<std::string>{"d"});
    CHECK(one.key.distrust == std::vector<body::Analyte>{body::Analyte::ALT});
}

TEST_CASE("how a specimen is handled and what is wrong with the machines is read", "[scenario]") {
    const lesson::Case one =
        read(head +
             "patient: {species: dog, age: 9 y, weight: 18 kg, seed: 1, trait: high-potassium red "
             "cells}\n"
             "meals: [-14 h, -2 h]\n"
             "draws:\n"
             "  - at: 0 h\n"
             "    tests: [chemistry]\n"
             "    attempts: 3\n"
             "    order: [edta, serum]\n"
             "    tubes: {serum: {topped from: edta, spin: {radius: 10 cm, speed: 3000, minutes: "
             "5}}, edta: {fill: 20 %}}\n"
             "    handling: {unseparated: 6 h, temperature: 25 Cel, light: sun, light for: 2 h, "
             "film after: 1 h}\n"
             "bench: {photometer: default, faults: [{fault: drift, test: ALT, by: 12 %}, {fault: "
             "wrong temperature, by: -3 K}], linearity check: off}\n"
             "ask: {organs: [heart, liver]}\n");
    CHECK(one.meals == std::vector<double>{-14, -2});
    CHECK(one.who.potassiumRichCells);
    const lab::Handling& handling = one.draws[0].handling;
    CHECK(handling.attempts == 3);
    REQUIRE(handling.tubes.size() == 2);
    CHECK(handling.tubes[0].name == "edta");
    CHECK(handling.tubes[0].fill == Approx(0.2));
    CHECK(handling.tubes[1].toppedFrom == "edta");
    CHECK(handling.tubes[1].rcf == Approx(1006).margin(1)); // 1.118e-5 * 10 * 3000^2
    CHECK(handling.tubes[1].minutes == 5);
    CHECK(handling.unseparated == 6);
    CHECK(handling.temperature == 25);
    CHECK(handling.light == lab::Light::sun);
    CHECK(handling.lightFor == 2);
    CHECK(handling.filmAfter == 1);
    REQUIRE(one.machine.faults.size() == 2);
    CHECK(one.machine.faults[0].kind == lab::MachineFault::drift);
    CHECK(one.machine.faults[0].analyte == body::Analyte::ALT);
    CHECK(one.machine.faults[0].by == Approx(0.12));
    CHECK(one.machine.faults[1].by == -3);
    CHECK_FALSE(one.machine.linearityCheck);
    CHECK(one.organs == std::vector<body::Tissue>{body::Tissue::liver, body::Tissue::heart});
}

TEST_CASE("a range for variants must fit what its number may be", "[scenario]") {
    const std::string insult =
        "insults: [{insult: hepatic fibrosis, severity: 75 %, from: -400 d, to: 0 d}]\n";
    const auto with = [&](const std::string& range) {
        return head + "patient: {species: dog, age: 9 y, weight: 18 kg, condition: 4, seed: 1}\n" +
               insult + draw + "vary: {" + range + "}\n";
    };
    CHECK(read(with("insults.0.severity: 60..85 %")).vary.size() == 1);
    CHECK(read(with("insults.0.from: -500..-300 d")).vary.size() == 1);
    CHECK(read(with("patient.condition: 3..6")).vary.size() == 1);
    using base::FaultKind;
    for (const auto& [range, kind] :
         {std::pair{"insults.0.severity: 60..85", FaultKind::missingUnit},
          {"insults.0.severity: 60..185 %", FaultKind::outOfRange},
          {"insults.0.severity: 60..85 kg", FaultKind::wrongDimension},
          {"insults.0.severity: 85..60 %", FaultKind::wrongOrder},
          {"insults.0.severity: 60 %", FaultKind::wrongShape},
          {"insults.0.severity: [60 %, 85 %]", FaultKind::wrongShape},
          {"insults.1.severity: 60..85 %", FaultKind::unknownName},
          {"patient.seed: 1..100", FaultKind::unknownName}}) {
        INFO(range);
        const auto found = faults(with(range));
        REQUIRE(found.size() == 1);
        CHECK(found[0].kind == kind);
    }
}

TEST_CASE("a file that is not there is told as such", "[scenario]") {
    test::Memory empty;
    try {
        scenario::readCase(empty, "nowhere.yaml", test::assets().knowledge);
        FAIL("the file was read");
    } catch (const base::InputError& error) {
        REQUIRE(error.faults().size() == 1);
        CHECK(error.faults()[0].kind == base::FaultKind::unreadable);
    }
}
