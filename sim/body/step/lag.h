#pragma once
#include "body/constants.h"
#include "body/step/lane.h"

namespace cistern::body::CISTERN_UNIT {

/// A quantity over one step: at its start, middle and end.
struct Track {
    Lane start, middle, end;
    Lane& operator[](int node) { return (&start)[node]; }
    const Lane& operator[](int node) const { return (&start)[node]; }
};

/// A quantity that stands still over the step.
inline Track still(Lane y) {
    return {y, y, y};
}

/// Weights of the exact solution of y' = rate (target - y) over a step, for a target that is the
/// parabola through its values at start, middle and end. Weights of each row sum to 1, so rest is
/// exact.
struct Lag {
    Lane keepMiddle, keepEnd; ///< share of the start value that is left
    Lane middle[3], end[3];   ///< weights of the target
};

/// Weights for x = rate * step, 0 <= x <= 8, from the functions phi_k(-x) = integral forms of e^-x
/// (Hochbruck & Ostermann 2010, Exponential integrators, Acta Numerica 19). phi_3 at x/4 is a
/// Taylor sum; lower ones follow by recurrence and larger arguments by doubling, neither of which
/// loses digits.
inline Lag lag(Lane x) {
    const Lane quarter = x * -0.25;
    Lane p3 = 1.0 + quarter * (1.0 / 15);
    for (int k = 14; k >= 4; --k) p3 = 1.0 + quarter * p3 * (1.0 / k);
    p3 = p3 * (1.0 / 6);
    Lane p2 = 0.5 + quarter * p3;
    Lane p1 = 1.0 + quarter * p2;
    Lane p0 = 1.0 + quarter * p1;
    const auto doubled = [&] {
        const Lane q3 = (p1 * p2 + p2 + 2.0 * p3) * 0.125;
        const Lane q2 = (p1 * p1 + 2.0 * p2) * 0.25;
        p1 = (1.0 + p0) * p1 * 0.5;
        p0 = p0 * p0;
        p2 = q2;
        p3 = q3;
    };
    Lag w;
    doubled();
    const Lane half = x * 0.5;
    w.keepMiddle = p0;
    w.middle[1] = half * 2.0 * (p2 - p3);
    w.middle[2] = half * (p3 - 0.5 * p2);
    w.middle[0] = 1.0 - p0 - w.middle[1] - w.middle[2];
    doubled();
    w.keepEnd = p0;
    w.end[1] = x * (4.0 * p2 - 8.0 * p3);
    w.end[2] = x * (4.0 * p3 - p2);
    w.end[0] = 1.0 - p0 - w.end[1] - w.end[2];
    return w;
}

/// The quantity that chases a moving target.
inline Track chase(Lane y, const Track& target, const Lag& w) {
    return {y,
            w.keepMiddle * y + w.middle[0] * target.start + w.middle[1] * target.middle +
                w.middle[2] * target.end,
            w.keepEnd * y + w.end[0] * target.start + w.end[1] * target.middle +
                w.end[2] * target.end};
}

/// The quantity that chases a target which stands still over the step.
inline Track chase(Lane y, Lane target, const Lag& w) {
    return {y, target + w.keepMiddle * (y - target), target + w.keepEnd * (y - target)};
}

/// The integral of a rate over the first half and the whole of a step, of the parabola through it.
inline Track sum(Lane y, const Track& rate, Lane step) {
    return {y, y + step * (1.0 / 24) * (5.0 * rate.start + 8.0 * rate.middle - rate.end),
            y + step * (1.0 / 6) * (rate.start + 4.0 * rate.middle + rate.end)};
}

/// The stretch of a track over part k of n equal parts of its step, along the parabola through it.
inline Track part(const Track& t, int k, int n) {
    const Lane bend = 2.0 * t.start - 4.0 * t.middle + 2.0 * t.end;
    const Lane slope = t.end - t.start - bend;
    const auto at = [&](double x) { return t.start + x * (slope + x * bend); };
    const double width = 1.0 / n;
    return {at(k * width), at((k + 0.5) * width), at((k + 1) * width)};
}

/// The lesser of two shares, its corner rounded: reserve does not end all at once.
inline Lane eased(Lane a, Lane b) {
    const Lane gap = a - b;
    return 0.5 * (a + b - root(gap * gap + corner * corner));
}

} // namespace cistern::body::CISTERN_UNIT
