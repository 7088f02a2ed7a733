// Every page at every size of window and letters: nothing is cut off, nothing lies over another.
#include "at_film.h"

#include <catch2/catch.hpp>

#include <chrono>

using namespace cistern;
using namespace cistern::desk;

namespace {

struct Size {
    double width, height;
};
constexpr std::array sizes{Size{1024, 700}, Size{1280, 800}, Size{2560, 1600}, Size{3840, 2160}};
constexpr std::array scales{.8, 1., 1.5, 2.};

void open(Desk& desk, const std::string& name) {
    for (const Shelved& one : desk.session().shelf())
        if (one.name == name) desk.session().open(one.path, std::nullopt, true);
}

/// Answers that any lesson takes, and the commitment.
void commit(Desk& desk) {
    const lesson::Questions ask = desk.session().lesson().questions();
    using lesson::Stage;
    for (const body::Tissue organ : ask.leaks)
        desk.session().act(lesson::SetLeak{organ, {2, 1, 4}}, Stage::reading);
    for (const body::Tissue organ : ask.organs)
        desk.session().act(lesson::SetWork{organ, {80, 50, 100}}, Stage::reading);
    if (!ask.explanations.empty())
        desk.session().act(lesson::SetPoints{{{ask.explanations.front(), 100.}}}, Stage::reading);
    if (!ask.next.empty()) desk.session().act(lesson::SetNext{ask.next.front()}, Stage::reading);
    REQUIRE(desk.session().commit());
}

void lookAt(Desk& desk, PageName page) {
    desk.session().go(page);
    REQUIRE(desk.session().page() == page);
    for (const Size& size : sizes)
        for (const double scale : scales) {
            Settings settings = desk.session().settings();
            settings.textScale = scale;
            desk.session().set(settings);
            desk.handle(Resized{size.width, size.height});
            const std::vector<std::string> wrong = faults(desk.screen());
            INFO(name(page) << " at " << size.width << " x " << size.height << ", letters "
                            << 100 * scale << " %");
            for (const std::string& one : wrong) UNSCOPED_INFO(one);
            CHECK(wrong.empty());
        }
}

} // namespace

TEST_CASE("Every page holds at every size of window and letters", "[desk]") {
    AtDesk at(PageName::shelf);
    Desk& desk = at.desk;
    for (const PageName page : {PageName::shelf, PageName::counter, PageName::classroom})
        lookAt(desk, page);
    // Two draws of blood, one chemistry and one with counts, an animal that is not grown.
    for (const char* name : {"no_smoke_from_the_chimney", "three_tubes_in_a_week", "all_legs",
                             "nothing_in_the_tray"}) {
        INFO(name);
        open(desk, name);
        for (const PageName page : {PageName::bedside, PageName::bench, PageName::report,
                                    PageName::film, PageName::reading})
            lookAt(desk, page);
        commit(desk);
        lookAt(desk, PageName::cutaway);
        lookAt(desk, PageName::reading);
    }
}

TEST_CASE("The page Film holds at every size, whatever has been done there", "[desk]") {
    // A dog with left shift and polychromasia, and a cat.
    for (const char* name : {"yellow_and_pale", "all_legs"}) {
        Film at(name);
        const auto look = [&](const char* state) {
            INFO(name << ", " << state);
            lookAt(at.desk, PageName::film);
            at.desk.handle(Resized{1280, 800});
        };
        at.toMonolayer();
        at.countTruly(7);
        at.press("keys");
        look("a tally begun, its keys shown");
        at.press("keys");
        for (int field = 0; field < 10; ++field) at.type("a");
        for (const char* grade : {"grade.0", "grade.4"}) {
            at.press(grade);
            look("platelets and polychromasia judged");
        }
        at.count(30, [](const drawing::film::Cell&) { return lab::FilmCell::monocyte; });
        at.press("mark");
        at.type("n");
        look("a tally marked, with all that was confused");
        at.press("again");
        at.press("joined");
        at.countTruly(40);
        at.press("mark");
        look("a second tally beside the first");
        at.press("words");
        look("the film in words");
        at.press("drill");
        look("the drill asks");
        for (int cell = 0; cell < 12; ++cell) {
            at.type("1");
            if (cell < 4 || cell == 11) look("the drill has answered");
            at.type("n");
        }
    }
}

TEST_CASE("Whatever is on a page says what it is", "[desk]") {
    AtDesk at(PageName::shelf);
    open(at.desk, "three_tubes_in_a_week");
    for (int i = 0; i < pageCount; ++i) {
        const auto page = static_cast<PageName>(i);
        if (page == PageName::cutaway) commit(at.desk);
        at.desk.session().go(page);
        at.desk.handle(Keystroke{Key::escape});
        for (const Control& one : at.screen().controls) {
            INFO(name(page) << ": " << one.id);
            CHECK(!one.says.empty());
            CHECK(one.area.width > 0);
            CHECK(one.area.height > 0);
            // A button may have nothing to do now; all else can be worked, by keys as well.
            CHECK((one.kind == Control::Kind::button || one.press || one.step || one.write));
        }
        CHECK(at.words().find("Invented animal, for teaching.") != std::string::npos);
    }
}
