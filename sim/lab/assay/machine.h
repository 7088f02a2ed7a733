#pragma once
#include "body/names.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

/// What can be wrong with the machines, and what its size `by` counts.
enum class MachineFault {
    drift,            ///< everything reads that share too high (or low)
    badLot,           ///< that share of the reagent's working substance is gone
    lamp,             ///< that share of the light is lost
    wrongTemperature, ///< the cuvette is that much too warm (or cold) [K]
    dirtyAperture,    ///< that share of the counter's opening is clogged
    shortSample,      ///< the probe takes up that share too little
};
inline constexpr int machineFaultCount = 6;

/// "drift", "bad lot", "lamp", "wrong temperature", "dirty aperture", "short sample".
std::string_view name(MachineFault fault);

struct Fault {
    MachineFault kind{};
    std::optional<body::Analyte> analyte; ///< of one method only; none: of all that it can touch
    double by = 0;                        ///< share, or K for the temperature
};

/// The state of the machines on a day: sound unless said otherwise.
struct Machine {
    std::vector<Fault> faults{};
    bool linearityCheck = true; ///< a bent trace is caught, thinned and run again

    /// Sum of what faults of this kind do to this method; 0 if there is none.
    double by(MachineFault kind, body::Analyte analyte) const;
};

/// What is wrong with the machines, one line each: "drift of creatinine by 20 %".
std::vector<std::string> said(const Machine& machine);

} // namespace cistern::lab
