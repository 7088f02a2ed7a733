// The trace of a running reaction: it shows what has been read by now and nothing later, and its
// words keep their places.
#include "drawing/trace.h"

#include "marks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace cistern::test;

namespace {

const std::vector<Box> boxes{
    {0, 0, 260, 160}, {10, 20, 400, 380}, {0, 0, 640, 160}, {0, 0, 600, 360}, {5, 5, 900, 500}};

/// Falls by 0.05 a minute after a lag.
TraceView falling() {
    TraceView view;
    view.title = "ALT, being read";
    view.subtitle = "NADH is used up as ALT works; the slope is the activity";
    for (int i = 0; i <= 100; ++i) {
        const double second = 3 * i;
        view.seconds.push_back(second);
        view.absorbance.push_back(1.21 - 0.00084 * (second - 30 * (1 - std::exp(-second / 30))));
    }
    view.windowFrom = 90;
    view.windowTo = 240;
    view.line = {-0.00084, 1.2352};
    view.shownUntil = 214;
    return view;
}

/// Rises and bends.
TraceView bent() {
    TraceView view = falling();
    for (std::size_t i = 0; i < view.seconds.size(); ++i)
        view.absorbance[i] = 0.1 + 2.6 * (1 - std::exp(-view.seconds[i] / 80));
    view.line = {0.004, 1.9};
    view.verdict = "bent: substrate runs out";
    view.shownUntil = 300;
    return view;
}

} // namespace

TEST_CASE("no words of a trace overlap, leave its box or lie over the curve", "[drawing]") {
    for (TraceView view : {falling(), bent()})
        for (const Box& box : boxes)
            for (const double scale : {0.8, 1.0, 1.5, 2.0}) {
                view.textScale = scale;
                CAPTURE(view.verdict, box.width, box.height, scale);
                const Group drawn = trace(view, box);
                CHECK(faults(drawn, box) == "");
                const TracePlaces places = tracePlaces(view, box);
                CHECK(box.contains(places.field, 0.01));
                std::size_t told = 0, covered = 0, outside = 0;
                for (const Text& text : all<Text>(drawn)) {
                    const Box letters = extent(text);
                    told += text.lines.front() == view.title ? 1 : 0;
                    if (!letters.overlaps(places.field, 0.01)) continue;
                    CHECK(text.lines.front() == view.words.window);
                    for (std::size_t i = 0; i < view.seconds.size(); ++i)
                        covered += letters.overlaps(
                            {places.seconds.position(view.seconds[i]) - 1,
                             places.absorbance.position(view.absorbance[i]) - 1, 2, 2},
                            0.01);
                }
                for (const Shape& shape : all<Shape>(drawn)) {
                    const double half = shape.stroke ? shape.stroke->width / 2 : 0;
                    outside += box.contains(around(shape.path), half) ? 0 : 1;
                }
                CHECK(told == 1);
                CHECK(covered == 0);
                CHECK(outside == 0);
            }
}

TEST_CASE("nothing of a trace is drawn beyond the second shown", "[drawing]") {
    const Box box{0, 0, 600, 360};
    for (double second : {-5.0, 0.0, 1.0, 40.0, 89.9, 90.5, 150.0, 214.0, 299.0, 300.0, 1e6}) {
        TraceView view = falling();
        view.shownUntil = second;
        const Group drawn = trace(view, box);
        const TracePlaces places = tracePlaces(view, box);
        const double now = places.seconds.position(std::clamp(second, 0.0, 300.0));
        CAPTURE(second);
        double furthest = 0;
        for (const Shape& shape : all<Shape>(named(drawn, "trace"))) {
            const Box mark = around(shape.path);
            const double radius = shape.fill ? mark.width / 2 : 0; // a reading at the very end
            furthest = std::max(furthest, mark.right() - radius);
        }
        for (const Shape& shape : all<Shape>(named(drawn, "fitted line")))
            furthest = std::max(furthest, around(shape.path).right());
        CHECK(furthest <= now + 0.01);
        CHECK(places.pen.has_value() == (second >= 0));
        if (!places.pen) {
            CHECK(all<Shape>(named(drawn, "pen")).empty());
            CHECK(all<Shape>(named(drawn, "trace")).empty());
            continue;
        }
        CHECK(places.pen->x == Approx(now));
        CHECK(furthest == Approx(now).margin(3 * 600 / 300.0)); // to within one reading
        CHECK(all<Shape>(named(drawn, "fitted line")).empty() == (second <= view.windowFrom));
    }
}

