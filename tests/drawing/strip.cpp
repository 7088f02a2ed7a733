// The crowd strip: every peer is drawn once, everything stands where its value says, and the words
// say no more than was counted.
#include "drawing/strip.h"

#include "marks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace cistern::test;

namespace {

using Bound = StripView::Bound;

/// 200 healthy animals around a middle, skewed as enzymes are; `step` above zero rounds them.
StripView crowd(double middle, double spread, double step = 0) {
    StripView view;
    for (int i = 0; i < 200; ++i) {
        const double share = (i + 0.5) / 200; // of a logistic distribution
        double value = middle * std::exp(spread * std::log(share / (1 - share)));
        if (step > 0) value = step * std::round(value / step);
        view.peers.push_back(value);
    }
    // Not in order: 67 and 200 share no factor.
    std::vector<double> mingled;
    for (std::size_t i = 0; i < 200; ++i) mingled.push_back(view.peers[67 * i % 200]);
    view.peers = mingled;
    view.low = middle * std::exp(-3.66 * spread); // the middle 95 %: ln(39) is 3.66
    view.high = middle * std::exp(3.66 * spread);
    view.value = middle;
    view.halfWidth = middle / 20;
    return view;
}

StripView with(StripView view, double value, double earlier, Bound bound = Bound::exact) {
    view.value = value;
    view.halfWidth = bound == Bound::exact ? value / 20 : 0;
    view.earlier = StripView::Earlier{earlier, earlier / 4};
    view.bound = bound;
    return view;
}

std::vector<StripView> manyStrips() {
    std::vector<StripView> views;
    for (const StripView& peers : {crowd(45, 0.22), crowd(147, 0.008, 1), crowd(0.2, 0.2, 0.1)})
        for (double fold : {0.02, 0.8, 1.0, 1.3, 40.0, 3000.0})
            for (double before : {0.01, 1.0, 60.0})
                for (bool logarithmic : {false, true}) {
                    const double middle = peers.value;
                    views.push_back(with(peers, fold * middle, before * middle));
                    views.back().logarithmic = logarithmic;
                }
    views.push_back(with(crowd(45, 0.22), 2000, 50, Bound::above));
    views.push_back(with(crowd(45, 0.22), 5, 50, Bound::below));
    views.push_back(crowd(45, 0.22));
    views.back().low.reset();
    views.push_back(crowd(45, 0.22));
    views.back().high.reset();
    views.push_back(crowd(45, 0.22));
    views.back().peers.assign(200, 45); // all the same
    views.push_back(crowd(45, 0.22));
    for (double& peer : views.back().peers) peer = peer < 45 ? 30 : 60; // two values
    views.push_back(views.back());
    views.back().low.reset();
    views.back().high.reset();
    views.push_back(crowd(147, 0.008, 1)); // peers on the brackets themselves
    views.back().low = 143;
    views.back().high = 151;
    views.push_back({}); // nothing but a value of zero
    return views;
}

const std::vector<Box> boxes{{10, 20, 160, 24}, {0, 0, 160, 60},  {0, 0, 280, 40},
                             {5, 5, 400, 24},   {30, 7, 440, 44}, {0, 0, 600, 60}};

template<typename Check>
void eachStrip(Check check) {
    for (StripView& view : manyStrips())
        for (const Box& box : boxes) {
            CAPTURE(view.value, view.halfWidth, view.logarithmic, box.width, box.height);
            check(view, box);
        }
}

} // namespace

TEST_CASE("a crowd strip draws every peer once and inside its box", "[drawing]") {
    eachStrip([](const StripView& view, const Box& box) {
        const Group drawn = strip(view, box);
        const std::vector<Shape> dots = all<Shape>(named(drawn, "peers"));
        CHECK(dots.size() == view.peers.size());
        std::size_t outside = 0;
        for (const Shape& dot : dots) outside += box.contains(around(dot.path)) ? 0 : 1;
        CHECK(outside == 0);
        outside = 0;
        for (const Shape& shape : all<Shape>(drawn)) {
            const double half = shape.stroke ? shape.stroke->width / 2 : 0;
            outside += box.contains(around(shape.path), half) ? 0 : 1;
        }
        CHECK(outside == 0);
    });
}

TEST_CASE("positions on a crowd strip follow the order of values, over breaks too", "[drawing]") {
    eachStrip([](const StripView& view, const Box& box) {
        const StripPlaces places = stripPlaces(view, box);
        std::vector<double> values = view.peers;
        for (double fold = 0.001; fold < 1e5; fold *= 1.07) values.push_back(45 * fold);
        values.push_back(view.value);
        if (view.earlier) values.push_back(view.earlier->value);
        std::sort(values.begin(), values.end());
        std::size_t backward = 0;
        for (std::size_t i = 1; i < values.size(); ++i)
            backward += places.axis.position(values[i]) < places.axis.position(values[i - 1]);
        CHECK(backward == 0);
        // What is drawn and differs stands apart.
        if (view.earlier && view.value > 1.2 * view.earlier->value)
            CHECK(places.axis.position(view.value) > places.axis.position(view.earlier->value));
        // Dots: columns may join near values but never swap them.
        std::vector<std::pair<double, double>> dots;
        for (std::size_t i = 0; i < view.peers.size(); ++i)
            dots.emplace_back(view.peers[i], places.dots[i].x);
        std::sort(dots.begin(), dots.end());
        std::size_t swapped = 0;
        for (std::size_t i = 1; i < dots.size(); ++i)
            swapped += dots[i].first > dots[i - 1].first && dots[i].second < dots[i - 1].second;
        CHECK(swapped == 0);
    });
}

