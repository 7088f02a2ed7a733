#include "reader/before_blood.h"

#include "reader/ensemble.h"

#include <algorithm>
#include <cmath>

namespace cistern::test {

namespace {

constexpr std::uint64_t seed = 20;
constexpr double year = 8766; // [h]
constexpr int threads = 2;

const body::Species& speciesOf(const reader::Question& question) {
    return assets().knowledge.species(question.who.kind);
}

body::Plan planOf(const reader::Question& question, const reader::Stories& how,
                  const reader::Story& story, body::Parts parts) {
    body::Plan plan;
    plan.parts = parts;
    reader::coarsen(plan);
    plan.animal = body::median(speciesOf(question), question.who);
    plan.windows = how.windows(story, speciesOf(question));
    plan.looks = {question.presented()};
    for (const body::Window& window : plan.windows) plan.from = std::min(plan.from, window.from);
    return plan;
}

} // namespace

reader::Question noBlood(body::Kind kind, double years, const std::vector<reader::Sign>& signs,
                         body::Sex sex) {
    reader::Question question;
    question.who.kind = kind;
    question.who.age = years * year;
    question.who.weight = kind == body::Kind::dog ? 20 : 4.5;
    question.who.sex = sex;
    question.samples.resize(1);
    question.signs = signs;
    return question;
}

std::vector<std::optional<body::Snapshot>> presented(const reader::Question& question,
                                                     const std::vector<reader::Story>& stories) {
    const reader::Stories how(assets().knowledge.priors, question);
    std::vector<std::optional<body::Snapshot>> states(stories.size());
    const reader::SignEvidence signs(assets().knowledge.priors, question);
    const body::Parts parts = body::partsFor(signs.analytes());
    const auto plan = [&](std::size_t i) { return planOf(question, how, stories[i], parts); };
    try {
        body::simulate(
            stories.size(), plan,
            [&](std::size_t i, const body::Course& course) { states[i] = course.at(0); }, threads);
    } catch (const body::BeyondLife&) { // one by one, to know which
        for (std::size_t i = 0; i < stories.size(); ++i) try {
                states[i] = body::simulate(plan(i)).at(0);
            } catch (const body::BeyondLife&) {
                states[i].reset();
            }
    }
    return states;
}

std::vector<Belief> beforeBlood(const reader::Question& question, std::size_t each) {
    const reader::Priors& priors = assets().knowledge.priors;
    const reader::Stories how(priors, question);
    const reader::SignEvidence signs(priors, question);
    std::vector<Belief> beliefs;
    double sum = 0;
    for (std::size_t main = 0; main < how.mains().size(); ++main) {
        std::vector<reader::Story> stories;
        for (std::size_t i = 0; i < each; ++i) {
            base::Chance chance(seed, base::Purpose::story, main * each + i);
            stories.push_back(how.draw(main, chance));
        }
        auto states = signs.needsState()
                          ? presented(question, stories)
                          : std::vector<std::optional<body::Snapshot>>(each, body::Snapshot{});
        double likelihood = 0;
        for (std::size_t i = 0; i < each; ++i)
            if (states[i]) likelihood += std::exp(signs.log(signs.chances(stories[i], *states[i])));
        const reader::InsultPrior* prior = how.mains()[main].prior;
        const double weight = how.mains()[main].chance * likelihood / static_cast<double>(each);
        beliefs.push_back({prior ? prior->kind->name : "nothing wrong", weight});
        sum += weight;
    }
    for (Belief& one : beliefs) one.percent *= 100 / sum;
    std::sort(beliefs.begin(), beliefs.end(),
              [](const Belief& a, const Belief& b) { return a.percent > b.percent; });
    return beliefs;
}

double percentOf(const std::vector<Belief>& beliefs, const std::string& insult) {
    for (const Belief& one : beliefs)
        if (one.insult == insult) return one.percent;
    return 0;
}

} // namespace cistern::test