TEST_CASE("a running trace does not shift its axes", "[drawing]") {
    const Box box{0, 0, 600, 360};
    TraceView early = bent(), late = bent();
    early.shownUntil = 20;
    early.verdict = ""; // it comes when the run is over
    const TracePlaces a = tracePlaces(early, box), b = tracePlaces(late, box);
    CHECK(a.field.x == b.field.x);
    CHECK(a.field.y == Approx(b.field.y).margin(3)); // its letters are a little taller
    CHECK(a.seconds.position(123) == b.seconds.position(123));
}

TEST_CASE("readings, window and line of a trace stand at their values", "[drawing]") {
    const Box box{0, 0, 900, 500};
    TraceView view = falling();
    view.shownUntil = 300;
    const TracePlaces places = tracePlaces(view, box);
    const Box& field = places.field;
    CHECK(places.seconds.position(0) == Approx(field.x));
    CHECK(places.seconds.position(300) == Approx(field.right()));
    CHECK(places.seconds.position(150) == Approx(field.x + field.width / 2));
    for (double level : view.absorbance) {
        const double y = places.absorbance.position(level);
        CHECK((y > field.y && y < field.bottom()));
    }
    const Shape line = all<Shape>(named(trace(view, box), "fitted line")).back();
    const Point from = line.path.parts()[0].to[0], to = line.path.parts()[1].to[0];
    CHECK(from.x == Approx(places.seconds.position(90)));
    CHECK(to.x == Approx(places.seconds.position(240)));
    CHECK(from.y == Approx(places.absorbance.position(1.2352 - 0.00084 * 90)));
    CHECK(to.y == Approx(places.absorbance.position(1.2352 - 0.00084 * 240)));
    view.windowTo = view.windowFrom; // none
    CHECK(all<Shape>(named(trace(view, box), "fitted line")).empty());
    for (const Text& text : all<Text>(trace(view, box)))
        CHECK(text.lines.front() != view.words.window);
}

TEST_CASE("a trace is told in sentences", "[drawing]") {
    CHECK(words(bent()) ==
          "ALT, being read: absorbance 0.1 at 0 s, 2.639 at 300 s. The rate is read from 90 to 240 "
          "s. The line changes by 0.24 a minute. bent: substrate runs out.");
    TraceView view = falling();
    view.shownUntil = -1;
    CHECK(words(view) == "ALT, being read: no reading yet.");
}

TEST_CASE("a trace that is level, or starts late, is drawn", "[drawing]") {
    TraceView view = falling();
    view.absorbance.assign(view.seconds.size(), 0.4);
    view.line.reset();
    for (double& second : view.seconds) second += 30;
    const Box box{0, 0, 400, 240};
    CHECK(faults(trace(view, box), box) == "");
    CHECK(tracePlaces(view, box).pen->y == Approx(tracePlaces(view, box).absorbance.position(0.4)));
}

TEST_CASE("a trace that cannot be drawn is refused in a sentence", "[drawing]") {
    const auto refused = [](auto spoil, const char* sentence) {
        TraceView view = falling();
        spoil(view);
        CHECK_THROWS_WITH(trace(view, {0, 0, 400, 240}), Catch::Contains(sentence));
    };
    const double nan = std::numeric_limits<double>::quiet_NaN();
    refused([](TraceView& v) { v.seconds.resize(1); }, "two readings");
    refused([](TraceView& v) { v.absorbance.pop_back(); }, "one absorbance");
    refused([&](TraceView& v) { v.absorbance[4] = nan; }, "reading 5");
    refused([](TraceView& v) { v.seconds[4] = v.seconds[3]; }, "rise");
    refused([&](TraceView& v) { v.windowTo = nan; }, "window");
    refused([&](TraceView& v) { v.line->first = nan; }, "line");
    refused([&](TraceView& v) { v.shownUntil = nan; }, "how far");
    refused([&](TraceView& v) { v.textScale = nan; }, "text scale");
    CHECK_THROWS_WITH(trace(falling(), {0, 0, 100, 240}), Catch::Contains("200 wide"));
}
