#pragma once
#include "body/step/liver.h"
#include "body/step/red_cells.h"

namespace cistern::body::CISTERN_UNIT {

// filtration = G0 (e + (1 - e) nephrons (1 - stunned) hyperfiltration perfusion outflow
//     effect^(1/4)), with effect of thyroxine and perfusion = 2 p^4 / (1 + p^4) of the filling p of
//     the vessels; e is what the gut clears where no kidney does.
// need (to keep water): healthy + (1 - healthy) d / sqrt(1 + d^2) - cortisol, d = (1 - p) / span.
// creatinine' = made x muscle (1 - fall (1 - share)^3) - filtration creatinine / water
// urea' = made x intake x liver effect^(1/8) - cleared(need) filtration urea / water
// SDMA' = made - filtration SDMA / water; its level has a floor that is not filtered.
// muscleMass' = (1 - 2 loss x / (1 + x) - muscleMass) / lag, x = excess of cortisol.
// Specific gravity: see urineGravity(). Protein in urine: see urineProtein().

/// Share of the healthy clearance that is left without a kidney: the gut's, whose bacteria break
/// down what it takes. (Half of what Jones & Burnett 1974 tell of man, from memory.)
inline constexpr double elsewhere = 0.005;

/// Filtration, and what is filtered, over one step.
struct Kidney {
    Track perfusion;     ///< of healthy; a plateau above, half at a filling of three quarters
    Track share;         ///< filtration over healthy
    Track filtration;    ///< [L/kg/h]
    Lane creatinineMade; ///< at the end of the step [umol/kg/h]
    Track need;          ///< to keep water: 1 all of it, 0 as filtered, -1 and below none
    Track intake, muscleMass, creatinine, urea, sdma;