TEST_CASE("the crowd keeps a third of a strip however far the value lies", "[drawing]") {
    for (const StripView& view : manyStrips())
        for (const Box& box : boxes) {
            if (view.peers.empty()) continue;
            const StripAxis axis = stripPlaces(view, box).axis;
            const auto [least, most] = std::minmax_element(view.peers.begin(), view.peers.end());
            double low = *least, high = *most;
            if (view.low) low = std::min(low, *view.low);
            if (view.high) high = std::max(high, *view.high);
            if (low == high) continue;
            CAPTURE(view.value, view.logarithmic, box.width, box.height);
            CHECK(axis.position(high) - axis.position(low) >= box.width / 3);
        }
}

TEST_CASE("peg, brackets and the earlier result stand at their values", "[drawing]") {
    eachStrip([](const StripView& view, const Box& box) {
        const Group drawn = strip(view, box);
        const StripAxis axis = stripPlaces(view, box).axis;
        const Box peg = around(all<Shape>(named(drawn, "peg")).at(0).path);
        CHECK(peg.x == Approx(axis.position(view.value)));
        CHECK(all<Shape>(named(drawn, "low")).size() == (view.low ? 1 : 0));
        CHECK(all<Shape>(named(drawn, "high")).size() == (view.high ? 1 : 0));
        if (view.low)
            CHECK(around(all<Shape>(named(drawn, "low")).at(0).path).x ==
                  Approx(axis.position(*view.low)));
        if (view.high)
            CHECK(around(all<Shape>(named(drawn, "high")).at(0).path).right() ==
                  Approx(axis.position(*view.high)));
        if (view.earlier)
            CHECK(around(all<Shape>(named(drawn, "earlier")).at(0).path).middle().x ==
                  Approx(axis.position(view.earlier->value)));
    });
    // Without a break the axis is even: the peg's share of the way is its value's.
    StripView view = crowd(147, 0.008);
    const StripAxis axis = stripPlaces(view, {0, 0, 400, 40}).axis;
    const double from = axis.position(*view.low), to = axis.position(*view.high);
    CHECK(axis.position((*view.low + *view.high) / 2) == Approx((from + to) / 2));
}

TEST_CASE("no dot of a strip lies on the wrong side of a bracket", "[drawing]") {
    eachStrip([](const StripView& view, const Box& box) {
        if (!view.low || !view.high) return;
        const StripPlaces places = stripPlaces(view, box);
        const double low = places.axis.position(*view.low);
        const double high = places.axis.position(*view.high);
        if (high - low < places.dot) return; // no room between them for a dot
        std::size_t wrong = 0;
        for (std::size_t i = 0; i < view.peers.size(); ++i) {
            wrong += (view.peers[i] >= *view.low) != (places.dots[i].x > low);
            wrong += (view.peers[i] <= *view.high) != (places.dots[i].x < high);
        }
        CHECK(wrong == 0);
    });
}

TEST_CASE("a value beyond a break is told in words where there is room", "[drawing]") {
    StripView view = with(crowd(45, 0.22), 1840, 50);
    view.valueWords = "1,840 U/L";
    const std::vector<Text> texts = all<Text>(strip(view, {0, 0, 300, 44}));
    REQUIRE(texts.size() == 1);
    CHECK(texts[0].lines == std::vector<std::string>{"1,840 U/L"});
    CHECK(stripPlaces(view, {0, 0, 300, 44}).axis.above);
    view.value = 100; // near the crowd: the table says it, the strip need not
    CHECK(all<Text>(strip(view, {0, 0, 300, 44})).empty());
}

TEST_CASE("words on a strip keep to its box and clear of the crowd and the peg", "[drawing]") {
    std::size_t told = 0;
    for (StripView& view : manyStrips())
        for (const Box& box : boxes)
            for (double scale : {0.8, 1.0, 1.5, 2.0}) {
                view.textScale = scale;
                const Group drawn = strip(view, box);
                CHECK(faults(drawn, box) == "");
                const StripPlaces places = stripPlaces(view, box);
                if (!places.words) continue;
                ++told;
                const Box words = extent(*places.words);
                const Box head{places.head.x - places.headHalf, box.y, 2 * places.headHalf,
                               places.baseline - box.y};
                CHECK_FALSE(words.overlaps(head));
                CHECK_FALSE(words.overlaps({places.barFrom, box.y, places.barTo - places.barFrom,
                                            places.baseline - box.y}));
                std::size_t covered = 0;
                for (const Point& dot : places.dots)
                    covered += words.overlaps(
                        {dot.x - places.dot / 2, dot.y - places.dot / 2, places.dot, places.dot},
                        0.01);
                CHECK(covered == 0);
            }
    CHECK(told > 100);
}

