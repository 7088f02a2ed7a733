#include "report/control.h"

#include "base/units.h"
#include "report/table.h"
#include "report/words.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"
#include "view/control.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

constexpr std::uint64_t mostRuns = 1000;

struct Wanted {
    std::string runs = "30", fault, by, from, test = "creatinine", seed = "1",
                units = "conventional", format = "text";
};

/// Faults that a control can show. None of them runs through the counter's aperture.
std::vector<std::string> faultNames() {
    std::vector<std::string> names;
    for (int i = 0; i < lab::machineFaultCount; ++i)
        if (const auto fault = static_cast<lab::MachineFault>(i);
            fault != lab::MachineFault::dirtyAperture)
            names.emplace_back(name(fault));
    return names;
}

/// A share in %, or for the temperature kelvins; within what scenario files allow.
double readSize(const std::string& text, lab::MachineFault kind) {
    const bool warm = kind == lab::MachineFault::wrongTemperature;
    const bool loss = kind != lab::MachineFault::drift && !warm;
    const double least = warm ? -15 : kind == lab::MachineFault::drift ? -0.95 : 0;
    const double most = warm ? 10 : loss ? 0.95 : 10;
    const std::string allowed = warm   ? "allowed: -15 K to 10 K"
                                : loss ? "allowed: 0 % to 95 %"
                                       : "allowed: -95 % to 1000 %";
    const auto quantity = base::readQuantity(text);
    if (!quantity || quantity->unit.empty())
        throw UsageError("--by: \"" + text + "\" is not a number with its unit; " + allowed + ".");
    const auto factor = base::conversion(quantity->unit, warm ? "K" : "1");
    const double size = quantity->value * factor.value_or(0);
    if (!factor || !(size >= least && size <= most))
        throw UsageError("--by: \"" + text + "\" is not a size of " + std::string(name(kind)) +
                         "; " + allowed + ".");
    return size;
}

body::Analyte readTest(const std::string& text, const lab::Bench& bench) {
    std::vector<std::string> known;
    for (const lab::Method& method : bench.methods)
        if (lab::controlled(bench, method.analyte)) known.emplace_back(name(method.analyte));
    const auto analyte = body::analyteNamed(text);
    if (analyte && bench.find(*analyte) && bench.method(*analyte).calculated)
        throw UsageError("--test: " + report::spoken(text) +
                         " is calculated from other results, so no " + "control is read for it.");
    return *body::analyteNamed(readWord("--test", text, known));
}

lab::ChartPlan planOf(const Wanted& wanted, const lab::Bench& bench) {
    lab::ChartPlan plan;
    plan.runs = readCount("--runs", wanted.runs, 2, mostRuns);
    plan.seed = readSeed(wanted.seed);
    plan.analyte = readTest(wanted.test, bench);
    if (wanted.fault.empty()) {
        if (!wanted.by.empty() || !wanted.from.empty())
            throw UsageError("--by and --from tell of a fault; name it with --fault.");
        return plan;
    }
    readWord("--fault", wanted.fault, faultNames());
    lab::Fault fault;
    for (int i = 0; i < lab::machineFaultCount; ++i)
        if (name(static_cast<lab::MachineFault>(i)) == wanted.fault)
            fault.kind = static_cast<lab::MachineFault>(i);
    if (wanted.by.empty()) throw UsageError("--fault needs its size: --by, such as --by 5%.");
    fault.by = readSize(wanted.by, fault.kind);
    plan.machine.faults.push_back(fault);
    plan.faultFrom = plan.runs / 2;
    if (!wanted.from.empty()) plan.faultFrom = readCount("--from", wanted.from, 1, plan.runs) - 1;
    return plan;
}

std::string subtitle(const lab::ChartPlan& plan, const lab::Method& method) {
    std::string text = report::counted(plan.runs, "run") + ", seed " + std::to_string(plan.seed) +
                       "; " + method.principle;
    if (!plan.machine.faults.empty()) {
        const lab::Fault& fault = plan.machine.faults.front();
        const bool warm = fault.kind == lab::MachineFault::wrongTemperature;
        text += "; " + std::string(name(fault.kind)) + " " +
                report::number(warm ? fault.by : 100 * fault.by) + (warm ? " K" : " %") +
                " from run " + std::to_string(plan.faultFrom + 1);
    }
    return text;
}

std::string drawn(const lab::Chart& chart, const lab::ChartPlan& plan, const lab::Bench& bench,
                  lab::Units units) {
    drawing::ControlChartView view = view::control(chart, bench, units);
    view.subtitle = subtitle(plan, bench.method(chart.analyte));
    return drawing::svg(view);
}

int control(World& world, const Wanted& wanted) {
    readWord("--format", wanted.format, {"text", "csv", "svg"});
    const lab::Units units = readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lab::Bench& bench = assets.knowledge.bench;
    const lab::ChartPlan plan = planOf(wanted, bench);
    const lab::Chart chart = lab::chart(bench, plan);
    if (wanted.format == "csv") {
        world.out << report::controlCsv(chart, bench, units);
        return done;
    }
    if (wanted.format == "svg") {
        world.out << drawn(chart, plan, bench, units);
        return done;
    }
    Page page(world.out, world.styled);
    page.heading(view::title(chart));
    page.paragraph(subtitle(plan, bench.method(chart.analyte)) + ".");
    page.blank();
    world.out << report::controlText(chart, bench, units);
    page.blank();
    page.caution();
    return done;
}

} // namespace

Job declareControl(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    option("--runs", wanted->runs, "Runs on the chart, 2 to 1000; 30 if left out.", "N");
    option("--fault", wanted->fault,
           "What goes wrong with the machine: drift, bad lot, lamp, wrong temperature or short "
           "sample; left out: nothing.",
           "NAME");
    option("--by", wanted->by, "How much of it: a share such as 5%, of the temperature 2K.",
           "SIZE");
    option("--from", wanted->from, "The run that it begins in; left out: half way.", "RUN");
    option("--test", wanted->test, "What is measured; creatinine if left out.", "ANALYTE");
    option("--seed", wanted->seed, "Another laboratory, by number; 1 if left out.", "N");
    option("--units", wanted->units, "conventional (left out) or si.", "NAME");
    option("--format", wanted->format, "text (left out), csv or svg, a drawing.", "NAME");
    app.footer("Two invented materials are read in each run as patients are, and the rules of a "
               "control chart are applied to them. A broken rule speaks for a kind of error; it "
               "never tells what is wrong. One seed gives one chart, on every machine.");
    return [wanted](World& world) { return control(world, *wanted); };
}

} // namespace cistern::terminal
