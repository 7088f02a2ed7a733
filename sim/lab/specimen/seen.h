#pragma once
#include "lab/specimen/handled.h"

#include <string>
#include <vector>

namespace cistern::lab {

/// What the eye tells of free hemoglobin [g/L]. From memory: pink from 0.3, red above 2.
inline constexpr double pinkFrom = 0.3, redFrom = 2;
/// The same of bilirubin [umol/L], deep from a jaundice that nobody overlooks; and of triglycerides
/// [mmol/L], 300 and 1,000 mg/dL. From memory.
inline constexpr double yellowFrom = 30, deepYellowFrom = 150;
inline constexpr double hazyFrom = 3.4, milkyFrom = 11.3;

/// A thread of clot in the EDTA tube; and serum in which the probe met fibrin, by the share that it
/// took up.
bool clotSeen(const SpecimenLaws& laws, const Handled& handled);
bool fibrinMet(const SpecimenLaws& laws, double drawn);

/// Which specimens a report made use of.
struct Used {
    bool serum = false, blood = false;
    bool potassium = false, enzymes = false; ///< K; AST or LDH was measured
};

/// What whoever looks at the tubes sees of them, one sentence each: never a cause that hides, never
/// a diagnosis. `drawn` is the share that the probe took up of serum.
std::vector<std::string> seenInTubes(const SpecimenLaws& laws, body::Kind kind,
                                     const Handled& handled, double drawn, const Used& used);

} // namespace cistern::lab
