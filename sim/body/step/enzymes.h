#pragma once
#include "body/step/liver.h"

namespace cistern::body::CISTERN_UNIT {

/// Muscle over one step, in shares of the healthy muscle: every muscle enzyme leaves by this one
/// flow.
struct Muscle {
    Track living, dying, fluid;
    Track shed; ///< leaving the cells [share/h]
    Track flow; ///< reaching plasma: a part at once, the rest by lymph [share/h]
};

inline Muscle muscle(const Step& s, const State<Lane>& y) {
    const auto& c = s.c;
    Muscle out;
    const Lane death = s.drive[Drive::muscleDeath];
    // As liver cells, with a pull that stands still: the second half of a step grows as the first.
    const Lane half = exponential((c.muscleRegrowth - death) * s.hours * 0.5);
    out.living = grown(y.muscle, c.muscleRegrowth, {1.0, half, half * half}, s.hours);
    Track losing, entering;
    for (int i = 0; i < 3; ++i) losing[i] = death * out.living[i] * c.muscleCytosolTime;
    out.dying = chase(y.muscleDying, losing, s[Rate::muscleCytosol]);
    for (int i = 0; i < 3; ++i) {
        out.shed[i] = out.dying[i] * c.rate[static_cast<int>(Rate::muscleCytosol)] +
                      c.muscleShedding * out.living[i];
        entering[i] = (1.0 - c.muscleDirect) * out.shed[i] * c.lymphTime;
    }
    out.fluid = chase(y.muscleFluid, entering, s[Rate::lymph]);
    for (int i = 0; i < 3; ++i)
        out.flow[i] = c.muscleDirect * out.shed[i] + c.lymphRate * out.fluid[i];
    return out;
}

/// Plasma enzymes over one step: each level chases the one that its inflow would hold.
struct Enzymes {
    Track held[poolCount];  ///< the level that the inflow would hold [U/L]
    Track level[poolCount]; ///< [U/L]
    Track growth;
};

/// Enzymes free in the cell: living cells leak them, dying cells lose them, mitochondria late.
inline Lane soluble(const EnzymeGain<Lane>& g, const Liver& liver, const Muscle& muscle, int i) {
    return liver.living[i] * (g.living + g.leaking * liver.leak[i]) + g.cytosol * liver.dying[i] +
           g.mitochondria * liver.dyingMitochondria[i] + g.muscle * muscle.flow[i];
}

inline Enzymes enzymes(const Step& s, const State<Lane>& y, const Liver& liver,
                       const Muscle& muscle) {
    const auto& c = s.c;
    Enzymes out;
    out.growth = chase(y.growth, Lane(0.0), s[Rate::boneGrowth]);
    const auto gain = [&](Pool pool) -> const EnzymeGain<Lane>& {
        return c.gain[static_cast<int>(pool)];
    };
    const auto held = [&](Pool pool) -> Track& { return out.held[static_cast<int>(pool)]; };
    for (int i = 0; i < 3; ++i) {
        held(Pool::ALT)[i] = soluble(gain(Pool::ALT), liver, muscle, i);
        held(Pool::AST)[i] = soluble(gain(Pool::AST), liver, muscle, i);
        held(Pool::CK)[i] = gain(Pool::CK).muscle * muscle.flow[i];
        held(Pool::boneALP)[i] = c.boneLevel * (1.0 + out.growth[i]);

        // Bound to the membrane: cells make more of it (content) and bile acids wash more of it
        // off.
        const Lane calm = 1.0 - c.adaptationLeak * liver.adaptation[i];
        const Lane alp = liver.alpResponse[i], ggt = liver.ggtResponse[i];
        const auto membrane = [&](Pool pool, Lane content, Lane wash) {
            const EnzymeGain<Lane>& g = gain(pool);
            held(pool)[i] =
                content * (liver.living[i] * g.living * wash + g.cytosol * liver.dying[i]);
        };
        const Lane washed = 1.0 + c.alpWash * alp;
        membrane(Pool::liverALP,
                 1.0 + c.alpContent * alp * calm + c.alpSteroid * liver.steroidFast[i],
                 washed + c.alpPhenobarbital * liver.phenobarbital[i]);
        membrane(Pool::steroidALP, 1.0 + c.steroidAlpContent * liver.steroidSlow[i], washed);
        membrane(Pool::GGT,
                 1.0 + c.ggtContent * ggt * calm +
                     c.ggtSteroid * liver.steroidFast[i] * liver.steroidMiddle[i],
                 1.0 + c.ggtWash * ggt);
    }
    for (int pool = 0; pool < poolCount; ++pool)
        out.level[pool] =
            chase(y.enzyme[pool], out.held[pool], s.lags.of[rateOfPool(Pool{}) + pool]);
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
