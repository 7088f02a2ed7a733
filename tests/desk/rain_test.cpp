// Drops leave as often as the page says, and stay in the air as long as they fall.
#include "desk/rain.h"

#include <catch2/catch.hpp>

using namespace cistern;
using namespace cistern::desk;

namespace {

Dripping organ(double falling, double leaving) {
    drawing::VesselView view;
    view.leak = 5;
    view.level = .5;
    view.spout = .5;
    return {"organ", drawing::places(view, {0, 0, 400, 500}), falling, leaving, {0, 0, 400, 500}};
}

/// How many are in the air, on average over some seconds after a start.
double inTheAir(const Dripping& from, Rain& rain) {
    constexpr double frame = 1. / 60;
    constexpr int start = 300, counted = 1200;
    double sum = 0;
    for (int i = 0; i < start + counted; ++i) {
        rain.pass({from}, frame);
        if (i >= start) sum += static_cast<double>(rain.drops({from}).size());
    }
    return sum / counted;
}

} // namespace

TEST_CASE("Twice as many drops leave, twice as many are in the air", "[desk]") {
    Rain one, two;
    const double few = inTheAir(organ(20, 0), one), many = inTheAir(organ(40, 0), two);
    CHECK(few > 5);
    // Pores lie at different heights, drawn at random: the mean of 400 and 800 drops, within 5 %.
    CHECK(many / few == Approx(2).epsilon(.1));
}

TEST_CASE("A drop of the spout falls for as long as a stone would", "[desk]") {
    const Dripping from = organ(0, 30);
    Rain rain;
    const double air = inTheAir(from, rain);
    const double height = from.places.splash.y - from.places.mouth.y;
    // Little's law: number in the air = rate x time of the fall, which is sqrt(2 h / g).
    constexpr double gravity = 900; // [px/s2], as in desk/rain.cpp
    CHECK(air == Approx(30 * std::sqrt(2 * height / gravity)).epsilon(.1));
}

TEST_CASE("Nothing drips from an organ that releases nothing, nor from one that is gone",
          "[desk]") {
    Rain rain;
    const Dripping still = organ(0, 0);
    for (int i = 0; i < 100; ++i) rain.pass({still}, .1);
    CHECK(rain.drops({still}).empty());
    Dripping empty = organ(50, 0);
    empty.places.pores.clear();
    for (int i = 0; i < 100; ++i) rain.pass({empty}, .1);
    CHECK(rain.drops({empty}).empty());
}

TEST_CASE("A flood is held to the most drops that are drawn", "[desk]") {
    Rain rain;
    const Dripping flood = organ(1e6, 0);
    for (int i = 0; i < 60; ++i) rain.pass({flood}, 1. / 60);
    CHECK(rain.drops({flood}).size() == Rain::most);
}

TEST_CASE("The same pages and times give the same drops", "[desk]") {
    Rain one, two;
    const Dripping from = organ(33, 11);
    for (int i = 0; i < 200; ++i) {
        one.pass({from}, 1. / 60);
        two.pass({from}, 1. / 60);
    }
    const auto a = one.drops({from}), b = two.drops({from});
    REQUIRE(a.size() == b.size());
    REQUIRE(!a.empty());
    for (std::size_t i = 0; i < a.size(); ++i) {
        CHECK(a[i].drop.x == b[i].drop.x);
        CHECK(a[i].drop.y == b[i].drop.y);
    }
}

TEST_CASE("Drops stay between the pores and the water", "[desk]") {
    Rain rain;
    const Dripping from = organ(60, 0);
    double highest = 1e9;
    for (const drawing::Pore& pore : from.places.pores) highest = std::min(highest, pore.mouth.y);
    for (int i = 0; i < 300; ++i) {
        rain.pass({from}, 1. / 60);
        for (const Rain::Falling& one : rain.drops({from})) {
            REQUIRE(one.drop.y >= highest);
            REQUIRE(one.drop.y <= from.places.water.y);
        }
    }
}
