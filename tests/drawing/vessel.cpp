// The vessel tells work, leak, size, level and clearance truly, and every word has its place.
#include "drawing/vessel.h"

#include "drawing/svg.h"
#include "drawing/theme.h"
#include "marks.h"

#include <catch2/catch.hpp>

#include <limits>
#include <numbers>

using namespace cistern::test;

namespace {

constexpr Box room{30, 40, 480, 640};

VesselView scarred() {
    VesselView view;
    view.name = "Bramble's liver";
    view.caption = "two years of scarring";
    view.work = .27;
    view.leak = 5.8;
    view.level = .62;
    view.mark = .38;
    view.spout = .3;
    view.reading = "ALT 96 U/L";
    view.levelWords = "1.6 \xC3\x97 the upper limit";
    view.drops = {{200, 400, 5}};
    return view;
}

/// Views that differ in all that asks for room.
std::vector<VesselView> many() {
    std::vector<VesselView> views{scarred()};
    VesselView full = scarred();
    full.name = "A sound liver on steroid tablets for its skin";
    full.caption = "the same level for other reasons, as the next visit will show";
    full.work = 1.2;
    full.leak = 100;
    full.level = 1;
    full.mark = 0;
    full.spout = 1;
    full.reading = "creatine kinase 124,000 U/L";
    views.push_back(full);
    VesselView empty = scarred();
    empty.work = 0;
    empty.level = 0;
    empty.mark = 1;
    empty.spout = 0;
    views.push_back(empty);
    VesselView tiny = scarred();
    tiny.size = .3;
    tiny.level = .04;
    tiny.caption = tiny.levelWords = "";
    views.push_back(tiny);
    VesselView bare;
    bare.measures = false;
    views.push_back(bare);
    return views;
}

const std::vector<Box>& boxes() {
    static const std::vector<Box> all{{30, 40, 180, 240}, {30, 40, 240, 260}, {30, 40, 300, 470},
                                      {30, 40, 200, 800}, {30, 40, 800, 300}, {30, 40, 600, 760},
                                      {30, 40, 900, 900}};
    return all;
}

template<class Check>
void sweep(const Check& check) {
    for (VesselView view : many())
        for (const Box& box : boxes())
            for (const double scale : {.8, 1., 1.5, 2.}) {
                view.textScale = scale;
                CAPTURE(view.name, view.size, view.work, box.width, box.height, scale);
                check(view, box);
            }
}

double poreArea(const VesselPlaces& at) {
    double area = 0;
    for (const Pore& pore : at.pores) area += std::numbers::pi * pore.radius * pore.radius;
    return area;
}

} // namespace

TEST_CASE("no words of a vessel touch one another, its parts or the edge of the box", "[drawing]") {
    sweep([](const VesselView& view, const Box& box) {
        const VesselPlaces at = places(view, box);
        CHECK(faults(at.texts, box) == "");
        CHECK(all<Text>(vessel(view, box)).size() == at.texts.size());
        for (const Text& text : at.texts) {
            const Box said = extent(text);
            CAPTURE(joined(text));
            CHECK_FALSE(said.overlaps(at.jar));
            CHECK_FALSE(said.overlaps(at.slab));
            CHECK_FALSE(said.overlaps(at.bore));
            for (const VesselBar& bar : at.bars) CHECK_FALSE(said.overlaps(bar.track));
            // The surface never runs through letters.
            CHECK((!said.overlaps(at.trough) || said.bottom() <= at.water.y - at.wave + hair ||
                   said.y >= at.water.y + at.wave - hair));
            if (at.mark && said.overlaps(at.trough))
                CHECK((*at.mark < said.y || *at.mark > said.bottom() || at.markEnd < said.x));
        }
    });
}

