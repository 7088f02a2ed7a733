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
        Track made, target;
        for (int i = 0; i < 3; ++i) {
            const Lane level = out.inPlasma[i] / water.plasma[i];
            const Lane wanted = 1.0 + c.demandGain * (1.0 - level * c.perAlbuminLevel);
            made[i] = c.albuminMade * eased(wanted, c.reserve * liver.work[i]);
            target[i] = made[i] * c.albuminTime;
        }
        out.whole = chase(y.albumin, target, s[Rate::albumin]);
        for (int i = 0; i < 3; ++i)
            target[i] = (made[i] + c.albuminReturn * out.whole[i]) * c.albuminExchangeTime;
        out.inPlasma = chase(y.albuminPlasma, target, s[Rate::albuminExchange]);
    }
    return out;
}

/// Glucose and cholesterol over one step.
struct Sugar {
    Lane glucose; ///< at its end
    Track cholesterol;
};

/// What drives glucose over a step or a part of it.
struct SugarDrive {
    Track sensitivity, work;
    Track spill; ///< into urine, of glucose above the threshold [1/h]
};

/// Glucose moves within the hour and nothing but urine waits for it, so it takes so many parts of a
/// step.
inline constexpr int sugarParts = 2;
inline constexpr int sugarPasses = 2;

/// Glucose answers to itself through insulin. It is solved as a lag at the slope of its own balance
/// where the part starts, with the rest in the target: first as if the rest stood still, then in so
/// many passes.
inline Lane glucosePart(const Step& s, Lane begin, const SugarDrive& d, Lane hours) {
    const auto& c = s.c;
    const Lane fed = 1.0 - c.insulinFree, liverShare = 1.0 - c.kidneyShare,
               perGlucose = c.insulinGain * c.perGlucose;
    const auto insulin = [&](int i, Lane level) {
        const Lane wanted = d.sensitivity[i] * (1.0 - c.insulinGain + perGlucose * level);
        return least(positive(wanted), c.insulinMost);
    };
    const auto change = [&](int i, Lane level, Lane ins) {
        const Lane demand = 3.0 / (1.0 + 2.0 * ins);
        const Lane made = liverShare * eased(demand, c.liverMost * d.work[i]) +
                          c.kidneyShare * eased(demand, 0.5 * c.liverMost);
        return c.glucoseOutput * made - c.glucoseUptake * (c.insulinFree + fed * ins) * level -
               d.spill[i] * most(level - c.glucoseThreshold, 0.0);
    };
    const Lane ins = insulin(0, begin);
    // Where insulin has run out it answers no more, and where the liver is at its limit it gives no
    // more.
    const Lane wanted = d.sensitivity.start * (1.0 - c.insulinGain + perGlucose * begin);
    const Lane perLevel = d.sensitivity.start * perGlucose * answering(wanted);
    const Lane brake = 1.0 + 2.0 * ins;
    const Lane free = answering(c.liverMost * d.work.start - 3.0 / brake);
    const Lane slope =
        c.glucoseUptake * (c.insulinFree + fed * (ins + perLevel * begin)) +
        c.glucoseOutput * 6.0 * perLevel / (brake * brake) * (c.kidneyShare + liverShare * free);
    const Lag w = shortLag(slope * hours);
    const Lane time = 1.0 / slope;
    Track target = still(begin + change(0, begin, ins) * time);
    Track out = chase(begin, target.start, w);
    for (int pass = 0; pass < sugarPasses; ++pass) {
        for (int i = 1; i < 3; ++i)
            target[i] = out[i] + change(i, out[i], insulin(i, out[i])) * time;
        out = chase(begin, target, w);
    }
    return out.end;
}

inline Sugar sugar(const Step& s, const State<Lane>& y, const Liver& liver, const Kidney& kidney) {
    const auto& c = s.c;
    Sugar out;
    SugarDrive d{{}, liver.work, {}};
    Track target;
    for (int i = 0; i < 3; ++i) {
        d.sensitivity[i] = 1.0 / (1.0 + c.insulinResistance * kidney.cortisol[i]);
        d.spill[i] = kidney.filtration[i] * c.perGlucoseSpace;
        target[i] = c.cholesterol * liver.made[i] *
                    (1.0 + c.cholesterolSteroid * kidney.cortisol[i]) *
                    (1.0 + c.cholesterolInsulin * (1.0 - d.sensitivity[i])) *
                    (1.0 + c.cholesterolBile * liver.ductal[i]);
    }
    out.cholesterol = chase(y.cholesterol, target, s[Rate::cholesterol]);
    out.glucose = y.glucose;
    for (int k = 0; k < sugarParts; ++k)
        out.glucose = glucosePart(s, out.glucose,
                                  {part(d.sensitivity, k, sugarParts), part(d.work, k, sugarParts),
                                   part(d.spill, k, sugarParts)},
                                  s.hours * (1.0 / sugarParts));
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
