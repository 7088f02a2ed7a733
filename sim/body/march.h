#pragma once
#include "body/plan.h"
#include "body/unit.h"

#include <memory>
#include <optional>
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
    std::vector<double> looks_;
    std::size_t change_ = 0;
    double now_, nominal_;
    double since_; ///< hour of the last change
    double most_;  ///< longest step until the next change [h]
    Steps steps_;
    void changed();
};

/// Several animals moving at once, one a lane, each at its own pace. A lane that has arrived can
/// take the next animal while the others go on.
class Batch {
public:
    /// All plans must be of one precision. Every lane holds the first plan's animal, standing
    /// still, until it gets one of its own.
    explicit Batch(const Plan& first);
    int lanes() const { return unit_.lanes; }
    /// Puts a plan's animal into a lane, healthy at the plan's start.
    void place(int lane, const Plan& plan);
    /// Sends a lane through hours to look at, writing reading::count values a look into rows. Both
    /// must stay until it has arrived. Readings that the plan did not ask for are zero.
    void send(int lane, std::span<const double> looks, double* rows);
    /// Whether a lane has seen all its looks, or has none.
    bool idle(int lane) const { return !journeys_[static_cast<std::size_t>(lane)].underWay(); }
    /// Moves all lanes that are under way until at least one arrives. False if none is under way.
    bool march();

private:
    struct Free {
        void operator()(void* memory) const;
    };
    struct Journey {
        std::optional<Clock> clock;
        std::span<const double> looks;
        double* rows = nullptr;
        std::size_t done = 0;
        Parts parts = allParts;
        double pace = -1; ///< step set in the lane [h]
        bool underWay() const { return done < looks.size(); }
    };
    const Unit& unit_;
    bool single_;
    std::unique_ptr<void, Free> block_;
    std::vector<Journey> journeys_;
    void drive(int lane);
    void pace(int lane, double hours);
    void step();
    void read(int lane, double* row) const;
};

/// The unit in use, of doubles or of single precision: the widest that this machine runs, unless
/// useLanes() chose another.
const Unit& unitInUse(bool single);

} // namespace cistern::body