    void end(KidneyState<Lane>& y) const;
};

/// Urea's clearance over filtration: the more water is saved, the more urea slips back. It bends
/// towards 0.3 and 1.4 of its healthy value (from memory: 0.2 when dry to 0.6 in diuresis, of 0.4
/// to 0.6).
inline Lane ureaCleared(const KidneyConstants<Lane>& c, Lane need) {
    const Lane saved = c.ureaNeed * (need - c.gravityNeed);
    const Lane bend = saved * ifPositive(saved, 1 / 0.7, 1 / 0.4);
    return c.ureaClearance * (1.0 - saved / root(1.0 + bend * bend));
}

/// What half a loss of cortisol's slow effects needs [mg/kg/d].
inline Lane slowEffect(Lane excess) {
    return excess / (1.0 + excess);
}

inline Kidney kidney(const Step& s, const KidneyState<Lane>& y, const Hormones& hormones,
                     const Liver& liver, const Water& water, const Nephrons& nephrons,
                     const RedCells& blood) {
    const auto& c = s.c.kidney;
    const auto& lag = s.lag.kidney;
    Kidney out;
    out.intake =
        chase(y.intake, 1.0 - (1.0 - c.fastingUrea) * s.drive[Drive::foodMissing], lag.intake);
    Track built;
    for (int i = 0; i < 3; ++i)
        built[i] = 1.0 - 2.0 * c.muscleLoss * slowEffect(hormones.excess[i]);
    out.muscleMass = chase(y.muscleMass, built, lag.muscleMass);

    Track creatinineMade, ureaMade, rate, ureaRate;
    for (int i = 0; i < 3; ++i) {
        const Lane p2 = blood.filling[i] * blood.filling[i], p4 = p2 * p2;
        const Lane half = root(hormones.effect[i]), quarter = root(half);
        out.perfusion[i] = 2.0 * p4 / (1.0 + p4);
        out.share[i] = elsewhere + (1.0 - elsewhere) * nephrons.able[i] *
                                       nephrons.hyperfiltration[i] * out.perfusion[i] *
                                       nephrons.outflow[i] * quarter;
        out.filtration[i] = c.filtration * out.share[i];
        const Lane dry = (1.0 - blood.filling[i]) * c.perNeedSpan;
        out.need[i] = c.gravityNeed + (1.0 - c.gravityNeed) * dry / root(1.0 + dry * dry) -
                      c.steroidNeed * hormones.excess[i];
        const Lane lost = most(1.0 - out.share[i], 0.0);
        creatinineMade[i] =
            c.creatinineMade * out.muscleMass[i] * (1.0 - c.uremicFall * lost * lost * lost);
        rate[i] = out.filtration[i] / water.total[i];
        ureaRate[i] = ureaCleared(c, out.need[i]) * rate[i];
        ureaMade[i] = c.ureaMade * out.intake[i] * liver.made[i] * root(quarter);
    }
    const Passage filtered = passage(rate, s.hours);
    out.creatinine = filtered(y.creatinine, creatinineMade);
    out.sdma = filtered(y.sdma, still(c.sdmaMade));
    out.urea = passage(ureaRate, s.hours)(y.urea, ureaMade);
    out.creatinineMade = creatinineMade.end;
    return out;
}

inline void Kidney::end(KidneyState<Lane>& y) const {
    y.creatinine = creatinine.end;
    y.urea = urea.end;
    y.sdma = sdma.end;
    y.intake = intake.end;
    y.muscleMass = muscleMass.end;
}

inline void read(const Step& s, const Kidney& k, const Nephrons& n, const Water& water,
                 Readings& out) {
    const Lane per = 1.0 / water.total.end;
    out.level(Analyte::creatinine) = k.creatinine.end * per;
    out.level(Analyte::urea) = k.urea.end * per;
    out.level(Analyte::SDMA) = s.c.kidney.sdmaFloor + k.sdma.end * per;
    out.work(Tissue::kidney) = n.able.end * least(k.perfusion.end, 1.0) * n.outflow.end;
    out[reading::gfr] = k.filtration.end * (1000.0 / 60);
    out[reading::hydration] = water.total.end / s.c.water.water;
}

/// Solute that a healthy kidney excretes [mmol/kg/h]; glucose spilled is measured against it.
/// Assumed.
inline constexpr double soluteLoad = 0.6;
/// How far below plain filtrate the most dilute urine lies [1]: 1.010 to 1.002. Common practice.
inline constexpr double dilution = 0.008;

/// Glucose that passes the kidney's threshold, which is splayed [mmol/L].
inline Lane passing(Lane glucose, Lane threshold, Lane halfSplay) {
    return positive(glucose - threshold, halfSplay);
}

/// Specific gravity of urine at the end of a step, less one.
inline Lane urineGravity(const Step& s, const Kidney& k, const Nephrons& n,
                         const Hormones& hormones, const Water& water, Lane glucose) {
    const auto& c = s.c.kidney;
    const Lane excreted =
        k.filtration.end * ureaCleared(c, k.need.end) * k.urea.end / water.total.end;
    const Lane spilled = k.filtration.end * passing(glucose, c.glucoseThreshold, c.thresholdWidth);
    const Lane load = most(
        1.0 + c.soluteShare * (excreted * c.perUreaMade - 1.0) + spilled * (1 / soluteLoad), 1.0);
    const Lane perLoad = least(n.able.end / load, 1.0);
    const Lane square = perLoad * perLoad;
    const Lane capacity = 2.0 * square / (1.0 + square) * (1.0 - n.stunned.end) *
                          (1.0 - c.aldosteroneConcentration * (1.0 - hormones.held.end));
    const Lane need = most(k.need.end, -1.0);
    return c.gravityPlain + ifPositive(need, c.gravitySpan, dilution) * capacity * need;
}

/// Protein excreted in urine [mg/kg/h]: the little of health, more with cortisol, and what a sick
/// filter loses of albumin.
inline Lane urineProtein(const Step& s, const Hormones& hormones, Lane albumin) {
    const auto& c = s.c.kidney;
    const Lane healthy = c.urineProtein * c.creatinineMade * (creatinineMass / 1000);
    return healthy * (1.0 + c.urineProteinOfCortisol * slowEffect(hormones.excess.end)) +
           1000.0 * s.drive[Drive::kidneyProteinLoss] * albumin * s.c.protein.perLevel;
}

/// Protein in urine at the end of a step, for a level of albumin. The ratio is to the creatinine
/// that is made: whatever holds back urine holds back both.
inline void readUrineProtein(const Step& s, const Kidney& k, const Hormones& hormones, Lane albumin,
                             Readings& out) {
    const Lane protein = urineProtein(s, hormones, albumin);
    const Lane healthy =
        s.c.kidney.urineProtein * s.c.kidney.creatinineMade * (creatinineMass / 1000);
    out.level(Analyte::UPC) = protein / (k.creatinineMade * (creatinineMass / 1000));
    out.leak(Tissue::kidney) = protein / healthy;
}

} // namespace cistern::body::CISTERN_UNIT
