#pragma once
#include "body/step/kidney.h"

namespace cistern::body::CISTERN_UNIT {

/// Albumin over one step: the whole pool, and its part in plasma.
struct Protein {
    Track whole, inPlasma;
};

/// Albumin is broken down alike in plasma and tissue, so the whole pool and the plasma part form a
/// chain; only the liver's answer to a low level loops back, weakly, and is met in two passes.
inline Protein protein(const Step& s, const State<Lane>& y, const Liver& liver,
                       const Water& water) {
    const auto& c = s.c;
    Protein out{still(y.albumin), still(y.albuminPlasma)};
    for (int pass = 0; pass < 2; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i) {
            const Lane level = out.inPlasma[i] / water.plasma[i];
            const Lane wanted = 1.0 + c.demandGain * (1.0 - level / c.albuminLevel);
            target[i] = c.albuminMade * least(wanted, c.reserve * liver.work[i]) * c.albuminTime;
        }
        out.whole = chase(y.albumin, target, s[Rate::albumin]);
        for (int i = 0; i < 3; ++i)
            target[i] = c.albuminReturn * out.whole[i] * c.albuminExchangeTime;
        out.inPlasma = chase(y.albuminPlasma, target, s[Rate::albuminExchange]);
    }
    return out;
}

/// Glucose and cholesterol over one step.
struct Sugar {
    Track glucose, cholesterol;
};

/// Glucose answers to itself through insulin within the hour. It is solved as a lag at the slope of
/// its own balance where the step starts, with the rest in the target, in four passes.
inline Track glucose(const Step& s, const State<Lane>& y, const Liver& liver,
                     const Kidney& kidney) {
    const auto& c = s.c;
    Track sensitivity;
    for (int i = 0; i < 3; ++i)
        sensitivity[i] = 1.0 / (1.0 + c.insulinResistance * kidney.cortisol[i]);
    const auto insulin = [&](int i, Lane level) {
        const Lane wanted = sensitivity[i] * (1.0 + c.insulinGain * (level / c.glucose - 1.0));
        return between(0.0, wanted, c.insulinMost);
    };
    const auto change = [&](int i, Lane level) {
        const Lane ins = insulin(i, level);
        const Lane demand = 3.0 / (1.0 + 2.0 * ins);
        const Lane made = (1.0 - c.kidneyShare) * least(demand, c.liverMost * liver.work[i]) +
                          c.kidneyShare * least(demand, 0.5 * c.liverMost);
        const Lane spilled =
            kidney.filtration[i] / c.glucoseSpace * most(level - c.glucoseThreshold, 0.0);
        return c.glucoseOutput * made -
               c.glucoseUptake * (c.insulinFree + (1.0 - c.insulinFree) * ins) * level - spilled;
    };
    const Lane ins = insulin(0, y.glucose);
    const Lane perLevel = sensitivity.start * c.insulinGain / c.glucose;
    const Lane brake = 1.0 + 2.0 * ins;
    const Lane slope =
        c.glucoseUptake * (c.insulinFree + (1.0 - c.insulinFree) * (ins + perLevel * y.glucose)) +
        c.glucoseOutput * 6.0 * perLevel / (brake * brake);
    const Lag w = s.lagOf(slope);
    const Lane time = 1.0 / slope;
    Track out = still(y.glucose);
    for (int pass = 0; pass < 4; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i) target[i] = out[i] + change(i, out[i]) * time;
        out = chase(y.glucose, target, w);
    }
    return out;
}

inline Sugar sugar(const Step& s, const State<Lane>& y, const Liver& liver, const Kidney& kidney) {
    const auto& c = s.c;
    Sugar out;
    out.glucose = glucose(s, y, liver, kidney);
    Track target;
    for (int i = 0; i < 3; ++i) {
        const Lane deaf = 1.0 - 1.0 / (1.0 + c.insulinResistance * kidney.cortisol[i]);
        target[i] = c.cholesterol * madeByLiver(c, liver.work[i]) *
                    (1.0 + c.cholesterolSteroid * kidney.cortisol[i]) *
                    (1.0 + c.cholesterolInsulin * deaf) *
                    (1.0 + c.cholesterolBile * liver.ductal[i]);
    }
    out.cholesterol = chase(y.cholesterol, target, s[Rate::cholesterol]);
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
