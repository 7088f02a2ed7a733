#pragma once

// One number of several animals at once. Included only by the stepper, which is built once per
// vector unit and precision; CISTERN_REAL says of what and CISTERN_LANES how many go side by side,
// and CISTERN_UNIT names the namespace, so that no inline function of one build is ever linked into
// another. Only + - * / sqrt and choice are used, each exact to the last bit on every unit, so an
// animal's course does not depend on its lane or on the width.

namespace cistern::body::CISTERN_UNIT {

using Real = CISTERN_REAL;

/// Whether this build is for long steps at single precision.
inline constexpr bool single = sizeof(Real) < sizeof(double);

struct Lane {
    typedef Real Wide __attribute__((vector_size(CISTERN_LANES * sizeof(Real))));
    Wide v;

    Lane() = default;
    Lane(Wide wide) : v(wide) {}
    Lane(double one) : v(static_cast<Real>(one) - Wide{}) {}
    Real operator[](int lane) const { return v[lane]; }
    void set(int lane, double one) { v[lane] = static_cast<Real>(one); }
};

inline Lane operator+(Lane a, Lane b) {
    return a.v + b.v;
}
inline Lane operator-(Lane a, Lane b) {
    return a.v - b.v;
}
inline Lane operator*(Lane a, Lane b) {
    return a.v * b.v;
}
inline Lane operator/(Lane a, Lane b) {
    return a.v / b.v;
}
inline Lane operator-(Lane a) {
    return -a.v;
}
inline Lane& operator+=(Lane& a, Lane b) {
    return a = a + b;
}
inline Lane& operator*=(Lane& a, Lane b) {
    return a = a * b;
}

inline Lane least(Lane a, Lane b) {
    return a.v < b.v ? a.v : b.v;
}
inline Lane most(Lane a, Lane b) {
    return a.v > b.v ? a.v : b.v;
}
inline Lane between(Lane low, Lane x, Lane high) {
    return least(most(x, low), high);
}
/// a where x > 0, else b.
inline Lane ifPositive(Lane x, Lane a, Lane b) {
    return x.v > Lane(0.0).v ? a.v : b.v;
}
inline Lane root(Lane a) {
    Lane r;
    for (int i = 0; i < CISTERN_LANES; ++i)
        if constexpr (single)
            r.v[i] = __builtin_sqrtf(a.v[i]);
        else
            r.v[i] = __builtin_sqrt(a.v[i]);
    return r;
}

/// e^x for |x| up to about 20, relative error below 1e-12 (1e-5 at single
/// precision): a Taylor sum at x/64, squared six times.
inline Lane exponential(Lane x) {
    constexpr int terms = single ? 6 : 10;
    const Lane r = x * (1.0 / 64);
    Lane sum = 1.0 + r * (1.0 / terms);
    for (int k = terms - 1; k >= 1; --k) sum = 1.0 + r * sum * (1.0 / k);
    for (int k = 0; k < 6; ++k) sum = sum * sum;
    return sum;
}

} // namespace cistern::body::CISTERN_UNIT
