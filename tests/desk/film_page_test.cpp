// The page Film: a slide under the lens, its tally, fields, and the drill.
#include "at_film.h"
#include "base/text.h"
#include "lesson/film_drill.h"
#include "lesson/film_fields.h"
#include "report/words.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using namespace cistern::desk;
using lab::FilmCell;

namespace {

constexpr double near = 1e-6; // [um]

} // namespace

TEST_CASE("By keys alone the film moves, the lens changes and the focus turns", "[desk]") {
    Film at(yellow);
    at.tabTo("lens");
    const Microscope first = at.lens();
    CHECK(first.power == 10);
    CHECK(first.width == 1200);
    at.key(Key::right);
    at.desk.pass(.05);
    const double onTheWay = at.lens().middle.x - first.middle.x;
    CHECK(onTheWay > 0);
    CHECK(onTheWay < first.width / 8); // it glides, it does not jump
    at.arrive();
    CHECK(at.lens().middle.x == Approx(first.middle.x + first.width / 8).margin(near));
    CHECK(at.lens().middle.y == first.middle.y);
    at.key(Key::up);
    at.arrive();
    CHECK(at.lens().middle.y == Approx(first.middle.y - first.width / 8).margin(near));
    at.key(Key::left, true); // ten steps
    at.arrive();
    CHECK(at.lens().middle.x == Approx(first.middle.x - 9 * first.width / 8).margin(near));

    at.tabTo("power.10");
    for (const auto& [power, width] : {std::pair{50, 240.}, std::pair{100, 120.}}) {
        at.key(Key::right);
        CHECK(at.lens().power == power);
        CHECK(at.lens().width == width);
    }
    const double focus = at.lens().focus;
    at.type("f");
    CHECK(at.desk.focus() == "focus");
    at.key(Key::up);
    CHECK(at.lens().focus == focus + .25);
    at.key(Key::left, true);
    CHECK(at.lens().focus == focus - 2.25);
    CHECK(at.at("focus").says.find(base::rounded(focus - 2.25, .01)) != std::string::npos);
    for (int i = 0; i < 40; ++i) at.key(Key::right);
    CHECK(at.lens().focus == 4); // as far as it goes [um]
}

TEST_CASE("A wheel over the film turns the focus, elsewhere it scrolls", "[desk]") {
    Film at(yellow);
    const double focus = at.lens().focus;
    at.desk.handle(Pointer{Pointer::What::moved, at.at("lens").area.middle()});
    at.desk.handle(Wheel{2});
    CHECK(at.lens().focus == focus + .5);
    CHECK(at.screen().scrolled == 0);
    at.desk.handle(Wheel{-3});
    CHECK(at.lens().focus == focus - .25);
}

TEST_CASE("A pointer pulls the film along under it", "[desk]") {
    Film at(yellow);
    const Microscope first = at.lens();
    const Point from = first.box.middle(), to{from.x + 60, from.y - 40};
    at.desk.handle(Pointer{Pointer::What::moved, from});
    at.desk.handle(Pointer{Pointer::What::pressed, from});
    at.desk.handle(Pointer{Pointer::What::moved, {from.x + 30, from.y - 20}});
    at.desk.handle(Pointer{Pointer::What::moved, to});
    at.desk.handle(Pointer{Pointer::What::let, to});
    at.arrive();
    CHECK(at.lens().onSlide(to).x == Approx(first.onSlide(from).x).margin(near));
    CHECK(at.lens().onSlide(to).y == Approx(first.onSlide(from).y).margin(near));
    CHECK(!at.chosen());
}

TEST_CASE("A white cell that is pressed under a strong lens is ringed", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.type("n");
    at.arrive();
    const Ring ring = at.chosen().value();
    const Point away{at.lens().middle.x + 30, at.lens().middle.y};
    at.tabTo("lens");
    at.key(Key::right);
    at.arrive();
    at.click(at.lens().inWindow(away)); // whatever lies there
    at.click(at.lens().inWindow(ring.middle));
    REQUIRE(at.chosen());
    CHECK(at.chosen()->middle.x == ring.middle.x);
}

TEST_CASE("N brings nucleated cells into the middle one after another", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    std::set<std::uint64_t> met;
    for (int i = 0; i < 5; ++i) {
        at.type("n");
        const drawing::film::Cell cell = at.ringed();
        CHECK(drawing::film::nucleated(cell.kind));
        CHECK(met.insert(cell.seed).second);
        at.arrive();
        CHECK(at.lens().middle.x == Approx(static_cast<double>(cell.x)).margin(near));
        CHECK(at.lens().middle.y == Approx(static_cast<double>(cell.y)).margin(near));
        CHECK(at.lens().power == 100);
    }
}

