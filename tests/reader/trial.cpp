#include "trial.h"

#include "base/chance.h"
#include "base/parallel.h"
#include "reader/fit.h"
#include "reader/signs.h"

#include <algorithm>
#include <cmath>

namespace cistern::tests {

namespace {

using body::Tissue;

const std::vector<Tissue> organs{Tissue::liver,     Tissue::bileDucts, Tissue::skeletalMuscle,
                                 Tissue::kidney,    Tissue::pancreas,  Tissue::redCells,
                                 Tissue::whiteCells};

const std::vector<std::string> findings{
    "lethargy",  "poor appetite", "vomiting", "weight loss", "polydipsia", "icterus",
    "pale gums", "tacky gums",    "fever",    "petechiae",   "ascites",    "steroid tablets given"};

reader::Question asked(const lesson::Knowledge& knowledge, const body::Signalment& who) {
    reader::Question question;
    question.who = who;
    question.organs = organs;
    reader::Explanation well{"nothing wrong", true, {}};
    question.explanations.push_back(well);
    for (const reader::InsultPrior& one : knowledge.priors.insults)
        if (!one.passing)
            question.explanations.push_back({one.kind->name, false, {{{one.kind}, {}, {}, {}}}});
    reader::Sample sample;
    sample.handling.fasted = 12;
    question.samples.push_back(sample);
    for (const std::string& finding : findings) question.signs.push_back({finding, true});
    return question;
}

} // namespace

std::vector<body::Signalment> patients() {
    constexpr double year = 8766; // [h]
    std::vector<body::Signalment> all;
    for (const auto& [kind, age, weight] :
         {std::tuple{body::Kind::dog, 5., 20.}, std::tuple{body::Kind::cat, 5., 4.5},
          std::tuple{body::Kind::dog, 11., 15.}, std::tuple{body::Kind::cat, 13., 4.},
          std::tuple{body::Kind::dog, 0.6, 12.}, std::tuple{body::Kind::cat, 0.6, 2.8}}) {
        body::Signalment who;
        who.kind = kind;
        who.age = age * year;
        who.weight = weight;
        all.push_back(who);
    }
    return all;
}

std::optional<Trial> trial(const lesson::Knowledge& knowledge, const body::Signalment& who,
                           const std::vector<std::string>& tests, std::uint64_t number) {
    Trial out;
    out.question = asked(knowledge, who);
    reader::Question& question = out.question;
    const reader::Stories stories(knowledge.priors, question);
    constexpr std::uint64_t seed = 20240229; // of trials, apart from any ensemble's
    base::Chance chance(seed, base::Purpose::test, number);

    double left = chance.uniform();
    std::size_t main = 0;
    while (main + 1 < stories.mains().size() && (left -= stories.mains()[main].chance) > 0) ++main;
    out.story = stories.draw(main, chance);

    const body::Species& species = knowledge.species(who.kind);
    body::Signalment own = who;
    own.seed = 1000000 + number;
    own.potassiumRichCells = out.story.potassiumRich;
    body::Plan plan;
    plan.animal = body::individual(species, own);
    plan.windows = stories.windows(out.story, species);
    for (const body::Window& window : plan.windows) plan.from = std::min(plan.from, window.from);
    plan.looks = {0};
    try {
        out.truth = body::simulate(plan).at(0);
    } catch (const body::BeyondLife&) {
        return std::nullopt;
    }
    reader::Sample& sample = question.samples.front();
    lab::Specimen specimen;
    specimen.handling = sample.handling;
    sample.report = lab::measure(knowledge.bench, plan.animal, out.truth, specimen, tests, 0);

    const reader::SignEvidence signs(knowledge.priors, question);
    const std::vector<double> told = signs.chances(out.story, out.truth);
    for (std::size_t s = 0; s < told.size(); ++s)
        question.signs[s].there = chance.uniform() < told[s];
    out.fits = reader::fits(out.story, question, stories);
    return out;
}

Calibration calibrate(const lesson::Knowledge& knowledge, const std::vector<std::string>& tests,
                      std::size_t trials, std::size_t animals) {
    struct Outcome {
        bool lived = false;
        std::vector<double> work, leak;
        std::vector<Calibration::Said> said;
        double worth = 0, bits = 0;
    };
    const std::vector<body::Signalment> kinds = patients();
    std::vector<Outcome> outcomes(trials);
    const int threads = base::threadsHere();
    base::inParallel(trials, threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t n = first; n < last; ++n) {
            const body::Signalment& who = kinds[n % kinds.size()];
            const auto one = trial(knowledge, who, tests, n);
            if (!one) continue;
            Outcome& out = outcomes[n];
            out.lived = true;
            reader::Reader reader(knowledge.priors, knowledge.bench, knowledge.species(who.kind),
                                  one->question);
            reader::Effort effort;
            effort.animals = animals;
            effort.seed = n;
            const reader::Posterior posterior = reader.weigh(effort);
            constexpr std::uint64_t seed = 7; // of how ties are parted
            base::Chance chance(seed, base::Purpose::test, n);
            for (const Tissue organ : organs) {
                const reader::Place work = reader.workAt(organ, one->truth.work(organ));
                const reader::Place leak = reader.leakAt(organ, one->truth.leak(organ));
                out.work.push_back(work.below + chance.uniform() * work.equal);
                out.leak.push_back(leak.below + chance.uniform() * leak.equal);
            }
            double right = 0;
            for (std::size_t e = 0; e < posterior.weights.size(); ++e) {
                const bool is = one->fits >> e & 1;
                out.said.push_back({posterior.weights[e], is});
                if (is) right += posterior.weights[e];
            }
            out.worth = posterior.effective;
            constexpr double least = 1e-6; // of what it had ruled out
            out.bits = -std::log2(std::max(right, least));
        }
    });
    Calibration all;
    for (const Tissue organ : organs) all.organs.push_back({organ, {}, {}});
    for (const Outcome& one : outcomes) {
        if (!one.lived) continue;
        for (std::size_t o = 0; o < organs.size(); ++o) {
            all.organs[o].work.push_back(one.work[o]);
            all.organs[o].leak.push_back(one.leak[o]);
        }
        all.said.insert(all.said.end(), one.said.begin(), one.said.end());
        all.worth.push_back(one.worth);
        all.bits += one.bits;
    }
    all.bits /= static_cast<double>(std::max<std::size_t>(all.worth.size(), 1));
    return all;
}

double uniformity(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const double n = static_cast<double>(values.size());
    double distance = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double before = static_cast<double>(i) / n, after = static_cast<double>(i + 1) / n;
        distance = std::max({distance, values[i] - before, after - values[i]});
    }
    const double x = (std::sqrt(n) + 0.12 + 0.11 / std::sqrt(n)) * distance;
    double p = 0;
    for (int k = 1; k <= 100; ++k) p += (k % 2 ? 2 : -2) * std::exp(-2.0 * k * k * x * x);
    return std::clamp(p, 0., 1.);
}

} // namespace cistern::tests
