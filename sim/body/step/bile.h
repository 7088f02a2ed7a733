#pragma once
#include "body/step/liver.h"

namespace cistern::body::CISTERN_UNIT {

/// Bilirubin over one step: exchangeable pool, the part bound to albumin for good, and heme coming
/// in.
struct Bilirubin {
    Track pool, delta, heme;
    Track conjugated; ///< of the exchangeable pool
};

/// Conjugated part of a pool: exchange with the liver is fast, so the unconjugated level is what
/// heme inflow needs to be taken up by the living cells, and the rest is conjugated and flows back.
inline Lane conjugatedOf(const Step& s, Lane pool, Lane heme, Lane living) {
    return most((pool - heme * s.c.uptakeLevel / living) / (1.0 + s.c.backFlow), 0.0);
}

/// What moves bilirubin over a step or a part of it.
struct BileDrive {
    Track heme, living, pump, urine;
};

/// Bilirubin and bile acids move within the hour; they take so many parts of a step.
inline constexpr int bilirubinParts = 2;
inline constexpr int bilirubinPasses = 3;
inline constexpr int acidParts = 4;
inline constexpr int acidPasses = 3;

/// The pool drains faster the less there is of it. It is solved as a lag at the slope that the loss
/// has where the part starts; what the straight line misses goes into the target.
inline Lane bilirubinPart(const Step& s, Lane begin, const BileDrive& d, Lane hours) {
    const auto& c = s.c;
    const Lane free = conjugatedOf(s, begin, d.heme.start, d.living.start);
    const Lane half = c.excretionHalf + free, threshold = c.renalThreshold + free;
    const Lane slope =
        (d.pump.start * c.excretionHalf / (half * half) +
         d.urine.start * free * (free + 2.0 * c.renalThreshold) / (threshold * threshold) +
         c.binding) /
        (1.0 + c.backFlow);
    const Lag w = lag(slope * hours);
    const Lane time = 1.0 / slope;
    Track out = still(begin);
    for (int pass = 0; pass < bilirubinPasses; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i) {
            const Lane x = conjugatedOf(s, out[i], d.heme[i], d.living[i]);
            const Lane loss = d.pump[i] * x / (c.excretionHalf + x) +
                              d.urine[i] * x * x / (x + c.renalThreshold) + c.binding * x;
            target[i] = out[i] + (c.hemeInflow * d.heme[i] - loss) * time;
        }
        out = chase(begin, target, w);
    }
    return out.end;
}

inline Bilirubin bilirubin(const Step& s, const State<Lane>& y, const Liver& liver) {
    static_assert(bilirubinParts % 2 == 0, "the middle of a step is the end of a part");
    const auto& c = s.c;
    Bilirubin out;
    out.heme = chase(y.heme, 1.0 + s.drive[Drive::hemeLoad], s[Rate::heme]);
    BileDrive d{out.heme, liver.living, {}, {}};
    for (int i = 0; i < 3; ++i) {
        d.pump[i] = c.excretionMost * liver.living[i] * (1.0 - liver.cholestasis[i]);
        d.urine[i] = c.renalClearance * (1.0 + c.renalAdaptation * liver.adaptation[i]);
    }
    constexpr int n = bilirubinParts;
    Lane pool = y.bilirubin;
    out.pool = still(pool);
    for (int k = 0; k < n; ++k) {
        pool = bilirubinPart(
            s, pool,
            {part(d.heme, k, n), part(d.living, k, n), part(d.pump, k, n), part(d.urine, k, n)},
            s.hours * (1.0 / n));
        if (k == n / 2 - 1) out.pool.middle = pool;
    }
    out.pool.end = pool;
    Track bound;
    for (int i = 0; i < 3; ++i) {
        out.conjugated[i] = conjugatedOf(s, out.pool[i], out.heme[i], liver.living[i]);
        bound[i] = c.binding * out.conjugated[i] * c.deltaTime;
    }
    out.delta = chase(y.delta, bound, s[Rate::delta]);
    return out;
}

/// Bile acids: stored in the gall bladder, in the gut, and in the blood.
struct BileAcids {
    Lane store, gut, plasma;
};

