// The plane of leak and work: true positions, a scale that goes both ways, words that keep apart.
#include "drawing/plane.h"

#include "drawing/svg.h"
#include "drawing/theme.h"
#include "marks.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>

using namespace cistern::test;

namespace {

constexpr Box room{30, 40, 720, 480};

/// Two years of scarring: work falls, the leak rises and falls.
PlaneView scarring(int points) {
    PlaneView view;
    for (int i = 0; i <= points; ++i) {
        const double t = i / static_cast<double>(points);
        view.path.push_back({1 - .73 * t * std::sqrt(t), std::pow(9, std::sin(2.5 * t)),
                             "\xE2\x88\x92" + std::to_string(points - i) + " mo"});
    }
    view.truth = view.path.back();
    view.truth->label = "today";
    view.path.back().label = "";
    for (int i = 0; i < 700; ++i) {
        const double around = .13 * (i % 27), far = .01 * (i % 23);
        view.cloud.push_back(
            {.3 + far * std::cos(around), 5 * std::exp(4 * far * std::sin(around)), ""});
    }
    view.answer = PlaneBox{.55, .85, 1.6, 4};
    view.ideal = PlaneBox{.16, .46, 2.5, 10};
    return view;
}

std::vector<PlaneView> many() {
    std::vector<PlaneView> views{scarring(4), scarring(24), PlaneView{}};
    PlaneView acute;
    const std::vector<double> leaks{1, 40, 95, 30, 8, 2, .8};
    for (std::size_t i = 0; i < leaks.size(); ++i)
        acute.path.push_back(
            {1 - .02 * static_cast<double>(i), leaks[i], "day " + std::to_string(i)});
    acute.truth = PlanePoint{.05, .65, "day 7"};
    views.push_back(acute);
    PlaneView edges;
    edges.path = {{0, .01, "lower left"}, {2, 5000, "upper right"}, {0, 100, "upper left"}};
    edges.answer = PlaneBox{0, 1.2, .3, 100};
    edges.ideal = PlaneBox{.5, .5, 3, 3};
    views.push_back(edges);
    return views;
}

const std::vector<Box>& boxes() {
    static const std::vector<Box> all{{30, 40, 240, 240}, {30, 40, 300, 420}, {30, 40, 420, 300},
                                      {30, 40, 600, 340}, {30, 40, 720, 480}, {30, 40, 900, 900},
                                      {30, 40, 1240, 700}};
    return all;
}

template<class Check>
void sweep(const Check& check) {
    for (PlaneView view : many())
        for (const Box& box : boxes())
            for (const double scale : {.8, 1., 1.5, 2.}) {
                view.textScale = scale;
                CAPTURE(view.path.size(), box.width, box.height, scale);
                check(view, box);
            }
}

bool onEdge(const Box& words, const Box& frame) {
    return words.overlaps(frame, hair) && !(words.x > frame.x && words.right() < frame.right() &&
                                            words.y > frame.y && words.bottom() < frame.bottom());
}

Box framed(const PlaneScale& scale, const PlaneBox& box) {
    const Point low = scale.at(box.workLow, box.leakLow),
                high = scale.at(box.workHigh, box.leakHigh);
    return {low.x, high.y, high.x - low.x, low.y - high.y};
}

std::vector<Text> labels(const Group& group, const PlaneView& view) {
    std::vector<Text> found;
    for (const Text& text : all<Text>(group))
        if (std::ranges::any_of(view.path, [&](const PlanePoint& point) {
                return point.label == text.lines.front();
            }))
            found.push_back(text);
    return found;
}

} // namespace

TEST_CASE("the scale of a plane and its inverse undo one another", "[drawing]") {
    for (const double low : {.3, 1.}) {
        PlaneView view;
        view.truth = PlanePoint{.5, low, ""};
        const PlaneScale scale = planeScale(view, room);
        CHECK(scale.leakLow <= low);
        for (const double work : {0., .01, .27, .5, 1., 1.2})
            for (const double leak : {.3, 1., 1.6, 5.8, 99.}) {
                const PlanePoint back = scale.inverse(scale.at(work, leak));
                CAPTURE(work, leak);
                CHECK(std::abs(back.work - work) <= 1e-9);
                CHECK(std::abs(back.leak - leak) <= 1e-9 * leak);
            }
        const Box& plot = scale.plot;
        CHECK(scale.at(0, scale.leakLow).x == Approx(plot.x));
        CHECK(scale.at(0, scale.leakLow).y == Approx(plot.bottom()));
        CHECK(scale.at(1.2, 100).x == Approx(plot.right()));
        CHECK(scale.at(1.2, 100).y == Approx(plot.y));
        CHECK(scale.at(.5, 1).y - scale.at(.5, 10).y ==
              Approx(scale.at(.5, 10).y - scale.at(.5, 100).y));
    }
}

TEST_CASE("the leak axis of a plane goes down to a third only if data ask", "[drawing]") {
    PlaneView view;
    view.path = {{1, 1, ""}, {.5, 20, ""}};
    CHECK(planeScale(view, room).leakLow == .6);
    view.cloud.push_back({1, .4, ""});
    CHECK(planeScale(view, room).leakLow == .3);
    view.cloud.clear();
    view.answer = PlaneBox{.5, .6, .35, 2};
    CHECK(planeScale(view, room).leakLow == .3);
}

TEST_CASE("no words of a plane touch one another or leave the box", "[drawing]") {
    sweep([](const PlaneView& view, const Box& box) {
        const Group drawn = plane(view, box);
        const std::vector<Text> texts = all<Text>(drawn);
        CHECK(faults(texts, box) == "");
        const PlaneScale scale = planeScale(view, box);
        CHECK(box.contains(scale.plot));
        CHECK(scale.plot.width >= .4 * box.width);
        CHECK(scale.plot.height >= .4 * box.height);
        for (const Text& text : texts) {
            CAPTURE(joined(text));
            CHECK((scale.plot.contains(extent(text), hair) ||
                   !scale.plot.overlaps(extent(text), hair)));
        }
    });
}

