#include "at_desk.h"
#include "base/text.h"
#include "base/units.h"
#include "desk/pages/counter_jar.h"
#include "lesson/organ.h"

#include <catch2/catch.hpp>

#include <ctime>
#include <iostream>

namespace cistern::desk {

namespace {

struct AtCounter : AtDesk {
    explicit AtCounter(double width = 1280, double height = 800, double textScale = 1)
        : AtDesk(PageName::counter, width, height, textScale) {}
    bool shows(const std::string& some) { return words().find(some) != std::string::npos; }
    void settle() { desk.pass(1000); }
    void turn(const std::string& handle, Key way, int times) {
        desk.setFocus(handle);
        for (int i = 0; i < times; ++i) key(way);
    }
    void turnToEnd(const std::string& handle, Key way) {
        desk.setFocus(handle);
        for (int i = 0; i < 8; ++i) key(way, true);
    }
};

std::string all(const std::vector<std::string>& list) {
    std::string out;
    for (const std::string& one : list) out += one + "\n";
    return out;
}

} // namespace

TEST_CASE("the counter begins with a healthy dog's liver", "[desk]") {
    AtCounter at;
    CHECK(at.shows("The liver of a dog"));
    CHECK(at.shows("ALT 40 U/L"));
    CHECK(at.shows("healthy dogs: 18 to 100"));
    CHECK(at.says("leak") == "How much it leaks: as usual");
    CHECK(at.says("work") == "How much still works: all of it");
    CHECK(at.says("drain") == "How fast blood clears it: half in 2.5 days");
    CHECK(at.screen().dripping.size() == 1);
    CHECK(at.screen().dripping.front().falling == Approx(5));
    CHECK(at.screen().dripping.front().leaving == Approx(5));
}

TEST_CASE("nothing at the counter is clipped or covered at any size and scale", "[desk]") {
    struct Size {
        double width, height;
    };
    AtCounter at;
    for (const Size size : {Size{1024, 700}, Size{1280, 800}, Size{2560, 1600}, Size{640, 480}})
        for (const double scale : {.8, 1., 1.5, 2.})
            for (const bool two : {false, true}) {
                Settings settings = at.desk.session().settings();
                settings.textScale = scale;
                at.desk.session().set(settings);
                at.desk.handle(Resized{size.width, size.height});
                at.type(two ? "t" : "r");
                INFO(size.width << " x " << size.height << " at " << scale << (two ? ", two" : ""));
                CHECK(all(faults(at.screen())) == "");
                at.turnToEnd("leak", Key::right);
                at.turnToEnd("work", Key::right);
                at.turnToEnd("drain", Key::left);
                at.settle();
                CHECK(all(faults(at.screen())) == "");
                at.turnToEnd("work", Key::left);
                at.settle();
                CHECK(all(faults(at.screen())) == "");
            }
}

TEST_CASE("the keys 1, 2 and 3 go to the handles and arrows turn them", "[desk]") {
    AtCounter at;
    at.type("1");
    CHECK(at.desk.focus() == "leak");
    at.key(Key::right, true);
    CHECK(at.says("leak") == "How much it leaks: 2.6 times as usual");
    for (int i = 0; i < 40; ++i) at.key(Key::left);
    CHECK(at.says("leak") == "How much it leaks: 0.3 times as usual");
    at.type("2");
    CHECK(at.desk.focus() == "work");
    at.key(Key::left);
    CHECK(at.says("work") == "How much still works: 98\u00A0%");
    at.type("3");
    CHECK(at.desk.focus() == "drain");
    at.key(Key::right);
    CHECK(at.says("drain") == "How fast blood clears it: half in 2.3 days");
    at.type("r");
    CHECK(at.says("drain") == "How fast blood clears it: half in 2.5 days");
    CHECK(at.says("leak") == "How much it leaks: as usual");
}

TEST_CASE("a step over the healthy place stops there", "[desk]") {
    AtCounter at;
    at.turn("leak", Key::right, 1);
    at.desk.handle(Keystroke{Key::left, true});
    CHECK(at.says("leak") == "How much it leaks: as usual");
}

TEST_CASE("a handle can be pulled by its middle", "[desk]") {
    AtCounter at;
    const Box handle = at.desk.find("work")->area;
    at.desk.handle(Pointer{Pointer::What::pressed, handle.middle()});
    at.desk.handle(Pointer{Pointer::What::moved, {handle.middle().x - 100, handle.middle().y}});
    at.desk.handle(Pointer{Pointer::What::let, {handle.middle().x - 100, handle.middle().y}});
    CHECK(at.desk.find("work")->area.x == Approx(handle.x - 100).margin(3)); // whole percents
}

TEST_CASE("the number moves to where the handles send it, and the clock runs", "[desk]") {
    AtCounter at;
    CHECK(at.shows("Day 1, 00:00"));
    at.turn("leak", Key::right, 20);
    const std::string leak = at.says("leak");
    CHECK(at.shows("ALT 40 U/L"));
    CHECK(at.shows("does not show it yet"));
    at.desk.pass(10); // 60 h: a half-life
    CHECK(at.shows("Day 3, 12:00"));
    lesson::FreePlay same(
        *lesson::leakingOrgan(at.desk.session().knowledge(), body::Kind::dog, body::Tissue::liver));
    same.turn({std::stod(leak.substr(leak.find(": ") + 2)), 1, same.organ().halfLife});
    const auto shown = [&same] { return "ALT " + base::rounded(same.level(), 1) + " U/L"; };
    same.pass(60);
    CHECK(at.shows(shown()));
    at.press("jump");
    CHECK(at.shows("Day 4, 12:00"));
    at.press("pause");
    at.desk.pass(100);
    CHECK(at.shows("Day 4, 12:00"));
    at.press("pause");
    at.settle();
    same.settle();
    CHECK(at.shows(shown()));
    CHECK(at.shows("still works well"));
}

TEST_CASE("with motion stopped the number is where it ends up, and no clock runs", "[desk]") {
    AtCounter at;
    at.type("m");
    at.turn("leak", Key::right, 20);
    CHECK_FALSE(at.shows("ALT 40 U/L"));
    CHECK(at.shows("Nothing moves by itself"));
    CHECK_FALSE(at.desk.find("pause"));
    const unsigned version = at.desk.version();
    at.desk.pass(5);
    at.screen();
    CHECK(at.desk.version() == version);
}

TEST_CASE("time that changes nothing to be seen asks for no picture", "[desk]") {
    AtCounter at;
    at.screen();
    const unsigned before = at.desk.version();
    for (int i = 0; i < 50; ++i) { // 5 h: the clock tells every sixth
        at.desk.pass(1. / 60);
        at.screen();
    }
    CHECK(at.desk.version() == before);
    for (int i = 0; i < 600; ++i) {
        at.desk.pass(1. / 60);
        at.screen();
    }
    CHECK(at.desk.version() - before <= 11); // 65 h of a clock, and nothing else
    CHECK(at.desk.version() - before >= 9);
}

TEST_CASE("dog and cat clear one marker at their own pace", "[desk]") {
    AtCounter at;
    at.turn("leak", Key::right, 20);
    at.type("c");
    CHECK(at.shows("The liver of a cat"));
    CHECK(at.says("drain") == "How fast blood clears it: half in 3.5 hours");
    CHECK(at.says("leak") != "How much it leaks: as usual"); // the handles stay
    CHECK(at.shows("A dog: half in 2.5 days"));
    at.type("c");
    CHECK(at.shows("The liver of a dog"));
    at.press("species.cat");
    at.press("organ.pancreas");
    CHECK(at.shows("The pancreas of a cat"));
    CHECK(at.shows("lipase"));
    CHECK(at.shows("A dog is about as fast"));
}

TEST_CASE("units follow the settings", "[desk]") {
    AtCounter at;
    Settings si = at.desk.session().settings();
    si.units = lab::Units::si;
    at.desk.session().set(si);
    at.press("organ.heart");
    const auto& method = at.desk.session().knowledge().bench.method(body::Analyte::cTnI);
    CHECK(at.shows(base::shown(method.si.unit)));
}

TEST_CASE("one can be held and another set up beside it", "[desk]") {
    AtCounter at;
    at.type("h");
    CHECK(at.screen().dripping.size() == 2);
    CHECK(at.desk.find("jar.second")->on);
    at.turn("leak", Key::right, 20);
    at.settle();
    CHECK(at.shows("ALT 40 U/L"));
    CHECK(at.says("jar.first").find("press to turn this one") != std::string::npos);
    at.press("jar.first");
    CHECK(at.says("leak") == "How much it leaks: as usual");
    CHECK(at.desk.find("jar.first")->on);
    at.type("h");
    CHECK(at.screen().dripping.size() == 1);
    CHECK(at.says("leak") == "How much it leaks: as usual"); // the one that was turned stays
}

TEST_CASE("two very different organs give one number", "[desk]") {
    for (const char* organ : {"liver", "skeletal muscle", "heart", "pancreas"})
        for (const char* animal : {"dog", "cat"}) {
            AtCounter at;
            at.press(std::string("species.") + animal);
            at.press(std::string("organ.") + organ);
            at.press("two");
            const std::string first = at.says("jar.first"), second = at.says("jar.second");
            const auto number = [](const std::string& says) {
                return says.substr(0, says.find(": "));
            };
            CHECK(number(first) == number(second));
            CHECK(at.shows("The same number, yet"));
            CHECK(at.says("work") == "How much still works: 10\u00A0%");
            CHECK(at.screen().dripping[0].falling == Approx(at.screen().dripping[1].falling));
        }
}

TEST_CASE("a sentence stands ready for all that can be said at the counter", "[desk]") {
    AtCounter at;
    const Session& session = at.desk.session();
    const Telling telling{&session.assets().wording, &session.knowledge().bench,
                          lab::Units::conventional};
    const auto organ =
        *lesson::leakingOrgan(session.knowledge(), body::Kind::cat, body::Tissue::skeletalMuscle);
    const Played played{lesson::FreePlay(organ), organ};
    for (int i = 0; i < lesson::remarkCount; ++i) {
        const auto remark = static_cast<lesson::Remark>(i);
        const std::string place = remark == lesson::Remark::asInSpecies ? "drain." : "say.";
        const std::string text =
            sentence(telling, place + std::string(lesson::name(remark)), played);
        CHECK(text.find('{') == std::string::npos);
        CHECK(text.ends_with("."));
    }
    CHECK_THROWS_AS(sentence(telling, "say.nothing", played), std::out_of_range);
}

TEST_CASE("the trough rises evenly to the healthy most, then by a step for each doubling",
          "[desk]") {
    CHECK(depth(0, 100) == 0);
    CHECK(depth(50, 100) == Approx(depth(100, 100) / 2));
    const double step = depth(200, 100) - depth(100, 100);
    CHECK(depth(1600, 100) - depth(800, 100) == Approx(step));
    CHECK(depth(6400, 100) == Approx(1));
    CHECK(depth(1e9, 100) == 1);
}

TEST_CASE("timing of the counter", "[.timing]") {
    const auto timed = [](const std::string& what, const auto& deed) {
        constexpr int times = 100;
        const std::clock_t start = std::clock(); // of this program alone
        for (int i = 0; i < times; ++i) deed(i);
        std::cout << what << ": "
                  << 1000. * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / times
                  << " ms\n";
    };
    for (const bool two : {false, true}) {
        AtCounter at;
        if (two) at.type("t");
        const std::string jars = two ? "two jars, " : "one jar, ";
        timed(jars + "laid out anew", [&](int i) {
            at.turn("leak", i % 2 ? Key::left : Key::right, 1);
            at.screen();
        });
        timed(jars + "drawn", [&](int) { drawing::pixels(at.screen().picture); });
        const Screen& screen = at.screen();
        const Box box{0, 0, 700, 550};
        const Session& session = at.desk.session();
        const Telling telling{&session.assets().wording, &session.knowledge().bench,
                              lab::Units::conventional};
        const auto organ =
            *lesson::leakingOrgan(session.knowledge(), body::Kind::dog, body::Tissue::liver);
        const Played played{lesson::FreePlay(organ), organ};
        const drawing::VesselView view = vesselOf(telling, played, {});
        timed("places", [&](int) { drawing::places(view, box); });
        timed("vessel", [&](int) { drawing::vessel(view, box); });
        drawing::Picture alone = screen.picture;
        alone.marks = {{drawing::vessel(view, box)}};
        timed("a vessel painted", [&](int) { drawing::pixels(alone); });
        alone.marks.clear();
        timed("nothing painted", [&](int) { drawing::pixels(alone); });
        timed(jars + "a frame in which nothing is seen to move", [&](int) { at.desk.pass(1e-5); });
    }
}

} // namespace cistern::desk
