#pragma once
#include "body/step/liver.h"
#include "body/step/red_cells.h"

namespace cistern::body::CISTERN_UNIT {

/// Bilirubin over one step: exchangeable pool, the part bound to albumin for good, and heme coming
/// in.
struct Bilirubin {
    Lane pool; ///< at its end
    Track delta, heme;
    Track conjugated; ///< of the exchangeable pool

    void end(BileState<Lane>& y) const { y = {pool, delta.end, heme.end}; }
};

/// What moves bilirubin over a step or a part of it.
struct BileDrive {
    Track inflow; ///< [umol/L per h]
    Track free;   ///< unconjugated level at which living cells take up what heme brings [umol/L]
    Track pump, urine;
};

/// Bilirubin and bile acids move within the hour; they take so many parts of a step.
inline constexpr int bilirubinParts = 2;
inline constexpr int bilirubinPasses = 3;

/// The pool drains faster the less there is of it. It is solved as a lag at the slope that the loss
/// has where the part starts; what the straight line misses goes into the target, first as if it
/// stood still.
inline Track bilirubinPart(const Step& s, Lane begin, const BileDrive& d, Lane hours) {
    const auto& c = s.c.bile;
    const auto change = [&](int i, Lane x) {
        const Lane half = c.excretionHalf + x, threshold = c.renalThreshold + x;
        const Lane out =
            (d.pump[i] * threshold + d.urine[i] * x * half) / (half * threshold) + c.binding;
        return d.inflow[i] - out * x;
    };
    const auto conjugated = [&](int i, Lane pool) {
        return positive((pool - d.free[i]) * c.exchange, c.emptying);
    };
    const Lane x = conjugated(0, begin);
    // Where hardly any is conjugated the pool hardly answers to itself.
    const Lane answer =
        between(0.05, 0.5 + (begin - d.free.start) * c.exchange * 0.5 / c.emptying, 1.0);
    const Lane half = c.excretionHalf + x, threshold = c.renalThreshold + x;
    const Lane both = half * threshold;
    const Lane pumping = d.pump.start * c.excretionHalf * threshold * threshold;
    const Lane passing = d.urine.start * x * (x + 2.0 * c.renalThreshold) * half * half;
    const Lane slope = ((pumping + passing) / (both * both) + c.binding) * c.exchange * answer;
    const Lag w = shortLag(slope * hours);
    const Lane time = 1.0 / slope;
    Track target = still(begin + change(0, x) * time);
    Track out = chase(begin, target.start, w);
    for (int pass = 0; pass < bilirubinPasses; ++pass) {
        for (int i = 1; i < 3; ++i) target[i] = out[i] + change(i, conjugated(i, out[i])) * time;
        out = chase(begin, target, w);
    }
    return out;
}

inline Bilirubin bilirubin(const Step& s, const BileState<Lane>& y, const Liver& liver,
                           const RedCells& redCells) {
    const auto& c = s.c.bile;
    Bilirubin out;
    out.heme = chase(y.heme, redCells.heme, s.lag.bile.heme);
    // Exchange with the liver is fast: the unconjugated level is what the inflow needs to be taken
    // up, and the rest of the pool is conjugated, with a share of it back in the cells.
    BileDrive d;
    for (int i = 0; i < 3; ++i) {
        d.inflow[i] = c.hemeInflow * out.heme[i];
        d.free[i] = out.heme[i] * c.uptakeLevel / liver.living[i];
        d.pump[i] = c.excretionMost * liver.living[i] * (1.0 - liver.cholestasis[i]);
        d.urine[i] = c.renalClearance * (1.0 + c.renalAdaptation * liver.adaptation[i]);
    }
    const auto conjugated = [&](Lane pool, Lane free) {
        return positive((pool - free) * c.exchange, c.emptying);
    };
    constexpr int n = bilirubinParts;
    out.pool = y.bilirubin;
    out.conjugated = still(conjugated(y.bilirubin, d.free.start));
    Lane mean = 0.0; // conjugated, by Simpson's rule over each part
    for (int k = 0; k < n; ++k) {
        const Track free = part(d.free, k, n);
        const Track pool = bilirubinPart(
            s, out.pool, {part(d.inflow, k, n), free, part(d.pump, k, n), part(d.urine, k, n)},
            s.hours * (1.0 / n));
        const Lane begun = out.conjugated.end;
        out.pool = pool.end;
        out.conjugated.end = conjugated(pool.end, free.end);
        mean += (begun + 4.0 * conjugated(pool.middle, free.middle) + out.conjugated.end) *
                (1.0 / (6 * n));
    }
    // The pool may run dry within a step: the middle is put where the step's mean comes out right.
    out.conjugated.middle = 1.5 * mean - 0.25 * (out.conjugated.start + out.conjugated.end);
    Track bound;
    for (int i = 0; i < 3; ++i) bound[i] = c.binding * out.conjugated[i] * c.deltaTime;
    out.delta = chase(y.delta, bound, s.lag.bile.delta);
    return out;
}

inline void read(const Bilirubin& b, Lane dilution, Readings& out) {
    const Lane per = 1.0 / dilution;
    out.level(Analyte::bilirubin) = (b.pool + b.delta.end) * per;
    out[reading::conjugated] = (b.conjugated.end + b.delta.end) * per;
    out[reading::delta] = b.delta.end * per;
}

} // namespace cistern::body::CISTERN_UNIT
