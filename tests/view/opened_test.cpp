// Organs as vessel and plane, at any hour of a case.
#include "at_hand.h"
#include "view/opened.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using namespace cistern::test;

namespace {

const drawing::Box box{0, 0, 400, 400};

} // namespace

TEST_CASE("a story runs from the first insult to the last draw", "[view]") {
    for (const char* name : three) {
        const lesson::Case one = shipped(name);
        const std::vector<double> hours = view::storyHours(one, 20);
        REQUIRE(hours.size() == 21);
        CHECK(hours.back() == lesson::lastDraw(one));
        CHECK(hours.front() <= hours.back() - 1);
    }
}

TEST_CASE("an organ can be opened at any hour", "[view]") {
    int opened = 0;
    for (const char* name : three) {
        const lesson::Case one = shipped(name);
        const body::Course course = view::story(one, known(), 24);
        for (const body::Tissue organ : view::openable(one, known().bench)) {
            INFO(name << ", " << body::name(organ));
            const view::OrganStory story =
                view::organStory(one, known(), course, organ, lab::Units::conventional);
            for (std::size_t at = 0; at < story.hours(); ++at) {
                const drawing::VesselView vessel = story.at(at);
                const body::Snapshot now = course.at(at);
                CHECK(vessel.leak == now.leak(organ));
                CHECK(vessel.work == Approx(now.work(organ)).margin(0.005)); // shown as 100 %
                CHECK(vessel.level < 1); // the trough holds the whole story
                CHECK_NOTHROW(drawing::vessel(vessel, box));
                CHECK_NOTHROW(drawing::plane(story.plane(at), box));
            }
            CHECK_NOTHROW(drawing::vessel(story.healthy(), box));
            CHECK(story.plane(0).path.empty()); // it has not moved yet
            ++opened;
        }
    }
    CHECK(opened >= 3);
}

TEST_CASE("what flows in and out of the blood is how the level moves", "[view]") {
    // The level over a step against the mean of both ends' flows. A tolerance of 1 % of the flows
    // leaves room for the curve between (steps of a tenth of a half-life) and for vessels a little
    // emptier or fuller than in health.
    const lesson::Case one = shipped("all_legs");
    constexpr std::size_t steps = 400;
    const body::Course course = view::story(one, known(), steps);
    for (const body::Tissue organ : view::openable(one, known().bench)) {
        INFO(body::name(organ));
        const view::OrganStory story =
            view::organStory(one, known(), course, organ, lab::Units::conventional);
        const double factor = story.trough.writing->factor;
        for (std::size_t at = 0; at + 1 < story.hours(); ++at) {
            const view::Flows a = story.flows(at), b = story.flows(at + 1);
            const double hours = story.hour(at + 1) - story.hour(at);
            const double moved =
                (course.at(at + 1).level(story.marker) - course.at(at).level(story.marker)) *
                factor / hours;
            const double net = (a.release - a.clearance + b.release - b.clearance) / 2;
            INFO(story.hour(at) << " h: " << a.release << " in, " << a.clearance << " out");
            CHECK(net == Approx(moved).margin(0.01 * (a.release + b.release + 1e-9)));
        }
    }
    // At rest as much leaves as enters.
    const view::OrganStory story = view::organStory(
        one, known(), course, view::openable(one, known().bench).front(), lab::Units::si);
    const view::Flows first = story.flows(0);
    CHECK(first.release > 0);
    CHECK(first.clearance == Approx(first.release).epsilon(0.01));
}

TEST_CASE("an organ without a marker has a plane and no vessel", "[view]") {
    const lesson::Case one = shipped("all_legs");
    const body::Course course = view::story(one, known(), 8);
    CHECK_THROWS_AS(view::organStory(one, known(), course, body::Tissue::kidney, lab::Units::si),
                    std::invalid_argument);
    CHECK(view::plane(course, body::Tissue::kidney).truth->work > 0);
}
