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

inline Bilirubin bilirubin(const Step& s, const State<Lane>& y, const Liver& liver) {
    const auto& c = s.c;
    Bilirubin out;
    out.heme = chase(y.heme, 1.0 + s.drive[Drive::hemeLoad], s[Rate::heme]);
    Track pump, urine;
    for (int i = 0; i < 3; ++i) {
        pump[i] = c.excretionMost * liver.living[i] * (1.0 - liver.cholestasis[i]);
        urine[i] = c.renalClearance * (1.0 + c.renalAdaptation * liver.adaptation[i]);
    }
    const auto loss = [&](int i, Lane conjugated) {
        return pump[i] * conjugated / (c.excretionHalf + conjugated) +
               urine[i] * conjugated * conjugated / (conjugated + c.renalThreshold) +
               c.binding * conjugated;
    };
    // The pool drains faster the less there is of it. It is solved as a lag at the slope that the
    // loss has where the step starts; what the straight line misses goes into the target, in three
    // passes.
    const Lane begin = conjugatedOf(s, y.bilirubin, out.heme.start, liver.living.start);
    const Lane half = c.excretionHalf + begin, threshold = c.renalThreshold + begin;
    const Lane slope =
        (pump.start * c.excretionHalf / (half * half) +
         urine.start * begin * (begin + 2.0 * c.renalThreshold) / (threshold * threshold) +
         c.binding) /
        (1.0 + c.backFlow);
    const Lag w = s.lagOf(slope);
    const Lane time = 1.0 / slope;
    out.pool = still(y.bilirubin);
    for (int pass = 0; pass < 3; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i) {
            out.conjugated[i] = conjugatedOf(s, out.pool[i], out.heme[i], liver.living[i]);
            target[i] =
                out.pool[i] + (c.hemeInflow * out.heme[i] - loss(i, out.conjugated[i])) * time;
        }
        out.pool = chase(y.bilirubin, target, w);
    }
    Track bound;
    for (int i = 0; i < 3; ++i) {
        out.conjugated[i] = conjugatedOf(s, out.pool[i], out.heme[i], liver.living[i]);
        bound[i] = c.binding * out.conjugated[i] * c.deltaTime;
    }
    out.delta = chase(y.delta, bound, s[Rate::delta]);
    return out;
}

/// Bile acids over one step: stored in the gall bladder, in the gut, and in the blood.
struct BileAcids {
    Track store, gut, plasma;
};

/// The three pools go round: store to gut to portal blood to liver to bile. Each pool's own
/// outflow, counting what comes straight back to it, is taken exactly; what the others send arrives
/// in four passes.
inline BileAcids bileAcids(const Step& s, const State<Lane>& y, const Liver& liver) {
    const auto& c = s.c;
    const Lane meal = s.drive[Drive::meal];
    const Lane toStore = ifPositive(meal, c.storedInMeal, c.stored);
    const Lane toGut = 1.0 - toStore;
    const Lane emptying = ifPositive(meal, c.storeMealRate, c.storeRate);
    const Lane portal = c.acidUptake * c.acidKept; // [1/h], share of the gut pool that comes back

    Track firstPass, uptake, flowing,
        escaped; // of portal return; from blood [L/kg/h]; bile that flows
    for (int i = 0; i < 3; ++i) {
        const Lane e = 1.0 - exponential(-c.acidExtraction * liver.living[i] / liver.reached[i]);
        firstPass[i] = e * (1.0 - liver.shunted[i]);
        uptake[i] = c.acidFlow * liver.reached[i] * e;
        flowing[i] = 1.0 - liver.cholestasis[i];
        escaped[i] = 1.0 - flowing[i] * firstPass[i];
    }
    const Lane gutRate = c.acidUptake - toGut * flowing.start * firstPass.start * portal;
    const Lane plasmaRate = (uptake.start * flowing.start + c.acidRenal) / c.acidSpace;
    const Lag gutLag = s.lagOf(gutRate), plasmaLag = s.lagOf(plasmaRate);
    const Lane gutTime = 1.0 / gutRate, plasmaTime = 1.0 / plasmaRate, storeTime = 1.0 / emptying;
    Lag storeLag = s[Rate::store];
    const Lag& mealLag = s[Rate::storeInMeal];
    storeLag.keepMiddle = ifPositive(meal, mealLag.keepMiddle, storeLag.keepMiddle);
    storeLag.keepEnd = ifPositive(meal, mealLag.keepEnd, storeLag.keepEnd);
    for (int i = 0; i < 3; ++i) {
        storeLag.middle[i] = ifPositive(meal, mealLag.middle[i], storeLag.middle[i]);
        storeLag.end[i] = ifPositive(meal, mealLag.end[i], storeLag.end[i]);
    }

    BileAcids out{still(y.store), still(y.gut), still(y.acids)};
    for (int pass = 0; pass < 4; ++pass) {
        Track target;
        for (int i = 0; i < 3; ++i) {
            const Lane returned = portal * out.gut[i];
            const Lane change = (returned * escaped[i] + (1.0 - flowing[i]) * c.acidMade -
                                 (uptake[i] * flowing[i] + c.acidRenal) * out.plasma[i]) /
                                c.acidSpace;
            target[i] = out.plasma[i] + change * plasmaTime;
        }
        out.plasma = chase(y.acids, target, plasmaLag);
        Track bile;
        for (int i = 0; i < 3; ++i) {
            bile[i] = flowing[i] *
                      (firstPass[i] * portal * out.gut[i] + uptake[i] * out.plasma[i] + c.acidMade);
            target[i] = toStore * bile[i] * storeTime;
        }
        out.store = chase(y.store, target, storeLag);
        for (int i = 0; i < 3; ++i)
            target[i] =
                out.gut[i] +
                (toGut * bile[i] + emptying * out.store[i] - c.acidUptake * out.gut[i]) * gutTime;
        out.gut = chase(y.gut, target, gutLag);
    }
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
