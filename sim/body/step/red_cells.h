#pragma once
#include "body/step/chain.h"
#include "body/step/nephrons.h"
#include "body/step/water.h"

namespace cistern::body::CISTERN_UNIT {

// b = bleeding, daily = trace of inflammation, able = share of nephrons. Amounts per kg.
//
// Vessels. plasma' = refill (blood0 - (1 - spleen0) volume - plasma) - b plasma;
// contraction' = (fright - contraction) / lag + k b;
// outside = 1 - spleen0 positive(1 - contraction); plasma shown = dilution x plasma;
// blood = plasma shown + outside x volume; hematocrit = outside x volume / blood;
// filling = dilution (plasma + (1 - spleen0) volume) / blood0.
//
// Call. e' = ((hematocrit0 - hematocrit) / s - kk (1 - able) / (able + 1/2) - ki daily - e) / lag,
// in decades; drive = onset(e); hurry = 1 + longer stay x drive;
// supply = iron (1 + half) / (iron + half) (1 - kept daily); lack = 1 - supply;
// made = output most / (1 + (most - 1) 10^(-n e)) (1 - block) supply / (1 - kh lack).
//
// Marrow. Three stages, marrow' = inflow - marrow / time, the first from `made`, the last into
// reticulocytes of marrow; released = hurry x those / their time.
// marrowLack' = (lack - marrowLack) / (time of all of them).
//
// Blood. xn = hemolysis + ki daily + ku (1 - able); x = xn + b outside; a = share released as
// aggregates + the rest x drive / (drive + 0.6); ripe = reticulocytes / (life x hurry);
// reticulocytes' = a released - ripe - x reticulocytes;
// young' = (1 - a) released + ripe - young / life - x young;
// two stages of ageing, ageing' = inflow - ageing / time - x ageing.
// The lack of each pool moves as its cells do, with marrowLack x released let in. N = all cells, D
// = all their lack; volume = v (reticulocytes (kr + kd drive) + ku young + ageing - kv D),
// hemoglobin = h (hr reticulocytes + hu young + ageing - kh D).
//
// Iron. aged = (last ageing - kh its lack) / time;
// store' = absorption ((1 + (most - 1) onset(1 - store)) (1 - kept daily) - store) + per cells
// (aged + xn (N - kh D) - made (1 - kh lack)) - leak;
// leak = onset(store - (1 - iron lack)) / 3 h while iron is lacking.
// heme = 0.8 (aged + xn hemoglobin / h) / output + 0.2.
// given = -(1 - spleen0) (volume' + b outside volume): the room that red cells, but for those bled,
// leave to plasma of ordinary protein.

/// Red cells, the spleen and plasma over one step.
struct RedCells {
    Track undiluted; ///< plasma that the vessels draw in, at healthy body water [L/kg]
    Track contraction, erythropoietin, iron, marrowLack;
    Track marrow[3], marrowReticulocytes, reticulocytes, young, ageing[2];
    Track reticulocyteLack, youngLack, ageingLack[2];
    Track plasma, blood; ///< volume of each that circulates [L/kg]
    Track hematocrit;
    Track filling;            ///< of the vessels, as the kidney feels it, over healthy
    Track outside;            ///< share of red cells that is not in the spleen
    Track volume, hemoglobin; ///< of all red cells [L/kg], [g/kg]
    Track lack;               ///< of iron in the marrow, share
    Track lysed;              ///< by hemolysis [10*12/kg/h]
    Track heme;               ///< turnover, fold of healthy
    Track given;              ///< volume that red cells leave to plasma [L/kg/h]

