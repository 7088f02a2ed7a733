#pragma once
#include "body/step/liver.h"

namespace cistern::body::CISTERN_UNIT {

/// Bile acids: stored in the gall bladder, in the gut, and in the blood.
struct BileAcids {
    Lane store, gut, plasma;
};

/// Bile acids move within the hour; they take so many parts of a step.
inline constexpr int acidParts = 2;
inline constexpr int acidPasses = 3;

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
    const auto& c = s.c.portal;
    const Lane meal = s.drive[Drive::meal];
    const Lane storing = ifPositive(meal, c.storedInMeal, c.stored);
    const Lane emptying = ifPositive(meal, c.storeMealRate, c.storeRate);
    const Lane gutRate = c.uptake - (1.0 - storing) * d.caught.middle;
    const Lane plasmaRate = (d.cleared.middle + c.renal) / c.space;
    const Lane gutTime = 1.0 / gutRate;
    AcidPace p;
    p.store = shortLag(emptying * hours);
    p.gut = shortLag(gutRate * hours);
    p.plasma = shortLag(plasmaRate * hours);
    p.storeFed = storing / emptying;
    p.gutFed = (1.0 - storing) * gutTime / p.storeFed;
    p.gutFromStore = emptying * gutTime;
    p.gutSlower = (gutRate - c.uptake) * gutTime;
    p.plasmaFed = 1.0 / (plasmaRate * c.space);
    p.plasmaSlower = 1.0 - p.plasmaFed * c.renal;
    p.portal = c.uptake * c.kept;
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

inline BileAcids bileAcids(const Step& s, const PortalState<Lane>& y, const Liver& liver) {
    const auto& c = s.c.portal;
    const Lane portal = c.uptake * c.kept;
    AcidDrive d;
    for (int i = 0; i < 3; ++i) {
        const Lane caught = 1.0 - exponential(-c.extraction * liver.living[i] / liver.reached[i]);
        const Lane flowing = 1.0 - liver.cholestasis[i];
        d.caught[i] = portal * caught * (1.0 - liver.shunted[i]) * flowing;
        d.cleared[i] = c.flow * liver.reached[i] * caught * flowing;
        d.made[i] = c.made * flowing;
    }
    constexpr int n = acidParts;
    const AcidPace pace = acidPace(s, d, s.hours * (1.0 / n));
    BileAcids out{y.store, y.gut, y.acids};
    for (int k = 0; k < n; ++k)
        out = acidPart(out, {part(d.caught, k, n), part(d.cleared, k, n), part(d.made, k, n)}, pace,
                       c.made);
    return out;
}

/// Ammonia from the gut is caught by living cells as blood passes them; a shunt leads it around
/// them, other tissues take up the rest.
inline Track ammonia(const Step& s, Lane begin, const Liver& liver) {
    const auto& c = s.c.portal;
    const Lane made = c.ammoniaMade * (1.0 + c.ammoniaOfMeal * s.drive[Drive::meal]);
    Track inflow, rate;
    for (int i = 0; i < 3; ++i) {
        const Lane passed = exponential(-c.ammoniaExtraction * liver.living[i] / liver.reached[i]);
        inflow[i] =
            made * (liver.shunted[i] + (1.0 - liver.shunted[i]) * passed) * c.perAmmoniaSpace;
        rate[i] =
            (c.flow * liver.reached[i] * (1.0 - passed) + c.ammoniaElsewhere) * c.perAmmoniaSpace;
    }
    const Lane time = 1.0 / rate.middle;
    Track target, own;
    for (int i = 0; i < 3; ++i) {
        target[i] = inflow[i] * time;
        own[i] = 1.0 - rate[i] * time;
    }
    return chase(begin, target, own, lag(rate.middle * s.hours));
}

/// What portal blood carries, over one step.
struct Portal {
    BileAcids acids;
    Track ammonia;

    void end(PortalState<Lane>& y) const {
        y = {acids.store, acids.gut, acids.plasma, ammonia.end};
    }
};

inline Portal portal(const Step& s, const PortalState<Lane>& y, const Liver& liver) {
    return {bileAcids(s, y, liver), ammonia(s, y.ammonia, liver)};
}

inline void read(const Portal& p, Readings& out) {
    out.level(Analyte::bileAcids) = p.acids.plasma;
    out.level(Analyte::ammonia) = p.ammonia.end;
}

} // namespace cistern::body::CISTERN_UNIT
