// Control rules on hand-made series.
#include "lab/control/rules.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

using namespace cistern;
using lab::Break;
using lab::Rule;
using lab::Rules;

namespace {

/// What the last of these runs breaks.
Rules last(const std::vector<std::vector<double>>& runs,
           lab::RangeRule range = lab::RangeRule::opposite) {
    lab::Watch watch(runs.front().size(), range);
    Rules broken;
    for (const auto& run : runs) broken = watch.next(run);
    return broken;
}
std::vector<Break> breaks(const std::vector<std::vector<double>>& runs) {
    lab::Watch watch(runs.front().size());
    for (const auto& run : runs) watch.next(run);
    return watch.breaks();
}
Rules set(const std::vector<Rule>& rules) {
    Rules all;
    for (const Rule rule : rules) all.add(rule);
    return all;
}
} // namespace

TEST_CASE("each rule is named on the shortest series that breaks it", "[lab]") {
    CHECK(last({{0.3, -1.2}}).empty());
    CHECK(last({{2.1, 0}}) == set({Rule::warning}));
    CHECK(last({{0, -3.1}}) == set({Rule::warning, Rule::oneThree}));
    CHECK(last({{2.1, 2.2}}) == set({Rule::warning, Rule::twoTwo}));
    CHECK(last({{2.1, 0}, {2.1, 0}}) == set({Rule::warning, Rule::twoTwo}));
    CHECK(last({{2.1, -2.1}}) == set({Rule::warning, Rule::rangeFour}));
    CHECK(last({{1.1, 0}, {1.1, -0.1}, {1.1, 0.1}, {1.1, 0}}) == set({Rule::fourOne}));
    CHECK(last({{-1.1, -1.2}, {-1.3, -1.4}}) == set({Rule::fourOne}));
    std::vector<std::vector<double>> tall(10, {0.1, -0.1});
    tall[4] = {0.1, 0.1};
    tall[6] = {0.2, 0.1};
    CHECK(last(tall) == set({Rule::ten}));
    CHECK(last(std::vector<std::vector<double>>(5, {-0.1, -0.2})) == set({Rule::ten}));
    CHECK(last({{3.1, 3.2}, {3.3, 3.4}}) ==
          set({Rule::warning, Rule::oneThree, Rule::twoTwo, Rule::fourOne}));
}

TEST_CASE("a series one short of a rule, or exactly on its limit, does not break it", "[lab]") {
    CHECK(last({{2, -2}}).empty());
    CHECK(last({{3, 0}}) == set({Rule::warning}));
    CHECK(last({{2.1, 0}, {0, 2.1}}) == set({Rule::warning})); // not the same material
    CHECK(last({{0, 2.1}, {2.1, 0}}) == set({Rule::warning}));
    CHECK(last({{2.1, 0}, {-2.1, 0}}) == set({Rule::warning})); // not the same side
    CHECK(last({{2.1, 0}, {0, -2.1}}) == set({Rule::warning})); // not the same run
    CHECK(last({{1.1, 0}, {1.1, 0}, {1.1, 0}}).empty());
    CHECK(last({{1.1, 0}, {1.1, 0}, {0.9, 0}, {1.1, 0}, {1.1, 0}, {1.1, 0}}).empty());
    CHECK(last({{1.1, 1.1}, {1.1, 0.9}}).empty());
    CHECK(last(std::vector<std::vector<double>>(4, {0.5, 0.5})).empty());
    std::vector<std::vector<double>> broken(9, {0.1, -0.1});
    CHECK(last(broken).empty());
    broken.push_back({0, 0}); // on the mean is on neither side
    CHECK(last(broken).empty());
}

TEST_CASE("R-4s in its two codings: opposite sides of 2 SD, or any range of 4 SD", "[lab]") {
    CHECK(last({{2.1, -1.95}}, lab::RangeRule::range) == set({Rule::warning, Rule::rangeFour}));
    CHECK(last({{2.1, -1.95}}, lab::RangeRule::opposite) == set({Rule::warning}));
    CHECK(last({{2.1, -2.1}}, lab::RangeRule::range).has(Rule::rangeFour));
    CHECK_FALSE(last({{4.5, 0.6}}, lab::RangeRule::range).has(Rule::rangeFour));
}

TEST_CASE("a break tells the material, the side and the first run", "[lab]") {
    CHECK(breaks({{0, 0}, {0, 2.1}, {0, 2.2}}) ==
          std::vector<Break>{{Rule::warning, 1, 1, 2}, {Rule::twoTwo, 1, 1, 1}});
    CHECK(breaks({{0, 0}, {-2.1, -2.2}}) == std::vector<Break>{{Rule::warning, 0, -1, 1},
                                                               {Rule::warning, 1, -1, 1},
                                                               {Rule::twoTwo, Break::all, -1, 1}});
    CHECK(breaks({{2.5, -2.5}}) == std::vector<Break>{{Rule::warning, 0, 1, 0},
                                                      {Rule::warning, 1, -1, 0},
                                                      {Rule::rangeFour, Break::all, 0, 0}});
    lab::Watch watch(2);
    CHECK(watch.breaks().empty());
    for (int r = 0; r < 3; ++r) watch.next(std::array{0.4, 0.2});
    CHECK(watch.oneSided(Break::all) == 3);
    watch.next(std::array{0.4, -0.2});
    CHECK(watch.oneSided(0) == 4);
    CHECK(watch.oneSided(1) == 1);
    CHECK(watch.oneSided(Break::all) == 0);
}

TEST_CASE("rules answer to random or to systematic error", "[lab]") { // lessons on multirules
    using lab::ErrorKind;
    CHECK(kind(Rule::warning) == ErrorKind::warning);
    for (const Rule rule : {Rule::oneThree, Rule::rangeFour})
        CHECK(kind(rule) == ErrorKind::random);
    for (const Rule rule : {Rule::twoTwo, Rule::fourOne, Rule::ten})
        CHECK(kind(rule) == ErrorKind::systematic);
    CHECK_FALSE(set({Rule::warning}).reject());
    CHECK(set({Rule::warning, Rule::ten}).reject());
    CHECK(name(Rule::warning) == "1-2s");
    CHECK(name(Rule::ten) == "10-x");
}

TEST_CASE("a watch refuses scores that are no numbers and runs of another size", "[lab]") {
    lab::Watch watch(2);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(watch.next(std::array{0., nan}), std::invalid_argument);
    CHECK_THROWS_AS(watch.next(std::array{0., HUGE_VAL}), std::invalid_argument);
    CHECK_THROWS_AS(watch.next(std::array{0.}), std::invalid_argument);
    CHECK_THROWS_AS(lab::Watch(0), std::invalid_argument);
    CHECK_THROWS_AS(lab::Watch(5), std::invalid_argument);
}