TEST_CASE("all that a moving layer needs of a vessel lies inside its box", "[drawing]") {
    sweep([](const VesselView& view, const Box& box) {
        const VesselPlaces at = places(view, box);
        for (const Box& part : {at.jar, at.slab, at.trough, at.water, at.bore})
            CHECK(box.contains(part, hair));
        CHECK(at.trough.contains(at.water, hair));
        for (const Pore& pore : at.pores) {
            CHECK(at.jar.contains({pore.mouth.x, pore.mouth.y, 0, 0}));
            CHECK(pore.mouth.y - pore.radius > at.jar.y);
            CHECK(pore.fall.y == Approx(at.slab.bottom()));
            CHECK(std::abs(pore.fall.x - at.foot.x) <= at.jar.width / 2);
            CHECK((pore.fall.x > at.trough.x && pore.fall.x < at.trough.right()));
        }
        CHECK(at.mouth.x <= at.splash.x);
        CHECK(box.contains({at.splash.x, at.splash.y, 0, 0}));
        CHECK(at.slab.bottom() < at.trough.y);
        for (const VesselBar& bar : at.bars) CHECK(bar.track.width > 0);
    });
}

TEST_CASE("a vessel draws nothing outside its box", "[drawing]") {
    for (VesselView view : many())
        for (const Box& box : {boxes()[0], boxes()[3], boxes()[4], boxes()[5]}) {
            view.drops.clear();
            CAPTURE(view.name, box.width, box.height);
            CHECK(inkOutside(vessel(view, box), box) == 0);
        }
}

TEST_CASE("the more work a vessel lost, the lower its sound wall and the fewer its pores",
          "[drawing]") {
    VesselView view = scarred();
    view.work = 1;
    const auto whole = static_cast<double>(places(view, room).pores.size());
    CHECK(whole > 20);
    double wall = places(view, room).wall, tenth = wall;
    double pores = whole;
    for (int percent = 99; percent >= 0; --percent) {
        view.work = percent / 100.;
        const VesselPlaces at = places(view, room);
        const auto count = static_cast<double>(at.pores.size());
        CAPTURE(percent);
        CHECK(at.wall >= wall);
        CHECK(count <= pores);
        CHECK(count > view.work * whole - 1);
        wall = at.wall;
        pores = count;
        if (percent % 10 > 0) continue;
        CHECK(wall > tenth);
        tenth = wall;
    }
    CHECK(pores == 0);
    CHECK(wall == places(view, room).foot.y);
}

TEST_CASE("a jar that works more than a healthy one is larger, a small organ's smaller",
          "[drawing]") {
    VesselView view = scarred();
    const double healthy = places(view, room).height;
    view.work = 1;
    CHECK(places(view, room).height == healthy);
    view.work = 1.2;
    CHECK(places(view, room).height > healthy);
    view.size = .3;
    CHECK(places(view, room).height < healthy);
}

TEST_CASE("the pores of a vessel together are as wide as size times work times leak", "[drawing]") {
    VesselView view = scarred();
    view.work = view.leak = 1;
    const double healthy = poreArea(places(view, room));
    CHECK(healthy > 0);
    for (const double work : {.02, .1, .27, .5, .8, .99, 1., 1.2})
        for (const double leak : {.3, 1., 1.6, 5.8, 30., 100.})
            for (const double size : {.3, .6, 1.}) {
                view.work = work;
                view.leak = leak;
                view.size = size;
                CAPTURE(work, leak, size);
                CHECK(poreArea(places(view, room)) == Approx(healthy * work * leak * size));
            }
}

TEST_CASE("pores of a vessel do not touch one another at the greatest leak", "[drawing]") {
    VesselView view = scarred();
    view.leak = 100;
    for (const double work : {.1, .27, .5, .8, 1.}) {
        view.work = work;
        const std::vector<Pore> pores = places(view, room).pores;
        CAPTURE(work);
        for (std::size_t i = 0; i < pores.size(); ++i)
            for (std::size_t k = i + 1; k < pores.size(); ++k) {
                // They are seen narrower toward the sides, so rows are compared by height only.
                const double down = std::abs(pores[i].mouth.y - pores[k].mouth.y);
                const double across = std::abs(pores[i].mouth.x - pores[k].mouth.x);
                CHECK((down > 1.2 * pores[i].radius || across > .6 * pores[i].radius));
            }
    }
}

