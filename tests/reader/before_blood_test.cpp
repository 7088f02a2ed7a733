// What is believed of an animal from age and signs alone, and whether the simulated state shows
// what the rows of assets/priors say.
#include "reader/before_blood.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <iomanip>
#include <iostream>
#include <numeric>

using namespace cistern;
using namespace cistern::test;

namespace {

struct Expected {
    std::string insult;
    double percent;
};
struct Glimpse {
    std::string who;
    body::Kind kind;
    double years;
    std::vector<std::string> there, absent;
    std::vector<Expected> expected;
    body::Sex sex = body::Sex::spayedFemale;
};

constexpr auto dog = body::Kind::dog, cat = body::Kind::cat;

const std::vector<Glimpse>& glimpses() {
    static const std::vector<Glimpse> all{
        {"an adult dog that is vaguely ill",
         dog,
         4,
         {"lethargy", "poor appetite", "vomiting", "waxing and waning"},
         {},
         {{"inflammation", 20},
          {"pancreatitis", 15},
          {"nothing wrong", 14},
          {"hypoadrenocorticism", 8},
          {"dehydration", 7}}},
        {"an adult dog without signs",
         dog,
         4,
         {},
         {"lethargy", "poor appetite", "vomiting", "diarrhea", "polydipsia", "weight loss"},
         {{"nothing wrong", 69}, {"fright", 7}, {"corticosteroid effect", 6}}},
        {"an old cat that eats and fades",
         cat,
         13,
         {"weight loss", "ravenous appetite", "tachycardia"},
         {},
         {{"hyperthyroidism", 82}, {"diabetes mellitus", 5}, {"nephron loss", 5}}},
        {"the same with a lump beside the windpipe",
         cat,
         13,
         {"weight loss", "ravenous appetite", "tachycardia", "palpable thyroid"},
         {},
         {{"hyperthyroidism", 99}}},
        {"an old dog that drinks and fades",
         dog,
         11,
         {"polydipsia", "weight loss"},
         {},
         {{"nephron loss", 35}, {"diabetes mellitus", 32}}},
        {"an old dog with thirst, belly and thin coat",
         dog,
         11,
         {"polydipsia", "pot belly", "thin coat on flanks"},
         {},
         {{"hyperadrenocorticism", 94}}},
        {"an adult dog on steroid tablets",
         dog,
         4,
         {"steroid tablets given", "polydipsia", "ravenous appetite"},
         {},
         {{"corticosteroid effect", 97}}},
        {"an old dog with fluid in its belly",
         dog,
         11,
         {"ascites", "lethargy"},
         {},
         {{"passive congestion", 55},
          {"hepatic fibrosis", 18},
          {"hemorrhage", 12},
          {"protein-losing enteropathy", 6}}},
        {"a yellow adult cat",
         cat,
         5,
         {"icterus", "poor appetite", "weight loss"},
         {},
         {{"hepatic lipidosis", 58}, {"pancreatitis", 27}, {"bile duct obstruction", 11}}},
        {"a small young dog, odd after meals",
         dog,
         0.5,
         {"small for age", "seizures after meals"},
         {},
         {{"portosystemic shunt", 99}}},
        {"an adult cat that strains",
         cat,
         5,
         {"straining to urinate", "large bladder"},
         {},
         {{"urinary obstruction", 95}},
         body::Sex::neuteredMale},
        {"a pale and yellow adult dog",
         dog,
         4,
         {"pale gums", "icterus", "lethargy"},
         {},
         {{"hemolysis", 94}}}};
    return all;
}

reader::Question questionOf(const Glimpse& one) {
    std::vector<reader::Sign> signs;
    for (const std::string& name : one.there) signs.push_back({name, true});
    for (const std::string& name : one.absent) signs.push_back({name, false});
    return noBlood(one.kind, one.years, signs, one.sex);
}

} // namespace

TEST_CASE("Beliefs before any blood, as a table", "[.table]") {
    for (const Glimpse& one : glimpses()) {
        const auto beliefs = beforeBlood(questionOf(one), 300);
        std::cout << one.who << "\n  ";
        for (std::size_t i = 0; i < 7; ++i)
            std::cout << beliefs[i].insult << " " << std::lround(beliefs[i].percent) << ", ";
        std::cout << "\n  expected: ";
        for (const Expected& e : one.expected) std::cout << e.insult << " " << e.percent << ", ";
        std::cout << std::endl;
    }
}

TEST_CASE("Linked signs against the rows of the tables, as a table", "[.links]") {
    const reader::Priors& priors = assets().knowledge.priors;
    for (const body::Kind kind : {dog, cat}) {
        reader::Question question = noBlood(kind, 5, {}, body::Sex::neuteredMale);
        std::vector<const reader::SignPrior*> linked;
        for (const reader::SignPrior& sign : priors.signs)
            if (!sign.links.empty()) {
                question.signs.push_back({sign.name, true});
                linked.push_back(&sign);
            }
        const reader::Stories how(priors, question);
        const reader::SignEvidence signs(priors, question);
        std::cout << "\n" << name(kind);
        for (const auto* sign : linked) std::cout << " | " << sign->name;
        std::cout << "\n";
        for (std::size_t main = 1; main < how.mains().size(); ++main) {
            std::vector<reader::Story> stories;
            for (std::uint64_t i = 0; i < 100; ++i) {
                base::Chance chance(21, base::Purpose::story, main * 1000 + i);
                stories.push_back(how.draw(main, chance));
                stories.back().events.resize(1); // alone
            }
            const auto states = presented(question, stories);
            std::vector<double> sum(linked.size());
            std::vector<std::array<double, 8>> levels;
            int lived = 0;
            for (std::size_t i = 0; i < stories.size(); ++i) {
                if (!states[i]) continue;
                ++lived;
                const auto chances = signs.chances(stories[i], *states[i]);
                for (std::size_t s = 0; s < linked.size(); ++s) {
                    const double called = linked[s]->checkUp[static_cast<std::size_t>(kind)];
                    sum[s] += (chances[s] - called) / (1 - linked[s]->missed - called);
                }
                using A = body::Analyte;
                const body::Snapshot& at = *states[i];
                levels.push_back({at.level(A::bilirubin), at.level(A::PCV), at.level(A::albumin),
                                  at.level(A::platelets), at.level(A::USG), at.level(A::glucose),
                                  at.level(A::K), 60 * (1 - at.at(body::reading::hydration))});
            }
            const auto& shows = how.mains()[main].prior->shows[static_cast<std::size_t>(kind)];
            std::cout << std::left << std::setw(27) << how.mains()[main].prior->kind->name << lived;
            for (std::size_t s = 0; s < linked.size(); ++s) {
                const auto row = shows.find(linked[s]->name);
                std::cout << " | " << std::lround(100 * sum[s] / lived) << "/";
                if (row != shows.end()) std::cout << std::lround(100 * row->second);
            }
            std::cout << "   #";
            for (std::size_t k = 0; k < 8; ++k) {
                std::vector<double> v;
                for (const auto& l : levels) v.push_back(l[k]);
                std::sort(v.begin(), v.end());
                std::cout << " " << std::setprecision(4) << v[v.size() / 2];
            }
            std::cout << std::endl;
        }
    }
}
