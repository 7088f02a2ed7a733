#pragma once
#include <string>
#include <vector>

namespace cistern::lab {

/// What colors or clouds a specimen, as it truly is.
struct Indices {
    double hemolysis = 0; ///< free hemoglobin [g/L]
    double icterus = 0;   ///< bilirubin [umol/L]
    double lipemia = 0;   ///< turbidity, as triglyceride [mmol/L]
};

/// A specimen as it stands on the machine, for one analyte.
struct Cup {
    double amount = 0;    ///< of the analyte, in the model's unit, after all handling
    Indices color{};      ///< what else the light passes through
    double solids = 0.07; ///< protein and fat, as share of the volume, 0..1: water is the rest
    double drawn = 1; ///< share of the sample's volume that the probe truly took up; fibrin: less
};

/// What a photometer saw over time, for showing.
struct Trace {
    double wavelength = 0; ///< [nm]; 0: no trace was taken
    std::vector<float> seconds, absorbance;
    double from = 0, to = 0; ///< the window that was read [s]; from == to: none was found
};

enum class Bound { exact, below, above };

/// What the analyzer reads, in the model's unit, not yet rounded.
struct Reading {
    double value = 0; ///< a limit of the method unless `bound` is exact
    Bound bound = Bound::exact;
    bool diluted = false;               ///< thinned by the method's factor and run again
    std::vector<std::string> remarks{}; ///< of the machine, in plain words: "the trace is flat ..."
    Trace trace{};
};

} // namespace cistern::lab
