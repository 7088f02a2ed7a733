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

/// The functions phi_k(z), integral forms of e^z, that the weights are made of: phi_0 = e^z,
/// phi_k+1 = (phi_k - 1/k!) / z. (Hochbruck & Ostermann 2010, Exponential integrators, Acta
/// Numerica 19.)
struct Phi {
    Lane p0, p1, p2, p3;

    /// By the Taylor sum of phi_3 and the recurrence upwards, which loses no digits. |z| up to 1:
    /// 1e-12; at single precision up to 1/4: 1e-6.
    explicit Phi(Lane z) {
        constexpr int terms = single ? 4 : 11;
        double factorial = 1; // of the last term, (terms + 2)!
        for (int k = 2; k <= terms + 2; ++k) factorial *= k;
        p3 = 1 / factorial;
        for (int k = terms + 2; k > 3; --k) p3 = p3 * z + 1 / (factorial /= k);
        p2 = 0.5 + z * p3;
        p1 = 1.0 + z * p2;
        p0 = 1.0 + z * p1;
    }
    /// The same at twice z.
    void twice() {
        const Lane q3 = (p1 * p2 + p2 + 2.0 * p3) * 0.125;
        p2 = (p1 * p1 + 2.0 * p2) * 0.25;
        p1 = (1.0 + p0) * p1 * 0.5;
        p0 = p0 * p0;
        p3 = q3;
    }
};

/// Weights from the functions at half a step, for x = rate * step.
inline Lag lagFrom(Phi f, Lane x) {
    Lag w;
    w.keepMiddle = f.p0;
    w.middle[1] = x * (f.p2 - f.p3);
    w.middle[2] = x * (0.5 * f.p3 - 0.25 * f.p2);
    w.middle[0] = 1.0 - f.p0 - w.middle[1] - w.middle[2];
    f.twice();
    w.keepEnd = f.p0;
    w.end[1] = x * (4.0 * f.p2 - 8.0 * f.p3);
    w.end[2] = x * (4.0 * f.p3 - f.p2);
    w.end[0] = 1.0 - f.p0 - w.end[1] - w.end[2];
    return w;
}

/// Weights for any x = rate * step, to single precision: the recurrence goes downwards from e^z,
/// but where z is small, and that would lose all digits, upwards.
inline Lag longLag(Lane x) {
    constexpr double small = 0.25;
    const Lane z = x * -0.5, beyond = -small - z, per = 1.0 / most(-z, small);
    const Phi low(most(z, -small));
    Phi f = low;
    f.p0 = exponential(most(z, -16.0));
    f.p1 = (1.0 - f.p0) * per;
    f.p2 = (1.0 - f.p1) * per;
    f.p3 = ifPositive(beyond, (0.5 - f.p2) * per, low.p3);
    f.p2 = ifPositive(beyond, f.p2, low.p2);
    f.p1 = ifPositive(beyond, f.p1, low.p1);
    f.p0 = ifPositive(beyond, f.p0, low.p0);
    return lagFrom(f, x);
}

/// Weights for x = rate * step, 0 <= x <= 2.
inline Lag shortLag(Lane x) {
    if constexpr (single) return longLag(x);
    return lagFrom(Phi(x * -0.5), x);
}

/// Weights for x = rate * step, 0 <= x <= 16.
inline Lag lag(Lane x) {
    if constexpr (single) return longLag(x);
    Phi f(x * -0.0625);
    f.twice();
    f.twice();
    f.twice();
    return lagFrom(f, x);
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

/// The quantity that chases a target which holds a moving share of the quantity itself: target +
/// own y. A pool at a moving rate r(t) of a target g(t) is this, with target r g / rate and
/// own = 1 - r / rate. Solved for the middle and the end together.
inline Track chase(Lane y, const Track& target, const Track& own, const Lag& w) {
    const Lane first = target.start + own.start * y;
    const Lane middle = w.keepMiddle * y + w.middle[0] * first + w.middle[1] * target.middle +
                        w.middle[2] * target.end;
    const Lane end =
        w.keepEnd * y + w.end[0] * first + w.end[1] * target.middle + w.end[2] * target.end;
    const Lane a = 1.0 - w.middle[1] * own.middle, b = w.middle[2] * own.end;
    const Lane c = w.end[1] * own.middle, d = 1.0 - w.end[2] * own.end;
    const Lane per = 1.0 / (a * d - b * c);
    return {y, (d * middle + b * end) * per, (c * middle + a * end) * per};
}

/// A quantity that decays at a rate that stands still over the step.
inline Track decayed(Lane y, Lane rate, Lane step) {
    const Lane kept = exponential(rate * step * -0.5);
    return {y, y * kept, y * kept * kept};
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

/// What rounds a corner off, for two lines that are `gap` apart: a parabola where they are closer
/// than `width`, nothing further away.
inline Lane rounding(Lane gap, Lane width) {
    const Lane within = most(width - most(gap, -gap), 0.0);
    return within * within * 0.25 / width;
}
inline Lane rounding(Lane gap) {
    const Lane within = most(corner - most(gap, -gap), 0.0);
    return within * within * (0.25 / corner);
}

/// The lesser of two shares, its corner rounded.
inline Lane eased(Lane a, Lane b) {
    return least(a, b) - rounding(a - b);
}

/// The part of a share above zero, its corner rounded.
inline Lane positive(Lane x) {
    return most(x, 0.0) + rounding(x);
}

/// The part of a quantity above zero, its corner rounded over a width of its own.
inline Lane positive(Lane x, Lane width) {
    return most(x, 0.0) + rounding(x, width);
}

/// What has begun: 0 up to 0, then rising smoothly towards x - width. For what is 0 at rest.
inline Lane onset(Lane x, Lane width) {
    const Lane above = most(x, 0.0);
    return above * above / (above + width);
}

/// What is felt of a lack: nothing up to 0, then as its third power, so that no slope bends when a
/// pool comes to be full again; far above the width the lack itself.
inline Lane felt(Lane lack, Lane width) {
    const Lane above = most(lack, 0.0), square = above * above;
    return above * square / (square + width * width);
}

/// Two shares, one behind the other.
inline Lane join(Lane a, Lane b) {
    return 1.0 - (1.0 - a) * (1.0 - b);
}

/// The slope of positive(x): 0 below the corner, 1 above.
inline Lane answering(Lane x) {
    return between(0.0, 0.5 + x * (0.5 / corner), 1.0);
}

} // namespace cistern::body::CISTERN_UNIT
