#pragma once
#include "body/step/liver.h"

namespace cistern::body::CISTERN_UNIT {

// living' = g living (1 - living) - death x living; dying' = death x living - dying / lag.
// shed = dying / lag + healthy shedding x living: a part enters plasma at once, the rest by lymph:
// fluid' = (1 - direct) shed - lymph rate x fluid; flow = direct x shed + lymph rate x fluid.
// The heart does not grow back: heart' = -death x heart; heartDying' = death x heart - heartDying /
// lag; heartFlow = heartDying / lag + healthy shedding x heart.

/// Muscle over one step, in shares of the healthy muscle: every muscle enzyme leaves by one flow.
struct Muscle {
    Track living, dying, fluid;
    Track shed; ///< leaving the cells [share/h]
    Track flow; ///< reaching plasma [share/h]
    Track heart, heartDying;
    Track heartFlow; ///< reaching plasma [share/h]

    void end(MuscleState<Lane>& y) const {
        y = {living.end, dying.end, fluid.end, heart.end, heartDying.end};
    }
};

inline Muscle muscle(const Step& s, const MuscleState<Lane>& y) {
    const auto& c = s.c.muscle;
    Muscle out;
    const Lane death = s.drive[Drive::muscleDeath];
    // As liver cells, with a pull that stands still: the second half of a step grows as the first.
    const Lane half = exponential((c.regrowth - death) * s.hours * 0.5);
    out.living = grown(y.living, c.regrowth, {1.0, half, half * half}, s.hours);
    Track losing, entering;
    for (int i = 0; i < 3; ++i) losing[i] = death * out.living[i] * c.cytosolTime;
    out.dying = chase(y.dying, losing, s.lag.muscle.cytosol);
    for (int i = 0; i < 3; ++i) {
        out.shed[i] = out.dying[i] * c.cytosolRate + c.shedding * out.living[i];
        entering[i] = (1.0 - c.direct) * out.shed[i] * c.lymphTime;
    }
    out.fluid = chase(y.fluid, entering, s.lag.muscle.lymph);

    const Lane heartDeath = s.drive[Drive::heartDeath];
    out.heart = decayed(y.heart, heartDeath, s.hours);
    for (int i = 0; i < 3; ++i) losing[i] = heartDeath * out.heart[i] * c.heartTime;
    out.heartDying = chase(y.heartDying, losing, s.lag.muscle.heart);
    for (int i = 0; i < 3; ++i) {
        out.flow[i] = c.direct * out.shed[i] + c.lymphRate * out.fluid[i];
        out.heartFlow[i] = out.heartDying[i] * c.heartRate + c.heartShedding * out.heart[i];
    }
    return out;
}

inline void read(const Step& s, const Muscle& m, Readings& out) {
    const auto& c = s.c.muscle;
    out.work(Tissue::skeletalMuscle) = m.living.end;
    out.leak(Tissue::skeletalMuscle) = m.shed.end / (m.living.end * c.shedding);
    out.work(Tissue::heart) = m.heart.end;
    out.leak(Tissue::heart) = m.heartFlow.end / (m.heart.end * c.heartShedding);
}

} // namespace cistern::body::CISTERN_UNIT
