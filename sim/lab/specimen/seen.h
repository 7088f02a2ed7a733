#pragma once
#include "lab/specimen/handled.h"

#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

/// What the eye tells of free hemoglobin [g/L]. From memory: pink from 0.3, red above 2.
inline constexpr double pinkFrom = 0.3, redFrom = 2;

/// What is said of a clotted EDTA tube, and of fibrin in serum.
inline constexpr std::string_view clotSeen = "A thread of clot hangs in the EDTA tube.",
                                  fibrinSeen = "The sample probe reported a short sample: fibrin.";

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
