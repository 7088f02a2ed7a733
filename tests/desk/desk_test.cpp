// The desk as a whole: focus, keys, pointer, letters, and what is kept.
#include "at_desk.h"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <filesystem>
#include <set>

using namespace cistern;
using namespace cistern::desk;

namespace {

const std::string shelfCase = "case.no_smoke_from_the_chimney";

std::filesystem::path freshFolder() {
    const auto folder = std::filesystem::temp_directory_path() /
                        ("cistern-desk-test-" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    return folder;
}

void openCase(Desk& desk) {
    for (const Shelved& one : desk.session().shelf())
        if (one.name == "no_smoke_from_the_chimney") desk.session().open(one.path);
    desk.handle(Keystroke{Key::escape});
}

} // namespace

TEST_CASE("Tab visits every control of a page once, in order, and comes round", "[desk]") {
    AtDesk at(PageName::shelf);
    std::vector<std::string> order, visited;
    for (const Control& one : at.screen().controls) order.push_back(one.id);
    at.desk.setFocus(order.back());
    for (std::size_t i = 0; i < order.size(); ++i) {
        at.key(Key::tab);
        visited.push_back(at.desk.focus());
    }
    CHECK(visited == order);
    at.key(Key::tab, true);
    CHECK(at.desk.focus() == order[order.size() - 2]);
}

TEST_CASE("The control with the focus is always in sight", "[desk]") {
    for (const double scale : {1., 2.}) {
        AtDesk at(PageName::shelf, 1024, 700, scale);
        const std::size_t many = at.screen().controls.size();
        for (std::size_t i = 0; i < many; ++i) {
            at.key(Key::tab);
            if (at.desk.focus().starts_with("rail.")) continue;
            const Control* one = at.desk.find(at.desk.focus());
            REQUIRE(one);
            const Box& room = at.screen().room;
            INFO(one->id << " at " << one->area.y << " of " << room.y << " to " << room.bottom());
            CHECK(one->area.y >= room.y - 1);
            CHECK(one->area.y < room.bottom());
        }
    }
}

TEST_CASE("What has the focus has a ring of at least 3 px and 3:1 on the page", "[desk]") {
    AtDesk at(PageName::shelf);
    at.desk.setFocus("open");
    const Box area = at.desk.find("open")->area;
    const drawing::Pixels image = drawing::pixels(at.screen().picture);
    // A column of pixels down through the upper edge of the ring.
    int ringed = 0;
    for (int y = static_cast<int>(area.y) - 9; y < static_cast<int>(area.y); ++y) {
        const auto x = static_cast<std::size_t>(area.middle().x);
        const auto at4 =
            4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) + x);
        if (image.rgba[at4] < 0x60) ++ringed; // ink is far darker than the panel
    }
    CHECK(ringed >= 3);
}

TEST_CASE("Pages that wait for something are closed and say for what", "[desk]") {
    AtDesk at(PageName::shelf);
    at.press("rail.Report");
    CHECK(at.desk.session().page() == PageName::shelf);
    CHECK(at.words().find("Choose a case on the shelf first.") != std::string::npos);
    openCase(at.desk);
    at.press("rail.Cutaway");
    CHECK(at.desk.session().page() == PageName::bedside);
    CHECK(at.words().find("once you have committed") != std::string::npos);
}

TEST_CASE("Brackets turn the pages that are open", "[desk]") {
    AtDesk at(PageName::shelf);
    at.type("]");
    CHECK(at.desk.session().page() == PageName::counter);
    openCase(at.desk);
    at.type("]");
    CHECK(at.desk.session().page() == PageName::bench);
    at.type("[");
    CHECK(at.desk.session().page() == PageName::bedside);
}

TEST_CASE("Letters grow and shrink between 80 and 200 %", "[desk]") {
    AtDesk at(PageName::shelf);
    for (int i = 0; i < 20; ++i) at.type("+");
    CHECK(at.desk.session().settings().textScale == mostTextScale);
    for (int i = 0; i < 20; ++i) at.type("-");
    CHECK(at.desk.session().settings().textScale == leastTextScale);
}

TEST_CASE("A choice is taken back, and put on again by the same key", "[desk]") {
    AtDesk at(PageName::shelf);
    openCase(at.desk);
    const auto before = at.desk.session().lesson().chosen();
    std::string test;
    for (const Control& one : at.screen().controls)
        if (one.id.starts_with("test.1.")) test = one.id;
    REQUIRE(!test.empty());
    at.press(test);
    CHECK(at.desk.session().lesson().chosen() != before);
    at.type("z");
    CHECK(at.desk.session().lesson().chosen() == before);
}

