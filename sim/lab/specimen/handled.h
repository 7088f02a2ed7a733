#pragma once
#include "base/chance.h"
#include "body/individual.h"
#include "lab/assay/cup.h"
#include "lab/specimen/handling.h"
#include "lab/specimen/laws.h"
#include "lab/specimen/needle.h"

#include <array>
#include <functional>

namespace cistern::lab {

/// What handling does to a level: times, then plus; never below nothing.
struct Alteration {
    double times = 1, plus = 0;
    double of(double level) const;
};

/// One kind of specimen as it reaches the machine.
struct Prepared {
    std::array<Alteration, body::analyteCount> changes{}; ///< by analyte, in the model's unit
    Indices color{};
    double solids = 0.07; ///< protein and fat, share of the volume
    double fibrin = 0;    ///< that still forms, 0..1; see takenUp() in spin.h
    Alteration& operator[](body::Analyte analyte) {
        return changes[static_cast<std::size_t>(analyte)];
    }
    double amount(body::Analyte analyte, double level) const {
        return changes[static_cast<std::size_t>(analyte)].of(level);
    }
};

/// The cells of the EDTA tube as counter and film meet them.
struct Cells {
    double redCells = 1, whiteCells = 1, platelets = 1; ///< share that no clot or age took
    double clumped = 0;                                 ///< of the platelets left, share in clumps
    double clumpSize = 0;                               ///< platelets in a clump; 0: there are none
    double clot = 0;          ///< thread in the tube, over the largest, 0..1
    double swollen = 1;       ///< volume of red cells by standing
    double shrunkenSpun = 1;  ///< the same by surplus EDTA, in the spun tube
    double shrunkenCount = 1; ///< and in the counter's diluent, where they swell back in part
    double old = 0;           ///< stood before count and film, as hours at room temperature [h]
};

/// A draw after needle, tube, wait and spin: every kind of specimen that methods ask for.
struct Handled {
    Prepared serum, plasma, citrate, blood, urine;
    Cells cells{};
    /// By the words of Method::specimen: "serum", "EDTA plasma", "EDTA blood", "citrate plasma",
    /// "urine". Throws std::invalid_argument for any other.
    const Prepared& of(std::string_view specimen) const;
};

/// Free hemoglobin of a cleanly drawn and spun tube [g/L], log-normal: median and spread. Common
/// practice: well under what the eye sees.
inline constexpr double cleanHemolysis = 0.05, cleanHemolysisSpread = 0.4;

/// What blood really holds, in the model's units; asked for Hct, MCHC, WBC, platelets, protein,
/// fibrinogen, triglycerides, bilirubin and glucose.
using Levels = std::function<double(body::Analyte)>;

/// Protein and fat in serum, share of its volume, counted from the animal's own healthy ones, whose
/// solids are those of a usual Cup. Protein [g/L], triglycerides [mmol/L].
double solidsIn(const body::Individual& animal, double protein, double triglycerides);

/// Sends blood through needle, tubes, wait and spin. A tube that the draw does not name was handled
/// as usual; without a serum tube a heparin tube serves, and glucose is read from a fluoride tube
/// if there is one. `clean` is the free hemoglobin of a draw without fault [g/L]. Throws
/// std::invalid_argument for handling that is not finite, or negative, or an empty tube.
Handled handled(const SpecimenLaws& laws, const body::Individual& animal, const Levels& level,
                const Handling& handling, double clean, base::Chance& needle);
/// The same where it is known how the blood came through the needle.
Handled handled(const SpecimenLaws& laws, const body::Individual& animal, const Levels& level,
                const Handling& handling, double clean, const Drawn& drawn);

} // namespace cistern::lab
