#include "report/csv.h"
#include "report/fhir.h"
#include "report/json.h"
#include "report/text.h"
#include "report/trace.h"
#include "terminal/commands.h"
#include "terminal/input.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <limits>
#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

struct Wanted {
    std::string file, seed, trace, units = "conventional", format = "text";
    std::vector<std::string> at;
};

/// The draws to be reported, by number. A time at which the case draws is that draw; any other
/// takes the tests of the draw before it (or of the first) and gets the next free number, so that
/// it changes none of the case's own results.
std::vector<std::size_t> drawsAt(lesson::Case& one, const std::vector<std::string>& times) {
    std::vector<std::size_t> wanted;
    const std::size_t own = one.draws.size();
    if (times.empty())
        for (std::size_t d = 0; d < own; ++d) wanted.push_back(d);
    std::vector<double> hours;
    for (const std::string& time : times) hours.push_back(readTime("--at", time));
    std::sort(hours.begin(), hours.end());
    for (const double hour : hours) {
        needBorn(one, hour, "--at");
        const auto at = std::find_if(one.draws.begin(), one.draws.end(),
                                     [&](const lesson::Draw& draw) { return draw.at == hour; });
        if (at != one.draws.end()) {
            wanted.push_back(static_cast<std::size_t>(at - one.draws.begin()));
            continue;
        }
        if (own == 0) throw UsageError(one.name + " has no draw whose tests could be run.");
        std::size_t like = 0;
        for (std::size_t d = 0; d < own; ++d)
            if (one.draws[d].at <= hour) like = d;
        one.draws.push_back(one.draws[like]);
        one.draws.back().at = hour;
        wanted.push_back(one.draws.size() - 1);
    }
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end()); // a time given twice
    return wanted;
}

/// What the photometer saw of one result, instead of the report.
void showTrace(World& world, const Wanted& wanted, const std::vector<lab::Report>& reports,
               const lab::Bench& bench) {
    std::vector<std::string> known;
    for (const lab::Method& method : bench.methods) known.emplace_back(name(method.analyte));
    const body::Analyte analyte = readAnalytes("--trace", wanted.trace, known).front();
    if (wanted.format == "csv") {
        world.out << report::tracesCsv(reports, analyte);
        return;
    }
    for (std::size_t i = 0; i < reports.size(); ++i)
        world.out << (i ? "\n" : "") << report::traceChart(reports[i], analyte, bench);
}

int run(World& world, const Wanted& wanted) {
    if (!wanted.trace.empty() && wanted.format != "text" && wanted.format != "csv")
        throw UsageError("--trace is shown as text or csv.");
    if (wanted.trace.find(',') != std::string::npos)
        throw UsageError("--trace shows one analyte at a time.");
    readWord("--format", wanted.format, {"text", "csv", "json", "fhir"});
    const lab::Units units = readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lesson::Knowledge& knowledge = assets.knowledge;
    lesson::Case one = readCase(world, knowledge, wanted.file, wanted.seed);
    const std::vector<std::size_t> draws = drawsAt(one, wanted.at);
    body::Parts parts = 0;
    for (const std::size_t d : draws)
        parts |= lesson::partsFor(one.draws[d].tests, knowledge.bench, one.who.kind);
    const std::vector<body::Snapshot> truth = lesson::atDraws(one, knowledge, parts);
    const body::Individual animal = lesson::patient(one, knowledge);
    std::vector<lab::Report> reports;
    for (const std::size_t d : draws)
        reports.push_back(lesson::report(one, knowledge, animal, truth[d], d, one.draws[d].tests));

    const report::Patient patient{one.patient, one.who};
    if (!wanted.trace.empty())
        showTrace(world, wanted, reports, knowledge.bench);
    else if (wanted.format == "csv")
        world.out << report::resultsCsv(reports, knowledge.bench, units);
    else if (wanted.format == "json")
        world.out << report::resultsJson(patient, reports, knowledge.bench, units);
    else if (wanted.format == "fhir")
        world.out << report::resultsFhir(patient, reports, knowledge.bench, units);
    else
        world.out << report::laboratoryReport(patient, reports, knowledge.bench,
                                              knowledge.species(one.who.kind).within, units);
    return done;
}

} // namespace

Job declareRun(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    app.add_option("--at", wanted->at,
                   "Draws at these times instead of the case's own, with the tests of the draw "
                   "before; may be given more than once.")
        ->type_name("TIME");
    app.add_option("--seed", wanted->seed,
                   "Another animal, by number; what the case lets vary is drawn within its ranges.")
        ->type_name("N");
    app.add_option("--units", wanted->units, "conventional (left out) or si.")->type_name("NAME");
    app.add_option("--format", wanted->format,
                   "text (left out), csv, json or fhir (a FHIR R4 Bundle).")
        ->type_name("NAME");
    app.add_option("--trace", wanted->trace,
                   "Instead of the report: what the photometer saw of this result over time.")
        ->type_name("ANALYTE");
    app.footer("The reports that the laboratory prints for the draws of the case. A report tells "
               "levels; it never tells a diagnosis. One seed gives one animal and one report, on "
               "every machine.");
    return [wanted](World& world) { return run(world, *wanted); };
}

} // namespace cistern::terminal
