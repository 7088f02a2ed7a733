#pragma once
#include "lab/assay/machine.h"
#include "lab/bench.h"
#include "lab/control/chart.h"

#include <functional>
#include <vector>

namespace cistern::lab {

/// Where the controls of one analyte stand in the run of a draw.
struct ControlNote {
    body::Analyte analyte{};
    Rules broken{};             ///< by this run; never none
    std::uint64_t since = 1;    ///< runs that the longest broken rule reaches back, this one too
    std::uint64_t oneSided = 0; ///< runs, up to this one, with every control on one side
    int side = 0;               ///< of them: +1 above the mean, -1 below
};

/// The state of the charts of a draw's tests.
struct ControlState {
    std::vector<ControlNote> notes;    ///< of those that a rule rejects, in panel order
    std::vector<body::Analyte> warned; ///< no more than a warning (1-2s)
    std::size_t inControl = 0;         ///< all the others
    std::uint64_t runs = 0;            ///< on each chart
};

/// The factor of the run that an analyte's controls share with the patients.
using SharedFactor = std::function<double(const Method&)>;

/// The control runs of an analyte up to a draw's, which shares `factor` with the patients. `number`
/// is the draw's, from 0: later draws stand later on the same chart. A fault of the machine is as
/// old as the bench's controls say.
ChartPlan chartPlan(const Bench& bench, body::Analyte analyte, const Machine& machine,
                    std::uint64_t seed, std::uint64_t number, double factor);

/// Reads the controls of these analytes by their chartPlan(). What is calculated has none.
ControlState controlState(const Bench& bench, const std::vector<body::Analyte>& panel,
                          const Machine& machine, std::uint64_t seed, std::uint64_t number,
                          const SharedFactor& factor);

} // namespace cistern::lab
