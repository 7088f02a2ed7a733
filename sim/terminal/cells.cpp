#include "drawing/film/portrait.h"
#include "drawing/painter.h"
#include "drawing/svg.h"
#include "report/words.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"

#include <CLI/CLI.hpp>

#include <memory>

namespace cistern::terminal {

namespace {

constexpr int beside = 24; // column where what decides begins

struct Wanted {
    std::string animal = "both", out;
};

std::vector<body::Kind> animalsOf(const std::string& wanted) {
    const std::string word = readWord("ANIMAL", wanted, {"dog", "cat", "both"});
    if (const auto kind = body::kindNamed(word)) return {*kind};
    return {body::Kind::dog, body::Kind::cat};
}

/// What only a cell can carry, apart from what a kind is told by.
void tellMarks(Page& page) {
    page.heading("What a cell may carry besides");
    for (const std::uint16_t mark : lab::cellMarks)
        page.hanging(report::capital(lab::markName(mark)), lab::markTelling(mark), beside);
}

void tell(Page& page, body::Kind animal) {
    page.heading("Cells of a " + std::string(body::name(animal)) + "'s blood film");
    for (const lab::FilmCell cell : lab::filmCells())
        page.hanging(report::capital(lab::name(cell)), lab::telling(cell, animal), beside);
}

int cells(World& world, const Wanted& wanted) {
    const bool pixels = wanted.out.ends_with(".png");
    if (!wanted.out.empty() && !wanted.out.ends_with(".svg") && !pixels)
        throw UsageError("--out is \"" + wanted.out + "\"; a picture's name ends in .svg or .png.");
    const std::vector<body::Kind> animals = animalsOf(wanted.animal);
    if (!wanted.out.empty()) {
        constexpr double side = 150, fine = 2; // of a frame; pixels a unit
        const drawing::Picture sheet = drawing::film::contactSheet(animals, side, fine);
        deliver(world, wanted.out, pixels ? drawing::png(sheet, fine) : drawing::svg(sheet));
        return done;
    }
    Page page(world.out, world.styled);
    for (const body::Kind animal : animals) tell(page, animal);
    tellMarks(page);
    page.blank();
    page.caution();
    return done;
}

} // namespace

Job declareCells(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    app.add_option("ANIMAL", wanted->animal, "dog, cat or both (left out).");
    option("--out", wanted->out, "Draws them side by side into .svg or .png, whole or not at all.",
           "FILE");
    app.footer("Every class of cell that a stained film may show, as the oil lens shows it. With "
               "--out a sheet for a wall; without it, each class in words: what decides, and what "
               "it must not be taken for.");
    return [wanted](World& world) { return cells(world, *wanted); };
}

} // namespace cistern::terminal
