#pragma once
#include "body/step/hormones.h"

namespace cistern::body::CISTERN_UNIT {

// total' = (total* - total) / lag - loss - bleeding x healthy plasma;
// salt' = (salt* - salt) / lag - Na0 (isotonic share x loss + bleeding x healthy plasma).
// While a loss lasts the return stands still, so that the stated deficit is reached exactly at its
// end; afterwards drinking (or a drip) makes it good. total* and salt* are lower without
// aldosterone. outside = salt total / (cell sodium + salt): water goes where the salt is.
// dilution = sqrt(outside / healthy): what plasma and all in it follow at once.

/// Body water and the salt that holds it, over one step.
struct Water {
    Track total, salt;
    Track dilution; ///< plasma volume over the one that its cells would leave in health

    void end(WaterState<Lane>& y) const { y = {total.end, salt.end}; }
};

inline Water water(const Step& s, const WaterState<Lane>& y, const Hormones& hormones) {
    const auto& c = s.c.water;
    const Lane loss = s.drive[Drive::waterLoss];
    const Lane bled = s.drive[Drive::bleeding] * c.plasma;
    Track total, salt;
    for (int i = 0; i < 3; ++i) {
        const Lane lacking = 1.0 - hormones.held[i];
        total[i] = c.water - c.waterOfAldosterone * lacking - bled * c.refillTime;
        salt[i] = c.salt * (1.0 - c.saltOfAldosterone * lacking) - bled * c.sodium * c.refillTime;
    }
    const auto moved = [&](Lane from, const Track& rest, Lane lossRate) {
        const Track back = chase(from, rest, s.lag.water.refill);
        Track out{from, {}, {}};
        out.middle = ifPositive(loss, from - lossRate * s.hours * 0.5, back.middle);
        out.end = ifPositive(loss, from - lossRate * s.hours, back.end);
        return out;
    };
    Water out;
    out.total = moved(y.total, total, loss + bled);
    out.salt = moved(y.salt, salt, loss * c.saltPerLoss + bled * c.sodium);
    for (int i = 0; i < 3; ++i) {
        const Lane outside = out.salt[i] * out.total[i] / (c.cellSodium + out.salt[i]);
        out.dilution[i] = root(outside * c.perExtracellular);
    }
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
