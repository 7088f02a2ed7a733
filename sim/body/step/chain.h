#pragma once
#include "body/step/lag.h"

namespace cistern::body::CISTERN_UNIT {

/// How a compartment with a moving rate of loss crosses one step: y' = inflow(t) - loss(t) y, both
/// parabolas through their values at start, middle and end. The part of the loss that stands still
/// is solved exactly, the rest with it in closed form, so one table serves every compartment that
/// loses at the same rate.
struct Passage {
    Lane keepMiddle, keepEnd;
    Lane middle[3], end[3]; ///< what an inflow of 1/h leaves there [h]

    Track operator()(Lane y, const Track& inflow) const {
        return {y,
                keepMiddle * y + middle[0] * inflow.start + middle[1] * inflow.middle +
                    middle[2] * inflow.end,
                keepEnd * y + end[0] * inflow.start + end[1] * inflow.middle + end[2] * inflow.end};
    }
};

/// For a loss [1/h] that is above 0 in the middle of the step; loss x hours up to 2.
inline Passage passage(const Track& loss, Lane hours) {
    const Lag w = shortLag(loss.middle * hours);
    const Lane time = 1.0 / loss.middle;
    const Lane ownStart = 1.0 - loss.start * time, ownEnd = 1.0 - loss.end * time;
    const Lane per = 1.0 / (1.0 - w.end[2] * ownEnd); // the end holds a share of itself
    const Lane given = w.middle[2] * ownEnd;          // and gives one to the middle
    Passage p;
    p.keepEnd = (w.keepEnd + w.end[0] * ownStart) * per;
    p.keepMiddle = w.keepMiddle + w.middle[0] * ownStart + given * p.keepEnd;
    for (int i = 0; i < 3; ++i) {
        p.end[i] = w.end[i] * per * time;
        p.middle[i] = w.middle[i] * time + given * p.end[i];
    }
    return p;
}

} // namespace cistern::body::CISTERN_UNIT
