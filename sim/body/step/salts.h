#pragma once
#include "body/step/protein.h"
#include "body/step/sugar.h"

namespace cistern::body::CISTERN_UNIT {

// potassium' = intake (0.75 + 0.25 food) - intake (level / healthy)^3 excretion, excretion = g (1 +
//     h) / (g + h) sqrt(e + (1 - e) outflow) x (floor + (1 - floor) held), g = filtration over
//     healthy, e the gut's share
// phosphate' = intake (0.8 + 0.2 food) - filtration excreted level
// excreted' = (most x / (x + most / healthy - 1) - excreted) / lag, x = (level / healthy (1 + t
//     (effect - 1) + a (1 - held)))^6
// Levels are amounts over their space, which follows body water. The rest is balance of charge:
// tCO2 falls with uremic acid, lactate, ketones and lack of aldosterone; the anion gap rises with
// the same acids and with albumin; chloride closes the balance. Uremic acid bends towards a most,
// so that chloride is never used up.

/// Salts over one step; the others follow at its end.
struct Salts {
    Track potassium, phosphate, excreted;

    void end(SaltState<Lane>& y) const { y = {potassium.end, phosphate.end, excreted.end}; }
};

/// Share of the intake of potassium and of phosphate that goes on without food. From memory.
inline constexpr double fastingPotassium = 0.75, fastingPhosphate = 0.8;

/// Potassium answers to itself steeply: a lag at the slope of its balance where the step starts.
inline Track potassium(const Step& s, Lane begin, const Track& pace, Lane intake) {
    const auto& c = s.c.salts;
    // In folds of the healthy amount: x' = k (intake - pace x^3).
    const Lane k = c.potassiumIntake * c.perPotassium;
    const Lane x = begin * c.perPotassium;
    const Lane slope = 3.0 * k * pace.middle * x * x + 1e-3 * k;
    const Lag w = shortLag(slope * s.hours);
    const Lane time = 1.0 / slope;
    Track out = still(x);
    for (int pass = 0; pass < 4; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i)
            target[i] = out[i] + k * (intake - pace[i] * out[i] * out[i] * out[i]) * time;
        out = chase(x, target, w);
    }
    for (int i = 0; i < 3; ++i) out[i] = out[i] * c.potassiumAmount;
    return out;
}

/// Phosphate and the fraction of it that is excreted chase one another.
inline void phosphate(const Step& s, const SaltState<Lane>& y, const Track& rate, const Track& set,
                      Lane intake, Salts& out) {
    const auto& c = s.c.salts;
    out.phosphate = still(y.phosphate);
    out.excreted = still(y.excreted);
    const Lane pace = rate.middle * y.excreted;
    const Lag w = s.lagOf(pace);
    const Lane time = 1.0 / pace;
    for (int pass = 0; pass < 4; ++pass) {
        Track wanted, target, own;
        for (int i = 0; i < 3; ++i) {
            const Lane x = out.phosphate[i] * set[i], x2 = x * x, x6 = x2 * x2 * x2;
            wanted[i] = c.phosphateMost * x6 / (x6 + c.phosphateBalance);
        }
        out.excreted = chase(y.excreted, wanted, s.lag.salts.phosphateExcreted);
        for (int i = 0; i < 3; ++i) {
            target[i] = intake * time;
            own[i] = 1.0 - rate[i] * out.excreted[i] * time;
        }
        out.phosphate = chase(y.phosphate, target, own, w);
    }
}

