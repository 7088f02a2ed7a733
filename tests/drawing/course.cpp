#include "drawing/course.h"

#include "courses.h"
#include "marks.h"

#include <catch2/catch.hpp>

#include <limits>
#include <set>

using namespace cistern::test;

namespace {

/// Positions are sums of doubles of a few thousand; this is far above their rounding and far below
/// what can be seen.
constexpr double slack = 0.01;

std::vector<Box> textBoxes(const std::vector<Mark>& marks) {
    std::vector<Box> boxes;
    for (const Mark& mark : marks) {
        if (const auto* text = std::get_if<Text>(&mark.is)) boxes.push_back(extent(*text));
        if (const auto* group = std::get_if<Group>(&mark.is))
            for (const Box& box : textBoxes(group->marks)) boxes.push_back(box);
    }
    return boxes;
}

std::string words(const Text& text) {
    std::string all;
    for (const std::string& line : text.lines) all.append(line).append("|");
    return all;
}

void checkApart(const std::vector<Box>& boxes, const std::string& what) {
    std::string clash;
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t j = i + 1; j < boxes.size(); ++j)
            if (boxes[i].overlaps(boxes[j], slack))
                clash += what + " " + std::to_string(i) + " and " + std::to_string(j) + "; ";
    CHECK(clash == "");
}

void checkTexts(const CourseLayout& placed) {
    const Box page{0, 0, placed.width, placed.height};
    std::vector<Box> boxes;
    for (const Text& text : placed.texts) {
        const Box box = extent(text);
        CAPTURE(words(text), box.x, box.y, box.right(), box.bottom());
        CHECK(page.contains(box, slack));
        for (const auto& panel : placed.panels) {
            CHECK_FALSE(box.overlaps(panel.field, slack));
            for (const auto& curve : panel.curves) {
                CHECK_FALSE(box.overlaps(curve.sample, slack));
                const Box leader{curve.end.x, std::min(curve.end.y, curve.sample.y),
                                 curve.sample.x - curve.end.x,
                                 std::abs(curve.end.y - curve.sample.y)};
                CHECK_FALSE(box.overlaps(leader, slack));
            }
        }
        for (const auto& key : placed.legend) CHECK_FALSE(box.overlaps(key.mark, slack));
        for (const Box& bar : placed.bars)
            CHECK((bar.contains(box, slack) || !bar.overlaps(box, slack)));
        boxes.push_back(box);
    }
    checkApart(boxes, "texts");
}

void checkMarks(const CourseLayout& placed) {
    const Box page{0, 0, placed.width, placed.height};
    CHECK(page.contains(placed.card));
    std::vector<Box> fields, samples, keys;
    for (const auto& panel : placed.panels) {
        fields.push_back(panel.field);
        CHECK(placed.card.contains(panel.field));
        for (double y : panel.grid)
            CHECK((y >= panel.field.y - slack && y <= panel.field.bottom() + slack));
        for (const auto& curve : panel.curves) {
            samples.push_back(curve.sample);
            CHECK(placed.card.contains(curve.sample));
            for (const Point& point : curve.points)
                CHECK(panel.field.contains({point.x, point.y, 0, 0}, slack));
            for (const auto& peg : curve.pegs)
                CHECK(panel.field.contains({peg.at.x, peg.top, 0, peg.bottom - peg.top}, slack));
        }
    }
    for (const auto& key : placed.legend) {
        keys.push_back(key.mark);
        CHECK(placed.card.contains(key.mark));
    }
    for (const Box& bar : placed.bars) CHECK(placed.card.contains(bar));
    checkApart(fields, "fields");
    checkApart(samples, "samples");
    checkApart(keys, "legend");
    checkApart(placed.bars, "bars");
}

void check(CourseView view, const std::string& name) {
    for (double scale : {0.8, 1.0, 1.5, 2.0}) {
        for (auto [width, height] :
             {std::pair{1280.0, 800.0}, std::pair{900.0, 600.0}, std::pair{400.0, 300.0}}) {
            view.textScale = scale;
            view.width = width;
            view.height = height;
            CAPTURE(name, scale, width, height);
            const CourseLayout placed = layout(view);
            CHECK(placed.width >= width);
            CHECK(placed.height >= height);
            checkTexts(placed);
            checkMarks(placed);
            // What is drawn is what was placed: no words beyond those checked above.
            CHECK(textBoxes(picture(placed).marks).size() == placed.texts.size());
        }
    }
}

