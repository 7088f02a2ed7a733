#pragma once
#include "body/step/liver.h"

namespace cistern::body::CISTERN_UNIT {

/// Body water and the salt that holds it, over one step.
struct Water {
    Track total, salt, plasma;
    Track filled; ///< plasma volume over healthy
};

/// While water is being lost replacement stands still, so that the stated deficit is reached
/// exactly at the end of the window; afterwards drinking (or a drip) makes it good with a lag.
inline Water water(const Step& s, const State<Lane>& y) {
    const auto& c = s.c;
    const Lane loss = s.drive[Drive::waterLoss];
    const Lag& refill = s[Rate::water];
    const auto moved = [&](Lane from, Lane rest, Lane lossRate) {
        const Track back = chase(from, rest, refill);
        Track out{from, {}, {}};
        out.middle = ifPositive(loss, from - lossRate * s.hours * 0.5, back.middle);
        out.end = ifPositive(loss, from - lossRate * s.hours, back.end);
        return out;
    };
    Water out;
    out.total = moved(y.water, c.water, loss);
    out.salt = moved(y.salt, c.sodium, loss * c.saltPerLoss);
    Track outside; // extracellular volume: water goes where the salt is
    for (int i = 0; i < 3; ++i)
        outside[i] = out.salt[i] * out.total[i] / (c.cellSodium + out.salt[i]);
    Track filling,
        lost; // volume that tissue fluid holds up; what a loss takes from plasma itself, of it
    for (int i = 0; i < 3; ++i) {
        filling[i] = c.plasma * root(outside[i] * c.perExtracellular);
        lost[i] = c.halfIsotonic * loss * c.refillTime / outside[i];
    }
    out.plasma = still(y.plasma);
    for (int pass = 0; pass < 3; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i) target[i] = filling[i] - lost[i] * out.plasma[i];
        out.plasma = chase(y.plasma, target, s[Rate::refill]);
    }
    for (int i = 0; i < 3; ++i) out.filled[i] = out.plasma[i] * c.perPlasma;
    return out;
}

/// Filtration, and what is filtered, over one step.
struct Kidney {
    Track nephrons, stunned, hyperfiltration, outflow;
    Track perfusion;  ///< of healthy; a plateau above, half at a plasma volume a quarter down
    Track filtration; ///< [L/kg/h]
    Track need;       ///< to keep water: 1 all of it, 0 as filtered, -1 and below none
    Track intake, muscleMass, cortisol, creatinine, urea;
};

/// An amount in body water that is filtered away at a moving rate: a lag at the rate of mid-step,
/// with the difference in the target: first as if it stood still, then in two passes.
inline Track filtered(const Step& s, Lane amount, const Track& made, const Track& rate) {
    const Lag w = s.lagOf(rate.middle);
    const Lane time = 1.0 / rate.middle;
    Track gain, slower, target; // target = gain + slower x amount
    for (int i = 0; i < 3; ++i) {
        gain[i] = made[i] * time;
        slower[i] = 1.0 - rate[i] * time;
    }
    target = still(gain.start + slower.start * amount);
    Track out = chase(amount, target.start, w);
    for (int pass = 0; pass < 2; ++pass) {
        for (int i = 1; i < 3; ++i) target[i] = gain[i] + slower[i] * out[i];
        out = chase(amount, target, w);
    }
    return out;
}

inline void nephrons(const Step& s, const State<Lane>& y, Kidney& out) {
    const auto& c = s.c;
    const auto decayed = [&](Lane amount, Lane rate) {
        const Lane kept = exponential(-rate * s.hours * 0.5); // in half a step
        return Track{amount, amount * kept, amount * kept * kept};
    };
    out.nephrons = decayed(y.nephrons, s.drive[Drive::nephronDeath]);
    const Lane stun = s.drive[Drive::nephronStun];
    const Track fit = decayed(1.0 - y.stunned, stun);
    const Track recovering = chase(y.stunned, Lane(0.0), s[Rate::stun]);
    for (int i = 0; i < 3; ++i) out.stunned[i] = ifPositive(stun, 1.0 - fit[i], recovering[i]);
    Track driven;
    for (int i = 0; i < 3; ++i) driven[i] = 1.0 + c.hyperfiltration * (1.0 - out.nephrons[i]);
    out.hyperfiltration = chase(y.hyperfiltration, driven, s[Rate::hyperfiltration]);
    out.outflow = chase(y.outflow, 1.0 - s.drive[Drive::outflowBlock], s[Rate::outflow]);
}

