#pragma once
#include "body/plan.h"
#include "body/reading.h"

#include <Eigen/Core>

#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace cistern::body {

/// All readings of one animal at one moment.
struct Snapshot {
    double hour = 0;
    std::array<double, reading::count> value{};
    Parts parts = allParts; ///< what was asked for

    /// One reading. Throws std::logic_error if the plan did not ask for it.
    double at(int reading) const;
    double work(Tissue tissue) const {
        return at(reading::work + static_cast<int>(tissue));
    } ///< share, 1 is healthy
    double leak(Tissue tissue) const {
        return at(reading::leak + static_cast<int>(tissue));
    } ///< fold of own healthy release per gram
    double level(Analyte analyte) const { return at(reading::analyte + static_cast<int>(analyte)); }
    double pool(Pool pool) const { return at(reading::pool + static_cast<int>(pool)); }
    double release(Pool pool) const { return at(reading::release + static_cast<int>(pool)); }
};

/// The read-only outcome of a plan: one row a look, one column a reading. Columns that the plan did
/// not ask for are zero.
class Course {
public:
    using Table = Eigen::Array<double, Eigen::Dynamic, reading::count, Eigen::RowMajor>;
    Course(std::vector<double> hours, Table table, Parts parts = allParts);
    std::size_t size() const { return hours_.size(); }
    const std::vector<double>& hours() const { return hours_; }
    Snapshot at(std::size_t look) const;
    /// All looks of one reading.
    auto column(int reading) const { return table_.col(reading); }
    const Table& table() const { return table_; }

private:
    std::vector<double> hours_;
    Table table_;
    Parts parts_;
};

/// What is thrown when a reading would be negative, endless or no number: no animal lives through
/// the plan. One sentence names the reading and the hour, and one says what to do.
struct BeyondLife : std::runtime_error {
    BeyondLife(const std::string& reading, double value, double hour);
};

/// Simulates one animal. Throws std::invalid_argument (bad plan) or BeyondLife.
Course simulate(const Plan& plan);

/// One moving animal, for whoever watches it live.
class Run {
public:
    explicit Run(const Plan& plan); ///< `looks` of the plan are not used
    ~Run();
    Run(Run&&) noexcept;
    /// Moves on to an hour (not back) and tells how the animal stands there.
    Snapshot advance(double hour);

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
    double hour_ = 0;
};

/// Simulates many animals and shows each one's outcome once, in no set order, from `threads`
/// threads. Every plan must have the same number of looks. Memory does not grow with the number of
/// animals.
void simulate(std::size_t animals, const std::function<Plan(std::size_t)>& plan,
              const std::function<void(std::size_t, const Course&)>& visit, int threads);

/// The same, but an animal that does not live through its plan is told to `lost`, with why, and the
/// others go on.
void simulate(std::size_t animals, const std::function<Plan(std::size_t)>& plan,
              const std::function<void(std::size_t, const Course&)>& visit,
              const std::function<void(std::size_t, const BeyondLife&)>& lost, int threads);

/// Widths of the vector units that this machine can run, in doubles, widest last; and the one in
/// use. Results are the same to the last bit for each. Forcing one is for tests and timing.
std::vector<int> laneWidths();
int lanesInUse();
void useLanes(int width);

} // namespace cistern::body