const CourseLayout::Curve& curve(const CourseLayout& placed, const std::string& name) {
    for (const auto& panel : placed.panels)
        for (const auto& one : panel.curves)
            if (one.name == name) return one;
    throw std::runtime_error("no curve " + name);
}

} // namespace

TEST_CASE("nothing overlaps or leaves the page at any text scale, page size or axis", "[drawing]") {
    for (auto [name, view] :
         {std::pair{"four days", lockKeepersDog()}, std::pair{"five hundred days", slowCat()},
          std::pair{"crowded", crowded()}}) {
        for (bool fold : {true, false}) {
            for (bool logarithmic : {true, false}) {
                view.fold = fold;
                view.logarithmic = logarithmic;
                check(view, name);
            }
        }
    }
}

TEST_CASE("a page that fits at its own size keeps that size", "[drawing]") {
    const CourseLayout dog = layout(lockKeepersDog()), cat = layout(slowCat());
    CHECK(dog.width == 1280);
    CHECK(dog.height == 800);
    CHECK(cat.width == 1280);
    CHECK(cat.height == 800);
    CourseView small = lockKeepersDog();
    small.width = 900;
    small.height = 600;
    CHECK(layout(small).width == 900);
    CHECK(layout(small).height == 600);
}

TEST_CASE("on the fold axis the healthy level is one height and each tenfold one distance",
          "[drawing]") {
    CourseView view = lockKeepersDog();
    view.levels = {{"one", "U/L", Meaning::leaks, 40, {}, {}},
                   {"two", "g/L", Meaning::works, 7, {}, {}}};
    view.hours = {0, 1, 2, 3};
    view.levels[0].values = {40, 400, 4000, 40};
    view.levels[1].values = {7, 70, 700, 7};
    view.work.clear();
    view.happenings.clear();
    const CourseLayout placed = layout(view);
    const auto &a = curve(placed, "one").points, &b = curve(placed, "two").points;
    // Points on one straight line are thinned away: hours 0, 2 and 3 remain.
    REQUIRE(a.size() == 3);
    REQUIRE(b.size() == 3);
    for (std::size_t i = 0; i < a.size(); ++i) CHECK(a[i].y == Approx(b[i].y));
    REQUIRE(placed.panels[0].health);
    CHECK(a[0].y == Approx(*placed.panels[0].health));
    CHECK(a[1].x == Approx(placed.panels[0].field.x + placed.panels[0].field.width * 2 / 3));
}

TEST_CASE("a peg stands at its hour and value with its half-width up and down", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.logarithmic = false;
    view.levels.resize(1);
    view.levels[0].values.assign(view.hours.size(), 40);
    view.levels[0].values.back() = 4000;
    view.levels[0].pegs = {{24, 2000, 400}};
    const CourseLayout placed = layout(view);
    const Box& field = placed.panels[0].field;
    const auto& points = curve(placed, "ALT").points;
    const double perUnit = (points.front().y - points.back().y) / (4000 - 40);
    const auto& peg = curve(placed, "ALT").pegs.at(0);
    CHECK(peg.at.x == Approx(field.x + field.width / 2)); // hour 24 of -24 to 72
    CHECK(points.front().y - peg.at.y == Approx((2000 - 40) * perUnit));
    CHECK(peg.bottom - peg.at.y == Approx(400 * perUnit));
    CHECK(peg.at.y - peg.top == Approx(400 * perUnit));
    CHECK_FALSE(peg.below);
    CHECK_FALSE(peg.above);
}

TEST_CASE("an error bar that reaches zero on a logarithmic axis is drawn open", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.levels[0].pegs = {{24, 100, 100}};
    const CourseLayout placed = layout(view);
    const auto& peg = curve(placed, "ALT").pegs.at(0);
    CHECK(peg.below);
    CHECK(peg.bottom == Approx(placed.panels[0].field.bottom()));
}

