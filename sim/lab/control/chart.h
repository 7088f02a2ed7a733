#pragma once
#include "lab/assay/machine.h"
#include "lab/control/material.h"
#include "lab/control/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::lab {

/// Control runs to be read on a machine: plain data.
struct ChartPlan {
    body::Analyte analyte{};
    std::uint64_t runs = 30; ///< on the chart, > 0
    std::uint64_t first = 0; ///< number of the first of them: runs of one number are one run
    std::uint64_t seed = 1;  ///< of the laboratory's days
    Machine machine{};       ///< as it stands from run number `faultFrom` on; sound before
    std::uint64_t faultFrom = 0;
    std::uint64_t learning = 0; ///< runs of a sound machine that give mean and SD; 0: as the method
                                ///< states them
    std::optional<double> lastFactor{}; ///< the run factor of the last run, if patients shared it
};

/// One run: what each material read, and what the rules say of it.
struct ControlRun {
    std::uint64_t number = 0;
    std::vector<double> values; ///< one a material [model's unit]; a limit of the method if beyond
    std::vector<double> scores; ///< SD from the mean
    Rules broken{};
    std::vector<Break> breaks{}; ///< `sinceRun` counts from the chart's first run
};

/// One material on a chart.
struct ControlLevel {
    std::string name;
    double amount = 0; ///< that it holds [model's unit]
    Target target{};
};

/// The control chart of an analyte.
struct Chart {
    body::Analyte analyte{};
    std::vector<ControlLevel> levels;
    std::vector<ControlRun> runs;
    std::uint64_t oneSided = 0; ///< runs up to the last with every control on one side

    /// Every rule broken by any run.
    Rules broken() const;
};

/// Reads the controls run by run through `read`, as patients are read. All chance from the plan's
/// seed (Purpose::control): a run reads the same whatever chart it is on. Throws
/// std::invalid_argument for a plan without runs, std::out_of_range for an analyte that has no
/// control.
Chart chart(const Bench& bench, const ChartPlan& plan);

} // namespace cistern::lab
