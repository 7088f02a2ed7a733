#pragma once
#include "body/step/digestion.h"
#include "body/step/kidney.h"
#include "body/step/muscle.h"

namespace cistern::body::CISTERN_UNIT {

// For each pool, inflow = release of liver, muscle, heart, red cells, pancreas and the rest; as the
// level that it would hold:
//   soluble   living (b + b' leak) + dying parts + muscle flow + heart flow + hemolysis + ...
//   membrane  content [living b wash + cytosol x dying]: cells make more (content) and bile acids
//             wash more of it off
// level' = rate (held - cleared level / filling) - bleeding x share in plasma x level, with
// cleared = 1 - renal + renal x filtration for what the kidney clears. Read out, level / filling:
// what is dissolved concentrates as plasma shrinks.
// growth' = -growth / lag: bone ALP of the young; turnover of bone rises with thyroxine's effect.

/// Plasma enzymes over one step.
struct Enzymes {
    Track held[poolCount];  ///< the level that the inflow would hold [U/L]
    Track level[poolCount]; ///< at healthy filling [U/L]
    Track growth;

    void end(EnzymeState<Lane>& y) const {
        y.growth = growth.end;
        for (int pool = 0; pool < poolCount; ++pool) y.level[pool] = level[pool].end;
    }
};

/// Everything that gives enzymes to plasma.
struct Sources {
    const Liver& liver;
    const Muscle& muscle;
    const Digestion& digestion;
    const RedCells& redCells;
    const Hormones& hormones;
};

/// Enzymes free in the cell: living cells leak them, dying cells lose them, mitochondria late.
inline Lane soluble(const EnzymeGain<Lane>& g, const Sources& from, int i) {
    const Liver& liver = from.liver;
    return liver.living[i] * (g.living + g.leaking * liver.leak[i]) + g.cytosol * liver.dying[i] +
           g.mitochondria * liver.dyingMitochondria[i] + g.muscle * from.muscle.flow[i] +
           g.heart * from.muscle.heartFlow[i] + g.redCells * from.redCells.lysed[i] + g.other;
}

inline Lane acinar(const EnzymeGain<Lane>& g, const Digestion& d, int i) {
    return g.other + d.acini[i] * (g.acini + g.acinarLeak * d.acinarLeak[i]);
}

/// What bone sheds over what a grown animal's does.
inline Lane boneShed(const Step& s, Lane growth, Lane effect) {
    return (1.0 + growth) * (1.0 + s.c.enzymes.boneOfThyroxine * onset(effect - 1.0, 0.1));
}

inline void release(const Step& s, const Sources& from, Enzymes& out) {
    const auto& c = s.c.enzymes;
    const Liver& liver = from.liver;
    const auto gain = [&](Pool pool) -> const EnzymeGain<Lane>& {
        return c.gain[static_cast<int>(pool)];
    };
    const auto held = [&](Pool pool) -> Track& { return out.held[static_cast<int>(pool)]; };
    for (int i = 0; i < 3; ++i) {
        for (Pool pool : {Pool::ALT, Pool::AST, Pool::GLDH, Pool::SDH, Pool::LDH})
            held(pool)[i] = soluble(gain(pool), from, i);
        for (Pool pool : {Pool::CK, Pool::cTnI})
            held(pool)[i] = gain(pool).muscle * from.muscle.flow[i] +
                            gain(pool).heart * from.muscle.heartFlow[i];
        for (Pool pool : {Pool::lipase, Pool::amylase, Pool::TLI})
            held(pool)[i] = acinar(gain(pool), from.digestion, i);
        held(Pool::boneALP)[i] = c.boneLevel * boneShed(s, out.growth[i], from.hormones.effect[i]);

        const Lane calm = 1.0 - s.c.liver.adaptationLeak * liver.adaptation[i];
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
}

inline Enzymes enzymes(const Step& s, const EnzymeState<Lane>& y, const Sources& from,
                       const Kidney& kidney) {
    const auto& lag = s.lag.enzymes;
    Enzymes out;
    out.growth = chase(y.growth, Lane(0.0), lag.growth);
    release(s, from, out);
    const Lane bleeding = s.drive[Drive::bleeding];
    Track perFilling;
    for (int i = 0; i < 3; ++i) perFilling[i] = 1.0 / from.redCells.filling[i];
    for (int pool = 0; pool < poolCount; ++pool) {
        const EnzymeGain<Lane>& g = s.c.enzymes.gain[pool];
        const Lane bled = bleeding * g.inPlasma / s.c.rate.enzymes.pool[pool];
        Track own;
        for (int i = 0; i < 3; ++i)
            own[i] = 1.0 - (1.0 - g.renal * (1.0 - kidney.share[i])) * perFilling[i] - bled;
        out.level[pool] = chase(y.level[pool], out.held[pool], own, lag.pool[pool]);
    }
    return out;
}

inline void read(const Step& s, const Enzymes& e, const Sources& from, Readings& out) {
    const auto& c = s.c.enzymes;
    const Lane per = 1.0 / from.redCells.filling.end;
    const auto pool = [&](Pool p) { return e.level[static_cast<int>(p)].end * per; };
    const auto held = [&](Pool p) { return e.held[static_cast<int>(p)].end; };
    const auto gain = [&](Pool p) -> const EnzymeGain<Lane>& {
        return c.gain[static_cast<int>(p)];
    };
    constexpr std::pair<Analyte, Pool> alike[]{
        {Analyte::ALT, Pool::ALT},   {Analyte::AST, Pool::AST},        {Analyte::GGT, Pool::GGT},
        {Analyte::GLDH, Pool::GLDH}, {Analyte::SDH, Pool::SDH},        {Analyte::CK, Pool::CK},
        {Analyte::LDH, Pool::LDH},   {Analyte::lipase, Pool::lipase},  {Analyte::TLI, Pool::TLI},
        {Analyte::cTnI, Pool::cTnI}, {Analyte::amylase, Pool::amylase}};
    for (const auto& [analyte, which] : alike) out.level(analyte) = pool(which);
    out.level(Analyte::ALP) = pool(Pool::liverALP) + pool(Pool::steroidALP) + pool(Pool::boneALP);

    // Leak: release per living gram over healthy, counted on the enzyme that speaks for the organ.
    const Lane living = from.liver.living.end;
    const Lane fromLiver = held(Pool::ALT) - gain(Pool::ALT).muscle * from.muscle.flow.end -
                           gain(Pool::ALT).heart * from.muscle.heartFlow.end;
    out.leak(Tissue::liver) = fromLiver / (living * gain(Pool::ALT).living);
    out.leak(Tissue::bileDucts) = held(Pool::GGT) / (living * gain(Pool::GGT).living);
    out.leak(Tissue::bone) = boneShed(s, e.growth.end, from.hormones.effect.end);
    for (int p = 0; p < poolCount; ++p) {
        out[reading::pool + p] = e.level[p].end * per;
        out[reading::release + p] = e.held[p].end * c.gain[p].clearance;
    }
}

} // namespace cistern::body::CISTERN_UNIT