TEST_CASE("lines of one meaning differ by their dashes", "[drawing]") {
    const CourseLayout placed = layout(slowCat());
    std::set<std::pair<Meaning, std::vector<double>>> seen;
    for (const auto& one : placed.panels[0].curves)
        CHECK(seen.insert({one.meaning, one.dash}).second);
    CHECK(seen.size() == 9);
    seen.clear();
    for (const auto& one : placed.panels[1].curves)
        CHECK(seen.insert({one.meaning, one.dash}).second);
}

TEST_CASE("each meaning shown has its entry, its color and its words", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.levels.push_back(level(view, "sodium", "mmol/L", Meaning::held, 147, 0.9, 0, 20));
    const CourseLayout placed = layout(view);
    std::set<std::optional<Meaning>> meanings;
    for (const auto& key : placed.legend) meanings.insert(key.meaning);
    CHECK(meanings.size() == meaningCount + 1); // and the measured pegs
    const std::string drawing = svg(view);
    for (const std::string& words :
         {view.words.leaks, view.words.works, view.words.cleared, view.words.held})
        CHECK(drawing.find(">" + words) != std::string::npos);
    std::set<std::string> colors;
    for (const char* color : {"#0F8C86", "#B4730F", "#6E2A62", "#364C1F"}) // as theme.h has them
        if (drawing.find(color) != std::string::npos) colors.insert(color);
    CHECK(colors.size() == meaningCount);
    check(view, "four meanings");
}

TEST_CASE("a long course is thinned by less than a quarter of a pixel", "[drawing]") {
    const CourseView view = slowCat();
    const CourseLayout placed = layout(view);
    const Box& field = placed.panels[0].field;
    const auto& few = curve(placed, "ALT").points;
    CHECK(few.size() < view.hours.size() / 4);
    // The true curve, placed by two of its points: the first (healthy) and the last.
    const std::vector<double>& values = view.levels[0].values;
    const double scale = (few.back().y - few.front().y) / std::log(values.back() / values.front());
    std::size_t next = 1;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double x = field.x + field.width * (view.hours[i] - view.hours.front()) /
                                       (view.hours.back() - view.hours.front());
        while (next + 1 < few.size() && few[next].x < x) ++next;
        const Point a = few[next - 1], b = few[next];
        const double y = few.front().y + scale * std::log(values[i] / values.front());
        const double off = std::abs((b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)) /
                           std::hypot(b.x - a.x, b.y - a.y);
        CHECK(off <= 0.25 + slack);
    }
}

TEST_CASE("in units each unit has its own panel", "[drawing]") {
    CourseView view = slowCat();
    view.fold = false;
    const CourseLayout placed = layout(view);
    REQUIRE(placed.panels.size() == 5); // U/L, g/L, mmol/L, umol/L, and work
    CHECK(placed.panels[0].curves.size() == 4);
    CHECK(placed.panels[1].curves.size() == 1);
    CHECK(placed.panels[2].curves.size() == 2);
    CHECK(placed.panels[3].curves.size() == 2);
    CHECK(placed.panels[1].health);
    CHECK_FALSE(placed.panels[0].health);
}

TEST_CASE("the part of a happening outside the course is not drawn", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.happenings = {{"long before", -90, -80}, {"across", -80, 500}, {"after", 80, 90}};
    const CourseLayout placed = layout(view);
    REQUIRE(placed.bars.size() == 1);
    CHECK(placed.bars[0].x == Approx(placed.panels[0].field.x));
    CHECK(placed.bars[0].right() == Approx(placed.panels[0].field.right()));
    CHECK(placed.onsets.empty());
}

TEST_CASE("the description tells what the curves do", "[drawing]") {
    const std::string told = layout(lockKeepersDog()).description;
    CAPTURE(told);
    CHECK_THAT(told, Catch::Contains("ALT (what leaks) starts at ×1.0, is highest with ×60 at"));
    CHECK_THAT(told, Catch::Contains("Work of the liver starts at 100 %"));
    CHECK_THAT(told, Catch::Contains("ends at 50 %"));
    CHECK_THAT(told, Catch::Contains("acute liver death from 0 d to 0.25 d"));
    CHECK_THAT(told, Catch::Contains("Levels are multiples"));
    CourseView own = lockKeepersDog();
    own.description = "Hecho a mano.";
    own.language = "es";
    CHECK(layout(own).description == "Hecho a mano.");
}