inline Salts salts(const Step& s, const SaltState<Lane>& y, const Hormones& hormones,
                   const Water& water, const Nephrons& nephrons, const Kidney& kidney) {
    const auto& c = s.c.salts;
    const Lane food = 1.0 - s.drive[Drive::foodMissing];
    Track pace, rate, set;
    for (int i = 0; i < 3; ++i) {
        const Lane g = kidney.share[i], dry = s.c.water.water / water.total[i];
        const Lane flow = elsewhere + (1.0 - elsewhere) * nephrons.outflow[i];
        pace[i] = g * (1.0 + c.potassiumHalf) / (g + c.potassiumHalf) * root(flow) *
                  (c.potassiumFloor + (1.0 - c.potassiumFloor) * hormones.held[i]) * dry * dry *
                  dry;
        rate[i] = kidney.filtration[i] * c.phosphate * c.perPhosphate * dry;
        set[i] = c.perPhosphate * dry /
                 (1.0 + c.phosphateOfThyroxine * (hormones.effect[i] - 1.0) +
                  c.phosphateOfAldosterone * (1.0 - hormones.held[i]));
    }
    Salts out;
    out.potassium =
        potassium(s, y.potassium, pace, fastingPotassium + (1 - fastingPotassium) * food);
    phosphate(s, y, rate, set,
              c.phosphateIntake * (fastingPhosphate + (1 - fastingPhosphate) * food), out);
    return out;
}

/// Acids begin to gather where creatinine or perfusion has moved this far. Assumed.
inline constexpr double uremicWidth = 0.2, lactateWidth = 0.1, ketoneWidth = 0.05,
                        phosphateWidth = 0.3;
/// Insulin effect below which ketones gather, share. From memory.
inline constexpr double ketoneInsulin = 0.15;
/// No total CO2 falls below this while the animal lives, and where the fall bends [mmol/L].
inline constexpr double leastCo2 = 4, co2Width = 2;
/// No more uremic acid than this gathers [mmol/L]. Assumed: an anion gap beyond 45 is not told of.
inline constexpr double mostUremicAcid = 25;
/// Anion gap per albumin [mmol/g]. (Figge 1998, from memory.)
inline constexpr double gapPerAlbumin = 0.25;

inline void read(const Step& s, const Salts& k, const Hormones& hormones, const Water& water,
                 const Kidney& kidney, const Protein& protein, const Sugar& sugar,
                 const RedCells& blood, Readings& out) {
    const auto& c = s.c.salts;
    const Lane perWater = 1.0 / water.total.end, dry = s.c.water.water * perWater;
    const Lane potassium = k.potassium.end * c.perPotassium * c.potassiumLevel * dry;
    const Lane phosphate = k.phosphate.end * c.perPhosphate * c.phosphate * dry;
    const Lane sodium = (s.c.water.cellSodium + water.salt.end) * perWater -
                        c.sodiumOfGlucose * (sugar.glucose - s.c.sugar.glucose);
    const Lane albumin = protein.albuminPlasma.end / blood.plasma.end;
    const Lane creatinine = kidney.creatinine.end * perWater * c.perCreatinine;
    const Lane uremic = c.uremicAcid * onset(creatinine - 1.0, uremicWidth);
    const Lane acids =
        uremic / (1.0 + uremic * (1 / mostUremicAcid)) +
        c.lactate * onset(1.0 - kidney.perfusion.end, lactateWidth) +
        c.ketones * onset(ketoneInsulin - sugar.insulin.end, ketoneWidth) * (1 / ketoneInsulin);
    const Lane lacking = 1.0 - hormones.held.end;
    const Lane co2 =
        leastCo2 + positive(c.tco2 - acids - c.tco2OfAldosterone * lacking - leastCo2, co2Width);
    const Lane gap = c.gap + acids + gapPerAlbumin * (albumin - s.c.protein.level);
    out.level(Analyte::Na) = sodium;
    out.level(Analyte::K) = potassium;
    out.level(Analyte::tCO2) = co2;
    out.level(Analyte::anionGap) = gap;
    out.level(Analyte::Cl) = sodium + potassium - co2 - gap;
    out.level(Analyte::P) = phosphate;
    out.level(Analyte::Ca) =
        c.calcium * (1.0 - c.calciumBound + c.calciumBound * albumin * s.c.protein.perLevel) /
            (1.0 + c.calciumOfPhosphate * onset(phosphate - c.phosphate, phosphateWidth)) +
        c.calciumOfAldosterone * lacking;
    out.level(Analyte::Mg) = c.magnesium * (1.0 + c.magnesiumOfCreatinine * (creatinine - 1.0));
}

} // namespace cistern::body::CISTERN_UNIT
