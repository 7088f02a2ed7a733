#pragma once
#include "body/step/hormones.h"

namespace cistern::body::CISTERN_UNIT {

// total' = (total* - total) / lag - left loss - bled;
// salt' = (salt* - salt) / lag - Na0 (isotonic share x left loss + bled);
// bled = bleeding x healthy plasma x salt / healthy: plasma shrinks with what it lies in;
// left = salt / least - 1 within 0..1: a loss dries up where hardly any salt is left outside cells.
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

/// Salt outside the cells that no loss takes, share of healthy; below twice as much a loss begins
/// to dry up. Assumed: no animal lives with so little.
inline constexpr double leastSalt = 0.1;

/// What a loss leaves of salt that would take so much if it ran in full.
inline Lane drained(Lane salt, Lane taken, Lane least) {
    const Lane spare = most(salt - least, 0.0), above = most(spare - least, 0.0);
    return salt - spare + most(above - taken, 0.0) +
           (spare - above) * exponential(-most(taken - above, 0.0) / least);
}

inline Water water(const Step& s, const WaterState<Lane>& y, const Hormones& hormones) {
    const auto& c = s.c.water;
    const Lane loss = s.drive[Drive::waterLoss];
    const Lane bled = s.drive[Drive::bleeding] * c.plasma * c.sodium / c.salt; // [1/h]
    Track total, salt;
    for (int i = 0; i < 3; ++i) {
        const Lane lacking = 1.0 - hormones.held[i];
        total[i] = c.water - c.waterOfAldosterone * lacking;
        salt[i] = c.salt * (1.0 - c.saltOfAldosterone * lacking);
    }
    Water out;
    out.salt = chase(y.salt, salt, still(-bled * c.refillTime), s.lag.water.refill);
    for (int i = 0; i < 3; ++i) total[i] = total[i] - bled * out.salt[i] / c.sodium * c.refillTime;
    out.total = chase(y.total, total, s.lag.water.refill);
    // While a loss lasts nothing returns. Half of what is bled goes before it, half after.
    const Track kept = decayed(1.0, bled * 0.5, s.hours);
    for (int i = 1; i < 3; ++i) {
        const Lane before = y.salt * kept[i];
        const Lane after =
            drained(before, loss * c.saltPerLoss * s.hours * (0.5 * i), leastSalt * c.salt);
        const Lane left = after * kept[i];
        out.salt[i] = ifPositive(loss, left, out.salt[i]);
        out.total[i] = ifPositive(loss,
                                  y.total - (before - after) / c.saltPerLoss -
                                      (y.salt - before + after - left) / c.sodium,
                                  out.total[i]);
    }
    for (int i = 0; i < 3; ++i) {
        const Lane outside = out.salt[i] * out.total[i] / (c.cellSodium + out.salt[i]);
        out.dilution[i] = root(outside * c.perExtracellular);
    }
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