TEST_CASE("a course that cannot be drawn is refused with its line and hour", "[drawing]") {
    const auto refusal = [](auto spoil) {
        CourseView view = lockKeepersDog();
        spoil(view);
        try {
            layout(view);
        } catch (const std::invalid_argument& fault) {
            return std::string(fault.what());
        }
        return std::string("accepted");
    };
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THAT(refusal([&](CourseView& v) { v.levels[0].values[3] = nan; }),
               Catch::Contains("ALT at hour -21"));
    CHECK_THAT(refusal([&](CourseView& v) { v.work[0].shares[0] = -0.1; }),
               Catch::Contains("the work of liver at hour -24"));
    CHECK_THAT(refusal([&](CourseView& v) { v.levels[1].values.pop_back(); }),
               Catch::Contains("albumin has 96 values for 97 hours"));
    CHECK_THAT(refusal([&](CourseView& v) { v.levels[1].healthy = 0; }),
               Catch::Contains("healthy value of albumin"));
    CHECK_THAT(refusal([&](CourseView& v) { v.levels[0].pegs[0].hour = 73; }),
               Catch::Contains("measured ALT lies outside"));
    CHECK_THAT(refusal([&](CourseView& v) { v.levels[0].pegs[0].halfWidth = nan; }),
               Catch::Contains("measured ALT at hour"));
    CHECK_THAT(refusal([&](CourseView& v) { v.hours[5] = v.hours[4]; }),
               Catch::Contains("rise from one to the next"));
    CHECK_THAT(refusal([&](CourseView& v) { v.hours[5] = nan; }), Catch::Contains("finite"));
    CHECK_THAT(refusal([&](CourseView& v) { v.hours.resize(1); }),
               Catch::Contains("at least two hours"));
    CHECK_THAT(refusal([&](CourseView& v) { v.happenings[0].to = -5; }),
               Catch::Contains("acute liver death"));
    CHECK_THAT(refusal([&](CourseView& v) { v.textScale = nan; }), Catch::Contains("text scale"));
    CHECK_THAT(refusal([&](CourseView& v) { v.width = 100; }), Catch::Contains("400 wide"));
    CHECK_THAT(refusal([&](CourseView& v) {
                   v.levels.clear();
                   v.work.clear();
               }),
               Catch::Contains("no line"));
    CHECK(refusal([](CourseView&) {}) == "accepted");
}

TEST_CASE("levels of zero, huge spans and single panels are drawn", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.levels[0].values[40] = 0;
    view.levels[0].values[41] = 1e9;
    view.levels[1].values.assign(view.hours.size(), 0);
    check(view, "extreme");
    view.levels.clear();
    check(view, "work alone");
    view = lockKeepersDog();
    view.work.clear();
    view.happenings.clear();
    view.title = view.subtitle = view.caution = "";
    check(view, "levels alone");
}

TEST_CASE("a course keeps to its box at any size and scale of letters", "[drawing]") {
    for (const Box& box : {Box{20, 30, 380, 260}, Box{20, 30, 500, 400}, Box{20, 30, 900, 600}})
        for (const double scale : {0.8, 1., 2.})
            for (const bool fold : {true, false}) {
                INFO(box.width << " wide, letters at " << scale << (fold ? ", fold" : ""));
                CourseView view = lockKeepersDog();
                view.textScale = scale;
                view.fold = fold;
                CHECK(layout(view, box).fits());
                const Group group = course(view, box);
                CHECK(faults(group, box) == "");
                CHECK(inkOutside(group, box) == 0);
            }
}

TEST_CASE("a course in a box has no page around it", "[drawing]") {
    const CourseView view = lockKeepersDog();
    std::string told;
    for (const Text& text : all<Text>(course(view, {0, 0, 900, 600}))) told += joined(text);
    CHECK_THAT(told, Catch::Contains("ALT") && !Catch::Contains("lock|") &&
                         !Catch::Contains("Invented animal"));
    CHECK(words(view) == picture(layout(view)).description);
}
