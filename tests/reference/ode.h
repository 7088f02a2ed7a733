#pragma once
#include "body/course.h"

#include <array>
#include <vector>

namespace reference {

/// The same body written down a second time, as plain differential equations straight from a
/// species' parameters, for general-purpose solvers. It shares no equation and no derived constant
/// with sim/body.
class Ode {
public:
    enum {
        v,
        s,
        D,
        M,
        oe,
        f,
        h,
        om,
        on,
        s1,
        s2,
        s3,
        pb,
        l, // liver, bile flow, drugs
        vm,
        Dm,
        X,
        grow, // muscle, growth
        ALT,
        AST,
        ALPL,
        ALPC,
        ALPB,
        GGT,
        CK, // plasma enzymes [U/L]
        B,
        De,
        H,
        St,
        G,
        P, // bilirubin, bile acids
        W,
        S,
        Vp,
        vn,
        q,
        hn,
        ou,
        In,
        Mm,
        co,
        Cr,
        Ur, // water, kidney
        Ap,
        Ai,
        Gl,
        Ch, // albumin in plasma and tissue, glucose, cholesterol
        count
    };
    using State = std::array<double, count>;

    explicit Ode(const cistern::body::Plan& plan);
    State healthy() const;
    /// Hours at which a drive changes, ascending, from the start on.
    const std::vector<double>& changes() const { return changes_; }
    /// Sets the drives that hold from an hour on.
    void hold(double hour);
    void operator()(const State& y, State& dy, double) const;
    /// Tissue work and leak, then analytes, in the order of body::reading.
    std::array<double, cistern::body::reading::gfr> read(const State& y) const;

private:
    struct Algebra { // what follows from a state without integrating
        double od, Z, sh, reached, work, calm, shed, flow, C, filtration, need, cleared;
    };
    Algebra algebra(const State& y) const;
    void enzymes(const State& y, const Algebra& a, State& dy) const;
    void bile(const State& y, const Algebra& a, State& dy) const;
    void waterAndKidney(const State& y, const Algebra& a, State& dy) const;
    void proteinAndSugar(const State& y, const Algebra& a, State& dy) const;

    cistern::body::Species p_;
    double age_, from_;
    std::vector<cistern::body::Window> windows_;
    std::vector<double> changes_;
    // drives
    double k, kscar, a, o, z, fat, sig, dose, phen, km, heme, kn, ka, block, loss, fast, meal;
    // derived
    double bm, b[7], ke[7], mc[7], mus[7], Vmax, Km, tDelta, kb, syn, kS, gut0, store0, r0, Pc, n0,
        kc, ki, synA, tc, tm, tmc;
};

/// Course of a plan by dense-output Dormand-Prince at a tolerance, restarted at every change: one
/// row a look, body::reading::gfr values each.
std::vector<double> course(const cistern::body::Plan& plan, double tolerance);

} // namespace reference
