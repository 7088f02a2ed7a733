#include "at_desk.h"
#include "desk/pages/reading_band.h"
#include "desk/pages/reading_share.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <random>

using namespace cistern;
using namespace cistern::desk;

namespace {

const std::string twoOrgans = "the_biscuit_thief"; // liver, bile ducts; six explanations

double sum(const std::vector<Share>& shares) {
    return std::accumulate(shares.begin(), shares.end(), 0.0,
                           [](double so, const Share& one) { return so + one.points; });
}

/// A person at the page of a case: with keys, with a pointer, at a keyboard.
struct Hands : AtDesk {
    explicit Hands(const std::string& name) : AtDesk(PageName::shelf) { open(name); }

    void open(const std::string& name) {
        for (const Shelved& one : desk.session().shelf())
            if (one.name == name) desk.session().open(one.path, std::nullopt, true);
        turn();
    }
    void turn() {
        desk.session().go(PageName::reading);
        desk.handle(Keystroke{Key::escape});
    }
    const lesson::Lesson& lesson() { return desk.session().lesson(); }
    bool has(const std::string& id) { return desk.find(id) != nullptr; }
    const Control& at(const std::string& id) {
        const Control* one = desk.find(id);
        if (!one) throw std::out_of_range("no control is named " + id);
        return *one;
    }
    void keys(const std::string& id, Key key, int times) {
        at(id);
        desk.setFocus(id);
        for (int i = 0; i < times; ++i) desk.handle(Keystroke{key});
    }
    void write(const std::string& id, const std::string& text) {
        keys(id, Key::escape, 1);
        desk.handle(Typed{text});
        desk.handle(Keystroke{Key::enter});
    }
    void pull(Point from, Point to) {
        desk.handle(Pointer{Pointer::What::moved, from});
        desk.handle(Pointer{Pointer::What::pressed, from});
        for (const double share : {.3, .7, 1.})
            desk.handle(
                Pointer{Pointer::What::moved,
                        {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)}});
        desk.handle(Pointer{Pointer::What::let, to});
    }
    /// Pulls a control from its middle, scrolled into view.
    void pull(const std::string& id, double across, double down) {
        keys(id, Key::escape, 1);
        const Point from = at(id).area.middle();
        pull(from, {from.x + across, from.y + down});
    }
    void click(const std::string& id) { pull(id, 0, 0); }
};

double sum(const std::map<std::string, double>& points) {
    return std::accumulate(points.begin(), points.end(), 0.0,
                           [](double so, const auto& one) { return so + one.second; });
}

bool ordered(const lesson::Band& band) {
    return band.low <= band.best && band.best <= band.high;
}

lesson::OrganAnswer liver(Hands& at) {
    const auto& all = at.lesson().answers().organs;
    return all.contains(body::Tissue::liver) ? all.at(body::Tissue::liver) : lesson::OrganAnswer{};
}

/// Pulls a handle to the right, a step of its scale at a time, until it says what is wanted.
void pullTo(Hands& at, const std::string& id, const std::string& wanted) {
    constexpr double oneStep = 3; // [px] nearest to one step on the tracks of a plain window
    for (int tries = 0; tries < 100 && !at.at(id).says.ends_with(wanted); ++tries)
        at.pull(id, oneStep, 0);
    CHECK_THAT(at.at(id).says, Catch::Matchers::EndsWith(wanted));
}

} // namespace

TEST_CASE("points add up to 100 whatever is moved, typed or locked", "[desk]") {
    std::mt19937 chance(4711);
    const auto draw = [&](int below) {
        return static_cast<int>(chance() % static_cast<unsigned>(below));
    };
    for (int round = 0; round < 200; ++round) {
        std::vector<Share> shares(static_cast<std::size_t>(2 + draw(6)));
        bool begun = false;
        for (int move = 0; move < 50; ++move) {
            const auto one = static_cast<std::size_t>(draw(static_cast<int>(shares.size())));
            const auto before = shares;
            switch (draw(5)) {
            case 0:
                shares[one].locked = begun && !shares[one].locked;
                break;
            case 1:
                shares = even(shares);
                break;
            case 2:
                shares = given(shares, one, draw(1000) / 7.);
                break;
            default:
                shares = given(shares, one, draw(101));
            }
            begun = begun || sum(shares) > 0;
            if (!begun) continue;
            CHECK(std::abs(sum(shares) - 100) < lesson::pointsSlack);
            for (std::size_t i = 0; i < shares.size(); ++i) {
                CHECK(shares[i].points >= 0);
                if (before[i].locked && shares[i].locked)
                    CHECK(shares[i].points == before[i].points);
            }
        }
    }
}

