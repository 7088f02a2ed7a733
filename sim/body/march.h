#pragma once
#include "body/plan.h"
#include "body/unit.h"

#include <memory>
#include <span>
#include <vector>

namespace cistern::body {

/// When one animal steps: never across a change of a drive nor across a look, short steps after a
/// change, otherwise on a grid of whole, half, quarter ... steps counted from hour 0.
class Clock {
public:
    explicit Clock(const Plan& plan);
    double now() const { return now_; }
    /// Length of the next step towards an hour. 0 if it is there.
    double next(double until) const;
    /// Moves on by the step that next() gave. True if a drive changes here.
    bool advance(double hours);
    /// Values of all drives from now on.
    void drives(double* values) const;

private:
    std::vector<Window> windows_;
    std::vector<double> changes_; ///< hours at which a drive changes, ascending
    std::size_t change_ = 0;
    double now_, nominal_;
    double since_; ///< hour of the last change
    double most_;  ///< longest step until the next change [h]
    Steps steps_;
    void changed();
};

/// Several animals moving at once, one a lane.
class Batch {
public:
    /// At most unit.lanes plans, at least one. The plans must outlive the batch.
    Batch(const Unit& unit, std::span<const Plan* const> plans);
    /// Moves each animal through its looks, writing reading::count values a look into rows[lane].
    void march(std::span<const std::span<const double>> looks, std::span<double* const> rows);

private:
    struct Free {
        void operator()(void* memory) const;
    };
    const Unit& unit_;
    std::unique_ptr<void, Free> block_;
    std::vector<Clock> clocks_;
    std::vector<double> pace_; ///< step set in each lane
    void drive(int lane);
    void pace(int lane, double hours);
};

/// The unit in use: the widest that this machine runs, unless useLanes() chose another.
const Unit& unitInUse();

} // namespace cistern::body
