// The page Film: a slide under the lens, its tally, fields, and the drill.
#include "at_film.h"
#include "base/text.h"
#include "lesson/film_drill.h"
#include "lesson/film_fields.h"
#include "report/words.h"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <cctype>
#include <cmath>
#include <filesystem>

using namespace cistern;
using namespace cistern::desk;
using lab::FilmCell;

namespace {

const std::string yellow = "yellow_and_pale"; // a dog; two draws, each with a blood count

constexpr double near = 1e-6; // [um]

/// A folder of its own, gone at the end.
class Folder {
public:
    explicit Folder(const std::string& name)
        : path_(std::filesystem::temp_directory_path() /
                ("cistern-film-" + name + "-" + std::to_string(::getpid()))) {
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string path() const { return path_.string(); }

private:
    std::filesystem::path path_;
};

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

TEST_CASE("A key names the ringed cell, X takes it back, none is counted twice", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.type("1");
    CHECK(at.counted() == 0);
    CHECK(at.shows("Press a nucleated cell first"));
    at.type("n");
    const drawing::film::Cell first = at.ringed();
    at.type("1");
    CHECK(at.counted() == 1);
    CHECK(at.ringed().seed != first.seed); // on by itself
    at.type("4");
    CHECK(at.counted() == 2);
    CHECK(at.at("tally.lymphocyte").says == "Lymphocyte: 1 counted");
    at.type("x");
    CHECK(at.counted() == 1);
    CHECK(at.at("tally.lymphocyte").says == "Lymphocyte: 0 counted");

    at.press("itself");
    at.type("n1");
    CHECK(at.counted() == 2);
    at.type("1");
    CHECK(at.counted() == 2);
    CHECK(at.shows("This cell was counted already."));
    at.type("xxx");
    CHECK(at.counted() == 0);
}

TEST_CASE("The truth is not on the page before the tally is marked", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.type("n");
    for (int i = 0; i < 2; ++i) {
        const drawing::film::Cell cell = at.ringed();
        std::string all = at.words();
        for (const Control& one : at.screen().controls) all += one.says + "\n";
        CHECK(all.find("truth") == std::string::npos);
        CHECK(all.find("laboratory (") == std::string::npos);
        CHECK(all.find(report::shownUnits(std::string(lab::telling(cell.kind, cell.animal)))) ==
              std::string::npos);
        at.countTruly(12);
    }
    at.press("mark");
    CHECK(at.shows("truth"));
    CHECK(at.shows("laboratory ("));
    at.type("n");
    const drawing::film::Cell cell = at.ringed();
    CHECK(at.shows(report::shownUnits(std::string(lab::telling(cell.kind, cell.animal)))));
}

TEST_CASE("A tally is marked from ten cells on", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.countTruly(9);
    CHECK(!at.at("mark").press);
    at.countTruly(10);
    CHECK(at.at("mark").press);
}

TEST_CASE("What is marked stays as it was told", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.countTruly(10);
    at.press("mark");
    at.type("n1"); // what it is, is on the page now
    CHECK(at.counted() == 10);
    at.type("xxxxxxxxxxxx"); // down to nothing, of which there are no marks
    CHECK(at.counted() == 10);
    CHECK(at.shows("Marks of this tally"));
}

TEST_CASE("A hundred cells named truly are named without a fault", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.countTruly(100);
    REQUIRE(at.counted() == 100);
    CHECK(at.shows("100 cells are told; the tally can be marked."));
    at.type("n1");
    CHECK(at.counted() == 100);
    at.press("mark");
    INFO(at.words());
    CHECK(at.shows("naming 100, "));
    CHECK(at.shows(", place 100"));
    CHECK(!at.shows("Taken for another"));
    for (const char* column : {"yours (100)", "laboratory (", "machine", "truth"})
        CHECK(at.shows(column));

    SECTION("a second tally stands beside the first") {
        at.press("again");
        CHECK(at.counted() == 0);
        CHECK(!at.shows("truth"));
        CHECK(!at.chosen());
        at.countTruly(10);
        at.press("mark");
        CHECK(at.shows("second (10)"));
        CHECK(at.shows("first (100)"));
        CHECK(!at.shows("yours ("));
    }
}

TEST_CASE("Bands taken for segmented neutrophils stand among what was confused", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    int bands = 0;
    at.count(60, [&](const drawing::film::Cell& cell) {
        if (cell.kind != FilmCell::band) return cell.kind;
        bands += !cell.has(lab::mark::doubtful); // a doubtful one may be called either
        return FilmCell::segmented;
    });
    REQUIRE(bands > 0);
    at.press("mark");
    INFO(at.words());
    CHECK(at.shows("Taken for another"));
    CHECK(at.shows("segmented neutrophil\nband neutrophil\n" + std::to_string(bands) + "\n"));
    CHECK(!at.shows("naming 100, "));
}

TEST_CASE("A tally goes on to two hundred", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.countTruly(100);
    at.press("to200");
    CHECK(at.shows("100 of 200 white cells"));
    CHECK(!at.desk.find("to200"));
    at.type("n");
    at.countTruly(103);
    CHECK(at.counted() == 103);
}

TEST_CASE("Bands are counted with younger cells where one wants it", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    CHECK(at.desk.find("tally.metamyelocyte"));
    at.press("joined");
    CHECK(!at.desk.find("tally.metamyelocyte"));
    at.type("n222222222233333"); // 3 names nothing now
    CHECK(at.counted() == 10);
    at.press("mark");
    CHECK(at.shows("bands and younger"));
    CHECK(!at.shows("metamyelocytes"));
}

TEST_CASE("Two tallies that join bands otherwise stand in the same classes", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    at.type("n2222233333");
    at.press("mark");
    at.press("again");
    at.press("joined");
    at.type("n1111111111");
    at.press("mark");
    // All ten of the first belong to bands and younger.
    const std::string all = at.words();
    const std::size_t row = all.find("bands and younger\n");
    REQUIRE(row != std::string::npos);
    CHECK(all.substr(row, 40).find("\n0 %\n100 %\n") != std::string::npos);
}

TEST_CASE("Other keys of the tally are kept and used; a bad line changes nothing", "[desk]") {
    const Folder folder("keys");
    base::Disk disk;
    const Outside outside{&disk, {CISTERN_SOURCE}, folder.path(), folder.path()};
    const auto write = [](AtFilm& at, const std::string& text) {
        if (!at.desk.find("keys.text")) at.press("keys");
        at.desk.setFocus("keys.text");
        at.key(Key::enter);
        for (int i = 0; i < 200; ++i) at.key(Key::back);
        at.desk.handle(Typed{text});
        at.key(Key::enter);
    };
    {
        Desk desk(outside);
        openAnew(desk, yellow);
        desk.session().go(PageName::film);
        AtFilm at(desk);
        at.toMonolayer();
        at.press("keys");
        const std::string before = at.at("keys.text").text;
        const lesson::TallyKeys plain = desk.session().settings().keys;
        write(at, "1123456789");
        CHECK(at.at("keys.text").text == before);
        CHECK(desk.session().settings().keys == plain);
        const std::string said = desk.session().said();
        INFO(said);
        CHECK(said.starts_with("Keys of the tally: "));
        CHECK(said.ends_with("."));
        CHECK(std::count(said.begin(), said.end(), '.') == 1);

        write(at, "12345");
        CHECK(at.at("keys.text").text == before);
        std::string other = before;
        other[0] = 'Q'; // a capital is the same key
        write(at, other);
        CHECK(desk.session().said().empty());
        CHECK(desk.session().settings().keys.of(FilmCell::segmented) == 'q');
        at.press("itself");
        at.type("n1");
        CHECK(at.counted() == 0);
        at.type("q");
        CHECK(at.counted() == 1);
        CHECK(at.at("tally.segmented neutrophil").says == "Segmented neutrophil: 1 counted");
    }
    Desk again(outside);
    CHECK(again.session().settings().keys.of(FilmCell::segmented) == 'q');
}

TEST_CASE("No key of the page is taken for a cell", "[desk]") {
    Film at(yellow);
    at.toMonolayer();
    std::string taken = "MVZ"; // of every page
    for (const Control& one : at.screen().controls)
        if (!one.id.starts_with("tally.")) taken += one.key;
    CHECK(taken.find('N') != std::string::npos);
    at.press("keys");
    const std::string text = at.at("keys.text").text;
    for (char key : taken)
        for (const bool small : {false, true}) {
            if (small) key = static_cast<char>(std::tolower(key));
            at.desk.setFocus("keys.text");
            at.key(Key::enter);
            for (int i = 0; i < 20; ++i) at.key(Key::back);
            std::string keys = text;
            keys[0] = key;
            at.desk.handle(Typed{keys});
            at.key(Key::enter);
            INFO(key);
            CHECK(at.shows("is a key of the page already."));
            CHECK(at.desk.session().settings().keys == lesson::TallyKeys{});
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
