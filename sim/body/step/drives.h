#pragma once
#include "body/constants.h"
#include "body/insult.h"
#include "body/reading.h"
#include "body/step/lag.h"

namespace cistern::body::CISTERN_UNIT {

/// What acts on each animal during a step, and what follows from that alone.
struct Drives {
    Lane value[driveCount];
    Lane& operator[](Drive which) { return value[static_cast<int>(which)]; }
    const Lane& operator[](Drive which) const { return value[static_cast<int>(which)]; }
};

/// Everything a part of the body reads to take one step.
struct Step {
    const Constants<Lane>& c;
    const Drives& drive;
    const Rates<Lag>& lag; ///< of every fixed rate, for the step of each lane
    Lane hours;
    Lag lagOf(Lane rate) const { return shortLag(rate * hours); }
};

/// Readings of several animals at the end of a step.
struct Readings {
    Lane value[reading::count];
    Lane& operator[](int which) { return value[which]; }
    Lane& work(Tissue t) { return value[reading::work + static_cast<int>(t)]; }
    Lane& leak(Tissue t) { return value[reading::leak + static_cast<int>(t)]; }
    Lane& level(Analyte a) { return value[reading::analyte + static_cast<int>(a)]; }
};

} // namespace cistern::body::CISTERN_UNIT
