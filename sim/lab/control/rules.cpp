#include "lab/control/rules.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double warningLimit = 2, rejectLimit = 3, rangeLimit = 4; // SD
constexpr std::uint32_t inTwoTwo = 2, inFourOne = 4, inTen = 10;    // controls in a row

int sideBeyond(double score, double limit) {
    return (score > limit) - (score < -limit);
}

std::uint32_t runsOf(std::uint32_t controls, std::size_t materials) {
    const auto n = static_cast<std::uint32_t>(materials);
    return (controls + n - 1) / n;
}

} // namespace

std::string_view name(Rule rule) {
    constexpr std::array<std::string_view, ruleCount> names{"1-2s", "1-3s", "2-2s",
                                                            "R-4s", "4-1s", "10-x"};
    return names[static_cast<std::size_t>(rule)];
}

std::string_view words(Rule rule) {
    constexpr std::array<std::string_view, ruleCount> all{
        "one control beyond 2 SD",
        "one control beyond 3 SD",
        "two controls in a row beyond the same 2 SD",
        "in one run one control beyond +2 SD and another beyond -2 SD",
        "four controls in a row beyond the same 1 SD",
        "ten controls in a row on one side of the mean"};
    return all[static_cast<std::size_t>(rule)];
}

ErrorKind kind(Rule rule) {
    switch (rule) {
    case Rule::warning:
        return ErrorKind::warning;
    case Rule::oneThree:
    case Rule::rangeFour:
        return ErrorKind::random;
    case Rule::twoTwo:
    case Rule::fourOne:
    case Rule::ten:
        break;
    }
    return ErrorKind::systematic;
}

std::string_view speaksFor(ErrorKind kind) {
    constexpr std::array<std::string_view, 3> all{
        "A reason to look, not to reject: about one sound run in eleven of two controls does it",
        "Speaks for random error: results scatter more than they should, or one cup was bad; a "
        "large shift "
        "does it too",
        "Speaks for systematic error: results lie off in one direction, those of patients with "
        "them"};
    return all[static_cast<std::size_t>(kind)];
}

Watch::Watch(std::size_t materials, RangeRule range)
    : materials_(materials),
      range_(range),
      wholeRuns_{runsOf(inTwoTwo, std::max<std::size_t>(materials, 1)),
                 runsOf(inFourOne, std::max<std::size_t>(materials, 1)),
                 runsOf(inTen, std::max<std::size_t>(materials, 1))} {
    if (materials < 1 || materials > mostMaterials)
        throw std::invalid_argument("a control chart watches 1 to 4 materials");
}

void Watch::startAnew() {
    streaks_ = {};
    runs_ = 0;
    rules_ = {};
}

Rules Watch::next(std::span<const double> scores) {
    if (scores.size() != materials_)
        throw std::invalid_argument("a run must hold one score for each control material");
    double lowest = scores[0], highest = scores[0];
    for (std::size_t m = 0; m < materials_; ++m) {
        const double score = scores[m];
        if (!std::isfinite(score))
            throw std::invalid_argument("the score of a control must be a finite number");
        lowest = std::min(lowest, score);
        highest = std::max(highest, score);
        last_[m] = score;
        streaks_[m].mean.take(sideBeyond(score, 0));
        streaks_[m].one.take(sideBeyond(score, 1));
        streaks_[m].two.take(sideBeyond(score, warningLimit));
    }
    const auto together = [&](double limit) { return (lowest > limit) - (highest < -limit); };
    Streaks& all = streaks_[mostMaterials];
    all.mean.take(together(0));
    all.one.take(together(1));
    all.two.take(together(warningLimit));

    const double furthest = std::max(highest, -lowest);
    Rules broken;
    if (furthest > warningLimit) broken.add(Rule::warning);
    if (furthest > rejectLimit) broken.add(Rule::oneThree);
    if (range_ == RangeRule::opposite ? highest > warningLimit && lowest < -warningLimit
                                      : highest - lowest > rangeLimit)
        broken.add(Rule::rangeFour);
    const auto streaks = [&](const Streaks& s, std::uint32_t two, std::uint32_t four,
                             std::uint32_t ten) {
        if (s.two.length >= two) broken.add(Rule::twoTwo);
        if (s.one.length >= four) broken.add(Rule::fourOne);
        if (s.mean.length >= ten) broken.add(Rule::ten);
    };
    for (std::size_t m = 0; m < materials_; ++m) streaks(streaks_[m], inTwoTwo, inFourOne, inTen);
    streaks(all, wholeRuns_[0], wholeRuns_[1], wholeRuns_[2]);
    ++runs_;
    return rules_ = broken;
}

std::vector<Break> Watch::breaks() const {
    std::vector<Break> found;
    if (runs_ == 0) return found;
    const std::uint64_t now = runs_ - 1;
    for (const auto& [rule, limit] :
         {std::pair{Rule::warning, warningLimit}, {Rule::oneThree, rejectLimit}})
        for (std::size_t m = 0; m < materials_; ++m)
            if (const int side = sideBeyond(last_[m], limit))
                found.push_back({rule, static_cast<int>(m), side, now});
    if (rules_.has(Rule::rangeFour)) found.push_back({Rule::rangeFour, Break::all, 0, now});
    const auto streak = [&](Rule rule, std::size_t which, const Streak& s, std::uint32_t needed) {
        const int material = which == mostMaterials ? Break::all : static_cast<int>(which);
        if (s.length >= needed) found.push_back({rule, material, s.side, runs_ - s.length});
    };
    const auto each = [&](Rule rule, Streak Streaks::*of, std::uint32_t alone,
                          std::uint32_t whole) {
        for (std::size_t m = 0; m < materials_; ++m) streak(rule, m, streaks_[m].*of, alone);
        if (materials_ > 1) streak(rule, mostMaterials, streaks_[mostMaterials].*of, whole);
    };
    each(Rule::twoTwo, &Streaks::two, inTwoTwo, wholeRuns_[0]);
    each(Rule::fourOne, &Streaks::one, inFourOne, wholeRuns_[1]);
    each(Rule::ten, &Streaks::mean, inTen, wholeRuns_[2]);
    return found;
}

std::uint64_t Watch::oneSided(int material) const {
    const std::size_t which =
        material == Break::all ? mostMaterials : static_cast<std::size_t>(material);
    return streaks_.at(which).mean.length;
}

} // namespace cistern::lab
