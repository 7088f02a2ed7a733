// The tally on the page Film.
#include "at_film.h"
#include "base/text.h"
#include "report/words.h"

#include <catch2/catch.hpp>

#include <cctype>

using namespace cistern;
using namespace cistern::desk;
using lab::FilmCell;

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
