#pragma once
#include "body/step/hormones.h"

namespace cistern::body::CISTERN_UNIT {

// nephrons' = -death x nephrons: none grow back. stunned' = rate (1 - stunned) while an injury
// lasts, else -stunned / lag. hyperfiltration' = (1 + most (1 - nephrons) - hyperfiltration) / lag.
// outflow' = (1 - block - outflow) / lag.

/// Nephrons over one step: first of the kidney, for red cells wait for them.
struct Nephrons {
    Track living, stunned, hyperfiltration, outflow;
    Track able; ///< living and not stunned

    void end(KidneyState<Lane>& y) const {
        y.nephrons = living.end;
        y.stunned = stunned.end;
        y.hyperfiltration = hyperfiltration.end;
        y.outflow = outflow.end;
    }
};

inline Nephrons nephrons(const Step& s, const KidneyState<Lane>& y) {
    const auto& c = s.c.kidney;
    const auto& lag = s.lag.kidney;
    Nephrons out;
    out.living = decayed(y.nephrons, s.drive[Drive::nephronDeath], s.hours);
    const Lane stun = s.drive[Drive::nephronStun];
    const Track fit = decayed(1.0 - y.stunned, stun, s.hours);
    const Track recovering = chase(y.stunned, Lane(0.0), lag.stun);
    Track driven;
    for (int i = 0; i < 3; ++i) {
        out.stunned[i] = ifPositive(stun, 1.0 - fit[i], recovering[i]);
        out.able[i] = out.living[i] * (1.0 - out.stunned[i]);
        driven[i] = 1.0 + c.hyperfiltration * (1.0 - out.living[i]);
    }
    out.hyperfiltration = chase(y.hyperfiltration, driven, lag.hyperfiltration);
    out.outflow = chase(y.outflow, 1.0 - s.drive[Drive::outflowBlock], lag.outflow);
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