TEST_CASE("A projector shows one card at a time, each once", "[desk]") {
    AtDesk at(PageName::shelf);
    at.type("v");
    std::set<std::string> seen;
    std::string last;
    for (int i = 0; i < 10; ++i) {
        last = at.words();
        seen.insert(last);
        at.type(">");
    }
    CHECK(seen.size() == 4); // the cards of the shelf
    at.type("<");
    CHECK(at.words() != last);
}

TEST_CASE("A press is let go elsewhere: nothing happens", "[desk]") {
    AtDesk at(PageName::shelf);
    const Box area = at.desk.find("counter")->area;
    at.desk.handle(Pointer{Pointer::What::pressed, area.middle()});
    at.desk.handle(Pointer{Pointer::What::let, {2, 2}});
    CHECK(at.desk.session().page() == PageName::shelf);
    at.desk.handle(Pointer{Pointer::What::pressed, area.middle()});
    at.desk.handle(Pointer{Pointer::What::let, area.middle()});
    CHECK(at.desk.session().page() == PageName::counter);
}

TEST_CASE("A line of text is written, corrected, left with Tab, or given up", "[desk]") {
    AtDesk at(PageName::shelf);
    at.desk.setFocus("seed");
    at.type("4");
    at.type("2");
    at.type("7");
    at.key(Key::back);
    at.key(Key::tab);
    REQUIRE(at.desk.find("seed"));
    CHECK(at.desk.find("seed")->text == "42");
    at.desk.setFocus("seed");
    at.type("9");
    at.key(Key::escape);
    CHECK(at.desk.find("seed")->text == "42");
    at.type("x");
    at.key(Key::enter);
    CHECK(at.words().find("is no number of an animal") != std::string::npos);
    CHECK(at.desk.find("seed")->text == "42");
}

TEST_CASE("Settings and an unfinished lesson are there again", "[desk]") {
    const auto folder = freshFolder();
    base::Disk disk;
    const Outside outside{&disk, {CISTERN_SOURCE}, folder.string(), folder.string()};
    std::vector<lesson::Action> done;
    {
        Desk desk(outside);
        Settings settings;
        settings.textScale = 1.5;
        settings.units = lab::Units::si;
        desk.session().set(settings);
        openCase(desk);
        desk.session().act(lesson::ChooseTests{0, {}}, lesson::Stage::plan);
        desk.session().undo();
        done = desk.session().lesson().actions();
        REQUIRE(done.size() == 3);
    } // nothing is done at the end: a kill would leave the same
    Desk again(outside);
    CHECK(again.session().settings().textScale == 1.5);
    CHECK(again.session().settings().units == lab::Units::si);
    openCase(again);
    CHECK(again.session().lesson().actions() == done);
    std::filesystem::remove_all(folder);
}

TEST_CASE("Spoiled settings are told, and plain ones used", "[desk]") {
    const auto folder = freshFolder();
    base::Disk disk;
    disk.write((folder / "settings.json").string(), "{\"text scale\": ");
    Desk desk({&disk, {CISTERN_SOURCE}, folder.string(), ""});
    CHECK(desk.session().settings() == Settings{});
    CHECK(words(desk.screen()).find("cannot be read as settings") != std::string::npos);
    std::filesystem::remove_all(folder);
}

TEST_CASE("A spoiled lesson is told, and the desk stands as it stood", "[desk]") {
    const auto folder = freshFolder();
    base::Disk disk;
    Desk desk({&disk, {CISTERN_SOURCE}, "", folder.string()});
    for (const Shelved& one : desk.session().shelf())
        if ("case." + one.name == shelfCase)
            disk.write(desk.session().keeping().path(one.name, one.seed), "no record");
    desk.setFocus(shelfCase);
    desk.handle(Keystroke{Key::enter});
    desk.setFocus("open");
    desk.handle(Keystroke{Key::enter});
    CHECK(desk.session().page() == PageName::shelf);
    CHECK(!desk.session().said().empty());
    REQUIRE(desk.setFocus("anew"));
    desk.handle(Keystroke{Key::enter});
    CHECK(desk.session().page() == PageName::bedside);
    std::filesystem::remove_all(folder);
}