TEST_CASE("labels on the path of a plane keep clear of the truth and of frames", "[drawing]") {
    int placed = 0;
    sweep([&](const PlaneView& view, const Box& box) {
        const PlaneScale scale = planeScale(view, box);
        for (const Text& text : labels(plane(view, box), view)) {
            const Box said = extent(text);
            CAPTURE(joined(text));
            ++placed;
            if (view.truth) {
                const Point truth = scale.at(view.truth->work, view.truth->leak);
                CHECK_FALSE(said.overlaps({truth.x - 2, truth.y - 2, 4, 4}));
            }
            if (view.answer) CHECK_FALSE(onEdge(said, framed(scale, *view.answer)));
            if (view.ideal) CHECK_FALSE(onEdge(said, framed(scale, *view.ideal)));
            for (const PlanePoint& point : view.path) {
                const Point at = scale.at(point.work, point.leak);
                CHECK_FALSE(said.overlaps({at.x - 1, at.y - 1, 2, 2}));
            }
        }
    });
    CHECK(placed > 100);
}

TEST_CASE("a path up the edge of a plane does not run through the words of a corner", "[drawing]") {
    PlaneView view;
    view.path = {{1, 1, ""}, {.99, 90, ""}, {.99, 40, ""}};
    view.truth = view.path.back();
    const PlaneScale scale = planeScale(view, room);
    int corners = 0;
    for (const Text& text : all<Text>(plane(view, room))) {
        if (text.lines.front() != view.words.soundLoud) continue;
        ++corners;
        const Box said = extent(text);
        CHECK((said.right() < scale.at(.99, 90).x || said.x > scale.at(1, 90).x));
        CHECK(said.x > scale.plot.middle().x);
    }
    CHECK(corners == 1);
}

TEST_CASE("a path of a plane with room keeps all its labels", "[drawing]") {
    const PlaneView view = scarring(4);
    CHECK(labels(plane(view, room), view).size() == 4);
}

TEST_CASE("a plane draws nothing outside its box", "[drawing]") {
    for (const PlaneView& view : many())
        for (const Box& box : {boxes()[0], boxes()[1], boxes()[4]}) {
            CAPTURE(view.path.size(), box.width, box.height);
            CHECK(inkOutside(plane(view, box), box) == 0);
        }
}

TEST_CASE("the legend of a plane names what is drawn, beside it or below", "[drawing]") {
    const auto named = [](const PlaneView& view, const Box& box, const std::string& words) {
        const std::vector<Text> texts = all<Text>(plane(view, box));
        const auto found = std::ranges::find_if(
            texts, [&](const Text& text) { return text.lines.front() == words; });
        return found == texts.end() ? std::optional<Box>() : std::optional(extent(*found));
    };
    PlaneView view = scarring(4);
    const Box wide{0, 0, 900, 500}, high{0, 0, 500, 600};
    REQUIRE(named(view, wide, "your answer"));
    CHECK(named(view, wide, "80 % band"));
    CHECK(named(view, wide, "your answer")->x > planeScale(view, wide).plot.right());
    REQUIRE(named(view, high, "your answer"));
    CHECK(named(view, high, "your answer")->y > planeScale(view, high).plot.bottom());
    view.answer.reset();
    CHECK_FALSE(named(view, wide, "your answer"));
}

TEST_CASE("words of a plane have contrast on what is behind them", "[drawing]") {
    for (const Text& text : all<Text>(plane(scarring(4), room))) {
        CAPTURE(joined(text));
        for (const Color& ground : {theme::panel, theme::paper, theme::field})
            CHECK(contrast(text.type.color, ground) >= 4.5);
    }
}

TEST_CASE("a plane is told in words", "[drawing]") {
    PlaneView view;
    view.path = {{1, 1, "-24 mo"}, {.6, 8, ""}, {.27, 5.8, ""}};
    view.truth = PlanePoint{.27, 5.8, "today"};
    view.answer = PlaneBox{.55, .85, 1.6, 4};
    CHECK(words(view) == "Work across, leak upward. The truth: work 27 %, leak \xC3\x97"
                         "5.8 "
                         "(today). The path: work 100 %, leak \xC3\x97"
                         "1.0 (-24 mo); work 27 %, "
                         "leak \xC3\x97"
                         "5.8. The answer, 80 % sure: work 55 % to 85 %, leak "
                         "\xC3\x97"
                         "1.6 to \xC3\x97"
                         "4.0. It does not hold the truth.");
}

TEST_CASE("a plane that cannot be drawn is refused in a sentence", "[drawing]") {
    PlaneView view = scarring(4);
    view.path[2].leak = 0;
    CHECK_THROWS_WITH(plane(view, room), "plane: the path has a leak that is not above zero");
    view = scarring(4);
    view.truth->work = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_WITH(planeScale(view, room), "plane: the truth has a number that is not finite");
    view = scarring(4);
    std::swap(view.answer->leakLow, view.answer->leakHigh);
    CHECK_THROWS_WITH(plane(view, room), "plane: the answer has ends in the wrong order");
}

TEST_CASE("the same plane gives the same marks", "[drawing]") {
    const auto drawn = [] {
        return svg(Picture{800, 560, "", "", "en", {{plane(scarring(24), room)}}});
    };
    CHECK(drawn() == drawn());
    CHECK_THAT(drawn(), Catch::Contains(">sound and loud<"));
}
