#include "at_hand.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

using namespace cistern;

TEST_CASE("another seed draws what may vary within its ranges, the file's own seed draws nothing",
          "[scenario]") {
    test::Memory memory;
    memory.texts["a_case.yaml"] =
        "cistern: 1\ntitle: Many of one story\n"
        "patient: {species: dog, age: 9 y, weight: 18 kg, condition: 4, seed: 1}\n"
        "insults: [{insult: hepatic fibrosis, severity: 75 %, from: -400 d, to: 0 d}]\n"
        "draws: [{at: 0 h, tests: [chemistry]}]\n"
        "vary: {patient.weight: 12..24 kg, patient.condition: 3..5, insults.0.severity: 60..85 %,\n"
        "       insults.0.from: -70 wk..-300 d}\n";
    const auto read = [&](std::uint64_t seed) {
        return scenario::readCase(memory, "a_case.yaml", test::assets().knowledge, seed);
    };
    CHECK(read(1).who.weight == 18);
    CHECK(read(1).insults[0].severity == 0.75);
    std::map<int, int> conditions;
    std::vector<double> weights, severities;
    for (std::uint64_t seed = 2; seed < 52; ++seed) {
        const lesson::Case one = read(seed);
        INFO(seed);
        CHECK(one.who.seed == seed);
        CHECK(one.who.age == read(1).who.age); // nothing lets it vary
        CHECK(one.insults[0].from >= -70 * 7 * 24.);
        CHECK(one.insults[0].from <= -300 * 24.);
        weights.push_back(one.who.weight);
        severities.push_back(one.insults[0].severity);
        ++conditions[one.who.condition];
    }
    const auto [lightest, heaviest] = std::minmax_element(weights.begin(), weights.end());
    const auto [mildest, gravest] = std::minmax_element(severities.begin(), severities.end());
    // Of 50 even draws none falls into a given outer tenth 1 time in 190 (0.9^50); the seeds are
    // fixed.
    CHECK((*lightest >= 12 && *lightest < 13.2));
    CHECK((*heaviest <= 24 && *heaviest > 22.8));
    CHECK((*mildest >= 0.60 && *mildest < 0.625));
    CHECK((*gravest <= 0.85 && *gravest > 0.825));
    CHECK(conditions.size() == 3);
    CHECK(conditions.begin()->first == 3);
    CHECK(conditions.rbegin()->first == 5);
}

TEST_CASE("every shipped case can be read with other seeds", "[scenario]") {
    for (const std::string& path : base::Disk().list(CISTERN_SOURCE "/scenarios", ".yaml"))
        for (std::uint64_t seed = 1; seed <= 50; ++seed) {
            INFO(path << ", seed " << seed);
            CHECK_NOTHROW(scenario::readCase(base::Disk(), path, test::assets().knowledge, seed));
        }
}

TEST_CASE("the order of choices in a file gives nothing away", "[scenario]") {
    test::Memory memory;
    memory.texts["a_case.yaml"] =
        "cistern: 1\ntitle: In any order\n"
        "patient: {species: dog, age: 9 y, weight: 18 kg, seed: 1}\n"
        "draws: [{at: 0 h, tests: [chemistry]}]\n"
        "ask:\n  organs: [kidney, liver]\n  explanations: [nothing wrong, shunt, Addison]\n"
        "  next: [UPC, bile acids, wait]\n"
        "answer: {explanation: shunt, next: [wait, UPC]}\n";
    const auto one = scenario::readCase(memory, "a_case.yaml", test::assets().knowledge);
    CHECK(one.organs == std::vector{body::Tissue::liver, body::Tissue::kidney});
    CHECK(one.explanations == std::vector<std::string>{"Addison", "nothing wrong", "shunt"});
    CHECK(one.next == std::vector<std::string>{"bile acids", "UPC", "wait"});
    CHECK(one.key.next == std::vector<std::string>{"wait", "UPC"}); // best first, as written
}
