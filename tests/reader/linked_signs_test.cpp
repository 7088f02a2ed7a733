// Signs that are read from the simulated animal, against the rows of the tables.
#include "reader/before_blood.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <iostream>

using namespace cistern;
using namespace cistern::test;

namespace {

constexpr std::uint64_t seed = 21;
constexpr auto dog = body::Kind::dog, cat = body::Kind::cat;

/// How often a sign is there, in percent, among animals that have one insult alone: as they are
/// simulated, and as its row says.
struct Compared {
    double state, row;
};
Compared compare(body::Kind kind, const std::string& sign, const std::string& insult,
                 std::size_t animals) {
    const reader::Priors& priors = assets().knowledge.priors;
    const reader::SignPrior& prior = *priors.sign(sign);
    const auto k = static_cast<std::size_t>(kind);
    const reader::Question question = noBlood(kind, 5, {{sign, true}}, body::Sex::neuteredMale);
    const reader::Stories how(priors, question);
    const reader::SignEvidence signs(priors, question);
    for (std::size_t main = 1; main < how.mains().size(); ++main) {
        if (how.mains()[main].prior->kind->name != insult) continue;
        std::vector<reader::Story> stories;
        for (std::uint64_t i = 0; i < animals; ++i) {
            base::Chance chance(seed, base::Purpose::story, i);
            stories.push_back(how.draw(main, chance));
            std::erase_if(stories.back().events,
                          [&](const auto& event) { return event.prior != stories.back().main; });
        }
        double sum = 0, lived = 0;
        const auto states = presented(question, stories);
        for (std::size_t i = 0; i < animals; ++i) {
            if (!states[i]) continue;
            // What is told, freed from what is missed and what is told though absent.
            const double called = prior.checkUp[k];
            sum +=
                (signs.chances(stories[i], *states[i])[0] - called) / (1 - prior.missed - called);
            ++lived;
        }
        const auto& shows = how.mains()[main].prior->shows[k];
        const auto row = shows.find(sign);
        return {100 * sum / lived, 100 * (row == shows.end() ? prior.complaint[k] : row->second)};
    }
    throw std::out_of_range(insult);
}

struct Pair {
    body::Kind kind;
    std::string sign, insult;
};

} // namespace

TEST_CASE("Signs read from the simulated animal come as often as the tables say", "[reader]") {
    const std::vector<Pair> all{{dog, "icterus", "hemolysis"},
                                {cat, "icterus", "hemolysis"},
                                {dog, "icterus", "bile duct obstruction"},
                                {cat, "icterus", "hepatic lipidosis"},
                                {dog, "tacky gums", "dehydration"},
                                {cat, "tacky gums", "dehydration"},
                                {dog, "pale gums", "passive congestion"},
                                {dog, "ascites", "passive congestion"},
                                {dog, "ascites", "hepatic fibrosis"},
                                {dog, "bradycardia", "urinary obstruction"},
                                {cat, "bradycardia", "urinary obstruction"},
                                {dog, "bradycardia", "hypothyroidism"},
                                {dog, "polydipsia", "diabetes mellitus"},
                                {dog, "polydipsia", "corticosteroid effect"},
                                {dog, "dark urine", "urinary obstruction"}};
    for (const Pair& one : all) {
        INFO(one.sign << " of " << one.insult << " in the " << name(one.kind));
        const Compared found = compare(one.kind, one.sign, one.insult, 200);
        // Ten points, and two standard errors of the mean of 200 chances.
        CHECK(found.state == Approx(found.row).margin(10 + 2 * 50 / std::sqrt(200.)));
    }
}

TEST_CASE("Signs read from the simulated animal, as a table", "[.table]") {
    const reader::Priors& priors = assets().knowledge.priors;
    for (const body::Kind kind : {dog, cat})
        for (const reader::SignPrior& sign : priors.signs) {
            if (sign.links.empty()) continue;
            for (const reader::InsultPrior& insult : priors.insults) {
                const auto k = static_cast<std::size_t>(kind);
                if (!insult.shows[k].count(sign.name) || insult.weight[k][1] == 0) continue;
                const Compared found = compare(kind, sign.name, insult.kind->name, 100);
                std::cout << name(kind) << ", " << sign.name << ", " << insult.kind->name << ": "
                          << std::lround(found.state) << ", row " << std::lround(found.row)
                          << std::endl;
            }
        }
}
