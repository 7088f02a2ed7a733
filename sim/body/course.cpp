#include "body/course.h"

#include "body/march.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <optional>
#include <sstream>
#include <thread>

namespace cistern::body {

namespace {

std::string readingName(int reading) {
    const auto named = [](std::string_view what, std::string_view of) {
        return std::string(what) + std::string(of);
    };
    if (reading < reading::leak)
        return named("work of ", name(tissues()[static_cast<std::size_t>(reading)]));
    if (reading < reading::analyte)
        return named("leak of ",
                     name(tissues()[static_cast<std::size_t>(reading - reading::leak)]));
    if (reading < reading::gfr)
        return std::string(name(analytes()[static_cast<std::size_t>(reading - reading::analyte)]));
    if (reading >= reading::release)
        return named("release of ",
                     name(pools()[static_cast<std::size_t>(reading - reading::release)]));
    if (reading >= reading::pool)
        return named("pool of ", name(pools()[static_cast<std::size_t>(reading - reading::pool)]));
    constexpr std::array<std::string_view, 5> rest{"filtration", "hydration", "plasma volume",
                                                   "conjugated bilirubin", "delta bilirubin"};
    return std::string(rest[static_cast<std::size_t>(reading - reading::gfr)]);
}

/// Refuses what no animal can have, where it arises.
void check(std::span<const double> hours, const double* rows) {
    for (std::size_t look = 0; look < hours.size(); ++look) {
        const double* row = rows + look * reading::count;
        const Eigen::Map<const Eigen::Array<double, reading::count, 1>> all(row);
        // One NaN or infinity spoils the sum; a sum that overflows by itself only costs the long
        // look.
        if (all.minCoeff() >= 0 && std::isfinite(all.sum())) continue;
        for (int r = 0; r < reading::count; ++r)
            if (!(row[r] >= 0) || !std::isfinite(row[r]))
                throw BeyondLife(readingName(r), row[r], hours[look]);
    }
}

Course::Table tableFor(const Plan& plan) {
    return Course::Table(static_cast<Eigen::Index>(plan.looks.size()), reading::count);
}

using Lost = std::function<void(std::size_t, const BeyondLife&)>;

/// One worker's lanes: each animal that arrives is shown, and the next takes its lane.
class Relay {
public:
    Relay(const std::function<std::size_t()>& next, std::size_t animals,
          const std::function<Plan(std::size_t)>& plan,
          const std::function<void(std::size_t, const Course&)>& visit, const Lost& lost)
        : next_(next), animals_(animals), plan_(plan), visit_(visit), lost_(lost) {}

    void run() {
        std::vector<Rider> riders(1); // the first plan tells how many there is room for
        std::optional<Batch> batch;
        do {
            for (std::size_t lane = 0; lane < riders.size(); ++lane) {
                if (batch && !batch->idle(static_cast<int>(lane))) continue;
                change(batch, static_cast<int>(lane), riders[lane]);
                if (batch) riders.resize(static_cast<std::size_t>(batch->lanes()));
            }
        } while (batch && batch->march());
    }

private:
    struct Rider {
        bool aboard = false;
        std::size_t number = 0;
        Plan plan;
        Course::Table rows;
    };
    const std::function<std::size_t()>& next_;
    std::size_t animals_;
    const std::function<Plan(std::size_t)>& plan_;
    const std::function<void(std::size_t, const Course&)>& visit_;
    const Lost& lost_;

    bool lived(const Rider& rider) const {
        try {
            check(rider.plan.looks, rider.rows.data());
            return true;
        } catch (const BeyondLife& why) {
            if (!lost_) throw;
            lost_(rider.number, why);
            return false;
        }
    }
    void change(std::optional<Batch>& batch, int lane, Rider& rider) {
        if (rider.aboard && lived(rider))
            visit_(rider.number, Course(rider.plan.looks, std::move(rider.rows), rider.plan.parts));
        rider.aboard = (rider.number = next_()) < animals_;
        if (!rider.aboard) return;
        rider.plan = plan_(rider.number);
        rider.plan.validate();
        rider.rows = tableFor(rider.plan);
        if (!batch) batch.emplace(rider.plan);
        batch->place(lane, rider.plan);
        batch->send(lane, rider.plan.looks, rider.rows.data());
    }
};

} // namespace

BeyondLife::BeyondLife(const std::string& reading, double value, double hour)
    : std::runtime_error([&] {
          std::ostringstream all;
          all << "No animal lives through this: at hour " << hour << " its " << reading
              << " would be ";
          if (std::isfinite(value))
              all << value;
          else
              all << "no number";
          all << ". Make what happens to it before then milder.";
          return all.str();
      }()) {}

double Snapshot::at(int reading) const {
    if (!known(reading, parts)) throw std::logic_error(readingName(reading) + " was not asked for");
    return value[static_cast<std::size_t>(reading)];
}

Course::Course(std::vector<double> hours, Table table, Parts parts)
    : hours_(std::move(hours)), table_(std::move(table)), parts_(parts) {}

Snapshot Course::at(std::size_t look) const {
    Snapshot s;
    s.hour = hours_.at(look);
    s.parts = parts_;
    for (int r = 0; r < reading::count; ++r)
        s.value[static_cast<std::size_t>(r)] = table_(static_cast<Eigen::Index>(look), r);
    return s;
}

Course simulate(const Plan& plan) {
    plan.validate();
    Course::Table rows = tableFor(plan);
    Batch batch(plan);
    batch.place(0, plan);
    batch.send(0, plan.looks, rows.data());
    batch.march();
    check(plan.looks, rows.data());
    return {plan.looks, std::move(rows), plan.parts};
}

void simulate(std::size_t animals, const std::function<Plan(std::size_t)>& plan,
              const std::function<void(std::size_t, const Course&)>& visit, int threads) {
    simulate(animals, plan, visit, Lost(), threads);
}

void simulate(std::size_t animals, const std::function<Plan(std::size_t)>& plan,
              const std::function<void(std::size_t, const Course&)>& visit,
              const std::function<void(std::size_t, const BeyondLife&)>& lost, int threads) {
    std::atomic<std::size_t> count{0};
    const std::function<std::size_t()> next = [&] { return count++; };
    std::exception_ptr failure;
    std::mutex failing;
    const auto work = [&] {
        try {
            Relay(next, animals, plan, visit, lost).run();
        } catch (...) {
            const std::lock_guard lock(failing);
            if (!failure) failure = std::current_exception();
            count = animals;
        }
    };
    std::vector<std::thread> others;
    for (int i = 1; i < threads; ++i) others.emplace_back(work);
    work();
    for (std::thread& other : others) other.join();
    if (failure) std::rethrow_exception(failure);
}

struct Run::Inside {
    Plan plan;
    Batch batch;
    explicit Inside(const Plan& from) : plan(from), batch(plan) { batch.place(0, plan); }
};

Run::Run(const Plan& plan) {
    plan.validate();
    inside_ = std::make_unique<Inside>(plan);
    hour_ = plan.from;
}
Run::~Run() = default;
Run::Run(Run&&) noexcept = default;

Snapshot Run::advance(double hour) {
    if (!(hour >= hour_)) throw std::invalid_argument("a run moves on, never back");
    Snapshot s;
    s.hour = hour_ = hour;
    s.parts = inside_->plan.parts;
    const std::span<const double> look(&hour, 1);
    inside_->batch.send(0, look, s.value.data());
    inside_->batch.march();
    check(look, s.value.data());
    return s;
}

} // namespace cistern::body
