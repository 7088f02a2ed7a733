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

/// The golden section: its multiples fill 0..1 evenly, however many are taken.
constexpr double golden = 0.6180339887498949;

double fraction(double x) {
    return x - std::floor(x);
}

} // namespace

Rounds::Rounds(const Stories& stories, std::uint64_t seed) : stories_(&stories), seed_(seed) {
    std::vector<double> shares;
    double sum = 0;
    for (const Stories::Main& main : stories.mains()) {
        double hours = 0;
        if (main.prior) {
            const body::Insult usual = stories.insult({main.prior});
            hours = usual.to - usual.from;
        }
        shares.push_back(std::sqrt(main.chance / (1 + hours / asLong)));
        sum += shares.back();
    }
    double reached = 0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const Stories::Main& main = stories.mains()[i];
        reached_.push_back(reached += shares[i] / sum);
        over_[main.prior] = shares[i] / sum / main.chance;
    }
}

void Rounds::begin(std::vector<Story> parents) {
    Later round{later_.empty() ? widest : later_.back().width * shrinks, std::move(parents), {}};
    for (std::size_t p = 0; p < round.parents.size(); ++p)
        round.alike.emplace(Stories::structure(round.parents[p]), p);
    later_.push_back(std::move(round));
}

Story Rounds::draw(std::uint64_t number) const {
    const double at = fraction((static_cast<double>(number) + 0.5) * golden);
    Story story;
    if (later_.empty()) {
        const auto main = std::upper_bound(reached_.begin(), reached_.end() - 1, at);
        base::Chance chance(seed_, base::Purpose::story, number);
        story = stories_->draw(static_cast<std::size_t>(main - reached_.begin()), chance);
    } else {
        const Later& round = later_.back();
        const auto parent =
            static_cast<std::size_t>(at * static_cast<double>(round.parents.size()));
        base::Chance chance(seed_, base::Purpose::adapt, number);
        story = stories_->near(round.parents[parent], round.width, chance);
    }
    story.number = number;
    return story;
}

double Rounds::share(std::size_t round, const Story& story) const {
    if (round == 0) return over_.at(story.main);
    const Later& later = later_[round - 1];
    const auto [from, to] = later.alike.equal_range(Stories::structure(story));
    double density = 0;
    for (auto at = from; at != to; ++at)
        density += std::exp(stories_->logNear(later.parents[at->second], story, later.width));
    if (density <= 0) return 0;
    return density / static_cast<double>(later.parents.size()) /
           std::exp(stories_->logPrior(story));
}

} // namespace cistern::reader