TEST_CASE("points are taken in proportion and given evenly where there are none", "[desk]") {
    const auto points = [](const std::vector<Share>& shares) {
        std::vector<double> out;
        for (const Share& one : shares) out.push_back(one.points);
        return out;
    };
    CHECK(points(given({{60}, {40}, {0}}, 2, 50)) == std::vector<double>{30, 20, 50});
    CHECK(points(given({{0}, {0}, {0}}, 0, 40)) == std::vector<double>{40, 30, 30});
    CHECK(points(given({{100}, {0}, {0}}, 0, 90)) == std::vector<double>{90, 5, 5});
    CHECK(points(given({{50}, {30}, {20, true}}, 0, 100)) == std::vector<double>{80, 0, 20});
    CHECK(points(given({{50}, {30, true}, {20, true}}, 0, 10)) == std::vector<double>{50, 30, 20});
    CHECK(points(even({{50}, {30}, {20, true}})) == std::vector<double>{40, 40, 20});
}

TEST_CASE("a band stays in order and on its scale whatever is moved", "[desk]") {
    std::mt19937 chance(31);
    for (const Asked asked : bothAsked) {
        const Measure& measure = measureOf(asked);
        lesson::Band band = measure.wide;
        for (int move = 0; move < 2000; ++move) {
            const double steps = static_cast<double>(chance() % 81) - 40;
            const auto part = static_cast<BandPart>(chance() % 3);
            band = chance() % 4 == 0 ? shifted(measure, band, steps)
                                     : stepped(measure, band, part, steps);
            CHECK(ordered(band));
            CHECK(band.low >= measure.least);
            CHECK(band.high <= measure.most);
        }
        for (int step = 0; step <= measure.steps; ++step)
            CHECK(std::lround(position(measure, valueAt(measure, step))) == step);
    }
}

TEST_CASE("nothing is answered before the learner answers", "[desk]") {
    Hands at(twoOrgans);
    at.desk.screen();
    CHECK(at.lesson().answers() == lesson::Answers{});
    CHECK(at.at("points.nothing wrong").says == "Nothing wrong: no points given yet");
    CHECK_FALSE(at.has("liver.leak.low"));
    CHECK_FALSE(at.at("commit").press);
    CHECK_FALSE(at.at("undo").press);
}

TEST_CASE("by keys and by pointer the same reading is given", "[desk]") {
    Hands keys(twoOrgans), pointer(twoOrgans);

    keys.press("liver.leak.best");
    keys.keys("liver.leak.best", Key::right, 3);
    keys.keys("liver.leak.low", Key::up, 2);
    keys.press("liver.work.best");
    keys.keys("liver.work.high", Key::right, 4);
    keys.keys("points.nothing wrong", Key::right, 10);
    keys.press("next.2");
    keys.press("doubt.ALT");

    pointer.click("liver.leak.best");
    pullTo(pointer, "liver.leak.best", keys.at("liver.leak.best").says);
    pullTo(pointer, "liver.leak.low", keys.at("liver.leak.low").says);
    pointer.click("liver.work.best");
    pullTo(pointer, "liver.work.high", keys.at("liver.work.high").says);
    pullTo(pointer, "points.nothing wrong", ": 10 of 100 points");
    pointer.click("next.2");
    pointer.click("doubt.ALT");

    CHECK(keys.lesson().answers().organs == pointer.lesson().answers().organs);
    CHECK(keys.lesson().answers().next == pointer.lesson().answers().next);
    CHECK(keys.lesson().answers().distrusted == pointer.lesson().answers().distrusted);
    CHECK(keys.lesson().answers().points.at("nothing wrong") == 10);
    CHECK(pointer.lesson().answers().points.at("nothing wrong") == 10);
    CHECK(std::abs(sum(keys.lesson().answers().points) - 100) < lesson::pointsSlack);
    CHECK(std::abs(sum(pointer.lesson().answers().points) - 100) < lesson::pointsSlack);
}