TEST_CASE("level and mark of a vessel stand in the order of their numbers", "[drawing]") {
    VesselView view = scarred();
    for (int i = 0; i <= 10; ++i)
        for (int k = 0; k <= 10; ++k) {
            view.level = i / 10.;
            view.mark = k / 10.;
            const VesselPlaces at = places(view, room);
            REQUIRE(at.mark);
            CHECK((at.trough.bottom() - at.water.y) / at.trough.height == Approx(view.level));
            CHECK((at.trough.bottom() - *at.mark) / at.trough.height == Approx(view.mark));
            CHECK((at.water.y < *at.mark - hair) == (view.level > view.mark));
        }
    view.mark = -1;
    CHECK_FALSE(places(view, room).mark);
}

TEST_CASE("the trough of a vessel and its letters stay while the numbers move", "[drawing]") {
    for (const Box& box : boxes()) {
        const VesselPlaces first = places(scarred(), box);
        for (const double share : {0., .1, .33, .5, .77, 1.}) {
            VesselView view = scarred();
            view.level = view.work = view.spout = share;
            view.leak = 1 + 99 * share;
            const VesselPlaces at = places(view, box);
            CAPTURE(box.width, box.height, share);
            CHECK(at.trough.x == first.trough.x);
            CHECK(at.trough.y == first.trough.y);
            CHECK(at.trough.height == first.trough.height);
            CHECK(at.height == first.height);
            CHECK(at.texts.front().type.size == first.texts.front().type.size);
        }
    }
}

TEST_CASE("the spout of a vessel is as wide as its number", "[drawing]") {
    VesselView view = scarred();
    view.spout = 1;
    const double open = places(view, room).bore.height;
    CHECK(open > 0);
    for (const double spout : {0., .25, .5}) {
        view.spout = spout;
        CHECK(places(view, room).bore.height == Approx(spout * open));
    }
}

TEST_CASE("a vessel moves only its waves with the phase, and they come round", "[drawing]") {
    const auto drawn = [](double phase) {
        VesselView view = scarred();
        view.phase = phase;
        return svg(Picture{540, 700, "", "", "en", {{vessel(view, room)}}});
    };
    CHECK(drawn(0) == drawn(0));
    CHECK(drawn(0) != drawn(.5));
    CHECK(drawn(0) == drawn(1));
}

TEST_CASE("words of a vessel have contrast on what is behind them", "[drawing]") {
    for (const Text& text : places(scarred(), room).texts) {
        CAPTURE(joined(text));
        CHECK(contrast(text.type.color, theme::panel) >= 4.5);
        CHECK(contrast(text.type.color, theme::paper) >= 4.5);
        if (extent(text).overlaps(places(scarred(), room).water))
            CHECK(contrast(text.type.color, theme::leakSoft) >= 4.5);
    }
}

TEST_CASE("a vessel is told in words", "[drawing]") {
    CHECK(words(scarred()) ==
          "Bramble's liver, two years of scarring: a jar over a trough. Work is 27 % of healthy, "
          "leak 5.8 times healthy. The wall above the break is gone. The trough stands at 62 % "
          "of its height, above the healthy mark at 38 %. It reads ALT 96 U/L. 1.6 \xC3\x97 the "
          "upper limit. The spout is open to 30 %.");
}

TEST_CASE("a vessel that cannot be drawn is refused, one beyond its range is not", "[drawing]") {
    VesselView view = scarred();
    view.leak = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_WITH(places(view, room), "vessel: leak is not a finite number");
    view = scarred();
    view.drops.push_back({0, std::numeric_limits<double>::infinity(), 1});
    CHECK_THROWS_WITH(vessel(view, room), "vessel: y of a drop is not a finite number");
    view = scarred();
    view.work = 3;
    view.level = 2;
    view.leak = 1e6;
    const VesselPlaces at = places(view, room);
    CHECK(room.contains(at.jar));
    CHECK(at.water.y == Approx(at.trough.y));
}
