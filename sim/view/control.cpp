#include "view/control.h"

#include "base/units.h"
#include "lab/control/state.h"
#include "lab/draw.h"
#include "report/control.h"
#include "report/words.h"

namespace cistern::view {

namespace {

drawing::ControlState stateOf(lab::Rules broken) {
    return broken.reject()  ? drawing::ControlState::rejected
           : broken.empty() ? drawing::ControlState::inControl
                            : drawing::ControlState::warning;
}

} // namespace

lab::Chart chartAt(const lesson::Case& one, const lesson::Knowledge& knowledge, std::size_t draw,
                   body::Analyte analyte) {
    const lab::Bench& bench = knowledge.bench;
    const double factor = lab::runFactorOf(bench.method(analyte), one.who.seed, draw);
    return lab::chart(bench,
                      lab::chartPlan(bench, analyte, one.machine, one.who.seed, draw, factor));
}

std::string title(const lab::Chart& chart) {
    return "Control chart of " + report::spoken(name(chart.analyte));
}

drawing::ControlChartView control(const lab::Chart& chart, const lab::Bench& bench,
                                  lab::Units units) {
    const lab::Method& method = bench.method(chart.analyte);
    const lab::Writing& writing = method.writing(units);
    const std::string unit = writing.unit == "1" ? "" : " " + base::shown(writing.unit);
    drawing::ControlChartView view;
    view.title = title(chart);
    view.subtitle = report::counted(chart.runs.size(), "run") + "; " + method.principle;
    for (const lab::ControlRun& run : chart.runs) view.runs.push_back(run.number + 1);
    for (std::size_t m = 0; m < chart.levels.size(); ++m) {
        const lab::ControlLevel& level = chart.levels[m];
        drawing::ControlLine line;
        line.name = level.name;
        line.target = "mean " + report::controlNumber(level.target.mean, level, writing.factor) +
                      unit + ", SD " + report::controlDeviation(level, writing.factor) + unit;
        for (const lab::ControlRun& run : chart.runs)
            line.marks.push_back({run.scores[m], stateOf(report::brokenBy(run, m))});
        view.lines.push_back(std::move(line));
    }
    const lab::Rules broken = chart.broken();
    for (const lab::Rule rule : lab::rules()) {
        if (!broken.has(rule)) continue;
        drawing::RuleRow row{
            std::string(name(rule)), report::ruleWords(rule), rule == lab::Rule::warning, {}};
        for (const lab::ControlRun& run : chart.runs) row.broken.push_back(run.broken.has(rule));
        view.rules.push_back(std::move(row));
    }
    for (const std::string& sentence : report::controlTold(chart))
        view.description += (view.description.empty() ? "" : " ") + sentence;
    return view;
}

} // namespace cistern::view
