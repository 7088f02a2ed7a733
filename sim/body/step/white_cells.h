#pragma once
#include "body/step/chain.h"
#include "body/step/hormones.h"

namespace cistern::body::CISTERN_UNIT {

// Neutrophils.
//   lack = felt(1 - (bands + segmented) / healthy), those in blood that cling to vessels too
//   empty = felt(1 - stored / healthy), stored the sum of its stages
//   stimulation' = (join(inflammation, kl lack) - stimulation) / lag
//   release' = (most join((fast + kc cortisol) / most, kd lack / most) - release) / lag
//   dividing: input (1 + gi stimulation) through 3 stages at pace kx (1 + gx stimulation); what
//   leaves is times (1 + go stimulation) (1 - marrow block) and enters maturing
//   maturing, banded, stored: one chain at pace a k, a = 1 + ga stimulation (stored has its own k);
//   beside that each banded stage loses rb of itself to blood and each stored one rs
//   rs = kr release; rb = a rb0 + rs (b0 + b1 empty)
//   bands' = rb banded - loss bands
//   segmented' = rs stored + what leaves the last stage - loss segmented
//   loss = kn (1 + d fast^8) (1 - ec cortisol) (1 - ei daily) + bleeding free
//   free = (1 - m0 (1 - mf fright) (1 - mc cortisol)) (1 - early), the share that does not cling
//   fright = 1 - positive(1 - contraction); early = eased(ke fast^2 onset(fast - daily), 0.95)
//   toxicMarrow' = (fast^2 (x0 + (1 - x0) empty) - toxicMarrow) / lag
//   toxic' = (all that enters blood) toxicMarrow - loss toxic
//   shown: bands and segmented x free / blood volume; toxic / (bands + segmented)
// Others.
//   lymphocytes' = k (rest (1 - kc cortisol) (1 + ki chronic) - lymphocytes) - bleeding lymphocytes
//   monocyteMaking' = ((1 + ki inflammation) (1 - marrow block) - monocyteMaking) / lag
//   monocytes' = k (rest monocyteMaking - monocytes) - bleeding monocytes
//   eosinophilMaking' = ((1 + kp parasites) (1 - marrow block) - eosinophilMaking) / lag
//   eosinophils' = k (rest eosinophilMaking (1 - kc cortisol) - eosinophils) - bleeding eosinophils
//   shown / blood volume; lymphocytes x (1 + kf fright), monocytes x (1 + kc cortisol + kf fright)

/// White cells over one step: where they stand at its end, and what readings need besides.
struct WhiteCells {
    WhiteCellState<Lane> after;
    Lane free;                   ///< share of neutrophils in blood that do not cling
    Lane store;                  ///< segmented cells in marrow over healthy
    Lane lymphocytes, monocytes; ///< rise of their share in circulation, fold

