#include "lab/specimen/needle.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

/// Chance that either happens.
double either(double one, double other) {
    return 1 - (1 - std::min(one, 1.)) * (1 - std::min(other, 1.));
}

} // namespace

double unmixed(const Tube& tube) {
    const double usual = usualTube(tube.name).inversions;
    return usual > 0 ? std::clamp(1 - tube.inversions / usual, 0., 1.) : 0;
}

double shaken(const MixingLaws& laws, const Tube& tube) {
    return std::min(1., laws.broken * std::max(0., tube.inversions - laws.gentle));
}

Drawn drawn(const SpecimenLaws& laws, body::Kind kind, const Handling& handling, const Tube& edta,
            base::Chance& chance) {
    const NeedleLaws& needle = laws.needle;
    const BloodLaws& blood = laws.of(kind);
    const bool fast = handling.vein == "jugular";
    const double further = std::max(0, handling.attempts - 1);
    const double lack = unmixed(edta);

    const double breaks = chance.uniform(), size = chance.normal();
    const double clots = chance.uniform(), caught = chance.uniform();
    const double clumps = chance.uniform(), held = chance.uniform();

    Drawn out;
    const double hemolysis = fast ? needle.hemolysisFast : needle.hemolysisSlow;
    if (breaks < either(hemolysis, needle.hemolysisOfAttempt * further))
        out.hemolysis = needle.hemolysisSize * std::exp(needle.hemolysisSpread * size);
    // Blood that EDTA reached late clots: never when turned over as usual, always when not at all.
    const double atVein = either(fast ? 0 : needle.clotSlow, needle.clotOfAttempt * further);
    if (clots < either(atVein, lack * lack))
        out.clot = std::max(lack, needle.clotSize) * (0.7 + 0.3 * caught); // not every bit of it
    const double clump =
        either(fast ? blood.clumpsFast : blood.clumpsSlow, blood.clumpsUnmixed * lack);
    if (clumps < clump) out.clumped = laws.mixing.clumped * (0.5 + 0.5 * held); // half to all
    return out;
}

} // namespace cistern::lab