/// Urea's clearance over filtration: the more water is saved, the more urea slips back. It bends
/// towards 0.3 and 1.4 of its healthy value (from memory: 0.2 when dry to 0.6 in diuresis, of 0.4
/// to 0.6).
inline Lane ureaCleared(const Constants<Lane>& c, Lane need) {
    const Lane saved = c.ureaNeed * (need - c.gravityNeed);
    const Lane bend = saved * ifPositive(saved, 1 / 0.7, 1 / 0.4);
    return c.ureaClearance * (1.0 - saved / root(1.0 + bend * bend));
}

inline Kidney kidney(const Step& s, const State<Lane>& y, const Liver& liver, const Water& water) {
    const auto& c = s.c;
    Kidney out;
    nephrons(s, y, out);
    out.cortisol = chase(y.cortisol, s.drive[Drive::steroidDose], s[Rate::cortisol]);
    out.intake =
        chase(y.intake, 1.0 - (1.0 - c.fastingUrea) * s.drive[Drive::foodMissing], s[Rate::intake]);
    Track built;
    for (int i = 0; i < 3; ++i) built[i] = 1.0 - c.muscleLoss * least(out.cortisol[i], 1.0);
    out.muscleMass = chase(y.muscleMass, built, s[Rate::muscleLoss]);

    Track creatinineMade, creatinineRate, ureaMade, ureaRate;
    for (int i = 0; i < 3; ++i) {
        const Lane p2 = water.filled[i] * water.filled[i], p4 = p2 * p2;
        out.perfusion[i] = 2.0 * p4 / (1.0 + p4);
        const Lane share = out.nephrons[i] * (1.0 - out.stunned[i]) * out.hyperfiltration[i] *
                           out.perfusion[i] * out.outflow[i];
        out.filtration[i] = c.filtration * share;
        const Lane dry = (1.0 - water.filled[i]) * c.perNeedSpan;
        out.need[i] = c.gravityNeed + (1.0 - c.gravityNeed) * dry / root(1.0 + dry * dry) -
                      c.steroidNeed * out.cortisol[i];
        const Lane lost = most(1.0 - share, 0.0);
        creatinineMade[i] =
            c.creatinineMade * out.muscleMass[i] * (1.0 - c.uremicFall * lost * lost * lost);
        creatinineRate[i] = out.filtration[i] / water.total[i];
        ureaRate[i] = ureaCleared(c, out.need[i]) * creatinineRate[i];
        ureaMade[i] = c.ureaMade * out.intake[i] * liver.made[i];
    }
    out.creatinine = filtered(s, y.creatinine, creatinineMade, creatinineRate);
    out.urea = filtered(s, y.urea, ureaMade, ureaRate);
    return out;
}

/// Solute that a healthy kidney excretes [mmol/kg/h]; glucose spilled is measured against it.
/// Assumed.
inline constexpr double soluteLoad = 0.6;
/// How far below plain filtrate the most dilute urine lies [1]: 1.010 to 1.002. Common practice.
inline constexpr double dilution = 0.008;

/// Specific gravity of urine at the end of a step, less one.
inline Lane urineGravity(const Step& s, const Kidney& k, Lane water, Lane glucose) {
    const auto& c = s.c;
    const Lane excreted = k.filtration.end * ureaCleared(c, k.need.end) * k.urea.end / water;
    const Lane spilled = k.filtration.end * most(glucose - c.glucoseThreshold, 0.0);
    const Lane load = most(
        1.0 + c.soluteShare * (excreted * c.perUreaMade - 1.0) + spilled * (1 / soluteLoad), 1.0);
    const Lane perLoad = least(k.nephrons.end * (1.0 - k.stunned.end) / load, 1.0);
    const Lane square = perLoad * perLoad;
    const Lane capacity = 2.0 * square / (1.0 + square) * (1.0 - k.stunned.end);
    const Lane need = most(k.need.end, -1.0);
    return c.gravityPlain + ifPositive(need, c.gravitySpan, dilution) * capacity * need;
}

} // namespace cistern::body::CISTERN_UNIT
