#include "lab/film/cell.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <string>

using namespace cistern;
using body::Kind;
using lab::FilmCell;

namespace {

bool mentions(FilmCell cell, Kind kind, std::string_view word) {
    return lab::telling(cell, kind).find(word) != std::string_view::npos;
}

int sentencesOf(std::string_view text) {
    return static_cast<int>(std::count(text.begin(), text.end(), '.'));
}

} // namespace

TEST_CASE("Every cell of a film has a name of its own that is found again", "[lab]") {
    std::set<std::string_view> names;
    for (const FilmCell cell : lab::filmCells()) {
        CHECK(lab::filmCellNamed(lab::name(cell)) == cell);
        names.insert(lab::name(cell));
    }
    CHECK(names.size() == lab::filmCellCount);
    CHECK_FALSE(lab::filmCellNamed("blast"));
    for (const std::uint16_t mark : lab::cellMarks) names.insert(lab::markName(mark));
    CHECK(names.size() == lab::filmCellCount + lab::cellMarks.size());
    CHECK_THROWS_AS(lab::markName(lab::mark::toxic | lab::mark::doehle), std::invalid_argument);
}

TEST_CASE("What decides a cell is said in a few plain sentences for either species", "[lab]") {
    for (const Kind kind : {Kind::dog, Kind::cat})
        for (const FilmCell cell : lab::filmCells()) {
            const std::string_view text = lab::telling(cell, kind);
            INFO(lab::name(cell) << ": " << text);
            CHECK(text.size() > 60);
            CHECK(text.size() < 330); // three lines beside a picture
            CHECK(text.ends_with("."));
            CHECK(text.find("  ") == text.npos);
            for (const char* british : {"grey", "colour", "artefact", "haem", "centre"})
                CHECK(text.find(british) == text.npos);
            CHECK(text.find("..") == text.npos);
            CHECK(sentencesOf(text) <= 5); // decimal points are counted too
        }
    for (const std::uint16_t mark : lab::cellMarks) CHECK(lab::markTelling(mark).ends_with("."));
}

TEST_CASE("What decides a cell names size, and what parts the species", "[lab]") {
    // Sizes on a dried film from memory of Harvey, Reagan and Schalm.
    CHECK(mentions(FilmCell::segmented, Kind::dog, "12 to 14 um"));
    CHECK(mentions(FilmCell::monocyte, Kind::cat, "15 to 20 um"));
    CHECK(mentions(FilmCell::polychromatophil, Kind::dog, "7.5 to 9 um"));
    CHECK(mentions(FilmCell::polychromatophil, Kind::cat, "6.5 to 7.5 um"));
    CHECK(mentions(FilmCell::eosinophil, Kind::dog, "round"));
    CHECK(mentions(FilmCell::eosinophil, Kind::cat, "rods"));
    CHECK(mentions(FilmCell::basophil, Kind::dog, "dark violet"));
    CHECK(mentions(FilmCell::basophil, Kind::cat, "lavender"));
    CHECK(mentions(FilmCell::spherocyte, Kind::cat, "not judged in cats"));
    CHECK(mentions(FilmCell::nucleatedRed, Kind::dog, "lymphocyte"));
    CHECK(mentions(FilmCell::lymphocyte, Kind::cat, "nucleated red cell"));
    CHECK(mentions(FilmCell::band, Kind::dog, "monocyte"));
}

TEST_CASE("No one is asked for spherocytes in cats", "[lab]") {
    const auto dog = lab::askedOf(Kind::dog), cat = lab::askedOf(Kind::cat);
    CHECK(dog.size() == lab::filmCellCount);
    CHECK(cat.size() == lab::filmCellCount - 1);
    CHECK(std::find(cat.begin(), cat.end(), FilmCell::spherocyte) == cat.end());
    CHECK(std::is_sorted(cat.begin(), cat.end()));
}
