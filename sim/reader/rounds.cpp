#include "reader/rounds.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

// Standard deviation by which the first later round moves deviates, and by what it shrinks from one
// to the next: nobody knows beforehand how narrow the likely ones lie.
constexpr double widest = 0.5, shrinks = 0.45;

/// Hours of illness that cost as much to live through as all else about a story.
constexpr double asLong = 200;

/// Share of a later round that is drawn anew.
constexpr double ofAnew = 0.5;

/// The golden section: its multiples fill 0..1 evenly, however many are taken.
constexpr double golden = 0.6180339887498949;

double fraction(double x) {
    return x - std::floor(x);
}

} // namespace

Rounds::Rounds(const Stories& stories, std::uint64_t seed) : stories_(&stories), seed_(seed) {
    std::vector<double> chances;
    for (const Stories::Main& main : stories.mains()) chances.push_back(main.chance);
    first_ = shares(chances);
}

/// By the root of what is wanted, so that the rare are not left out, and less of what is dear.
Rounds::Shares Rounds::shares(const std::vector<double>& wanted) const {
    std::vector<double> all;
    double sum = 0;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const InsultPrior* prior = stories_->mains()[i].prior;
        double hours = 0;
        if (prior) {
            const body::Insult usual = stories_->insult({prior});
            hours = usual.to - usual.from;
        }
        all.push_back(std::sqrt(wanted[i] / (1 + hours / asLong)));
        sum += all.back();
    }
    Shares out;
    double reached = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Stories::Main& main = stories_->mains()[i];
        out.reached.push_back(reached += all[i] / sum);
        out.over[main.prior] = all[i] / sum / main.chance;
    }
    return out;
}

void Rounds::begin(std::vector<Story> parents, const std::vector<double>& mains) {
    Later round{shares(mains),
                later_.empty() ? widest : later_.back().width * shrinks,
                std::move(parents),
                {}};
    for (std::size_t p = 0; p < round.parents.size(); ++p)
        round.alike.emplace(Stories::structure(round.parents[p]), p);
    later_.push_back(std::move(round));
}

Story Rounds::drawn(const Shares& shares, double at, std::uint64_t number) const {
    const auto main = std::upper_bound(shares.reached.begin(), shares.reached.end() - 1, at);
    base::Chance chance(seed_, base::Purpose::story, number);
    return stories_->draw(static_cast<std::size_t>(main - shares.reached.begin()), chance);
}

Story Rounds::draw(std::uint64_t number) const {
    double at = fraction((static_cast<double>(number) + 0.5) * golden);
    Story story;
    if (later_.empty()) {
        story = drawn(first_, at, number);
    } else {
        const Later& round = later_.back();
        const bool anew = at < ofAnew;
        at = anew ? at / ofAnew : (at - ofAnew) / (1 - ofAnew);
        if (anew) {
            story = drawn(round.anew, at, number);
        } else {
            const auto parent =
                static_cast<std::size_t>(at * static_cast<double>(round.parents.size()));
            base::Chance chance(seed_, base::Purpose::adapt, number);
            story = stories_->near(round.parents[parent], round.width, chance);
        }
    }
    story.number = number;
    return story;
}

double Rounds::share(std::size_t round, const Story& story) const {
    if (round == 0) return first_.over.at(story.main);
    const Later& later = later_[round - 1];
    const double anew = ofAnew * later.anew.over.at(story.main);
    const auto [from, to] = later.alike.equal_range(Stories::structure(story));
    double density = 0;
    for (auto at = from; at != to; ++at)
        density += std::exp(stories_->logNear(later.parents[at->second], story, later.width));
    if (density <= 0) return anew;
    return anew + (1 - ofAnew) * density / static_cast<double>(later.parents.size()) /
                      std::exp(stories_->logPrior(story));
}

} // namespace cistern::reader
