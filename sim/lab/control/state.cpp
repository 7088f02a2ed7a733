#include "lab/control/state.h"

#include <algorithm>

namespace cistern::lab {

namespace {

ControlNote noteOf(const Chart& chart) {
    const ControlRun& last = chart.runs.back();
    ControlNote note;
    note.analyte = chart.analyte;
    note.broken = last.broken;
    note.oneSided = chart.oneSided;
    for (const Break& one : last.breaks)
        note.since = std::max(note.since, chart.runs.size() - one.sinceRun);
    if (note.oneSided > 0) note.side = last.scores.front() > 0 ? 1 : -1;
    return note;
}

} // namespace

ChartPlan chartPlan(const Bench& bench, body::Analyte analyte, const Machine& machine,
                    std::uint64_t seed, std::uint64_t number, double factor) {
    const Controls& controls = bench.controls;
    ChartPlan plan;
    plan.analyte = analyte;
    plan.runs = controls.kept;
    plan.first = number;
    plan.seed = seed;
    plan.machine = machine;
    plan.faultFrom = controls.kept - std::min(controls.kept, controls.faultFor);
    plan.lastFactor = factor;
    return plan;
}

ControlState controlState(const Bench& bench, const std::vector<body::Analyte>& panel,
                          const Machine& machine, std::uint64_t seed, std::uint64_t number,
                          const SharedFactor& factor) {
    ControlState state;
    state.runs = bench.controls.kept;
    for (const body::Analyte analyte : panel) {
        if (!controlled(bench, analyte)) continue;
        const ControlNote note =
            noteOf(chart(bench, chartPlan(bench, analyte, machine, seed, number,
                                          factor(bench.method(analyte)))));
        if (note.broken.reject())
            state.notes.push_back(note);
        else if (!note.broken.empty())
            state.warned.push_back(analyte);
        else
            ++state.inControl;
    }
    return state;
}

} // namespace cistern::lab
