#pragma once
#include "body/constants.h"
#include "body/insult.h"
#include "body/step/lag.h"

namespace cistern::body::CISTERN_UNIT {

/// What acts on each animal during a step, and what follows from that alone.
struct Drives {
    Lane value[driveCount];
    Lane& operator[](Drive which) { return value[static_cast<int>(which)]; }
    const Lane& operator[](Drive which) const { return value[static_cast<int>(which)]; }
};

/// The lags of every fixed rate, for the step of each lane.
struct Lags {
    Lag of[rateCount];
    const Lag& operator[](Rate which) const { return of[static_cast<int>(which)]; }
};

/// Everything a part of the body reads to take one step.
struct Step {
    const Constants<Lane>& c;
    const Drives& drive;
    const Lags& lags;
    Lane hours;
    const Lag& operator[](Rate which) const { return lags[which]; }
    Lag lagOf(Lane rate) const { return shortLag(rate * hours); }
};

} // namespace cistern::body::CISTERN_UNIT
