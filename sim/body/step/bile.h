#pragma once
#include "body/step/liver.h"

namespace cistern::body::CISTERN_UNIT {

/// Bilirubin over one step: exchangeable pool, the part bound to albumin for good, and heme coming
/// in.
struct Bilirubin {
    Track pool, delta, heme;
    Track conjugated; ///< of the exchangeable pool
};

/// What moves bilirubin over a step or a part of it.
struct BileDrive {
    Track inflow; ///< [umol/L per h]
    Track free;   ///< unconjugated level at which living cells take up what heme brings [umol/L]
    Track pump, urine;
};

/// Bilirubin and bile acids move within the hour; they take so many parts of a step.
inline constexpr int bilirubinParts = 2;
inline constexpr int bilirubinPasses = 2;
inline constexpr int acidParts = 2;
inline constexpr int acidPasses = 3;

/// The pool drains faster the less there is of it. It is solved as a lag at the slope that the loss
/// has where the part starts; what the straight line misses goes into the target, first as if it
/// stood still.
inline Lane bilirubinPart(const Step& s, Lane begin, const BileDrive& d, Lane hours) {
    const auto& c = s.c;
    const auto change = [&](int i, Lane x) {
        const Lane half = c.excretionHalf + x, threshold = c.renalThreshold + x;
        const Lane out =
            (d.pump[i] * threshold + d.urine[i] * x * half) / (half * threshold) + c.binding;
        return d.inflow[i] - out * x;
    };
    const auto conjugated = [&](int i, Lane pool) {
        return most((pool - d.free[i]) * c.exchange, 0.0);
    };
    const Lane x = conjugated(0, begin);
    const Lane half = c.excretionHalf + x, threshold = c.renalThreshold + x;
    const Lane both = half * threshold;
    const Lane pumping = d.pump.start * c.excretionHalf * threshold * threshold;
    const Lane passing = d.urine.start * x * (x + 2.0 * c.renalThreshold) * half * half;
    const Lane slope = ((pumping + passing) / (both * both) + c.binding) * c.exchange;
    const Lag w = shortLag(slope * hours);
    const Lane time = 1.0 / slope;
    Track target = still(begin + change(0, x) * time);
    Track out = chase(begin, target.start, w);
    for (int pass = 0; pass < bilirubinPasses; ++pass) {
        for (int i = 1; i < 3; ++i) target[i] = out[i] + change(i, conjugated(i, out[i])) * time;
        out = chase(begin, target, w);
    }
    return out.end;
}

inline Bilirubin bilirubin(const Step& s, const State<Lane>& y, const Liver& liver) {
    static_assert(bilirubinParts % 2 == 0, "the middle of a step is the end of a part");
    const auto& c = s.c;
    Bilirubin out;
    out.heme = chase(y.heme, 1.0 + s.drive[Drive::hemeLoad], s[Rate::heme]);
    // Exchange with the liver is fast: the unconjugated level is what the inflow needs to be taken
    // up, and the rest of the pool is conjugated, with a share of it back in the cells.
    BileDrive d;
    for (int i = 0; i < 3; ++i) {
        d.inflow[i] = c.hemeInflow * out.heme[i];
        d.free[i] = out.heme[i] * c.uptakeLevel / liver.living[i];
        d.pump[i] = c.excretionMost * liver.living[i] * (1.0 - liver.cholestasis[i]);
        d.urine[i] = c.renalClearance * (1.0 + c.renalAdaptation * liver.adaptation[i]);
    }
    constexpr int n = bilirubinParts;
    Lane pool = y.bilirubin;
    out.pool = still(pool);
    for (int k = 0; k < n; ++k) {
        pool = bilirubinPart(
            s, pool,
            {part(d.inflow, k, n), part(d.free, k, n), part(d.pump, k, n), part(d.urine, k, n)},
            s.hours * (1.0 / n));
        if (k == n / 2 - 1) out.pool.middle = pool;
    }
    out.pool.end = pool;
    Track bound;
    for (int i = 0; i < 3; ++i) {
        out.conjugated[i] = most((out.pool[i] - d.free[i]) * c.exchange, 0.0);
        bound[i] = c.binding * out.conjugated[i] * c.deltaTime;
    }
    out.delta = chase(y.delta, bound, s[Rate::delta]);
    return out;
}

/// Bile acids: stored in the gall bladder, in the gut, and in the blood.
struct BileAcids {
    Lane store, gut, plasma;
};

/// What moves bile acids over a step or a part of it. Bile = caught x gut pool + cleared x blood
/// level + made.
struct AcidDrive {
    Track caught;  ///< share of the gut pool caught from portal blood and passed into bile [1/h]
    Track cleared; ///< blood cleared into bile [L/kg/h]
    Track made;    ///< [umol/kg/h]
};

/// How the pools turn over during a step: the same for all its parts. Rates count what comes
/// straight back.
struct AcidPace {
    Lag store, gut, plasma;
    Lane storeFed, gutFed, gutFromStore, gutSlower; ///< weights in the level that a pool chases
    Lane plasmaFed, plasmaSlower, portal;
};

inline AcidPace acidPace(const Step& s, const AcidDrive& d, Lane hours) {
    const auto& c = s.c;
    const Lane meal = s.drive[Drive::meal];
    const Lane storing = ifPositive(meal, c.storedInMeal, c.stored);
    const Lane emptying = ifPositive(meal, c.storeMealRate, c.storeRate);
    const Lane gutRate = c.acidUptake - (1.0 - storing) * d.caught.middle;
    const Lane plasmaRate = (d.cleared.middle + c.acidRenal) / c.acidSpace;
    const Lane gutTime = 1.0 / gutRate;
    AcidPace p;
    p.store = shortLag(emptying * hours);
    p.gut = shortLag(gutRate * hours);
    p.plasma = shortLag(plasmaRate * hours);
    p.storeFed = storing / emptying;
    p.gutFed = (1.0 - storing) * gutTime / p.storeFed;
    p.gutFromStore = emptying * gutTime;
    p.gutSlower = (gutRate - c.acidUptake) * gutTime;
    p.plasmaFed = 1.0 / (plasmaRate * c.acidSpace);
    p.plasmaSlower = 1.0 - p.plasmaFed * c.acidRenal;
    p.portal = c.acidUptake * c.acidKept;
    return p;
}

/// The three pools go round: store to gut to portal blood to liver to bile. Each is taken exactly;
/// what the others send arrives pass by pass.
inline BileAcids acidPart(const BileAcids& begin, const AcidDrive& d, const AcidPace& p,
                          Lane made) {
    Track store = still(begin.store), gut = still(begin.gut), plasma = still(begin.plasma);
    Track toPlasma, toStore, toGut;
    const auto bile = [&](int i) {
        return d.caught[i] * gut[i] + d.cleared[i] * plasma[i] + d.made[i];
    };
    for (int pass = 0; pass < acidPasses; ++pass) {
        const int first =
            pass == 0 ? 0 : 1; // at the start of the part nothing changes from pass to pass
        for (int i = first; i < 3; ++i)
            toPlasma[i] =
                p.plasmaSlower * plasma[i] + p.plasmaFed * (p.portal * gut[i] + made - bile(i));
        plasma = chase(begin.plasma, toPlasma, p.plasma);
        for (int i = first; i < 3; ++i) toStore[i] = p.storeFed * bile(i);
        store = chase(begin.store, toStore, p.store);
        for (int i = first; i < 3; ++i)
            toGut[i] = p.gutFed * toStore[i] + p.gutFromStore * store[i] + p.gutSlower * gut[i];
        gut = chase(begin.gut, toGut, p.gut);
    }
    return {store.end, gut.end, plasma.end};
}

inline BileAcids bileAcids(const Step& s, const State<Lane>& y, const Liver& liver) {
    const auto& c = s.c;
    const Lane portal = c.acidUptake * c.acidKept;
    AcidDrive d;
    for (int i = 0; i < 3; ++i) {
        const Lane caught =
            1.0 - exponential(-c.acidExtraction * liver.living[i] / liver.reached[i]);
        const Lane flowing = 1.0 - liver.cholestasis[i];
        d.caught[i] = portal * caught * (1.0 - liver.shunted[i]) * flowing;
        d.cleared[i] = c.acidFlow * liver.reached[i] * caught * flowing;
        d.made[i] = c.acidMade * flowing;
    }
    constexpr int n = acidParts;
    const AcidPace pace = acidPace(s, d, s.hours * (1.0 / n));
    BileAcids out{y.store, y.gut, y.acids};
    for (int k = 0; k < n; ++k)
        out = acidPart(out, {part(d.caught, k, n), part(d.cleared, k, n), part(d.made, k, n)}, pace,
                       c.acidMade);
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