    Lane cells(int node) const {
        return reticulocytes[node] + young[node] + ageing[0][node] + ageing[1][node];
    }
    Lane lacking(int node) const {
        return reticulocyteLack[node] + youngLack[node] + ageingLack[0][node] + ageingLack[1][node];
    }
    void end(RedCellState<Lane>& y) const {
        y = {undiluted.end,
             contraction.end,
             erythropoietin.end,
             {marrow[0].end, marrow[1].end, marrow[2].end},
             marrowReticulocytes.end,
             reticulocytes.end,
             young.end,
             {ageing[0].end, ageing[1].end},
             marrowLack.end,
             reticulocyteLack.end,
             youngLack.end,
             {ageingLack[0].end, ageingLack[1].end},
             iron.end};
    }
};

namespace red {

/// Widths over which erythropoietin begins to hurry cells [decades], absorption to rise and a store
/// to leak [shares]; nephrons at which erythropoietin's loss bends [share]; drive at which half the
/// rest is released as aggregates [decades]; lag of a store that leaks [h]. All assumed.
inline constexpr double hurrying = 0.1, craving = 0.05, leaking = 0.02, bend = 0.5, halfShift = 0.6,
                        leakLag = 3;
/// Heme of other origin than red cells, share of the total. From memory.
inline constexpr double otherHeme = 0.2;

/// Times around the loop of cells, hematocrit, erythropoietin and marrow, weak within a step: one
/// meets it to third order, two to fourth.
inline constexpr int passes = 2;

/// Least part of the spleen's lag that a step is taken for: a lane that stands still has none.
inline constexpr double instant = 1e-9;

/// onset(x, width) and how fast it rises.
struct Onset {
    Lane value, slope;
};
inline Onset onsetOf(Lane x, Lane width) {
    const Lane above = most(x, 0.0), share = above / (above + width);
    return {above * share, share * (2.0 - share)};
}

/// The passage through a compartment that loses near its healthy rate 1/time, from that rate's lag.
inline Passage passageNear(const Lag& w, Lane time, const Track& loss) {
    const Lane ownStart = 1.0 - loss.start * time, ownMiddle = 1.0 - loss.middle * time,
               ownEnd = 1.0 - loss.end * time;
    const Lane a = 1.0 - w.middle[1] * ownMiddle, b = w.middle[2] * ownEnd;
    const Lane c = w.end[1] * ownMiddle, d = 1.0 - w.end[2] * ownEnd;
    const Lane per = 1.0 / (a * d - b * c);
    const auto both = [&](Lane middle, Lane end, Lane scale, Lane& toMiddle, Lane& toEnd) {
        toMiddle = (d * middle + b * end) * scale;
        toEnd = (c * middle + a * end) * scale;
    };
    Passage p;
    both(w.keepMiddle + w.middle[0] * ownStart, w.keepEnd + w.end[0] * ownStart, per, p.keepMiddle,
         p.keepEnd);
    for (int i = 0; i < 3; ++i) both(w.middle[i], w.end[i], per * time, p.middle[i], p.end[i]);
    return p;
}

/// What is known of a step before its cells are.
struct Setting {
    Track dilution;
    Track broken, lost; ///< red cells, but for bleeding; in all [1/h]
    Track called;       ///< erythropoietin at a hematocrit of 0 [decades]
    Track let;          ///< share of iron that inflammation lets pass
    Lane full, leak;    ///< iron: store above which it leaks, and how fast [1/h]
    Passage refill, young, old;
};

/// What erythropoietin and iron call for, node by node.
struct Calls {
    Track drive;              ///< of erythropoietin above healthy
    Track aggregates;         ///< share of released cells
    Track released, ripening; ///< of reticulocytes, from marrow and in blood [1/h]
    Track wanted;             ///< output of the marrow if iron were ample [10*12/kg/h]
    Track made;               ///< with the iron there is [10*12/kg/h]
};

inline Setting setting(const Step& s, const Track& daily, const Water& water,
                       const Nephrons& nephrons, const RedCells& out) {
    const auto& c = s.c.redCells;
    const auto& rate = s.c.rate.redCells;
    const auto& lag = s.lag.redCells;
    const Lane bleeding = s.drive[Drive::bleeding], lacking = s.drive[Drive::ironLack];
    Setting set;
    set.dilution = water.dilution;
    Track young, old;
    for (int i = 0; i < 3; ++i) {
        const Lane able = nephrons.able[i];
        set.broken[i] = s.drive[Drive::hemolysis] + c.lossOfInflammation * daily[i] +
                        c.lossOfUremia * (1.0 - able);
        set.lost[i] = set.broken[i] + bleeding * out.outside[i];
        set.called[i] = c.hematocrit * c.perHematocritDecade -
                        c.erythropoietinOfKidney * (1.0 - able) / (able + bend) -
                        c.erythropoietinOfInflammation * daily[i];
        set.let[i] = 1.0 - c.ironHeld * daily[i];
        young[i] = rate.young + set.lost[i];
        old[i] = rate.ageing + set.lost[i];
    }
    set.full = 1.0 - lacking;
    set.leak = ifPositive(lacking, 1 / leakLag, 0.0);
    set.refill = passageNear(lag.refill, 1.0 / rate.refill, still(rate.refill + bleeding));
    set.young = passageNear(lag.young, c.youngLife, young);
    set.old = passageNear(lag.ageing, c.ageingTime, old);
    return set;
}

/// What erythropoietin calls for at a node.
inline void answer(const Step& s, int i, Lane erythropoietin, Calls& out) {
    const auto& c = s.c.redCells;
    const auto& rate = s.c.rate.redCells;
    const Lane drive = onset(erythropoietin, hurrying), hurry = 1.0 + c.longerStay * drive;
    out.drive[i] = drive;
    out.aggregates[i] = c.aggregateShare + (1.0 - c.aggregateShare) * drive / (drive + halfShift);
    out.released[i] = rate.marrowReticulocytes * hurry;
    out.ripening[i] = rate.reticulocytes / hurry;
    out.wanted[i] = c.output * (1.0 - s.drive[Drive::marrowBlock]) * c.outputMost /
                    (1.0 + (c.outputMost - 1.0) * exponential(-c.steepness * erythropoietin));
}

/// What the marrow makes of that with the iron at a node: fewer cells, and paler ones.
inline void make(const Step& s, int i, const Setting& set, Calls& call, RedCells& out) {
    const auto& c = s.c.redCells;
    const Lane iron = out.iron[i];
    const Lane supply = iron * (1.0 + c.halfSupply) / (iron + c.halfSupply) * set.let[i];
    out.lack[i] = 1.0 - supply;
    call.made[i] = call.wanted[i] * supply / (1.0 - c.hemoglobinOfLack * out.lack[i]);
}

/// Volume and hemoglobin of all red cells at a node.
inline void measure(const RedCellConstants<Lane>& c, int i, Lane drive, RedCells& out) {
    const Lane old = out.ageing[0][i] + out.ageing[1][i], lacking = out.lacking(i);
    out.volume[i] =
        c.volume * (out.reticulocytes[i] * (c.reticulocyteVolume + c.volumeOfDrive * drive) +
                    c.youngVolume * out.young[i] + old - c.volumeOfLack * lacking);
    out.hemoglobin[i] =
        c.hemoglobin * (c.reticulocyteHemoglobin * out.reticulocytes[i] +
                        c.youngHemoglobin * out.young[i] + old - c.hemoglobinOfLack * lacking);
}

/// Cells that die of age, as cells full of hemoglobin [10*12/kg/h].
inline Lane aged(const Step& s, int i, const RedCells& out) {
    return s.c.rate.redCells.ageing *
           (out.ageing[1][i] - s.c.redCells.hemoglobinOfLack * out.ageingLack[1][i]);
}

/// Cells whose iron returns to the store, as full ones [10*12/kg/h].
inline Lane returning(const Step& s, int i, Lane broken, const RedCells& out) {
    return aged(s, i, out) +
           broken * (out.cells(i) - s.c.redCells.hemoglobinOfLack * out.lacking(i));
}

/// Change of the volume of red cells but for cells lost before their time [L/kg/h].
inline Lane swelling(const Step& s, int i, const Setting& set, const Calls& call,
                     const RedCells& out) {
    const auto& c = s.c.redCells;
    const auto& rate = s.c.rate.redCells;
    const Lane in = call.released[i] * out.marrowReticulocytes[i];
    const Lane fresh = call.aggregates[i] * in, ripe = call.ripening[i] * out.reticulocytes[i],
               mature = rate.young * out.young[i];
    const Lane target = set.called[i] - c.perHematocritDecade * out.hematocrit[i];
    const Lane change = (target - out.erythropoietin[i]) * rate.erythropoietin *
                        onsetOf(out.erythropoietin[i], hurrying).slope; // of the drive
    return c.volume *
           ((fresh - ripe) * (c.reticulocyteVolume + c.volumeOfDrive * call.drive[i]) +
            out.reticulocytes[i] * c.volumeOfDrive * change +
            c.youngVolume * (in - fresh + ripe - mature) + mature - rate.ageing * out.ageing[1][i] -
            c.volumeOfLack * (in * out.marrowLack[i] - rate.ageing * out.ageingLack[1][i]));
}

/// What the vessels hold at a node.
inline void fill(int i, const Setting& set, RedCells& out) {
    out.plasma[i] = set.dilution[i] * out.undiluted[i];
    const Lane cells = out.outside[i] * out.volume[i];
    out.blood[i] = out.plasma[i] + cells;
    out.hematocrit[i] = cells / out.blood[i];
}

/// Plasma and erythropoietin from the volume of red cells.
inline void vessels(const Step& s, const Setting& set, RedCells& out) {
    const auto& c = s.c.redCells;
    Track inflow, target;
    for (int i = 0; i < 3; ++i)
        inflow[i] =
            s.c.rate.redCells.refill * (c.bloodVolume - (1.0 - c.spleenShare) * out.volume[i]);
    out.undiluted = set.refill(out.undiluted.start, inflow);
    for (int i = 0; i < 3; ++i) {
        if (i > 0) fill(i, set, out);
        target[i] = set.called[i] - c.perHematocritDecade * out.hematocrit[i];
    }
    out.erythropoietin = chase(out.erythropoietin.start, target, s.lag.redCells.erythropoietin);
}

/// The balance of iron at a node along its slope there: what the store's lag chases, target + own x
/// store (one turn of Newton's method).
struct Balance {
    Lane target, own;
};
inline Balance balance(const Step& s, int i, Lane iron, Lane cells, const Setting& set,
                       const Calls& call) {
    const auto& c = s.c.redCells;
    const Lane let = set.let[i];
    const Onset craved = onsetOf(1.0 - iron, craving), leak = onsetOf(iron - set.full, leaking);
    const Lane more = (c.absorptionMost - 1.0) * let, per = 1.0 / (iron + c.halfSupply);
    const Lane use = c.ironOfCells * call.wanted[i] * let * (1.0 + c.halfSupply) * per;
    const Lane change = c.absorption * (let + more * craved.value - iron) + c.ironOfCells * cells -
                        use * iron - set.leak * leak.value;
    const Lane slope = -c.absorption * (more * craved.slope + 1.0) - use * c.halfSupply * per -
                       set.leak * leak.slope;
    return {(change - slope * iron) * c.ironTime, 1.0 + slope * c.ironTime};
}

/// Where the step starts.
inline void begin(const Step& s, const RedCellState<Lane>& y, const Setting& set, Calls& call,
                  RedCells& out) {
    out.undiluted.start = y.plasma;
    out.erythropoietin.start = y.erythropoietin;
    out.marrowReticulocytes.start = y.marrowReticulocytes;
    out.marrowLack.start = y.marrowLack;
    out.reticulocytes.start = y.reticulocytes;
    out.young.start = y.young;
    out.reticulocyteLack.start = y.reticulocyteLack;
    out.youngLack.start = y.youngLack;
    for (int k = 0; k < 2; ++k) {
        out.ageing[k].start = y.ageing[k];
        out.ageingLack[k].start = y.ageingLack[k];
    }
    out.iron.start = y.iron;
    answer(s, 0, y.erythropoietin, call);
    make(s, 0, set, call, out);
    measure(s.c.redCells, 0, call.drive.start, out);
    fill(0, set, out);
}

/// Marrow, blood and the lack that cells carry, down the flow.
inline void flow(const Step& s, const RedCellState<Lane>& y, const Setting& set, const Calls& call,
                 RedCells& out) {
    const auto& c = s.c.redCells;
    const auto& rate = s.c.rate.redCells;
    const auto& lag = s.lag.redCells;
    Track in, loss;
    for (int i = 0; i < 3; ++i) {
        in[i] = c.marrowStageTime * call.made[i];
        loss[i] = call.ripening[i] + set.lost[i];
    }
    for (int k = 0; k < 3; ++k) in = out.marrow[k] = chase(y.marrow[k], in, lag.marrow);
    out.marrowLack = chase(y.marrowLack, out.lack, lag.marrowLack);
    for (int i = 0; i < 3; ++i) in[i] *= rate.marrow;
    const Passage leaving =
        passageNear(lag.marrowReticulocytes, c.marrowReticulocyteTime, call.released);
    out.marrowReticulocytes = leaving(y.marrowReticulocytes, in);

    const Passage fresh = passageNear(lag.reticulocytes, c.reticulocyteLife, loss);
    const auto blood = [&](Track& reticulocytes, Track& young, Track* ageing) {
        Track passed;
        for (int i = 0; i < 3; ++i) passed[i] = call.aggregates[i] * in[i];
        reticulocytes = fresh(reticulocytes.start, passed);
        for (int i = 0; i < 3; ++i)
            passed[i] = in[i] - passed[i] + call.ripening[i] * reticulocytes[i];
        young = set.young(young.start, passed);
        for (int i = 0; i < 3; ++i) passed[i] = rate.young * young[i];
        ageing[0] = set.old(ageing[0].start, passed);
        for (int i = 0; i < 3; ++i) passed[i] = rate.ageing * ageing[0][i];
        ageing[1] = set.old(ageing[1].start, passed);
    };
    for (int i = 0; i < 3; ++i) in[i] = call.released[i] * out.marrowReticulocytes[i];
    blood(out.reticulocytes, out.young, out.ageing);
    for (int i = 0; i < 3; ++i) in[i] *= out.marrowLack[i];
    blood(out.reticulocyteLack, out.youngLack, out.ageingLack);
}

/// Everything that waits for cells, hematocrit, erythropoietin and iron in a circle.
inline void circle(const Step& s, const RedCellState<Lane>& y, const Setting& set, Calls& call,
                   RedCells& out) {
    const auto& c = s.c.redCells;
    begin(s, y, set, call, out);
    const auto answered = [&] {
        for (int i = 1; i < 3; ++i) {
            answer(s, i, out.erythropoietin[i], call);
            make(s, i, set, call, out);
        }
    };
    // First as if the volume of red cells kept swelling at its present pace, and iron moved along
    // its present slope.
    Track own, target = still(swelling(s, 0, set, call, out) * c.ageingTime);
    for (int i = 0; i < 3; ++i) own[i] = 1.0 - set.lost[i] * c.ageingTime;
    out.volume = chase(out.volume.start, target, own, s.lag.redCells.ageing);
    vessels(s, set, out);
    const Balance first = balance(s, 0, y.iron, returning(s, 0, set.broken.start, out), set, call);
    out.iron = chase(y.iron, still(first.target), still(first.own), s.lag.redCells.iron);
    answered();
    for (int pass = 0; pass < passes; ++pass) {
        flow(s, y, set, call, out);
        for (int i = 1; i < 3; ++i) measure(c, i, call.drive[i], out);
        vessels(s, set, out);
        target.start = first.target;
        own.start = first.own;
        for (int i = 1; i < 3; ++i) {
            const Lane cells = returning(s, i, set.broken[i], out);
            const Balance b = balance(s, i, out.iron[i], cells, set, call);
            target[i] = b.target;
            own[i] = b.own;
        }
        out.iron = chase(y.iron, target, own, s.lag.redCells.iron);
        if (pass + 1 < passes) answered();
    }
}

} // namespace red

inline RedCells redCells(const Step& s, const RedCellState<Lane>& y, const Hormones& h,
                         const Water& water, const Nephrons& nephrons) {
    const auto& c = s.c.redCells;
    const Lane hemolysis = s.drive[Drive::hemolysis];
    RedCells out;
    const Lane contracting =
        s.drive[Drive::fright] + c.contractionOfBleeding * s.drive[Drive::bleeding];
    out.contraction = chase(y.contraction, contracting, s.lag.redCells.contraction);
    // The spleen is faster than a step: its middle is put where the step's mean comes out right.
    const Lane moved = out.contraction.end - out.contraction.start;
    const Lane mean =
        contracting - moved / most(s.c.rate.redCells.contraction * s.hours, red::instant);
    out.contraction.middle = 1.5 * mean - 0.25 * (out.contraction.start + out.contraction.end);
    for (int i = 0; i < 3; ++i)
        out.outside[i] = 1.0 - c.spleenShare * positive(1.0 - out.contraction[i]);

    const red::Setting set = red::setting(s, h.daily, water, nephrons, out);
    red::Calls call;
    red::circle(s, y, set, call, out);

    const Lane settled = 1.0 - c.spleenShare;
    for (int i = 0; i < 3; ++i) {
        const Lane broken = set.broken[i], volume = out.volume[i];
        out.filling[i] = set.dilution[i] * (out.undiluted[i] + settled * volume) * c.perBloodVolume;
        out.lysed[i] = hemolysis * out.cells(i);
        const Lane turnover = red::aged(s, i, out) + broken * out.hemoglobin[i] * c.perHemoglobin;
        out.heme[i] = (1 - red::otherHeme) * turnover * c.perOutput + red::otherHeme;
        out.given[i] = settled * (broken * volume - red::swelling(s, i, set, call, out));
    }
    return out;
}

inline void read(const Step& s, const RedCells& r, Readings& out) {
    const auto& c = s.c.redCells;
    const Lane cells = r.cells(2), perBlood = 1.0 / r.blood.end, perCell = 1.0 / cells;
    const Lane circulating = r.outside.end * perBlood, hemoglobin = r.hemoglobin.end;
    out.level(Analyte::RBC) = circulating * cells;
    out.level(Analyte::Hb) = circulating * hemoglobin;
    out.level(Analyte::Hct) = r.hematocrit.end;
    out.level(Analyte::PCV) = r.hematocrit.end;
    out.level(Analyte::MCV) = r.volume.end * perCell * 1000.0; // [fL] from [pL]
    out.level(Analyte::MCH) = hemoglobin * perCell;
    out.level(Analyte::MCHC) = hemoglobin / r.volume.end;
    out.level(Analyte::reticulocytes) = circulating * r.reticulocytes.end * 1000.0;
    out[reading::plasmaVolume] = r.plasma.end * 1000.0;
    out.work(Tissue::redCells) = r.outside.end * hemoglobin * c.perCirculating;
    out.leak(Tissue::redCells) = 1.0 + s.drive[Drive::hemolysis] * c.life;
}

} // namespace cistern::body::CISTERN_UNIT