/// What moves bile acids over a step or a part of it: shares of portal return taken up at the first
/// pass and of bile that flows, and blood cleared by the liver [L/kg/h].
struct AcidDrive {
    Track firstPass, flowing, uptake;
};

/// How the pools turn over during a step: the same for all its parts.
struct AcidPace {
    Lane toStore, toGut, emptying, portal; ///< shares of bile, [1/h], [1/h]
    Lane gutRate, gutTime, plasmaRate, plasmaTime, storeTime;
    Lag gut, plasma, store;
};

inline AcidPace acidPace(const Step& s, const AcidDrive& d, Lane hours) {
    const auto& c = s.c;
    const Lane meal = s.drive[Drive::meal];
    AcidPace p;
    p.toStore = ifPositive(meal, c.storedInMeal, c.stored);
    p.toGut = 1.0 - p.toStore;
    p.emptying = ifPositive(meal, c.storeMealRate, c.storeRate);
    p.portal = c.acidUptake * c.acidKept;
    // A pool's own outflow counts what comes straight back to it.
    p.gutRate = c.acidUptake - p.toGut * d.flowing.middle * d.firstPass.middle * p.portal;
    p.plasmaRate = (d.uptake.middle * d.flowing.middle + c.acidRenal) / c.acidSpace;
    p.gutTime = 1.0 / p.gutRate;
    p.plasmaTime = 1.0 / p.plasmaRate;
    p.storeTime = 1.0 / p.emptying;
    p.gut = lag(p.gutRate * hours);
    p.plasma = lag(p.plasmaRate * hours);
    p.store = lag(p.emptying * hours);
    return p;
}

/// The three pools go round: store to gut to portal blood to liver to bile. Each is taken exactly;
/// what the others send arrives pass by pass.
inline BileAcids acidPart(const Step& s, const BileAcids& begin, const AcidDrive& d,
                          const AcidPace& p) {
    const auto& c = s.c;
    Track store = still(begin.store), gut = still(begin.gut), plasma = still(begin.plasma);
    for (int pass = 0; pass < acidPasses; ++pass) {
        Track target, bile;
        for (int i = 0; i < 3; ++i) {
            const Lane escaped = p.portal * gut[i] * (1.0 - d.flowing[i] * d.firstPass[i]);
            const Lane change =
                (escaped + (1.0 - d.flowing[i]) * c.acidMade) / c.acidSpace +
                (p.plasmaRate - (d.uptake[i] * d.flowing[i] + c.acidRenal) / c.acidSpace) *
                    plasma[i];
            target[i] = change * p.plasmaTime;
        }
        plasma = chase(begin.plasma, target, p.plasma);
        for (int i = 0; i < 3; ++i) {
            bile[i] = d.flowing[i] *
                      (d.firstPass[i] * p.portal * gut[i] + d.uptake[i] * plasma[i] + c.acidMade);
            target[i] = p.toStore * bile[i] * p.storeTime;
        }
        store = chase(begin.store, target, p.store);
        for (int i = 0; i < 3; ++i)
            target[i] =
                (p.toGut * bile[i] + p.emptying * store[i] + (p.gutRate - c.acidUptake) * gut[i]) *
                p.gutTime;
        gut = chase(begin.gut, target, p.gut);
    }
    return {store.end, gut.end, plasma.end};
}

inline BileAcids bileAcids(const Step& s, const State<Lane>& y, const Liver& liver) {
    const auto& c = s.c;
    AcidDrive d;
    for (int i = 0; i < 3; ++i) {
        const Lane e = 1.0 - exponential(-c.acidExtraction * liver.living[i] / liver.reached[i]);
        d.firstPass[i] = e * (1.0 - liver.shunted[i]);
        d.uptake[i] = c.acidFlow * liver.reached[i] * e;
        d.flowing[i] = 1.0 - liver.cholestasis[i];
    }
    constexpr int n = acidParts;
    const AcidPace pace = acidPace(s, d, s.hours * (1.0 / n));
    BileAcids out{y.store, y.gut, y.acids};
    for (int k = 0; k < n; ++k)
        out = acidPart(
            s, out, {part(d.firstPass, k, n), part(d.flowing, k, n), part(d.uptake, k, n)}, pace);
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
