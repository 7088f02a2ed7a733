#include "drawing/svg.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "view/opened.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <utility>

namespace cistern::terminal {

namespace {

struct Wanted {
    std::string file, organ, seed, units = "conventional", out;
};

/// Of the organs that can be opened, the one that is wanted, or that lies furthest from health.
body::Tissue organOf(const lesson::Case& one, const lab::Bench& bench, const body::Snapshot& now,
                     const std::string& wanted) {
    const std::vector<body::Tissue> organs = view::openable(one, bench);
    if (organs.empty())
        throw UsageError("None of the organs that " + one.name +
                         " asks about leaks what the laboratory measures in blood.");
    if (wanted.empty()) return view::furthest(organs, now);
    std::vector<std::string> names;
    for (const body::Tissue organ : organs) names.emplace_back(body::name(organ));
    return *body::tissueNamed(readWord("--organ", wanted, names));
}

int vessel(World& world, const Wanted& wanted) {
    const bool pixels = wanted.out.ends_with(".png");
    if (!wanted.out.empty() && !wanted.out.ends_with(".svg") && !pixels)
        throw UsageError("--out is \"" + wanted.out + "\"; a picture's name ends in .svg or .png.");
    const lab::Units units = readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lesson::Case one = readCase(world, assets.knowledge, wanted.file, wanted.seed);
    body::Course course = view::story(one, assets.knowledge);
    const body::Tissue organ =
        organOf(one, assets.knowledge.bench, course.at(course.size() - 1), wanted.organ);
    const drawing::Picture picture = drawing::picture(view::opened(
        one, view::organStory(one, assets.knowledge, std::move(course), organ, units)));
    constexpr double fine = 2; // pixels a unit
    deliver(world, wanted.out, pixels ? drawing::png(picture, fine) : drawing::svg(picture));
    return done;
}

} // namespace

Job declareVessel(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    option("--organ", wanted->organ,
           "One that the case asks about; left out: the one furthest from health.", "NAME");
    option("--seed", wanted->seed,
           "Another animal, by number; what the case lets vary is drawn within its ranges.", "N");
    option("--units", wanted->units, "conventional (left out) or si.", "NAME");
    option("--out", wanted->out,
           "Writes .svg or .png, whole or not at all; SVG to the screen if "
           "left out.",
           "FILE");
    app.footer(
        "An organ as a jar that stands over a trough: the part of its wall that stands is its "
        "work, its pores are its leak, the water is the blood's level. Beside it the same in "
        "health, and the way through leak and work from the first insult to the last draw. "
        "It tells the answer of a case.");
    return [wanted](World& world) { return vessel(world, *wanted); };
}

} // namespace cistern::terminal