    void end(WhiteCellState<Lane>& y) const { y = after; }
};

/// Width over which the marrow comes to feel that blood or store lacks cells, share. Assumed.
inline constexpr double lacking = 0.2;
/// Greatest share of circulating neutrophils that cling in early inflammation. Assumed.
inline constexpr double mostClinging = 0.95;

namespace white {

template<int count>
Lane total(const Lane (&stage)[count]) {
    Lane sum = stage[0];
    for (int i = 1; i < count; ++i) sum += stage[i];
    return sum;
}

/// What signals from outside make of neutrophils in blood.
struct Signals {
    Track loss; ///< [1/h]
    Track free;
};

/// Width over which fresh inflammation begins to hold cells to the walls. Assumed.
inline constexpr double newness = 0.05;

inline Signals signals(const Step& s, const Hormones& h, const Track& contraction) {
    const auto& c = s.c.whiteCells;
    Signals out;
    for (int i = 0; i < 3; ++i) {
        const Lane fright = 1.0 - positive(1.0 - contraction[i]), cortisol = h.cortisol[i];
        const Lane square = h.fast[i] * h.fast[i], fourth = square * square;
        const Lane early =
            eased(c.earlyClinging * square * onset(h.fast[i] - h.daily[i], newness), mostClinging);
        out.free[i] = (1.0 - c.marginated * (1.0 - c.freedByFright * fright) *
                                 (1.0 - c.freedByCortisol * cortisol)) *
                      (1.0 - early);
        out.loss[i] = c.leaving * (1.0 + c.tissueDemand * fourth * fourth) *
                          (1.0 - c.stayOfCortisol * cortisol) *
                          (1.0 - c.stayOfInflammation * h.daily[i]) +
                      s.drive[Drive::bleeding] * out.free[i];
    }
    return out;
}

/// The marrow's two answers to inflammation and to a lack in blood.
struct Calls {
    Track stimulation, release;
};

inline Calls calls(const Step& s, const WhiteCellState<Lane>& y, const Hormones& h,
                   const Track& blood) {
    const auto& c = s.c.whiteCells;
    Track stimulated, called;
    for (int i = 0; i < 3; ++i) {
        const Lane lack = felt(1.0 - blood[i] * c.perNeutrophils, lacking);
        const Lane signal = h.fast[i] + c.releaseOfCortisol * h.cortisol[i];
        stimulated[i] = join(s.drive[Drive::inflammation], c.stimulationOfLack * lack);
        called[i] = c.releaseMost *
                    join(signal * c.perReleaseMost, c.releaseOfLack * lack * c.perReleaseMost);
    }
    return {chase(y.stimulation, stimulated, s.lag.whiteCells.stimulation),
            chase(y.release, called, s.lag.whiteCells.release)};
}

/// Pace of the marrow and release from it [1/h], given the store.
struct Flows {
    Lane transit;          ///< of maturing and banded stages
    Lane stored;           ///< of stored stages
    Lane bands, segmented; ///< release of each from its pool
};

inline Flows flows(const WhiteCellConstants<Lane>& c, Lane stimulation, Lane release, Lane stored) {
    Flows f;
    const Lane pace = 1.0 + c.stimulatedTransit * stimulation;
    f.transit = pace * c.maturing;
    f.stored = pace * c.stored;
    f.segmented = c.release * release;
    const Lane empty = felt(1.0 - stored * c.perStored, lacking);
    f.bands = pace * c.bandsAtRest + f.segmented * (c.bandsReleased + c.bandsOfEmptyStore * empty);
    return f;
}

/// What is known of a step before the marrow is taken through it: store and blood go along the
/// curves that their own balance at the start gives them. Only the two lagged answers hang on this.
struct Forecast {
    Track stored, blood;
};

inline Forecast forecast(const Step& s, const WhiteCellState<Lane>& y, const Hormones& h,
                         const Passage& leaving, Lane loss) {
    const auto& c = s.c.whiteCells;
    const Lane stored = total(y.stored), banded = total(y.banded), blood = y.bands + y.segmented;
    const Lane lastBand = y.banded[bandStages - 1], lastStored = y.stored[storedStages - 1];
    const Flows f = flows(c, y.stimulation, y.release, stored);
    // Slopes at the start [per h].
    const Lane inflow = f.segmented * stored + f.bands * banded + f.stored * lastStored;
    const Lane bloodSlope = inflow - loss * blood;
    const Lane storedSlope = f.transit * lastBand - f.stored * lastStored - f.segmented * stored;
    const Lane bandedSlope =
        f.transit * (y.maturing[maturingStages - 1] - lastBand) - f.bands * banded;
    const Lane lastBandSlope =
        f.transit * (y.banded[bandStages - 2] - lastBand) - f.bands * lastBand;
    const Lane lastStoredSlope =
        f.stored * (y.stored[storedStages - 2] - lastStored) - f.segmented * lastStored;
    Track straight;
    for (int i = 0; i < 3; ++i) straight[i] = blood + bloodSlope * s.hours * (0.5 * i);
    const Calls call = calls(s, y, h, straight);
    Forecast out;
    Track entering, net;
    for (int i = 0; i < 3; ++i) out.stored[i] = stored + storedSlope * s.hours * (0.5 * i);
    // A second turn, for bands leave by the third power of what the store lacks.
    for (int turn = 0; turn < 2; ++turn) {
        for (int i = 0; i < 3; ++i) {
            const Lane t = s.hours * (0.5 * i);
            const Flows g = flows(c, call.stimulation[i], call.release[i], out.stored[i]);
            const Lane last = lastStored + lastStoredSlope * t;
            net[i] = g.transit * (lastBand + lastBandSlope * t) - g.stored * last -
                     g.segmented * out.stored[i];
            entering[i] = g.segmented * out.stored[i] + g.bands * (banded + bandedSlope * t) +
                          g.stored * last;
        }
        out.stored = sum(stored, net, s.hours);
    }
    out.blood = leaving(blood, entering);
    return out;
}

/// Takes a pool of even stages through a step; gives back what its last stage holds. Into stages
/// that a marrow without order has emptied, the front of the new cells comes smeared: while it
/// holds less than 1e-5 x 10*9/L, its count is off by up to 5 % (at a quarter of an hour, 0.1
/// %).
template<int count>
Track along(const Lane (&stage)[count], Lane (&after)[count], Track inflow, const Passage& through,
            const Track& pace, Track* whole = nullptr) {
    Track now;
    for (int k = 0; k < count; ++k) {
        now = through(stage[k], inflow);
        after[k] = now.end;
        for (int i = 0; i < 3; ++i) {
            inflow[i] = pace[i] * now[i];
            if (whole) (*whole)[i] = k == 0 ? now[i] : (*whole)[i] + now[i];
        }
    }
    return inflow;
}

inline void neutrophils(const Step& s, const WhiteCellState<Lane>& y, const Hormones& h,
                        const Signals& signal, WhiteCells& out) {
    const auto& c = s.c.whiteCells;
    const Passage leaving = passage(signal.loss, s.hours);
    const Forecast ahead = forecast(s, y, h, leaving, signal.loss.start);
    const Calls call = calls(s, y, h, ahead.blood);

    Track inflow, division, transit, storing, bandLoss, storedLoss, bandRelease, release;
    for (int i = 0; i < 3; ++i) {
        inflow[i] = c.input * (1.0 + c.stimulatedInput * call.stimulation[i]);
        division[i] = c.dividing * (1.0 + c.stimulatedDivision * call.stimulation[i]);
        const Flows f = flows(c, call.stimulation[i], call.release[i], ahead.stored[i]);
        transit[i] = f.transit;
        storing[i] = f.stored;
        bandRelease[i] = f.bands;
        release[i] = f.segmented;
        bandLoss[i] = f.transit + f.bands;
        storedLoss[i] = f.stored + f.segmented;
    }
    WhiteCellState<Lane>& after = out.after;
    inflow = along(y.dividing, after.dividing, inflow, passage(division, s.hours), division);
    for (int i = 0; i < 3; ++i)
        inflow[i] *=
            (1.0 + c.stimulatedOutput * call.stimulation[i]) * (1.0 - s.drive[Drive::marrowBlock]);
    inflow = along(y.maturing, after.maturing, inflow, passage(transit, s.hours), transit);
    Track banded, stored;
    inflow = along(y.banded, after.banded, inflow, passage(bandLoss, s.hours), transit, &banded);
    inflow = along(y.stored, after.stored, inflow, passage(storedLoss, s.hours), storing, &stored);

    Track marked, bands, segmented, toxic;
    for (int i = 0; i < 3; ++i) {
        bands[i] = bandRelease[i] * banded[i];
        segmented[i] = release[i] * stored[i] + inflow[i];
        marked[i] = h.fast[i] * h.fast[i] *
                    (c.toxicFromFullStore +
                     (1.0 - c.toxicFromFullStore) * felt(1.0 - stored[i] * c.perStored, lacking));
    }
    const Track toxicMarrow = chase(y.toxicMarrow, marked, s.lag.whiteCells.toxic);
    for (int i = 0; i < 3; ++i) toxic[i] = (bands[i] + segmented[i]) * toxicMarrow[i];
    const Track bandsInBlood = leaving(y.bands, bands);
    const Track segmentedInBlood = leaving(y.segmented, segmented);
    Track blood;
    for (int i = 0; i < 3; ++i) blood[i] = bandsInBlood[i] + segmentedInBlood[i];
    const Calls answered = calls(s, y, h, blood);
    after.bands = bandsInBlood.end;
    after.segmented = segmentedInBlood.end;
    after.toxic = leaving(y.toxic, toxic).end;
    after.toxicMarrow = toxicMarrow.end;
    after.stimulation = answered.stimulation.end;
    after.release = answered.release.end;
    out.store = stored.end * c.perStored;
}

inline void others(const Step& s, const WhiteCellState<Lane>& y, const Hormones& h,
                   const Track& contraction, WhiteCells& out) {
    const auto& c = s.c.whiteCells;
    const auto& lag = s.lag.whiteCells;
    const Lane bleeding = s.drive[Drive::bleeding], open = 1.0 - s.drive[Drive::marrowBlock];
    const Track monocyteMaking = chase(
        y.monocyteMaking, (1.0 + c.monocytesOfInflammation * s.drive[Drive::inflammation]) * open,
        lag.monocyteMaking);
    const Track eosinophilMaking = chase(
        y.eosinophilMaking, (1.0 + c.eosinophilsOfParasites * s.drive[Drive::parasites]) * open,
        lag.eosinophilMaking);
    Track lymphocytes, monocytes, eosinophils;
    for (int i = 0; i < 3; ++i) {
        lymphocytes[i] = c.lymphocytes * (1.0 - c.lymphocytesOfCortisol * h.cortisol[i]) *
                         (1.0 + c.lymphocytesOfInflammation * h.chronic[i]);
        monocytes[i] = c.monocytes * monocyteMaking[i];
        eosinophils[i] =
            c.eosinophils * eosinophilMaking[i] * (1.0 - c.eosinophilsOfCortisol * h.cortisol[i]);
    }
    // Bleeding takes from each in proportion: a share of the pool itself against its own pace.
    const auto bled = [&](Lane perLoss) { return still(-bleeding * perLoss); };
    WhiteCellState<Lane>& after = out.after;
    after.monocyteMaking = monocyteMaking.end;
    after.eosinophilMaking = eosinophilMaking.end;
    after.lymphocytes =
        chase(y.lymphocytes, lymphocytes, bled(1.0 / c.lymphocyteExchange), lag.lymphocytes).end;
    after.monocytes = chase(y.monocytes, monocytes, bled(1.0 / c.monocyteLoss), lag.monocytes).end;
    after.eosinophils =
        chase(y.eosinophils, eosinophils, bled(1.0 / c.eosinophilLoss), lag.eosinophils).end;
    const Lane fright = 1.0 - positive(1.0 - contraction.end);
    out.lymphocytes = 1.0 + c.lymphocytesOfFright * fright;
    out.monocytes = 1.0 + c.monocytesOfCortisol * h.cortisol.end + c.monocytesOfFright * fright;
}

} // namespace white

/// `contraction`: of the spleen, share of the greatest.
inline WhiteCells whiteCells(const Step& s, const WhiteCellState<Lane>& y, const Hormones& h,
                             const Track& contraction) {
    WhiteCells out;
    const white::Signals signal = white::signals(s, h, contraction);
    white::neutrophils(s, y, h, signal, out);
    out.free = signal.free.end;
    white::others(s, y, h, contraction, out);
    return out;
}

/// `blood`: volume circulating at the end of the step [L/kg].
inline void read(const Step&, const WhiteCells& w, Lane blood, Readings& out) {
    const Lane per = 1.0 / blood;
    const WhiteCellState<Lane>& y = w.after;
    // A pool that has run empty may lie a rounding below nothing.
    const Lane neutrophils = most(y.segmented * w.free * per, 0.0),
               bands = most(y.bands * w.free * per, 0.0);
    const Lane lymphocytes = y.lymphocytes * w.lymphocytes * per;
    const Lane monocytes = y.monocytes * w.monocytes * per;
    const Lane eosinophils = y.eosinophils * per;
    out.level(Analyte::neutrophils) = neutrophils;
    out.level(Analyte::bands) = bands;
    out.level(Analyte::lymphocytes) = lymphocytes;
    out.level(Analyte::monocytes) = monocytes;
    out.level(Analyte::eosinophils) = eosinophils;
    out.level(Analyte::WBC) = neutrophils + bands + lymphocytes + monocytes + eosinophils;
    out.level(Analyte::toxic) = most(y.toxic, 0.0) / (y.bands + y.segmented);
    out.work(Tissue::whiteCells) = most(w.store, 0.0);
    out.leak(Tissue::whiteCells) = 1.0;
}

} // namespace cistern::body::CISTERN_UNIT
