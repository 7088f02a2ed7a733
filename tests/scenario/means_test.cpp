// What explanations mean: as a file says it, and whether the shipped cases say what is true of
// them.
#include "at_hand.h"
#include "lesson/ideal.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace cistern;

namespace {

const std::string scenarios = CISTERN_SOURCE "/scenarios/";

std::vector<lesson::Case> shipped() {
    std::vector<lesson::Case> all;
    for (const std::string& path : base::Disk().list(scenarios, ".yaml"))
        all.push_back(scenario::readCase(base::Disk(), path, test::assets().knowledge));
    return all;
}

const body::Insult* find(const lesson::Case& one, const body::InsultKind* kind) {
    const auto at = std::find_if(one.insults.begin(), one.insults.end(),
                                 [&](const body::Insult& insult) { return insult.kind == kind; });
    return at == one.insults.end() ? nullptr : &*at;
}

/// Whether what happens in a case is what a meaning says.
bool met(const reader::Meaning& meaning, const lesson::Case& one) {
    for (const body::InsultKind* kind : meaning.with)
        if (!find(one, kind)) return false;
    for (const body::InsultKind* kind : meaning.without)
        if (find(one, kind)) return false;
    const body::Insult& first = *find(one, meaning.with.front());
    if (meaning.severity &&
        !(first.severity >= meaning.severity->first && first.severity <= meaning.severity->second))
        return false;
    return !meaning.running || *meaning.running == (first.to >= one.draws.back().at);
}

bool met(const reader::Explanation& explanation, const lesson::Case& one) {
    if (explanation.nothingWrong) return one.insults.empty();
    return std::any_of(explanation.meanings.begin(), explanation.meanings.end(),
                       [&](const auto& meaning) { return met(meaning, one); });
}

lesson::Case read(const std::string& means) {
    test::Memory memory;
    memory.texts["case.yaml"] =
        "cistern: 1\ntitle: A case\npatient: {species: cat, age: 9 y, weight: 4 kg, seed: 1}\n"
        "draws: [{at: 0 h, tests: [chemistry]}]\nask:\n"
        "  explanations: [nothing wrong, one, another]\n  means:\n" +
        means + "answer: {explanation: nothing wrong}\n";
    return scenario::readCase(memory, "case.yaml", test::assets().knowledge);
}

} // namespace

TEST_CASE("the true explanation of each shipped case means what happens in it", "[scenario]") {
    for (const lesson::Case& one : shipped()) {
        INFO(one.file);
        REQUIRE_FALSE(one.key.explanations.empty());
        for (const auto& explanation : lesson::explanations(one, test::assets().knowledge)) {
            const auto& isTrue = one.key.explanations;
            if (std::find(isTrue.begin(), isTrue.end(), explanation.name) == isTrue.end()) continue;
            INFO(explanation.name);
            CHECK(met(explanation, one));
        }
    }
}

TEST_CASE("no two explanations of a shipped case mean the same", "[scenario]") {
    const auto same = [](const reader::Meaning& a, const reader::Meaning& b) {
        return a.with == b.with && a.without == b.without && a.severity == b.severity &&
               a.running == b.running;
    };
    for (const lesson::Case& one : shipped()) {
        const auto list = lesson::explanations(one, test::assets().knowledge);
        for (std::size_t i = 0; i < list.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                for (const reader::Meaning& a : list[i].meanings)
                    for (const reader::Meaning& b : list[j].meanings) {
                        INFO(one.file << ": " << list[i].name << ", " << list[j].name);
                        CHECK_FALSE(same(a, b));
                    }
    }
}

TEST_CASE("explanations without a meaning in the shipped cases are those that no insult makes",
          "[scenario]") {
    std::vector<std::string> without;
    for (const lesson::Case& one : shipped())
        for (const auto& explanation : lesson::explanations(one, test::assets().knowledge))
            if (!explanation.nothingWrong && explanation.meanings.empty())
                without.push_back(explanation.name);
    std::sort(without.begin(), without.end());
    CHECK(without == std::vector<std::string>{
                         "hemorrhage, a second one at 48 h", "low calcium of nursing",
                         "nervous disease outside this list", "thin, with little muscle"});
}

TEST_CASE("a meaning is read as it is written", "[scenario]") {
    const lesson::Case one =
        read("    one: {with: [nephron loss, dehydration], without: fright, severity: 60..90 %, "
             "running: true}\n"
             "    another: [{with: stress}, {with: fasting, running: false}]\n");
    const auto& first = one.means.at("one");
    REQUIRE(first.size() == 1);
    REQUIRE(first[0].with.size() == 2);
    CHECK(first[0].with[0]->name == "nephron loss");
    CHECK(first[0].with[1]->name == "dehydration");
    REQUIRE(first[0].without.size() == 1);
    CHECK(first[0].without[0]->name == "fright");
    REQUIRE(first[0].severity);
    CHECK(first[0].severity->first == Approx(0.6));
    CHECK(first[0].severity->second == Approx(0.9));
    CHECK(first[0].running == true);
    REQUIRE(one.means.at("another").size() == 2);
    CHECK(one.means.at("another")[1].running == false);
    CHECK_FALSE(one.means.at("another")[0].running);
}
