#pragma once
#include "body/course.h"
#include "reference/blood.h"
#include "reference/fluids.h"
#include "reference/organs.h"
#include "reference/solutes.h"

#include <vector>

namespace reference {

/// The same body written down a second time, as plain differential equations straight from a
/// species' parameters, for general-purpose solvers. It shares no equation and no derived constant
/// with sim/body.
class Ode {
public:
    using State = Vector;
    using Row = std::array<double, cistern::body::reading::count>;

    explicit Ode(const cistern::body::Plan& plan);
    State healthy() const;
    /// Hours at which a drive changes, ascending, from the start on.
    const std::vector<double>& changes() const { return changes_; }
    /// Sets the drives that hold from an hour on.
    void hold(double hour);
    void operator()(const State& y, State& dy, double) const;
    /// All readings, in the order of body::reading.
    Row read(const State& y) const;

private:
    cistern::body::Plan plan_;
    Organs organs_;
    Fluids fluids_;
    Blood blood_;
    Solutes solutes_;
    std::vector<double> changes_;
    Drives drives_;

    Now now(const State& y) const;
    void readTissues(const State& y, const Now& n, const Blood::Levels& blood,
                     const Fluids::Levels& fluids, const Solutes::Levels& solutes, Row& row) const;
};

/// Course of a plan by dense-output Dormand-Prince at a tolerance, restarted at every change: one
/// row a look, body::reading::count values each.
std::vector<double> course(const cistern::body::Plan& plan, double tolerance);

} // namespace reference