TEST_CASE("meanings differ by the shape of the peg, not by color alone", "[drawing]") {
    std::vector<std::string> shapes;
    for (Meaning meaning : {Meaning::leaks, Meaning::works, Meaning::cleared, Meaning::held}) {
        StripView view = crowd(45, 0.22);
        view.meaning = meaning;
        std::string shape;
        for (const Path::Part& part :
             all<Shape>(named(strip(view, {0, 0, 300, 44}), "peg")).at(1).path.parts())
            shape += std::to_string(static_cast<int>(part.step)) + " " +
                     std::to_string(std::lround(part.to[0].x)) + " " +
                     std::to_string(std::lround(part.to[0].y)) + ";";
        for (const std::string& other : shapes) CHECK(shape != other);
        shapes.push_back(shape);
    }
}

TEST_CASE("where a value stands is told no further than counted", "[drawing]") {
    StripView view;
    for (int i = 1; i <= 200; ++i) view.peers.push_back(i);
    const auto at = [&](double value, Bound bound = Bound::exact) {
        view.value = value;
        view.bound = bound;
        return standing(view, "healthy dogs");
    };
    CHECK(at(500) == "above all 200 healthy dogs");
    CHECK(at(200) == "above 99 % of healthy dogs"); // 199 of 200
    CHECK(at(195.5) == "above 97 % of healthy dogs");
    CHECK(at(100) == "among the middle half of healthy dogs");
    CHECK(at(151) == "above 75 % of healthy dogs");
    CHECK(at(3) == "below 98 % of healthy dogs"); // 197 of 200
    CHECK(at(0) == "below all 200 healthy dogs");
    CHECK(at(190, Bound::above) == "above at least 94 % of healthy dogs"); // 189 of 200
    CHECK(at(250, Bound::above) == "above all 200 healthy dogs");
    CHECK(at(20, Bound::above) == "too high to place among healthy dogs");
    CHECK(at(0.5, Bound::below) == "below all 200 healthy dogs");
    CHECK(at(150, Bound::below) == "too low to place among healthy dogs");
    // Whatever the value, the share told is at most the share counted, and within one percent.
    for (double value = 0.25; value < 201; value += 0.5) {
        const std::string told = at(value);
        const std::size_t number = told.find_first_of("0123456789");
        if (number == std::string::npos || told.find('%') == std::string::npos) continue;
        double counted = 0;
        for (double peer : view.peers)
            counted += told.starts_with("above") ? peer < value : peer > value;
        const double share = std::stod(told.substr(number));
        CAPTURE(told, value);
        CHECK(share <= counted / 2);
        CHECK(share > counted / 2 - 1);
    }
    view.peers.assign(200, 7); // a tie with all is the middle
    CHECK(at(7) == "among the middle half of healthy dogs");
    view.peers.clear();
    CHECK(at(7) == "no healthy dogs to stand among");
}

TEST_CASE("a strip is told in sentences", "[drawing]") {
    StripView view;
    for (int i = 1; i <= 200; ++i) view.peers.push_back(i);
    view.low = 6;
    view.high = 195;
    view.value = 300;
    view.halfWidth = 12;
    view.earlier = StripView::Earlier{280, 50};
    CHECK(words(view, "healthy cats") ==
          "200 healthy cats range from 1 to 200. The interval is 6 to 195. This value is 300, give "
          "or take 12: above all 200 healthy cats. The earlier value was 280; the change could be "
          "mere wobble.");
    view.earlier->value = 100;
    CHECK_THAT(words(view, "healthy cats"), Catch::Contains("more than mere wobble"));
    view.bound = Bound::above;
    CHECK_THAT(words(view, "healthy cats"), Catch::Contains("more than 300: above all"));
}

TEST_CASE("a strip that cannot be drawn is refused in a sentence", "[drawing]") {
    const auto refused = [](auto spoil, const char* sentence) {
        StripView view = with(crowd(45, 0.22), 50, 40);
        spoil(view);
        CHECK_THROWS_WITH(strip(view, {0, 0, 300, 40}), Catch::Contains(sentence));
    };
    const double nan = std::numeric_limits<double>::quiet_NaN();
    refused([&](StripView& v) { v.value = nan; }, "its value is not a finite number");
    refused([&](StripView& v) { v.peers[3] = nan; }, "a healthy value");
    refused([&](StripView& v) { v.low = nan; }, "lower end");
    refused([](StripView& v) { v.low = *v.high + 1; }, "upside down");
    refused([](StripView& v) { v.halfWidth = -1; }, "doubt");
    refused([&](StripView& v) { v.earlier->halfWidth = nan; }, "wobble");
    refused([&](StripView& v) { v.textScale = nan; }, "text scale");
    refused(
        [](StripView& v) {
            v = {};
            v.logarithmic = true;
        },
        "above zero");
}
