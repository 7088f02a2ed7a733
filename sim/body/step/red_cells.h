#pragma once
#include "body/step/chain.h"
#include "body/step/nephrons.h"
#include "body/step/water.h"

namespace cistern::body::CISTERN_UNIT {

// b = bleeding, daily = trace of inflammation, share = able nephrons. Amounts per kg.
// Vessels. plasma' = refill (blood0 - (1 - spleen0) volume - plasma) - b plasma;
// contraction' = (fright - contraction) / lag + k b; outside = 1 - spleen0 positive(1 -
// contraction); plasma shown = dilution x plasma, blood = that + outside x volume; hematocrit =
// outside x volume / blood; filling = dilution (plasma + (1 - spleen0) volume) / blood0.
// Call. e' = ((hematocrit0 - hematocrit) / s - kidney (1 - share) / (share + 1/2) - ki daily - e) /
// lag, in decades; drive = onset(e); hurry = 1 + longer stay x drive.
// made = output most / (1 + (most - 1) 10^(-n e)) supply / filled (1 - block); supply = iron (1 +
// half) / (iron + half) (1 - kept daily); lack = 1 - supply; filled = 1 - kh lack.
// Marrow. Three stages, each marrow' = inflow - marrow / time, from `made`; reticulocytes in marrow
// from them, released = hurry x marrow reticulocytes / time.
// Blood, x = hemolysis + ki daily + ku (1 - share) + b outside:
// reticulocytes' = a released - (1 / (life hurry) + x) reticulocytes, a = share + (1 - share) drive
// / (drive + 0.6); young' = (1 - a) released + reticulocytes / (life hurry) - (1 / life + x) young;
// two stages of ageing, each ' = inflow - (1 / time + x) stage.
// Lack. marrowLack' = (lack - marrowLack) / marrow time; the lack of each pool moves as its cells
// do, with `released` times marrowLack let in. D = sum of lacks, N = of cells.
// volume = v (reticulocytes (kr + kd drive) + ku young + ageing - kv D), hemoglobin alike with kh
// D. Iron, store' = absorption ((1 + (most - 1) onset(1 - store)) (1 - kept daily) - store) + per
// cells (aged + xn (N - kh D) - made filled) - leak, aged = (last stage - kh its lack) / time, xn =
// x but bleeding, leak = onset(store - (1 - iron lack)) / 3 h while iron is lacking.
// heme = 0.8 (aged + xn hemoglobin / h) / output + 0.2. given = -(1 - spleen0) volume' but for what
// is bled: the room that red cells leave to plasma of ordinary protein.

/// Red cells, the spleen and plasma over one step.
struct RedCells {
    Track undiluted; ///< plasma that the vessels draw in, at healthy body water [L/kg]
    Track contraction, erythropoietin, iron, marrowLack;
    Track marrow[3], marrowReticulocytes, reticulocytes, young, ageing[2];
    Track reticulocyteLack, youngLack, ageingLack[2];
    Track plasma, blood;      ///< volume of each that circulates [L/kg]
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
/// rest is released as aggregates [decades]; lag of a store that leaks [h]; heme of other origin
/// than red cells [share]. All assumed but the last.
inline constexpr double hurrying = 0.1, craving = 0.05, leaking = 0.02, bend = 0.5, halfShift = 0.6,
                        leakLag = 3;
inline constexpr double otherHeme = 0.2; // of the total, from memory

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

/// What drives red cells over a step, and what follows from it alone.
struct Calls {
    Track broken, lost;       ///< red cells, but for bleeding; in all [1/h]
    Track drive, hurry;       ///< of erythropoietin above healthy
    Track aggregates;         ///< share of released cells
    Track released, ripening; ///< of reticulocytes, from marrow and in blood [1/h]
    Track wanted;             ///< output of the marrow if iron were ample [10*12/kg/h]
};

/// Erythropoietin's target and what it calls for.
inline Lane called(const Step& s, Lane hematocrit, Lane daily, Lane share) {
    const auto& c = s.c.redCells;
    return (c.hematocrit - hematocrit) * c.perHematocritDecade -
           c.erythropoietinOfKidney * (1.0 - share) / (share + bend) -
           c.erythropoietinOfInflammation * daily;
}
inline void answer(const Step& s, int i, Lane erythropoietin, Calls& out) {
    const auto& c = s.c.redCells;
    const Lane drive = onset(erythropoietin, hurrying), hurry = 1.0 + c.longerStay * drive;
    out.drive[i] = drive;
    out.hurry[i] = hurry;
    out.aggregates[i] = c.aggregateShare + (1.0 - c.aggregateShare) * drive / (drive + halfShift);
    const auto& rate = s.c.rate.redCells;
    out.released[i] = rate.marrowReticulocytes * hurry;
    out.ripening[i] = rate.reticulocytes / hurry;
    out.wanted[i] = c.output * (1.0 - s.drive[Drive::marrowBlock]) * c.outputMost /
                    (1.0 + (c.outputMost - 1.0) * exponential(-c.steepness * erythropoietin));
}

inline Lane supply(const RedCellConstants<Lane>& c, Lane iron, Lane daily) {
    return iron * (1.0 + c.halfSupply) / (iron + c.halfSupply) * (1.0 - c.ironHeld * daily);
}

/// Volumes and hemoglobin of the cells at a node.
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
inline Lane swelling(const Step& s, int i, const Calls& call, Lane erythropoietinChange,
                     const RedCells& out) {
    const auto& c = s.c.redCells;
    const auto& rate = s.c.rate.redCells;
    const Lane in = call.released[i] * out.marrowReticulocytes[i];
    const Lane fresh = call.aggregates[i] * in, ripe = call.ripening[i] * out.reticulocytes[i],
               mature = rate.young * out.young[i];
    const Lane driveChange = onsetOf(out.erythropoietin[i], hurrying).slope * erythropoietinChange;
    return c.volume *
           ((fresh - ripe) * (c.reticulocyteVolume + c.volumeOfDrive * call.drive[i]) +
            out.reticulocytes[i] * c.volumeOfDrive * driveChange +
            c.youngVolume * (in - fresh + ripe - mature) + mature - rate.ageing * out.ageing[1][i] -
            c.volumeOfLack * (in * out.marrowLack[i] - rate.ageing * out.ageingLack[1][i]));
}

/// What the vessels hold, from the volume of red cells.
inline void fill(const Step& s, const Track& dilution, RedCells& out) {
    const auto& c = s.c.redCells;
    const Lane settled = 1.0 - c.spleenShare;
    Track room;
    for (int i = 0; i < 3; ++i) room[i] = c.bloodVolume - settled * out.volume[i];
    const Lane bled = -s.drive[Drive::bleeding] / s.c.rate.redCells.refill;
    out.undiluted = chase(out.undiluted.start, room, still(bled), s.lag.redCells.refill);
    for (int i = 0; i < 3; ++i) {
        out.plasma[i] = dilution[i] * out.undiluted[i];
        out.blood[i] = out.plasma[i] + out.outside[i] * out.volume[i];
        out.filling[i] =
            dilution[i] * (out.undiluted[i] + settled * out.volume[i]) * c.perBloodVolume;
    }
}

/// The iron store along a guess of it: each turn solves the balance with its slope there (Newton's
/// method), which takes two turns from where the store stands and one from nearby.
inline Track store(const Step& s, Lane begin, Track guess, int turns, const Track& daily,
                   const Track& cells, const Track& wanted) {
    const auto& c = s.c.redCells;
    const Lane full = 1.0 - s.drive[Drive::ironLack];
    const Lane pace = ifPositive(s.drive[Drive::ironLack], 1 / leakLag, 0.0);
    for (int turn = 0; turn < turns; ++turn) {
        Track target, own;
        for (int i = 0; i < 3; ++i) {
            const Lane iron = guess[i], let = 1.0 - c.ironHeld * daily[i];
            const Onset craved = onsetOf(1.0 - iron, craving), leak = onsetOf(iron - full, leaking);
            const Lane more = (c.absorptionMost - 1.0) * let, per = 1.0 / (iron + c.halfSupply);
            const Lane use = c.ironOfCells * wanted[i] * let * (1.0 + c.halfSupply) * per;
            const Lane change = c.absorption * (let + more * craved.value - iron) +
                                c.ironOfCells * cells[i] - use * iron - pace * leak.value;
            const Lane slope = -c.absorption * (more * craved.slope + 1.0) -
                               use * c.halfSupply * per - pace * leak.slope;
            target[i] = (change - slope * iron) * c.ironTime;
            own[i] = 1.0 + slope * c.ironTime;
        }
        guess = chase(begin, target, own, s.lag.redCells.iron);
    }
    return guess;
}

/// Where the step starts.
inline void begin(const RedCellState<Lane>& y, const Track& dilution, const Step& s,
                  RedCells& out) {
    const auto& c = s.c.redCells;
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
    measure(c, 0, onset(y.erythropoietin, hurrying), out);
    out.blood.start = dilution.start * y.plasma + out.outside.start * out.volume.start;
}

/// The volume of red cells ahead, as if it kept swelling at its present pace: near enough for
/// erythropoietin, which what is made of it in one step hardly reaches.
inline Track volumeAhead(const Step& s, const Calls& call, Lane erythropoietinChange,
                         const RedCells& out) {
    const auto& c = s.c.redCells;
    const Lane target = swelling(s, 0, call, erythropoietinChange, out) * c.ageingTime;
    Track own;
    for (int i = 0; i < 3; ++i) own[i] = 1.0 - call.lost[i] * c.ageingTime;
    return chase(out.volume.start, still(target), own, s.lag.redCells.ageing);
}

/// Marrow, blood and the lack that cells carry, down the flow.
inline void flow(const Step& s, const RedCellState<Lane>& y, const Hormones& h, const Calls& call,
                 RedCells& out) {
    const auto& c = s.c.redCells;
    const auto& lag = s.lag.redCells;
    Track into, lossYoung, lossOld, lossFresh;
    for (int i = 0; i < 3; ++i) {
        const Lane supplied = supply(c, out.iron[i], h.daily[i]);
        out.lack[i] = 1.0 - supplied;
        into[i] = c.marrowStageTime * call.wanted[i] * supplied /
                  (1.0 - c.hemoglobinOfLack * out.lack[i]);
        lossFresh[i] = call.ripening[i] + call.lost[i];
        lossYoung[i] = s.c.rate.redCells.young + call.lost[i];
        lossOld[i] = s.c.rate.redCells.ageing + call.lost[i];
    }
    for (int k = 0; k < 3; ++k) into = out.marrow[k] = chase(y.marrow[k], into, lag.marrow);
    out.marrowLack = chase(y.marrowLack, out.lack, lag.marrowLack);
    for (int i = 0; i < 3; ++i) into[i] *= s.c.rate.redCells.marrow;
    out.marrowReticulocytes = passage(call.released, s.hours)(y.marrowReticulocytes, into);

    const Passage fresh = passage(lossFresh, s.hours), young = passage(lossYoung, s.hours),
                  old = passage(lossOld, s.hours);
    const auto blood = [&](const Track& in, Track& reticulocytes, Track& youngCells,
                           Track* ageing) {
        Track flow;
        for (int i = 0; i < 3; ++i) flow[i] = call.aggregates[i] * in[i];
        reticulocytes = fresh(reticulocytes.start, flow);
        for (int i = 0; i < 3; ++i) flow[i] = in[i] - flow[i] + call.ripening[i] * reticulocytes[i];
        youngCells = young(youngCells.start, flow);
        for (int i = 0; i < 3; ++i) flow[i] = s.c.rate.redCells.young * youngCells[i];
        ageing[0] = old(ageing[0].start, flow);
        for (int i = 0; i < 3; ++i) flow[i] = s.c.rate.redCells.ageing * ageing[0][i];
        ageing[1] = old(ageing[1].start, flow);
    };
    for (int i = 0; i < 3; ++i) into[i] = call.released[i] * out.marrowReticulocytes[i];
    blood(into, out.reticulocytes, out.young, out.ageing);
    for (int i = 0; i < 3; ++i) into[i] *= out.marrowLack[i];
    blood(into, out.reticulocyteLack, out.youngLack, out.ageingLack);
}

} // namespace red

inline RedCells redCells(const Step& s, const RedCellState<Lane>& y, const Hormones& h,
                         const Water& water, const Nephrons& nephrons) {
    const auto& c = s.c.redCells;
    const auto& rate = s.c.rate.redCells;
    const Lane bleeding = s.drive[Drive::bleeding], hemolysis = s.drive[Drive::hemolysis];
    RedCells out;
    red::Calls call;
    const Lane contracting = s.drive[Drive::fright] + c.contractionOfBleeding * bleeding;
    out.contraction = chase(y.contraction, contracting, s.lag.redCells.contraction);
    // The spleen is faster than a step: its middle is put where the step's mean comes out right.
    const Lane moved = out.contraction.end - out.contraction.start;
    const Lane mean = contracting - moved / most(rate.contraction * s.hours, red::instant);
    out.contraction.middle = 1.5 * mean - 0.25 * (out.contraction.start + out.contraction.end);
    for (int i = 0; i < 3; ++i) {
        out.outside[i] = 1.0 - c.spleenShare * positive(1.0 - out.contraction[i]);
        call.broken[i] = hemolysis + c.lossOfInflammation * h.daily[i] +
                         c.lossOfUremia * (1.0 - nephrons.able[i]);
        call.lost[i] = call.broken[i] + bleeding * out.outside[i];
    }
    red::begin(y, water.dilution, s, out);
    red::answer(s, 0, y.erythropoietin, call);

    // Erythropoietin needs the hematocrit ahead, iron the cells ahead: both by how the volume of
    // red cells goes on, and once more when they are known.
    const auto target = [&](int i) {
        return red::called(s, out.outside[i] * out.volume[i] / out.blood[i], h.daily[i],
                           nephrons.able[i]);
    };
    const auto change = [&](int i) {
        return (target(i) - out.erythropoietin[i]) * rate.erythropoietin;
    };
    out.volume = red::volumeAhead(s, call, change(0), out);
    red::fill(s, water.dilution, out);
    const Track wanted{target(0), target(1), target(2)};
    out.erythropoietin = chase(y.erythropoietin, wanted, s.lag.redCells.erythropoietin);
    for (int i = 1; i < 3; ++i) red::answer(s, i, out.erythropoietin[i], call);

    Track back;
    const Lane perVolume = 1.0 / out.volume.start;
    for (int i = 0; i < 3; ++i)
        back[i] = red::returning(s, 0, call.broken[i], out) * out.volume[i] * perVolume;
    out.iron = red::store(s, y.iron, still(y.iron), 1, h.daily, back, call.wanted);
    red::flow(s, y, h, call, out);
    for (int i = 0; i < 3; ++i) {
        back[i] = red::returning(s, i, call.broken[i], out);
        red::measure(c, i, call.drive[i], out);
    }
    out.iron = red::store(s, y.iron, out.iron, 1, h.daily, back, call.wanted);
    red::fill(s, water.dilution, out);
    out.erythropoietin =
        chase(y.erythropoietin, {target(0), target(1), target(2)}, s.lag.redCells.erythropoietin);

    const Lane settled = 1.0 - c.spleenShare;
    for (int i = 0; i < 3; ++i) {
        out.lysed[i] = hemolysis * out.cells(i);
        out.heme[i] =
            (1 - red::otherHeme) *
                (red::aged(s, i, out) + call.broken[i] * out.hemoglobin[i] * c.perHemoglobin) *
                c.perOutput +
            red::otherHeme;
        out.given[i] =
            settled * (call.broken[i] * out.volume[i] - red::swelling(s, i, call, change(i), out));
    }
    return out;
}

inline void read(const Step& s, const RedCells& r, Readings& out) {
    const auto& c = s.c.redCells;
    const Lane cells = r.cells(2), perBlood = 1.0 / r.blood.end, perCell = 1.0 / cells;
    const Lane circulating = r.outside.end * perBlood, hemoglobin = r.hemoglobin.end;
    const Lane hematocrit = circulating * r.volume.end;
    out.level(Analyte::RBC) = circulating * cells;
    out.level(Analyte::Hb) = circulating * hemoglobin;
    out.level(Analyte::Hct) = hematocrit;
    out.level(Analyte::PCV) = hematocrit;
    out.level(Analyte::MCV) = r.volume.end * perCell * 1000.0; // [fL] from [pL]
    out.level(Analyte::MCH) = hemoglobin * perCell;
    out.level(Analyte::MCHC) = hemoglobin / r.volume.end;
    out.level(Analyte::reticulocytes) = circulating * r.reticulocytes.end * 1000.0;
    out[reading::plasmaVolume] = r.plasma.end * 1000.0;
    out.work(Tissue::redCells) = r.outside.end * hemoglobin * c.perCirculating;
    out.leak(Tissue::redCells) = 1.0 + s.drive[Drive::hemolysis] * c.life;
}

} // namespace cistern::body::CISTERN_UNIT
