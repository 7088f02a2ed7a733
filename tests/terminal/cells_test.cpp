// `cells`, as a process.
#include "base/file.h"
#include "drawing/painter.h"
#include "lab/film/cell.h"
#include "program.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace cistern;
using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

namespace {

/// A text without its line breaks and the blanks that set it in.
std::string flowing(const std::string& text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

} // namespace

TEST_CASE("cells tells every class and every mark of an animal", "[terminal]") {
    for (const body::Kind animal : {body::Kind::dog, body::Kind::cat}) {
        const std::string name(body::name(animal));
        INFO(name);
        const Outcome outcome = program({"cells", name});
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        CHECK(tooWide(outcome.out) == "");
        CHECK_THAT(outcome.out, StartsWith("Cells of a " + name + "'s blood film\n"));
        const std::string text = flowing(outcome.out);
        for (const lab::FilmCell cell : lab::filmCells())
            CHECK_THAT(text, Contains(std::string(lab::telling(cell, animal))));
        for (const std::uint16_t mark : lab::cellMarks)
            CHECK_THAT(text, Contains(std::string(lab::markTelling(mark))));
        CHECK_THAT(outcome.out, Contains("Not for diagnosing or treating"));
    }
}

TEST_CASE("cells tells both animals unless one is asked for", "[terminal]") {
    const std::string both = program({"cells"}).out;
    CHECK(both == program({"cells", "both"}).out);
    for (const char* part : {"a dog's blood film", "a cat's blood film", "rods"})
        CHECK_THAT(both, Contains(part));
    CHECK_THAT(program({"cells", "dog"}).out, !Contains("a cat's blood film"));
}

TEST_CASE("cells draws its sheet whole or not at all", "[terminal]") {
    const Folder folder;
    const std::string picture = folder.path("cells.png"), drawing = folder.path("cells.svg");
    const Outcome outcome = program({"cells", "cat", "--out", picture});
    CHECK(outcome.code == 0);
    CHECK(outcome.out == "");
    CHECK_THAT(outcome.err, Contains("is written"));
    constexpr std::size_t most = 64u << 20;
    const drawing::Pixels pixels = drawing::readPng(base::Disk().read(picture, most));
    constexpr int poster = 2000; // [px], to be read on a wall at A3: 120 a cm and more
    CHECK(pixels.width > poster);
    CHECK(program({"cells", "dog", "--out", drawing}).code == 0);
    const std::string text = base::Disk().read(drawing, most);
    CHECK_THAT(text, StartsWith("<?xml") && Contains("Cells of blood films: dog"));
    for (const char* name : {"segmented neutrophil", "spherocytes", "Heinz bodies", "agglutination",
                             "stain precipitate", "Dog, each frame"})
        CHECK_THAT(text, Contains(name));
    refused(program({"cells", "--out", folder.path("cells.gif")}), "ends in .svg or .png");
    CHECK(folder.names().size() == 2);
}

TEST_CASE("cells refuses an animal or word it does not know", "[terminal]") {
    refused(program({"cells", "horse"}), "allowed: dog, cat or both");
    refused(program({"cells", "cst"}), "ANIMAL");
    refused(program({"cells", "dog", "cat"}), "one too many");
    refused(program({"cells", ""}), "ANIMAL is empty");
    refused(program({"cells", "--animal", "dog"}), "--animal");
}