TEST_CASE("The film travels along the monolayer and stays within it", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.press("power.50");
    const lab::Slide slide = *at.lens().slide;
    const lab::Reach reach = lab::reach(slide, lab::FilmArea::monolayer);
    const Microscope first = at.lens();
    at.type("t");
    at.desk.pass(.5);
    CHECK(std::abs(at.lens().middle.x - first.middle.x) == Approx(first.width / 2));
    int rows = 0;
    double y = first.middle.y;
    bool inside = true;
    for (int i = 0; i < 1200; ++i) {
        at.desk.pass(.1);
        const Microscope now = at.lens();
        inside &= now.left() >= reach.from - near && now.left() + now.width <= reach.to + near;
        rows += now.middle.y != y;
        y = now.middle.y;
    }
    CHECK(inside);
    CHECK(rows >= 2);
    CHECK(at.lens().power == 50);
    at.type("t");
    const Point rests = at.lens().middle;
    at.arrive();
    CHECK(at.lens().middle.x == rests.x);
}

TEST_CASE("What a glide was bound for is forgotten once the film travels", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.type("n");
    at.type("t");
    at.desk.pass(5);
    at.type("t");
    const Point rests = at.lens().middle;
    at.arrive();
    CHECK(at.lens().middle.x == rests.x);
    CHECK(at.lens().middle.y == rests.y);
}

TEST_CASE("A press on the whole film brings the lens there", "[desk]") {
    Film at(yellow);
    const Box whole = at.at("whole").area;
    at.desk.setFocus("whole");
    const Box area = at.at("whole").area;
    at.click({area.x + .25 * area.width, area.y + .75 * area.height});
    CHECK(at.lens().middle.x == Approx(.25 * lab::filmLength));
    CHECK(at.lens().middle.y == Approx(.75 * lab::filmWidth));
    CHECK(whole.width > 0);
    at.key(Key::right);
    CHECK(at.lens().middle.x == Approx(.25 * lab::filmLength + 500));
}

TEST_CASE("Another tone of the stain is another slide of the same cells", "[desk]") {
    Film at(yellow);
    const Microscope first = at.lens();
    at.press("stain.blue");
    const Microscope blue = at.lens();
    CHECK(blue.number != first.number);
    CHECK(blue.slide->stain.blue > first.slide->stain.blue);
    CHECK(blue.slide->seed == first.slide->seed);
    CHECK(blue.middle.x == first.middle.x);
    at.press("stain.pink");
    CHECK(at.lens().number != blue.number);
    CHECK(at.lens().slide->stain.blue < first.slide->stain.blue);
    at.press("stain.as");
    CHECK(*at.lens().slide == *first.slide);
}

TEST_CASE("Platelets are estimated from ten fields under oil", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    CHECK(!at.at("platelets.add").press);
    at.press("power.100");
    const std::string more = "Count 10 fields before you trust it.";
    for (int field = 1; field <= 10; ++field) {
        at.desk.setFocus("platelets");
        at.type("4");
        at.key(Key::enter);
        CHECK(at.at("platelets").text == "4");
        at.desk.setFocus("lens");
        at.type("a");
        CHECK(at.at("platelets").text == "0");
        INFO(field);
        CHECK(at.shows(more) == (field < 10));
        CHECK(at.shows("The machine counted") == (field == 10));
    }
    at.desk.setFocus("platelets");
    at.type("many");
    at.key(Key::enter);
    CHECK(at.shows("\"many\" is no number of platelets; 0 to 500 is allowed."));
    at.press("platelets.anew");
    CHECK(!at.shows("The machine counted"));
}

TEST_CASE("A grade of polychromasia is judged by the slide", "[desk]") {
    Film at(yellow);
    std::set<std::string> told;
    int right = 0;
    for (int grade = 0; grade <= 4; ++grade) {
        at.press("grade." + std::to_string(grade));
        right += at.shows("so it is.");
        CHECK(at.shows("You said " + lesson::gradeWords(grade)));
    }
    CHECK(right == 1);
}

TEST_CASE("A projector shows the slide on its own card alone", "[desk]") {
    Film at(yellow);
    at.type("v");
    std::set<std::string> cards;
    int seen = 0;
    for (int card = 0; card < 6; ++card) {
        const bool lens = at.desk.find("lens") != nullptr;
        CHECK(at.desk.microscope().has_value() == lens);
        seen += lens && cards.insert(at.words()).second;
        at.type(">");
    }
    CHECK(seen == 1);
}

