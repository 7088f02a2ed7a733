#include "reader/signs.h"
#include "reader/small_world.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace cistern;
using namespace cistern::reader;
using namespace cistern::test;

namespace {

/// The shipped priors with an examiner who misses nothing and calls nothing that is not there.
Priors sharpEyed() {
    Priors priors = assets().knowledge.priors;
    priors.together = 1;
    for (SignPrior& sign : priors.signs) {
        sign.missed = 0;
        sign.calledWhenAbsent = 0;
    }
    return priors;
}

/// Weights [%] of the main insults, each alone at its median severity, by signs that no state of
/// the animal decides.
std::map<std::string, double> weights(const Priors& priors, body::Kind kind, double years,
                                      const std::vector<Sign>& signs) {
    Question question = dogAt({0});
    question.who.kind = kind;
    question.who.age = years * 8766;
    question.who.sex = body::Sex::neuteredMale;
    question.signs = signs;
    const Stories stories(priors, question);
    const SignEvidence evidence(priors, question);
    REQUIRE_FALSE(evidence.needsState());
    const auto likely = [&](const Story& story) {
        return std::exp(evidence.log(evidence.chances(story, {})));
    };
    std::map<std::string, double> all;
    double sum = 0;
    for (const Stories::Main& main : stories.mains()) {
        Story checkUp;
        checkUp.checkUp = true;
        const double chance = main.prior ? likely(only(*main.prior))
                                         : priors.checkUps * likely(checkUp) +
                                               (1 - priors.checkUps) * likely(Story{});
        all[main.prior ? main.prior->kind->name : "nothing wrong"] += main.chance * chance;
        sum += main.chance * chance;
    }
    for (auto& [name, weight] : all) weight *= 100 / sum;
    return all;
}

std::vector<Sign> all(const std::vector<std::string>& names, bool there = true) {
    std::vector<Sign> signs;
    for (const std::string& name : names) signs.push_back({name, there});
    return signs;
}

} // namespace

// What the tables of priors give before any blood was multiplied out by hand when they were
// compiled, apart from this program; judgement of this project. Within 5 points, since weights have
// been rounded and moved a little since.
TEST_CASE("Findings move the shipped priors as plain multiplication has it", "[reader]") {
    using body::Kind;
    const Priors priors = sharpEyed();
    const auto check = [](std::map<std::string, double> found,
                          const std::map<std::string, double>& wanted) {
        for (const auto& [name, weight] : wanted) {
            CAPTURE(name);
            CHECK(found[name] == Approx(weight).margin(5));
        }
    };
    const std::vector<std::string> vague{"lethargy", "poor appetite", "vomiting",
                                         "waxing and waning"};
    check(weights(priors, Kind::dog, 4, all(vague)), {{"pancreatitis", 25},
                                                      {"inflammation", 19},
                                                      {"hypoadrenocorticism", 12},
                                                      {"acute kidney injury", 7},
                                                      {"nothing wrong", 6}});
    Priors tempered = priors;
    tempered.together = 0.6;
    check(weights(tempered, Kind::dog, 4, all(vague)), {{"inflammation", 20},
                                                        {"pancreatitis", 15},
                                                        {"nothing wrong", 14},
                                                        {"hypoadrenocorticism", 8},
                                                        {"dehydration", 7}});
    check(weights(priors, Kind::dog, 4,
                  all({"lethargy", "poor appetite", "vomiting", "diarrhea", "polydipsia",
                       "weight loss"},
                      false)),
          {{"nothing wrong", 69}, {"fright", 7}, {"corticosteroid effect", 6}});
    check(weights(priors, Kind::cat, 13, all({"weight loss", "ravenous appetite", "tachycardia"})),
          {{"hyperthyroidism", 82}, {"diabetes mellitus", 5}, {"nephron loss", 5}});
    check(weights(priors, Kind::cat, 13,
                  all({"weight loss", "ravenous appetite", "tachycardia", "palpable thyroid"})),
          {{"hyperthyroidism", 99}});
    check(weights(priors, Kind::dog, 11, all({"polydipsia", "weight loss"})),
          {{"nephron loss", 35}, {"diabetes mellitus", 32}});
    check(weights(priors, Kind::dog, 11, all({"polydipsia", "pot belly", "thin coat on flanks"})),
          {{"hyperadrenocorticism", 94}});
    check(weights(priors, Kind::dog, 4,
                  all({"steroid tablets given", "polydipsia", "ravenous appetite"})),
          {{"corticosteroid effect", 97}});
    check(weights(priors, Kind::dog, 0.5, all({"small for age", "seizures after meals"})),
          {{"portosystemic shunt", 99}});
    check(weights(priors, Kind::cat, 4, all({"straining to urinate", "large bladder"})),
          {{"urinary obstruction", 95}});
}
