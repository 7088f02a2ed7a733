#include "reader/posterior.h"

#include "base/parallel.h"
#include "reader/inside.h"
#include "reader/sheet.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

constexpr double ofFirstRound = 0.3;   // share of the stories before it is seen who weighs
constexpr std::size_t laterRounds = 4; // at most, sharing the rest
constexpr double enough = 5000;        // effective stories that need no later round
constexpr double ofMains = 48; // stories that softened weights are worth, to choose main insults by
constexpr double unknown = -1; // a share not yet worked out

/// What must be simulated for a question: what its results are made of, and what its signs follow.
Wanted wantedFor(const Question& question, const lab::Bench& bench, const SignEvidence& signs) {
    Wanted wanted;
    for (const Sample& sample : question.samples)
        if (wanted.hours.empty() || wanted.hours.back() < sample.hour)
            wanted.hours.push_back(sample.hour);
    wanted.analytes = neededFor(question, bench);
    for (const body::Analyte one : signs.analytes())
        if (std::find(wanted.analytes.begin(), wanted.analytes.end(), one) == wanted.analytes.end())
            wanted.analytes.push_back(one);
    wanted.organs = question.organs;
    wanted.presented = !question.signs.empty();
    return wanted;
}

} // namespace

Reader::Inside::Inside(const Priors& priors, const lab::Bench& ofLab, const body::Species& ofKind,
                       Question asked)
    : bench(ofLab),
      species(ofKind),
      question(std::move(asked)),
      stories(priors, question),
      signs(priors, question),
      wanted(wantedFor(question, bench, signs)),
      results(question, bench, species, wanted) {}

void Reader::Inside::extend(std::vector<Story> more, const Effort& effort) {
    const std::size_t from = lived.size(), count = more.size();
    lived.append(
        live(std::move(more), effort.seed, stories, question, wanted, species, effort.threads));
    origins.resize(from + count);
    told.resize(from + count);
    toldAll.resize(from + count);
    resultsAll.resize(from + count);
    fit.resize(from + count);
    base::inParallel(count, effort.threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t i = from + first; i < from + last; ++i) {
            constexpr double never = -std::numeric_limits<double>::infinity();
            origins[i] = stories.origins(lived.stories[i]);
            fit[i] = reader::explained(lived.stories[i], origins[i], question, stories);
            toldAll[i] = resultsAll[i] = never;
            if (!lived.alive[i]) continue;
            const body::Snapshot none;
            told[i] = signs.chances(lived.stories[i],
                                    lived.presented.empty() ? none : lived.presented[i]);
            toldAll[i] = signs.log(told[i]);
            resultsAll[i] = results.log(lived, i, stories);
        }
    });
}

std::vector<double> Reader::Inside::logs(bool withSigns, bool withResults, bool all) const {
    std::vector<double> logs(lived.size(), -std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < logs.size(); ++i)
        if (lived.alive[i])
            logs[i] = drawn[i] + (withSigns ? toldAll[i] : 0) + (withResults ? resultsAll[i] : 0) +
                      (all ? 0 : std::log(fit[i].listed));
    return logs;
}

void Reader::Inside::count(const Rounds& rounds, const std::vector<double>& drawnOf, int threads) {
    draws.resize(rounds.size());
    drawn.resize(lived.size());
    for (std::vector<double>& one : draws) one.resize(lived.size(), unknown);
    base::inParallel(lived.size(), threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t i = first; i < last; ++i) {
            double expected = 0;
            for (std::size_t r = 0; r < draws.size(); ++r) {
                if (draws[r][i] == unknown)
                    draws[r][i] = rounds.share(r, lived.stories[i], origins[i]);
                expected += drawnOf[r] * draws[r][i];
            }
            drawn[i] = -std::log(expected);
        }
    });
}

std::vector<double> Reader::Inside::explained(const std::vector<double>& under) const {
    std::vector<double> shares(question.explanations.size(), 0);
    for (std::size_t i = 0; i < under.size(); ++i)
        if (under[i] > 0) fit[i].addTo(shares, under[i]);
    return shares;
}

std::vector<double> Reader::Inside::ofMains(const std::vector<double>& under) const {
    constexpr double least = 1e-3; // that is thought possible, of what has weighed nothing so far
    std::vector<double> all;
    for (const Stories::Main& main : stories.mains()) all.push_back(least * main.chance);
    for (std::size_t i = 0; i < under.size(); ++i) {
        if (under[i] <= 0) continue;
        for (const auto& one : origins[i].each)
            all[one.main] += under[i] * one.chance / origins[i].chance;
    }
    return all;
}

Reader::Reader(const Priors& priors, const lab::Bench& bench, const body::Species& species,
               Question question)
    : inside_(std::make_unique<Inside>(priors, bench, species, std::move(question))) {}
Reader::~Reader() = default;
Reader::Reader(Reader&&) noexcept = default;

Posterior Reader::weigh(const Effort& effort) {
    Inside& in = *inside_;
    in.clear();
    in.seed = effort.seed;
    const std::size_t all = std::max<std::size_t>(effort.animals / 2, 1);
    const auto firstRound = static_cast<std::size_t>(ofFirstRound * static_cast<double>(all));
    in.lived.reserve(all, in.wanted);
    constexpr std::size_t blocks = 10;
    const std::size_t block = std::max<std::size_t>((all + blocks - 1) / blocks, 1);
    Rounds rounds(in.stories, effort.seed);
    std::vector<double> drawnOf{0};                           // stories by round
    std::size_t until = std::max<std::size_t>(firstRound, 1); // the present round ends there
    while (in.lived.size() < all) {
        const std::size_t from = in.lived.size();
        const std::size_t to = std::min({from + block, until, all});
        std::vector<Story> more(to - from);
        base::inParallel(more.size(), effort.threads, [&](std::size_t first, std::size_t last) {
            for (std::size_t i = first; i < last; ++i) more[i] = rounds.draw(from + i);
        });
        in.extend(std::move(more), effort);
        drawnOf.back() += static_cast<double>(to - from);
        in.count(rounds, drawnOf, effort.threads);
        const bool over = to >= until || to >= all;
        if (!effort.progress && !over) continue;
        const std::vector<double> logs = in.logs(true, true);
        if (effort.progress && !effort.progress(static_cast<double>(to) / static_cast<double>(all),
                                                in.explained(normalized(logs))))
            break;
        if (!over || to >= all) continue;
        // A round is over: are there enough stories that weigh, or is the next drawn near these?
        until = all;
        if (rounds.size() > laterRounds || effective(normalized(logs)) >= enough) continue;
        if (effective(normalized(logs)) <= 0) continue; // nothing weighs anything
        const std::size_t left = laterRounds + 1 - rounds.size();
        until = to + (all - to + left - 1) / left;
        std::vector<double> softer(logs);
        const double power = tempering(logs, ofMains);
        for (double& log : softer)
            if (std::isfinite(log)) log *= power;
        rounds.begin(in.lived.stories, in.origins, logs, in.ofMains(normalized(softer)));
        drawnOf.push_back(0);
    }
    in.ofFirst = static_cast<std::size_t>(drawnOf.front());
    return in.summary(static_cast<int>(rounds.size()), effort.threads);
}

} // namespace cistern::reader
