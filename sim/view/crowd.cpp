#include "view/crowd.h"

#include "base/parallel.h"
#include "lesson/herd.h"

#include <utility>

namespace cistern::view {

namespace {

constexpr std::uint64_t herdSeed = 1; // the herd that `cistern herd` shows unasked

} // namespace

Crowd::Crowd(const lesson::Knowledge& knowledge, body::Kind kind, std::optional<double> age,
             std::size_t animals)
    : kind_(kind) {
    const lab::Bench& bench = knowledge.bench;
    const body::Species& species = knowledge.species(kind);
    within_ = species.within;
    std::vector<std::string> tests;
    for (const lab::Test& test : bench.tests)
        if (!test.analytes.empty()) tests.push_back(test.name);

    std::vector<body::Individual> herd(animals);
    std::vector<std::vector<lab::Result>> results(animals);
    body::simulate(
        animals,
        [&](std::size_t i) {
            herd[i] = body::individual(species, lesson::member(kind, herdSeed, i, age));
            body::Plan plan;
            plan.animal = herd[i];
            plan.from = -1; // at rest, so any start will do
            plan.looks = {0};
            return plan;
        },
        [&](std::size_t i, const body::Course& course) {
            results[i] =
                lab::measure(bench, herd[i], course.at(0), lab::Specimen{}, tests, 0).results;
        },
        base::threadsHere());
    for (const std::vector<lab::Result>& animal : results)
        for (const lab::Result& one : animal)
            peers_[static_cast<std::size_t>(one.analyte)].push_back(one.value);
}

std::string Crowd::name() const {
    return "healthy " + std::string(body::name(kind_)) + "s";
}

const std::vector<double>& Crowd::peers(body::Analyte analyte) const {
    return peers_[static_cast<std::size_t>(analyte)];
}

double Crowd::within(body::Analyte analyte) const {
    return within_[static_cast<std::size_t>(analyte)];
}

std::optional<double> ageOfPeers(const body::Signalment& who) {
    return who.age < lesson::grownFrom() ? std::optional(who.age) : std::nullopt;
}

} // namespace cistern::view
