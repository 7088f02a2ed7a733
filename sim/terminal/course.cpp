#include "view/course.h"

#include "base/text.h"
#include "report/csv.h"
#include "report/json.h"
#include "report/table.h"
#include "terminal/commands.h"
#include "terminal/input.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

struct Wanted {
    std::string file, every, until, from, analytes, seed, units = "conventional", format = "csv",
                                                          out;
};

constexpr double mostRows = 200000; // about 60 MB of text
constexpr double smooth = 600;      // pieces of a curve that no eye tells from a curve
constexpr std::size_t fewLines = 5; // that a drawing shows unasked

/// Evenly from `from` to `until`; `until` itself always.
std::vector<double> hoursOf(double from, double until, double every) {
    if (!(every > 0)) throw UsageError("--every must be longer than no time.");
    if (!(from < until)) throw UsageError("--from must be earlier than --until.");
    const double rows = (until - from) / every + 1;
    if (!(rows <= mostRows))
        throw UsageError("That would be " + base::rounded(rows, 1) + " rows; at most " +
                         base::rounded(mostRows, 1) + " are printed. Widen --every.");
    std::vector<double> hours;
    constexpr double slack = 1e-9; // of a step: what rounding leaves over
    for (double i = 0; from + i * every < until - slack * every; ++i)
        hours.push_back(from + i * every);
    hours.push_back(until);
    return hours;
}

std::vector<double> hoursOf(const lesson::Case& one, const Wanted& wanted, bool drawn) {
    constexpr double day = 24; // [h]
    const double last = lesson::lastDraw(one);
    const double first = std::min(lesson::firstInsult(one).value_or(last), last) - day;
    const double from =
        wanted.from.empty() ? std::max(first, -one.who.age) : readTime("--from", wanted.from);
    const double until = wanted.until.empty() ? last : readTime("--until", wanted.until);
    needBorn(one, from, "--from");
    const double every = !wanted.every.empty() ? readTime("--every", wanted.every)
                         : drawn               ? (until - from) / smooth
                                               : 1;
    return hoursOf(from, until, every);
}

std::vector<body::Analyte> analytesOf(const std::string& text, const lab::Bench& bench) {
    std::vector<std::string> known;
    for (const lab::Method& method : bench.methods) known.emplace_back(body::name(method.analyte));
    std::vector<body::Analyte> found;
    if (text.empty())
        for (const lab::Method& method : bench.methods) found.push_back(method.analyte);
    else
        found = readAnalytes("--analytes", text, known);
    return found;
}

int course(World& world, const Wanted& wanted) {
    readWord("--format", wanted.format, {"csv", "json", "svg"});
    const lab::Units units = readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lesson::Knowledge& knowledge = assets.knowledge;
    const lesson::Case one = readCase(world, knowledge, wanted.file, wanted.seed);
    std::vector<body::Analyte> analytes = analytesOf(wanted.analytes, knowledge.bench);
    const bool drawn = wanted.format == "svg";
    body::Plan plan = lesson::plan(one, knowledge, hoursOf(one, wanted, drawn));
    plan.parts = report::partsForTable(analytes);
    const body::Course course = body::simulate(plan);
    std::string text;
    if (drawn) {
        if (wanted.analytes.empty())
            analytes =
                view::mostMoved(course, knowledge.bench, lesson::patient(one, knowledge), fewLines);
        text = drawing::svg(view::course(one, knowledge, course, units, analytes));
    } else {
        const report::Table table = report::courseTable(course, knowledge.bench, units, analytes);
        text = wanted.format == "json" ? report::tableJson(table) : report::tableCsv(table);
    }
    deliver(world, wanted.out, text);
    return done;
}

} // namespace

Job declareCourse(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    option("--every", wanted->every, "Time between rows; 1h if left out (a drawing: finer).",
           "TIME");
    option("--until", wanted->until, "Last row; left out: the last draw.", "TIME");
    option("--from", wanted->from, "First row; left out: one day before the first insult.", "TIME");
    option("--analytes", wanted->analytes,
           "Only these, such as ALT,CK; left out: all (a drawing: the five that move most).",
           "A,B");
    option("--seed", wanted->seed,
           "Another animal, by number; what the case lets vary is drawn within its ranges.", "N");
    option("--units", wanted->units, "conventional (left out) or si.", "NAME");
    option("--format", wanted->format, "csv (left out), json or svg, a drawing.", "NAME");
    option("--out", wanted->out, "Writes into this file, whole or not at all.", "FILE");
    app.footer("The truth over time, which no laboratory sees: per row the hour, the work of every "
               "tissue and its leak where that has a meaning, the level of every analyte, "
               "filtration and water. Leak is release "
               "per gram of living tissue over the animal's own healthy release.");
    return [wanted](World& world) { return course(world, *wanted); };
}

} // namespace cistern::terminal
