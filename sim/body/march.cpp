#include "body/march.h"

#include "body/reading.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <new>
#include <stdexcept>

namespace cistern::body {

namespace {

/// Hours closer than this are one hour: a few milliseconds, far below any time that a case can
/// state.
constexpr double same = 1e-6;

constexpr std::size_t blockAlignment = 64;

} // namespace

Clock::Clock(const Plan& plan)
    : windows_(plan.windows), now_(plan.from), since_(plan.from), steps_(plan.steps) {
    for (const Window& w : windows_)
        for (double hour : {w.from, w.to})
            if (hour > now_ + same) changes_.push_back(hour);
    std::sort(changes_.begin(), changes_.end());
    const auto close = [](double a, double b) { return b - a < same; };
    changes_.erase(std::unique(changes_.begin(), changes_.end(), close), changes_.end());
    changed();
}

void Clock::changed() {
    bool mealsAlone = true;
    double dying = 0;
    for (const Window& w : windows_) {
        const bool edge = std::abs(w.from - now_) < same || std::abs(w.to - now_) < same;
        if (edge && w.drive != Drive::meal) mealsAlone = false;
        const bool deadly = w.drive == Drive::liverDeath || w.drive == Drive::muscleDeath ||
                            w.drive == Drive::nephronDeath || w.drive == Drive::nephronStun;
        if (deadly && w.from < now_ + same && w.to > now_ + same) dying = std::max(dying, w.value);
    }
    most_ = steps_.longest;
    while (most_ > steps_.shortest && most_ * dying > steps_.ofDeath) most_ /= 2;
    nominal_ = std::min(mealsAlone && now_ > since_ ? std::min(steps_.afterMeal, nominal_)
                                                    : steps_.shortest,
                        most_);
    since_ = now_;
}

double Clock::next(double until) const {
    if (until - now_ <= 0) return 0;
    if (change_ < changes_.size()) until = std::min(until, changes_[change_]);
    const double place = now_ / nominal_;
    const double ahead = (std::floor(place + same) + 1) * nominal_ - now_;
    return now_ + ahead > until - same ? until - now_ : ahead;
}

bool Clock::advance(double hours) {
    now_ += hours;
    if (change_ < changes_.size() && now_ >= changes_[change_] - same) {
        ++change_;
        changed();
        return true;
    }
    while (2 * nominal_ <= std::min(most_, (now_ - since_) * steps_.ofTimeSince + same))
        nominal_ *= 2;
    return false;
}

void Clock::drives(double* values) const {
    std::fill(values, values + driveCount, 0.0);
    for (const Window& w : windows_) {
        if (w.from > now_ + same || w.to <= now_ + same) continue;
        double& value = values[static_cast<int>(w.drive)];
        value = addsUp(w.drive) ? value + w.value : 1 - (1 - value) * (1 - w.value);
    }
}

void Batch::Free::operator()(void* memory) const {
    ::operator delete (memory, std::align_val_t{blockAlignment});
}

Batch::Batch(const Unit& unit, std::span<const Plan* const> plans)
    : unit_(unit),
      block_(::operator new (unit.bytes, std::align_val_t{blockAlignment})),
      pace_(static_cast<std::size_t>(unit.lanes), 0.0) {
    for (int lane = 0; lane < unit.lanes; ++lane) {
        // Lanes without an animal of their own hold the first one, standing still.
        const auto i = static_cast<std::size_t>(lane);
        const Plan& plan = i < plans.size() ? *plans[i] : *plans[0];
        const Constants<double> c = constants(plan.animal);
        unit_.load(block_.get(), lane, c, healthy(plan.animal, c, plan.animal.who.age + plan.from));
        if (i < plans.size()) clocks_.emplace_back(plan);
    }
    const std::array<double, driveCount> none{};
    for (int lane = 0; lane < unit.lanes; ++lane) {
        unit_.pace(block_.get(), lane, 0);
        if (static_cast<std::size_t>(lane) < clocks_.size())
            drive(lane);
        else
            unit_.drive(block_.get(), lane, none.data());
    }
}

void Batch::drive(int lane) {
    std::array<double, driveCount> values{};
    clocks_[static_cast<std::size_t>(lane)].drives(values.data());
    unit_.drive(block_.get(), lane, values.data());
}

void Batch::pace(int lane, double hours) {
    double& set = pace_[static_cast<std::size_t>(lane)];
    if (set == hours) return;
    set = hours;
    unit_.pace(block_.get(), lane, hours);
}

void Batch::march(std::span<const std::span<const double>> looks, std::span<double* const> rows) {
    std::vector<std::size_t> done(clocks_.size(), 0);
    std::vector<int> arriving;
    while (true) {
        arriving.clear();
        bool moving = false;
        for (std::size_t i = 0; i < clocks_.size(); ++i) {
            const int lane = static_cast<int>(i);
            if (done[i] == looks[i].size()) {
                pace(lane, 0);
                continue;
            }
            moving = true;
            const double until = looks[i][done[i]];
            const double hours = clocks_[i].next(until);
            pace(lane, hours);
            if (until - clocks_[i].now() <= hours) arriving.push_back(lane);
        }
        if (!moving) return;
        unit_.step(block_.get(), !arriving.empty());
        for (int lane : arriving) {
            const auto i = static_cast<std::size_t>(lane);
            const double until = looks[i][done[i]];
            for (; done[i] < looks[i].size() && looks[i][done[i]] <= until; ++done[i])
                unit_.read(block_.get(), lane, rows[i] + done[i] * reading::count);
        }
        for (std::size_t i = 0; i < clocks_.size(); ++i)
            if (pace_[i] > 0 && clocks_[i].advance(pace_[i])) drive(static_cast<int>(i));
    }
}

namespace {

std::vector<const Unit*> unitsHere() {
    std::vector<const Unit*> units{&unitSse2};
#ifdef CISTERN_WIDE_UNITS
    if (__builtin_cpu_supports("avx2")) units.push_back(&unitAvx2);
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq"))
        units.push_back(&unitAvx512);
#endif
    return units;
}

const Unit*& chosen() {
    static const Unit* unit = unitsHere().back();
    return unit;
}

} // namespace

const Unit& unitInUse() {
    return *chosen();
}

std::vector<int> laneWidths() {
    std::vector<int> widths;
    for (const Unit* unit : unitsHere()) widths.push_back(unit->lanes);
    return widths;
}

int lanesInUse() {
    return unitInUse().lanes;
}

void useLanes(int width) {
    for (const Unit* unit : unitsHere())
        if (unit->lanes == width) {
            chosen() = unit;
            return;
        }
    throw std::invalid_argument("this machine has no vector unit of " + std::to_string(width) +
                                " doubles");
}

} // namespace cistern::body
