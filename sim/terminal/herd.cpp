#include "terminal/herd.h"

#include "report/csv.h"
#include "terminal/commands.h"
#include "terminal/input.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {
int look(World& world, const HerdOptions& options) {
    readWord("--format", options.format, {"text", "csv"});
    const lab::Units units = readUnits(options.units);
    const scenario::Assets assets = loadAssets(world);
    const lab::Bench& bench = assets.knowledge.bench;
    const Herd herd = herdOf(options, assets.knowledge);
    if (options.intervals)
        showIntervals(world, herd, assets.knowledge, options, units);
    else if (options.format == "text")
        showLimits(world, herd, assets.knowledge, units);
    else {
        world.out << report::herdHeader(bench, units, herd.analytes);
        eachMember(world, herd, assets.knowledge, [&](const report::Member& one) {
            world.out << report::herdLine(one, bench, units, herd.analytes);
        });
    }
    return done;
}

} // namespace

Job declareHerd(CLI::App& app) {
    const auto options = std::make_shared<HerdOptions>();
    const Option option = optionsOf(app);
    app.add_option("SPECIES", options->species, "dog or cat.")->required();
    option("--animals", options->animals, "How many; 1000 if left out.", "N");
    option("--insult", options->insult, "What happens to every one of them.", "NAME");
    option("--severity", options->severity, "How hard, with its unit: \"12 %\".", "S");
    option("--from", options->from, "Start of the insult; -24 h if left out.", "TIME");
    option("--to", options->to, "Its end; 0 h if left out. The look is at 0 h.", "TIME");
    option("--age", options->age, "One age for all; left out: grown, 2 to 8 y.", "TIME");
    option("--analytes", options->analytes, "Only these, such as ALT,CK; left out: all.", "A,B");
    app.add_flag("--measured", options->measured,
                 "Text shows the laboratory's results, unrounded, not the true levels.");
    app.add_flag("--intervals", options->intervals,
                 "Reference intervals as a laboratory would find them in these animals.");
    option("--method", options->method,
           "ranks, robust or parametric; left out: as advised for so many animals.", "NAME");
    option("--seed", options->seed, "Another herd, by number; 1 if left out.", "N");
    option("--units", options->units, "conventional (left out) or si.", "NAME");
    option("--format", options->format, "text (left out) or csv, a row an animal.", "NAME");
    app.footer(
        "For example: cistern herd cat --insult \"hepatocyte necrosis\" --severity \"10 %\". "
        "Text shows the median and the middle 95 % of every level beside the published interval of "
        "that age, and how far their limits lie apart in widths of it; with --measured day-to-day "
        "wobble and the analyzer's error are in them, as in the published ones. The csv holds true "
        "levels and results, as printed, of each animal; with --intervals the intervals.");
    return [options](World& world) { return look(world, *options); };
}

} // namespace cistern::terminal
