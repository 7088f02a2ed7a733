#pragma once
#include "body/step/digestion.h"
#include "body/step/kidney.h"

namespace cistern::body::CISTERN_UNIT {

// glucose' = output [liver share x eased(demand, most x work) + kidney share x eased(demand, most /
//     2)](1 + f fright) - uptake (free + (1 - free) insulin) glucose - filtration passing / space
// demand = 3 / (1 + 2 insulin) (1 - k (1 - held)); insulin = sensitivity positive(1 - g + g glucose
//     / healthy), at most so much, times (1 - f fright); sensitivity = (1 - lack) / (1 + r excess).
// cholesterol' = (healthy x liver made x what cortisol, lack of insulin, a blocked duct, thyroxine
//     and loss of protein do - cholesterol) / lag. triglycerides alike; a meal's fat comes on top.

/// Glucose and fat over one step.
struct Sugar {
    Lane glucose;  ///< at its end
    Track insulin; ///< effect at a healthy level, share
    Track cholesterol, triglycerides;

    void end(SugarState<Lane>& y) const { y = {glucose, cholesterol.end, triglycerides.end}; }
};

/// What drives glucose over a step or a part of it.
struct SugarDrive {
    Track sensitivity, work;
    Track output; ///< over healthy, of all that makes glucose
    Track demand; ///< over healthy, at the same insulin
    Track spill;  ///< into urine, of glucose above the threshold [1/h]
};

/// Glucose moves within the hour and nothing but urine waits for it, so it takes so many parts of a
/// step.
inline constexpr int sugarParts = single ? 4 : 2;
inline constexpr int sugarPasses = 2;

/// Glucose answers to itself through insulin. It is solved as a lag at the slope of its own balance
/// where the part starts, with the rest in the target: first as if the rest stood still, then in so
/// many passes.
inline Lane glucosePart(const Step& s, Lane begin, const SugarDrive& d, Lane hours) {
    const auto& c = s.c.sugar;
    const Lane fed = 1.0 - c.insulinFree, liverShare = 1.0 - c.kidneyShare,
               perGlucose = c.insulinGain * c.perGlucose;
    const auto insulin = [&](int i, Lane level) {
        const Lane wanted = d.sensitivity[i] * (1.0 - c.insulinGain + perGlucose * level);
        return least(positive(wanted), c.insulinMost);
    };
    const auto change = [&](int i, Lane level, Lane ins) {
        const Lane demand = d.demand[i] * 3.0 / (1.0 + 2.0 * ins);
        const Lane made = liverShare * eased(demand, c.liverMost * d.work[i]) +
                          c.kidneyShare * eased(demand, 0.5 * c.liverMost);
        return c.output * d.output[i] * made - c.uptake * (c.insulinFree + fed * ins) * level -
               d.spill[i] * passing(level, c.threshold, c.thresholdWidth);
    };
    const Lane ins = insulin(0, begin);
    // Where insulin has run out it answers no more, and where the liver is at its limit it gives no
    // more.
    const Lane wanted = d.sensitivity.start * (1.0 - c.insulinGain + perGlucose * begin);
    const Lane perLevel = d.sensitivity.start * perGlucose * answering(wanted);
    const Lane brake = 1.0 + 2.0 * ins;
    const Lane free = answering(c.liverMost * d.work.start - d.demand.start * 3.0 / brake);
    const Lane slope = c.uptake * (c.insulinFree + fed * (ins + perLevel * begin)) +
                       c.output * d.output.start * d.demand.start * 6.0 * perLevel /
                           (brake * brake) * (c.kidneyShare + liverShare * free);
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

inline Sugar sugar(const Step& s, const SugarState<Lane>& y, const Hormones& hormones,
                   const Liver& liver, const Kidney& kidney) {
    const auto& c = s.c.sugar;
    Sugar out;
    SugarDrive d;
    d.work = liver.work;
    const Lane left = 1.0 - s.drive[Drive::insulinLack];
    const Lane ofLoss = (1.0 + c.cholesterolOfKidneyLoss * s.drive[Drive::kidneyProteinLoss]) /
                        (1.0 + c.cholesterolOfGutLoss * s.drive[Drive::gutProteinLoss]);
    Track cholesterol, triglycerides;
    for (int i = 0; i < 3; ++i) {
        const Lane slow = slowEffect(hormones.excess[i]);
        out.insulin[i] = left / (1.0 + c.insulinResistance * hormones.excess[i]);
        d.sensitivity[i] = out.insulin[i] * (1.0 - c.insulinOfFright * hormones.fright[i]);
        d.output[i] = 1.0 + c.outputOfFright * hormones.fright[i];
        d.demand[i] = 1.0 - c.demandOfCortisol * (1.0 - hormones.held[i]);
        d.spill[i] = kidney.filtration[i] * c.perSpace;
        const Lane lacking = 1.0 - out.insulin[i];
        cholesterol[i] = c.cholesterol * liver.made[i] * (1.0 + 2.0 * c.cholesterolSteroid * slow) *
                         (1.0 + c.cholesterolInsulin * lacking) *
                         (1.0 + c.cholesterolBile * liver.ductal[i]) * ofLoss /
                         root(hormones.effect[i]);
        triglycerides[i] = c.triglycerides * (1.0 + 2.0 * c.triglycerideCortisol * slow) *
                           (1.0 + c.triglycerideInsulin * lacking);
    }
    out.cholesterol = chase(y.cholesterol, cholesterol, s.lag.sugar.cholesterol);
    out.triglycerides = chase(y.triglycerides, triglycerides, s.lag.sugar.triglycerides);
    out.glucose = y.glucose;
    constexpr int n = sugarParts;
    for (int k = 0; k < n; ++k)
        out.glucose = glucosePart(s, out.glucose,
                                  {part(d.sensitivity, k, n), part(d.work, k, n),
                                   part(d.output, k, n), part(d.demand, k, n), part(d.spill, k, n)},
                                  s.hours * (1.0 / n));
    return out;
}

inline void read(const Sugar& g, const Water& water, const Digestion& digestion, Readings& out) {
    const Lane per = 1.0 / water.dilution.end;
    out.level(Analyte::glucose) = g.glucose;
    out.level(Analyte::cholesterol) = g.cholesterol.end * per;
    out.level(Analyte::triglycerides) = g.triglycerides.end * per + digestion.fat.end;
}

} // namespace cistern::body::CISTERN_UNIT