TEST_CASE("one undo takes back one pull, of both bands at once", "[desk]") {
    Hands at(twoOrgans);
    const Box plot = at.at("liver.plane").area;
    at.pull({plot.x + .2 * plot.width, plot.y + .3 * plot.height},
            {plot.x + .6 * plot.width, plot.y + .7 * plot.height});
    const lesson::OrganAnswer drawn = liver(at);
    REQUIRE(drawn.leak);
    REQUIRE(drawn.work);
    CHECK(drawn.work->low == 24);
    CHECK(drawn.work->high == 72);

    at.pull("liver.plane.top-right", 30, -20);
    CHECK(liver(at).work->high > drawn.work->high);
    CHECK(liver(at).leak->high > drawn.leak->high);
    CHECK(liver(at).leak->low == drawn.leak->low);
    at.press("undo");
    CHECK(liver(at) == drawn);

    at.pull("liver.plane", 25, 0);
    CHECK(liver(at).work->low > drawn.work->low);
    CHECK(liver(at).leak == drawn.leak);
    at.desk.handle(Typed{"Z"});
    CHECK(liver(at) == drawn);

    at.pull("points.nothing wrong", 80, 0);
    CHECK(at.lesson().answers().points.size() == 6);
    at.press("undo");
    CHECK(at.lesson().answers().points.empty());
    at.press("undo");
    CHECK(at.lesson().answers() == lesson::Answers{});
    CHECK_FALSE(at.lesson().canUndo());
}

TEST_CASE("a click that moves nothing changes nothing", "[desk]") {
    Hands at(twoOrgans);
    at.press("liver.plane"); // sets both
    const std::size_t done = at.lesson().actions().size();
    for (const char* id : {"liver.plane", "liver.plane.top-left", "liver.leak.low",
                           "liver.work.best", "points.nothing wrong"})
        at.click(id);
    CHECK(at.lesson().actions().size() == done);
}

TEST_CASE("typed numbers reach beyond the plane and keep the band in order", "[desk]") {
    Hands at(twoOrgans);
    at.press("liver.plane");
    at.write("liver.leak.high.typed", "400");
    CHECK(liver(at).leak->high == 400);
    at.write("liver.work.low.typed", "130 %");
    CHECK(liver(at).work == lesson::Band{130, 130, 130});
    const auto before = at.lesson().answers();
    at.write("liver.leak.low.typed", "2000");
    CHECK(at.desk.session().said() == "The number must lie between 0.1 and 1000 fold.");
    at.write("liver.leak.low.typed", "some");
    CHECK(at.lesson().answers() == before);
    at.write("points.nothing wrong.typed", "33.3");
    CHECK(at.lesson().answers().points.at("nothing wrong") == 33.3);
    CHECK(std::abs(sum(at.lesson().answers().points) - 100) < lesson::pointsSlack);
}

TEST_CASE("a reading that is stood by is shown and no longer changed", "[desk]") {
    Hands at("too_much_to_see");
    at.press("liver.plane");
    at.press("points.even");
    at.press("next.1");
    CHECK(at.lesson().answers().points.begin()->second == 100. / 6);
    at.press("commit");
    REQUIRE(at.lesson().committed());
    CHECK(at.desk.session().page() == PageName::cutaway);
    at.turn();
    CHECK_THAT(words(at.desk.screen()), Catch::Matchers::Contains("Leak: 5 fold (0.5 to 50)"));
    for (const Control& one : at.desk.screen().controls)
        CHECK((one.id == "cutaway" || one.id.starts_with("rail.")));
}

TEST_CASE("the reading page stands without a fault at every size of window and letters", "[desk]") {
    Hands at("faster_than_she_looks");
    const auto look = [&] {
        for (const double scale : {.8, 1., 1.5, 2.})
            for (const auto& [width, height] :
                 {std::pair{1024., 700.}, std::pair{1280., 800.}, std::pair{2560., 1600.}}) {
                Settings settings = at.desk.session().settings();
                settings.textScale = scale;
                at.desk.session().set(settings);
                at.desk.handle(Resized{width, height});
                CAPTURE(scale, width);
                CHECK(faults(at.desk.screen()) == std::vector<std::string>{});
            }
    };
    look();
    at.press("liver.plane");
    at.press("explain");
    look();
    at.press("organ.thyroid");
    at.press("thyroid.work.best");
    at.press("points.even");
    look();
    at.press("organ.kidney");
    at.press("kidney.plane");
    at.press("next.1");
    at.press("commit");
    REQUIRE(at.lesson().committed());
    at.turn();
    look();
}
