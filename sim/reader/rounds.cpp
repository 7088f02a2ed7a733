#include "reader/rounds.h"

#include "reader/weights.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cistern::reader {

namespace {

/// By what the width of a later round (Later::width) shrinks to the next: nobody knows beforehand
/// how narrow the likely stories lie.
constexpr double shrinks = 0.6;

constexpr double centerCount = 64; // about so many stories near which a later round is drawn
constexpr double ofCenters = 16;   // stories that the softened weights of one main insult are worth

constexpr double negligible = 1e-3; // weight of a story that need not be looked at, of the greatest

/// Hours of illness that cost as much to live through as all else about a story.
constexpr double asLong = 200;

/// Shares of a later round that are drawn anew, and near in what came to pass whatever came along;
/// the rest is drawn near stories of one structure.
constexpr double ofAnew = 0.3, ofKin = 0.35, ofClouds = 1 - ofAnew - ofKin;

/// Share of stories drawn anew in which what seldom comes along comes more often.
constexpr double ofCrowded = 1. / 3;

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
        out.over.push_back(all[i] / sum / main.chance);
    }
    return out;
}

void Rounds::begin(const std::vector<Story>& lived, const std::vector<Stories::Origins>& origins,
                   const std::vector<double>& logs, const std::vector<double>& mains) {
    Later round;
    round.anew = shares(mains);
    if (!later_.empty()) round.width = later_.back().width * shrinks;
    // By main insult: stories that may be its, and the logarithms of what they weigh as such.
    std::vector<std::vector<std::size_t>> stories(mains.size());
    std::vector<std::vector<double>> weights(mains.size());
    for (std::size_t i = 0; i < lived.size(); ++i) {
        if (!std::isfinite(logs[i])) continue;
        for (const auto& one : origins[i].each) {
            stories[one.main].push_back(i);
            weights[one.main].push_back(logs[i] + std::log(one.chance / origins[i].chance));
        }
    }
    std::size_t heaviest = 0; // of those that were lived
    for (std::size_t main = 1; main < mains.size(); ++main)
        if (stories[heaviest].empty() || (!stories[main].empty() && mains[main] > mains[heaviest]))
            heaviest = main;
    double before = 0;
    for (std::size_t main = 0; main < mains.size(); ++main) {
        const double share = round.anew.reached[main] - before;
        before = round.anew.reached[main];
        auto count = static_cast<std::size_t>(std::lround(share * centerCount));
        if (main == heaviest) count = std::max<std::size_t>(count, 1);
        if (count == 0 || stories[main].empty()) continue;
        const double power = tempering(weights[main], ofCenters);
        for (double& log : weights[main]) log *= power;
        const double most = *std::max_element(weights[main].begin(), weights[main].end());
        for (double& log : weights[main])
            if (log < most + std::log(negligible)) log = -std::numeric_limits<double>::infinity();
        addCenters(round, main, lived, stories[main], normalized(weights[main]), count);
    }
    later_.push_back(std::move(round));
}

