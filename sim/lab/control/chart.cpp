#include "lab/control/chart.h"

#include "lab/analyzer.h"

#include <stdexcept>

namespace cistern::lab {

namespace {

/// A run's streams: one for its factor, one for each material.
constexpr std::uint64_t streamsPerRun = mostMaterials + 1;
constexpr std::uint64_t mostRuns = (std::uint64_t{1} << 32) / streamsPerRun;

/// Number of the first run of a learning period, so far off that no chart meets it.
constexpr std::uint64_t learningFrom = mostRuns / 2;

/// Where the controls of a plan are read.
class Desk {
public:
    Desk(const Bench& bench, const ChartPlan& plan)
        : plan_(plan), method_(bench.method(plan.analyte)) {
        for (const ControlMaterial& material : bench.controls.materials)
            amounts_.push_back(amount(bench, material, plan.analyte));
    }

    const std::vector<double>& amounts() const { return amounts_; }

    std::vector<double> values(std::uint64_t run, const Machine& machine,
                               std::optional<double> factor = {}) const {
        base::Chance ofRun = chance(run, 0);
        const double drawn = runFactor(method_, ofRun);
        std::vector<double> values;
        for (std::size_t m = 0; m < amounts_.size(); ++m) {
            base::Chance noise = chance(run, m + 1);
            const Cup cup{amounts_[m]};
            values.push_back(read(method_, cup, machine, factor.value_or(drawn), noise).value);
        }
        return values;
    }

    std::vector<Target> targets() const {
        std::vector<Target> targets;
        if (plan_.learning == 0) {
            for (const double amount : amounts_) targets.push_back(stated(method_, amount));
            return targets;
        }
        std::vector<std::vector<double>> readings(amounts_.size());
        for (std::uint64_t r = 0; r < plan_.learning; ++r) {
            const std::vector<double> run = values(learningFrom + r, {});
            for (std::size_t m = 0; m < run.size(); ++m) readings[m].push_back(run[m]);
        }
        for (const auto& of : readings) targets.push_back(learned(of));
        return targets;
    }

private:
    const ChartPlan& plan_;
    const Method& method_;
    std::vector<double> amounts_;

    base::Chance chance(std::uint64_t run, std::size_t stream) const {
        return {plan_.seed, base::Purpose::control, 1 + static_cast<std::uint64_t>(plan_.analyte),
                static_cast<std::uint32_t>(run * streamsPerRun + stream)};
    }
};

} // namespace

Rules Chart::broken() const {
    Rules all;
    for (const ControlRun& run : runs)
        for (const Rule rule : rules())
            if (run.broken.has(rule)) all.add(rule);
    return all;
}

Chart chart(const Bench& bench, const ChartPlan& plan) {
    if (plan.runs == 0) throw std::invalid_argument("a control chart needs at least one run");
    if (plan.first + plan.runs > learningFrom || plan.learning > learningFrom)
        throw std::invalid_argument("a control chart holds too many runs");
    if (!controlled(bench, plan.analyte))
        throw std::out_of_range("no control is read for " + std::string(name(plan.analyte)));
    const Desk desk(bench, plan);
    const std::vector<Target> targets = desk.targets();
    Chart chart;
    chart.analyte = plan.analyte;
    for (std::size_t m = 0; m < targets.size(); ++m)
        chart.levels.push_back({bench.controls.materials[m].name, desk.amounts()[m], targets[m]});

    Watch watch(targets.size());
    const Machine sound;
    for (std::uint64_t r = 0; r < plan.runs; ++r) {
        ControlRun run;
        run.number = plan.first + r;
        const bool last = r + 1 == plan.runs;
        run.values = desk.values(run.number, run.number < plan.faultFrom ? sound : plan.machine,
                                 last ? plan.lastFactor : std::nullopt);
        for (std::size_t m = 0; m < targets.size(); ++m)
            run.scores.push_back(targets[m].score(run.values[m]));
        run.broken = watch.next(run.scores);
        run.breaks = watch.breaks();
        chart.runs.push_back(std::move(run));
    }
    chart.oneSided = watch.oneSided(Break::all);
    return chart;
}

} // namespace cistern::lab
