#pragma once
#include "base/chance.h"
#include "lab/specimen/handling.h"
#include "lab/specimen/laws.h"

namespace cistern::lab {

/// What the vein and the hand did before the blood stood still.
struct Drawn {
    double hemolysis = 0; ///< free hemoglobin in plasma of every tube, above a clean draw's [g/L]
    double clot = 0;      ///< in the EDTA tube, over the largest, 0..1
    double clumped = 0;   ///< share of the EDTA tube's platelets that hold together, 0..1
};

/// Takes the same numbers of chance whatever the handling, so that one animal's luck is its own.
Drawn drawn(const SpecimenLaws& laws, body::Kind kind, const Handling& handling, const Tube& edta,
            base::Chance& chance);

/// How much of the usual mixing a tube went without: 0 turned over as its kind asks, 1 not at all.
double unmixed(const Tube& tube);

/// Share of red cells that turning the tube over broke: none until it is a shaking.
double shaken(const MixingLaws& laws, const Tube& tube);

} // namespace cistern::lab
