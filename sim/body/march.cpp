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
    : windows_(plan.windows),
      looks_(plan.looks),
      now_(plan.from),
      nominal_(plan.steps.longest),
      since_(plan.from),
      steps_(plan.steps) {
    for (const Window& w : windows_)
        for (double hour : {w.from, w.to})
            if (hour > now_ + same) changes_.push_back(hour);
    std::sort(changes_.begin(), changes_.end());
    const auto close = [](double a, double b) { return b - a < same; };
    changes_.erase(std::unique(changes_.begin(), changes_.end(), close), changes_.end());
    changed();
}

void Clock::changed() {
    bool gently = true, bleeding = false;
    std::array<double, driveCount> dying{}; // [1/h] by drive: several at once add up
    for (const Window& w : windows_) {
        const bool edge = std::abs(w.from - now_) < same || std::abs(w.to - now_) < same;
        if (edge && !gentle(w.drive)) gently = false;
        if (edge && w.drive == Drive::bleeding) bleeding = true;
        if (kills(w.drive) && w.from < now_ + same && w.to > now_ + same)
            dying[static_cast<std::size_t>(w.drive)] += w.value;
    }
    const double fastest = *std::max_element(dying.begin(), dying.end());
    most_ = steps_.longest;
    while (most_ > steps_.shortest && most_ * fastest > steps_.ofDeath) most_ /= 2;
    nominal_ = std::min(gently ? std::min(steps_.afterGentle, nominal_) : steps_.shortest, most_);
    if (bleeding) nominal_ = std::min(nominal_, steps_.afterBleeding);
    const auto look = std::upper_bound(looks_.begin(), looks_.end(), now_);
    if (look != looks_.end())
        while (2 * nominal_ <= std::min(most_, (*look - now_) * steps_.ofTimeLeft)) nominal_ *= 2;
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

Batch::Batch(const Plan& first)
    : unit_(unitInUse(first.single)),
      single_(first.single),
      block_(::operator new (unit_.bytes, std::align_val_t{blockAlignment})),
      journeys_(static_cast<std::size_t>(unit_.lanes)) {
    const std::array<double, driveCount> none{};
    for (int lane = 0; lane < unit_.lanes; ++lane) {
        const Constants<double> c = constants(first.animal);
        unit_.load(block_.get(), lane, c,
                   healthy(first.animal, c, first.animal.who.age + first.from));
        unit_.drive(block_.get(), lane, none.data());
        pace(lane, 0);
    }
}

void Batch::place(int lane, const Plan& plan) {
    if (plan.single != single_)
        throw std::logic_error("animals side by side are all of one precision");
    const Constants<double> c = constants(plan.animal);
    unit_.load(block_.get(), lane, c, healthy(plan.animal, c, plan.animal.who.age + plan.from));
    Journey& journey = journeys_[static_cast<std::size_t>(lane)];
    journey = {};
    journey.parts = plan.parts;
    journey.clock.emplace(plan);
    drive(lane);
}

void Batch::send(int lane, std::span<const double> looks, double* rows) {
    Journey& journey = journeys_[static_cast<std::size_t>(lane)];
    journey.looks = looks;
    journey.rows = rows;
    journey.done = 0;
}

void Batch::drive(int lane) {
    std::array<double, driveCount> values{};
    journeys_[static_cast<std::size_t>(lane)].clock->drives(values.data());
    unit_.drive(block_.get(), lane, values.data());
}

void Batch::pace(int lane, double hours) {
    double& set = journeys_[static_cast<std::size_t>(lane)].pace;
    if (set == hours) return;
    set = hours;
    unit_.pace(block_.get(), lane, hours);
}

void Batch::read(int lane, double* row) const {
    unit_.read(block_.get(), lane, row);
    const Parts parts = journeys_[static_cast<std::size_t>(lane)].parts;
    if (parts == allParts) return;
    for (int r = 0; r < reading::count; ++r)
        if (!known(r, parts)) row[r] = 0;
}

void Batch::step() {
    bool looking = false;
    Parts parts = 0;
    for (int lane = 0; lane < unit_.lanes; ++lane) {
        const Journey& journey = journeys_[static_cast<std::size_t>(lane)];
        if (!journey.underWay()) {
            pace(lane, 0);
            continue;
        }
        parts |= journey.parts;
        const double until = journey.looks[journey.done];
        const double hours = journey.clock->next(until);
        pace(lane, hours);
        looking = looking || until - journey.clock->now() <= hours;
    }
    unit_.step(block_.get(), parts, looking);
}

bool Batch::march() {
    const auto busy = [](const Journey& journey) { return journey.underWay(); };
    if (std::none_of(journeys_.begin(), journeys_.end(), busy)) return false;
    for (bool arrived = false; !arrived;) {
        step();
        for (int lane = 0; lane < unit_.lanes; ++lane) {
            Journey& journey = journeys_[static_cast<std::size_t>(lane)];
            if (!journey.underWay()) continue;
            const double until = journey.looks[journey.done];
            if (until - journey.clock->now() <= journey.pace)
                for (; journey.underWay() && journey.looks[journey.done] <= until; ++journey.done)
                    read(lane, journey.rows + journey.done * reading::count);
            if (journey.pace > 0 && journey.clock->advance(journey.pace)) drive(lane);
            arrived = arrived || !journey.underWay();
        }
    }
    return true;
}

namespace {

/// A vector unit's two builds.
struct Pair {
    const Unit *twice, *single;
};

std::vector<Pair> unitsHere() {
    std::vector<Pair> units{{&unitSse2, &unitSse2Single}};
#ifdef CISTERN_WIDE_UNITS
    if (__builtin_cpu_supports("avx2")) units.push_back({&unitAvx2, &unitAvx2Single});
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq"))
        units.push_back({&unitAvx512, &unitAvx512Single});
#endif
    return units;
}

Pair& chosen() {
    static Pair units = unitsHere().back();
    return units;
}

} // namespace

const Unit& unitInUse(bool single) {
    return single ? *chosen().single : *chosen().twice;
}

std::vector<int> laneWidths() {
    std::vector<int> widths;
    for (const Pair& units : unitsHere()) widths.push_back(units.twice->lanes);
    return widths;
}

int lanesInUse() {
    return unitInUse(false).lanes;
}

void useLanes(int width) {
    for (const Pair& units : unitsHere())
        if (units.twice->lanes == width) {
            chosen() = units;
            return;
        }
    throw std::invalid_argument("this machine has no vector unit of " + std::to_string(width) +
                                " doubles");
}

} // namespace cistern::body
