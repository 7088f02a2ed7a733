#include "drawing/axis.h"

#include <catch2/catch.hpp>

#include <numeric>

using namespace cistern::drawing;

namespace {

const Room tenPerLetter = [](std::string_view words) {
    return 10.0 * static_cast<double>(words.size());
};

std::string labels(const std::vector<Tick>& ticks) {
    std::string all;
    for (const Tick& tick : ticks) all += (all.empty() ? "" : ", ") + tick.words;
    return all;
}

std::string times(double from, double to, double width) {
    return labels(timeTicks({from, to, 0, width, false}, tenPerLetter, "0"));
}

std::string levels(double low, double high, double length, bool logarithmic) {
    const Axis axis{low, high, length, -length, logarithmic};
    return labels(levelTicks(axis, 25, [](double value) { return tickNumber(value, 3); }));
}

} // namespace

TEST_CASE("time is told in hours, days, weeks or months by its span", "[drawing]") {
    CHECK(times(0, 12, 600) == "0, 1 h, 2 h, 3 h, 4 h, 5 h, 6 h, 7 h, 8 h, 9 h, 10 h, 11 h, 12 h");
    CHECK(times(-6, 48, 600) == "−6 h, 0, 6 h, 12 h, 18 h, 24 h, 30 h, 36 h, 42 h, 48 h");
    CHECK(times(-24, 72, 600) == "−1 d, 0, 1 d, 2 d, 3 d");
    CHECK(times(0, 24 * 90, 700) == "0, 1 wk, 2 wk, 3 wk, 4 wk, 5 wk, 6 wk, 7 wk, 8 wk, 9 wk, "
                                    "10 wk, 11 wk, 12 wk");
    CHECK(times(0, 24 * 500, 600) == "0, 2 mo, 4 mo, 6 mo, 8 mo, 10 mo, 12 mo, 14 mo, 16 mo");
    CHECK(times(0, 24 * 365.25 * 14, 600) == "0, 24 mo, 48 mo, 72 mo, 96 mo, 120 mo, 144 mo, "
                                             "168 mo");
}

TEST_CASE("time labels never touch, however narrow the axis", "[drawing]") {
    for (double span : {1.0, 7.0, 40.0, 96.0, 700.0, 4000.0, 12000.0, 90000.0, 900000.0}) {
        for (double width : {60.0, 150.0, 400.0, 1200.0}) {
            CAPTURE(span, width);
            const auto ticks = timeTicks({-span / 5, span, 0, width, false}, tenPerLetter, "today");
            REQUIRE(!ticks.empty());
            for (std::size_t i = 1; i < ticks.size(); ++i)
                CHECK(ticks[i].at - ticks[i - 1].at >=
                      (tenPerLetter(ticks[i].words) + tenPerLetter(ticks[i - 1].words)) / 2);
        }
    }
}

TEST_CASE("level ticks are round and leave the room asked for", "[drawing]") {
    CHECK(levels(0.7, 75, 300, true) == "1, 2, 5, 10, 20, 50");
    CHECK(levels(0.25, 400, 240, true) == "0.3, 1, 3, 10, 30, 100, 300");
    CHECK(levels(0.7, 1.6, 200, true) == "0.8, 1, 1.2, 1.5");
    CHECK(levels(0, 104, 150, false) == "0, 20, 40, 60, 80, 100");
    CHECK(levels(0, 104, 80, false) == "0, 50, 100");
    CHECK(levels(130, 160, 200, false) == "130, 135, 140, 145, 150, 155, 160");
}

TEST_CASE("blocks are spread without overlap, in order, inside their bounds", "[drawing]") {
    CHECK(spread({10, 50}, {10, 10}, 0, 100) == std::vector<double>{10, 50}); // free: not moved
    CHECK(spread({50, 50}, {10, 10}, 0, 100) == std::vector<double>{45, 55}); // equally pushed
    CHECK(spread({0, 0}, {10, 10}, 0, 100) == std::vector<double>{5, 15});    // kept inside
    CHECK(spread({100, 100}, {10, 20}, 0, 100) == std::vector<double>{75, 90});
    CHECK(spread({60, 20}, {10, 10}, 0, 100) == std::vector<double>{60, 20}); // order of input kept
    CHECK(spread({}, {}, 0, 100).empty());
    // More than fits: one after another from the top.
    CHECK(spread({5, 5, 5}, {10, 10, 10}, 0, 20) == std::vector<double>{5, 15, 25});
}

TEST_CASE("spreading moves blocks no more than any other order-keeping choice", "[drawing]") {
    // Against a search over all positions on a grid of 1; both keep three blocks of 10 in order.
    const std::vector<double> wanted{12, 16, 31}, heights{10, 10, 10};
    const auto moved = [&](double a, double b, double c) {
        return (a - wanted[0]) * (a - wanted[0]) + (b - wanted[1]) * (b - wanted[1]) +
               (c - wanted[2]) * (c - wanted[2]);
    };
    double best = 1e9;
    for (int a = 5; a <= 75; ++a)
        for (int b = a + 10; b <= 85; ++b)
            for (int c = b + 10; c <= 95; ++c) best = std::min(best, moved(a, b, c));
    const auto placed = spread(wanted, heights, 0, 100);
    CHECK(moved(placed[0], placed[1], placed[2]) <= best);
    CHECK(placed[1] - placed[0] >= 10);
    CHECK(placed[2] - placed[1] >= 10);
}

TEST_CASE("values off an axis are drawn at its ends", "[drawing]") {
    const Axis axis{1, 100, 200, -200, true};
    CHECK(axis.position(10) == Approx(100));
    CHECK(axis.position(0) == 200);
    CHECK(axis.position(1e6) == 0);
}