/// Adds what is to be drawn near stories of one main insult, by their weights.
void Rounds::addCenters(Later& round, std::size_t main, const std::vector<Story>& lived,
                        const std::vector<std::size_t>& stories, const std::vector<double>& weights,
                        std::size_t count) const {
    struct Group {
        std::vector<const Story*> members;
        std::vector<double> weights;
        std::vector<std::size_t> centers;
    };
    std::vector<Group> groups;
    std::unordered_multimap<std::uint64_t, std::size_t> grouped;             // by structure
    std::vector<std::pair<std::size_t, std::size_t>> places(stories.size()); // group, number in it
    for (std::size_t k = 0; k < stories.size(); ++k) {
        if (weights[k] <= 0) continue;
        const Story& story = lived[stories[k]];
        const std::uint64_t structure = Stories::structure(story);
        std::size_t which = groups.size();
        const auto [from, to] = grouped.equal_range(structure);
        for (auto at = from; at != to; ++at)
            if (Stories::alike(*groups[at->second].members.front(), story)) which = at->second;
        if (which == groups.size()) {
            groups.emplace_back();
            grouped.emplace(structure, which);
        }
        places[k] = {which, groups[which].members.size()};
        groups[which].members.push_back(&story);
        groups[which].weights.push_back(weights[k]);
    }
    std::vector<const Story*> kin;
    for (const std::size_t k : picks(weights, count)) {
        groups[places[k].first].centers.push_back(places[k].second);
        kin.push_back(&lived[stories[k]]);
    }
    for (std::size_t c = 0; c < kin.size(); ++c) round.kinCenters.emplace_back(round.kin.size(), c);
    round.kin.emplace_back(*stories_, main, kin, round.width);
    for (const Group& group : groups) {
        if (group.centers.empty()) continue;
        for (std::size_t c = 0; c < group.centers.size(); ++c)
            round.centers.emplace_back(round.clouds.size(), c);
        round.alike.emplace(Stories::structure(*group.members.front()), round.clouds.size());
        round.clouds.emplace_back(*stories_, group.members, group.weights, group.centers,
                                  round.width);
    }
}

Story Rounds::drawn(const Shares& shares, double at, std::uint64_t number) const {
    const auto main = std::upper_bound(shares.reached.begin(), shares.reached.end() - 1, at);
    base::Chance chance(seed_, base::Purpose::story, number);
    const bool crowded = chance.uniform() < ofCrowded;
    return stories_->draw(static_cast<std::size_t>(main - shares.reached.begin()), chance, crowded);
}

Story Rounds::draw(std::uint64_t number) const {
    const double at = fraction((static_cast<double>(number) + 0.5) * golden);
    Story story = later_.empty() ? drawn(first_, at, number) : drawnNear(later_.back(), at, number);
    story.number = number;
    return story;
}

Story Rounds::drawnNear(const Later& round, double at, std::uint64_t number) const {
    if (at < ofAnew) return drawn(round.anew, at / ofAnew, number);
    base::Chance chance(seed_, base::Purpose::adapt, number);
    const auto pick = [&](const auto& centers, double share) {
        return centers[std::min(
            static_cast<std::size_t>(share * static_cast<double>(centers.size())),
            centers.size() - 1)];
    };
    if (at < ofAnew + ofKin) {
        const auto [kin, center] = pick(round.kinCenters, (at - ofAnew) / ofKin);
        return round.kin[kin].draw(*stories_, center, chance);
    }
    const auto [cloud, center] = pick(round.centers, (at - ofAnew - ofKin) / ofClouds);
    return round.clouds[cloud].draw(*stories_, center, chance);
}

double Rounds::share(std::size_t round, const Story& story, const Stories::Origins& origins) const {
    const auto anew = [&](const Shares& shares) {
        double sum = 0;
        for (const auto& one : origins.each)
            sum += (1 - ofCrowded) * shares.over[one.main] * one.chance;
        for (const auto& one : origins.each) sum += ofCrowded * shares.over[one.main] * one.crowded;
        return sum / origins.chance;
    };
    if (round == 0) return anew(first_);
    const Later& later = later_[round - 1];
    const auto all = static_cast<double>(later.centers.size());
    double sum = ofAnew * anew(later.anew);
    for (const Kin& kin : later.kin)
        for (const auto& one : origins.each)
            if (kin.main() == one.main)
                sum += ofKin * kin.share(*stories_, story) * static_cast<double>(kin.centers()) /
                       all * one.chance / stories_->mains()[one.main].chance / origins.chance;
    const auto [from, to] = later.alike.equal_range(Stories::structure(story));
    for (auto at = from; at != to; ++at) {
        const Cloud& cloud = later.clouds[at->second];
        if (Stories::alike(cloud.like(), story))
            sum += ofClouds * cloud.density(stories_->deviates(story)) *
                   static_cast<double>(cloud.centers()) / all /
                   std::exp(stories_->logPrior(story, origins));
    }
    return sum;
}

} // namespace cistern::reader
