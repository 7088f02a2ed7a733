#pragma once
#include "body/step/drives.h"

namespace cistern::body::CISTERN_UNIT {

// fast' = (inflammation - fast) / lag; daily and chronic alike, slower.
// adrenal' = -death x adrenal; held = (1 + r) adrenal / (adrenal + r): aldosterone and cortisol
// hold until most of the cortex is lost.
// stressed' = (held join(stress, k felt(fast - chronic)) - stressed) / lag.
// given' = (steroid dose - given) / lag; own alike. cortisol (the effect) = join(stressed, D / (D +
// half)), D = given + own. excess' = (steroid dose + own steroid - excess) / slow lag.
// thyroid' = rate (max(least, 1 + thyroxine) - thyroid); effect' = (thyroid - effect) / lag.
// fright' = (fright drive - fright) / lag.

/// Signals to the whole body over one step.
struct Hormones {
    Track fast, daily, chronic; ///< traces of inflammation
    Track adrenal, held;        ///< living share of the cortex; share of its output that is held
    Track stressed, given, own, excess;
    Track cortisol; ///< effect, share of the greatest
    Track thyroid, effect, fright;

    void end(HormoneState<Lane>& y) const {
        y = {fast.end, daily.end,  chronic.end, adrenal.end, stressed.end, given.end,
             own.end,  excess.end, thyroid.end, effect.end,  fright.end};
    }
};

/// Width over which fresh inflammation begins to be felt as stress. Assumed.
inline constexpr double freshness = 0.1;

/// Thyroxine that is left without a thyroid, fold of healthy. Assumed.
inline constexpr double leastThyroxine = 0.05;

inline Hormones hormones(const Step& s, const HormoneState<Lane>& y) {
    const auto& c = s.c.hormones;
    const auto& lag = s.lag.hormones;
    Hormones h;
    const Lane inflammation = s.drive[Drive::inflammation];
    h.fast = chase(y.fast, inflammation, lag.fast);
    h.daily = chase(y.daily, inflammation, lag.daily);
    h.chronic = chase(y.chronic, inflammation, lag.chronic);
    h.adrenal = decayed(y.adrenal, s.drive[Drive::adrenalDeath], s.hours);
    const Lane given = s.drive[Drive::steroidDose], own = s.drive[Drive::ownSteroid];
    h.given = chase(y.given, given, lag.cortisol);
    h.own = chase(y.own, own, lag.cortisol);
    h.excess = chase(y.excess, given + own, lag.excess);
    Track called;
    for (int i = 0; i < 3; ++i) {
        h.held[i] = (1.0 + c.adrenalReserve) * h.adrenal[i] / (h.adrenal[i] + c.adrenalReserve);
        const Lane illness = c.illnessCortisol * felt(h.fast[i] - h.chronic[i], freshness);
        called[i] = h.held[i] * join(s.drive[Drive::stress], illness);
    }
    h.stressed = chase(y.stressed, called, lag.cortisol);
    for (int i = 0; i < 3; ++i) {
        const Lane dose = h.given[i] + h.own[i];
        h.cortisol[i] = join(h.stressed[i], dose / (dose + c.halfEffectDose));
    }
    h.thyroid =
        chase(y.thyroid, most(1.0 + s.drive[Drive::thyroxine], leastThyroxine), lag.thyroxine);
    h.effect = chase(y.effect, h.thyroid, lag.thyroidEffect);
    h.fright = chase(y.fright, s.drive[Drive::fright], lag.fright);
    return h;
}

/// What is left of own cortisol however much is given. From memory.
inline constexpr double unsuppressed = 0.05;

inline void read(const Step& s, const Hormones& h, Readings& out) {
    const auto& c = s.c.hormones;
    const Lane suppressed =
        unsuppressed + (1 - unsuppressed) * c.suppressingDose / (c.suppressingDose + h.given.end);
    out.level(Analyte::cortisol) =
        c.cortisol * ((h.held.end + c.cortisolInStress * h.stressed.end) * suppressed +
                      c.cortisolPerDose * h.own.end);
    out.level(Analyte::T4) = c.thyroxine * h.thyroid.end;
    out.work(Tissue::adrenalCortex) = h.adrenal.end;
    out.leak(Tissue::adrenalCortex) = 1.0;
    out.work(Tissue::thyroid) = h.thyroid.end;
    out.leak(Tissue::thyroid) = 1.0;
}

} // namespace cistern::body::CISTERN_UNIT