TEST_CASE("Without a blood count there is no film, and the drill is there", "[desk]") {
    Film at(yellow);
    for (const std::size_t draw : {0u, 1u})
        at.desk.session().act(lesson::ChooseTests{draw, {"chemistry"}}, lesson::Stage::plan);
    at.turn();
    CHECK(at.shows("No blood count was asked for, so no film was made."));
    CHECK(!at.desk.microscope());
    CHECK(!at.desk.find("lens"));
    at.desk.pass(1);
    at.type("d");
    CHECK(at.shows("What is the cell in the middle?"));
    CHECK(!at.desk.microscope());
}

TEST_CASE("The film of another draw is another slide with its own tally", "[desk]") {
    Film at(yellow);
    const Microscope first = at.lens();
    at.toMonolayer();
    at.countTruly(3);
    at.press("film.2");
    CHECK(at.lens().number != first.number);
    CHECK(!(*at.lens().slide == *first.slide));
    CHECK(at.counted() == 0);
    CHECK(!at.chosen());
    at.press("film.1");
    CHECK(*at.lens().slide == *first.slide);
}

TEST_CASE("Blood handled otherwise makes another slide, of which nothing is counted", "[desk]") {
    Film at(yellow);
    const lab::Slide first = *at.lens().slide;
    at.toMonolayer();
    at.countTruly(3);
    REQUIRE(at.desk.session().act(lesson::Handle{0, "film after", "9 h"}, lesson::Stage::plan));
    at.turn();
    CHECK(!(*at.lens().slide == first));
    CHECK(at.counted() == 0);
}

TEST_CASE("What was counted is there again, and only on the same slide", "[desk]") {
    const Folder folder("tally");
    base::Disk disk;
    const Outside outside{&disk, {CISTERN_SOURCE}, folder.path(), folder.path()};
    const auto open = [](Desk& desk) {
        for (const Shelved& one : desk.session().shelf())
            if (one.name == yellow) desk.session().open(one.path);
        desk.session().go(PageName::film);
        desk.handle(Keystroke{Key::escape});
    };
    {
        Desk desk(outside);
        open(desk);
        AtFilm at(desk);
        at.toMonolayer();
        at.countTruly(11);
        at.press("mark");
        at.press("again");
        at.countTruly(10);
    }
    {
        Desk desk(outside);
        open(desk);
        AtFilm at(desk);
        CHECK(at.counted() == 10);
        CHECK(!at.shows("truth"));
        at.press("mark");
        CHECK(at.shows("first (11)"));
        at.press("film.2");
        CHECK(at.counted() == 0);
        at.press("film.1");
        CHECK(at.counted() == 10);
        CHECK(at.shows("first (11)"));
        REQUIRE(desk.session().act(lesson::Handle{0, "film after", "9 h"}, lesson::Stage::plan));
        desk.session().go(PageName::film);
        desk.handle(Keystroke{Key::escape});
        CHECK(at.counted() == 0);
    }
}

TEST_CASE("The drill answers at once, goes on, and is kept", "[desk]") {
    const Folder folder("drill");
    base::Disk disk;
    const Outside outside{&disk, {CISTERN_SOURCE}, folder.path(), folder.path()};
    const auto open = [](Desk& desk) {
        openAnew(desk, yellow);
        desk.session().go(PageName::film);
        desk.handle(Typed{"d"});
    };
    std::string kept;
    {
        Desk desk(outside);
        open(desk);
        AtFilm at(desk);
        CHECK(desk.session().settings().drill.empty());
        for (int asked = 0; asked < 3; ++asked) {
            lesson::FilmDrill known =
                asked == 0 ? lesson::FilmDrill(1)
                           : lesson::FilmDrill::read(desk.session().settings().drill);
            const lesson::DrillQuestion question = known.next();
            CHECK(at.shows("a " + std::string(body::name(question.kind)) + "'s;"));
            const bool right = asked != 1;
            std::size_t answer = 0;
            while ((question.choices[answer] == question.cell) != right) ++answer;
            const lesson::DrillReply reply = known.answer(question.choices[answer]);
            CHECK(!at.shows(report::shownUnits(reply.explanation)));
            at.type(std::to_string(answer + 1));
            INFO(at.words());
            CHECK(at.shows(right ? "Right\n" : "Not so\n"));
            CHECK(at.shows(report::shownUnits(reply.explanation)));
            if (!right) CHECK(at.shows(report::shownUnits(reply.apart)));
            at.type("1"); // once answered, nothing is answered again
            CHECK(at.shows(std::to_string(asked + 1) + " answers were right."));
            at.type("n");
        }
        kept = desk.session().settings().drill;
        CHECK(!kept.empty());
    }
    Desk again(outside);
    CHECK(again.session().settings().drill == kept);
    open(again);
    CHECK(words(again.screen()).find("2 of 3 answers were right.") != std::string::npos);
}
