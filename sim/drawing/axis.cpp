#include "drawing/axis.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace cistern::drawing {

double Axis::position(double value) const {
    const double inside = std::clamp(value, low, high);
    const double share =
        logarithmic ? std::log(inside / low) / std::log(high / low) : (inside - low) / (high - low);
    return start + share * length;
}

namespace {

/// Slack for a tick that stands at the very end of an axis, as a share of a step.
constexpr double rounding = 1e-9;

std::vector<double> multiples(double low, double high, double step) {
    std::vector<double> values;
    for (double i = std::ceil(low / step - rounding); i * step <= high + rounding * step; ++i)
        values.push_back(i * step);
    return values;
}

/// Values m x 10^k with the given leading numbers.
std::vector<double> decades(double low, double high, const std::vector<double>& leading) {
    std::vector<double> values;
    for (double k = std::floor(std::log10(low)); k <= std::ceil(std::log10(high)); ++k) {
        for (double lead : leading) {
            const double value = lead * std::pow(10, k);
            if (value >= low * (1 - rounding) && value <= high * (1 + rounding))
                values.push_back(value);
        }
    }
    return values;
}

std::vector<std::vector<double>> candidates(const Axis& axis) {
    std::vector<std::vector<double>> sets;
    if (axis.logarithmic) {
        for (const std::vector<double>& leading :
             {std::vector<double>{1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8},
              {1, 1.5, 2, 3, 5, 7},
              {1, 2, 5},
              {1, 3},
              {1}})
            sets.push_back(decades(axis.low, axis.high, leading));
        return sets;
    }
    const double span = axis.high - axis.low;
    for (double k = std::floor(std::log10(span)) - 2; k <= std::log10(span); ++k)
        for (double lead : {1.0, 2.0, 2.5, 5.0})
            sets.push_back(multiples(axis.low, axis.high, lead * std::pow(10, k)));
    return sets;
}

} // namespace

std::vector<Tick> levelTicks(const Axis& axis, double room,
                             const std::function<std::string(double)>& words) {
    constexpr std::size_t most = 9; // more lines than this are a fence before the curves
    std::vector<double> chosen;
    for (const std::vector<double>& values : candidates(axis)) {
        bool roomy = values.size() <= most;
        for (std::size_t i = 1; i < values.size(); ++i)
            roomy =
                roomy && std::abs(axis.position(values[i]) - axis.position(values[i - 1])) >= room;
        if (roomy && values.size() > chosen.size()) chosen = values;
    }
    if (chosen.empty() && axis.low <= 1 && axis.high >= 1) chosen = {1};
    std::vector<Tick> ticks;
    for (double value : chosen) ticks.push_back({value, axis.position(value), words(value)});
    return ticks;
}

namespace {

struct TimeUnit {
    double hours;
    std::string_view name;
    double longest; ///< span [h] up to which the unit reads well
};
constexpr std::array<TimeUnit, 4> timeUnits{
    {{1, "h", 60}, {24, "d", 35 * 24}, {168, "wk", 183 * 24}, {730.5, "mo", 1e300}}};

struct TimeStep {
    double count;
    std::size_t unit;
    double hours() const { return count * timeUnits[unit].hours; }
};
constexpr std::array<TimeStep, 20> timeSteps{
    {{.25, 0}, {.5, 0}, {1, 0}, {2, 0}, {3, 0}, {6, 0}, {12, 0}, {1, 1},  {2, 1},  {5, 1},
     {1, 2},   {2, 2},  {4, 2}, {1, 3}, {2, 3}, {3, 3}, {6, 3},  {12, 3}, {24, 3}, {60, 3}}};

std::string timeLabel(double hour, const TimeUnit& unit, int digits) {
    const double count = hour / unit.hours;
    return tickNumber(count, digits) + " " + std::string(unit.name);
}

bool readable(const std::vector<Tick>& ticks, const Room& room) {
    for (std::size_t i = 1; i < ticks.size(); ++i) {
        const double apart = ticks[i].at - ticks[i - 1].at;
        if (apart < (room(ticks[i].words) + room(ticks[i - 1].words)) / 2) return false;
    }
    return true;
}

} // namespace

std::vector<Tick> timeTicks(const Axis& axis, const Room& room, std::string_view zero) {
    const double span = axis.high - axis.low;
    std::vector<Tick> ticks;
    for (const TimeStep& step : timeSteps) {
        const TimeUnit& unit = timeUnits[step.unit];
        // A finer step would only give labels that cannot fit: no label is under 2 wide.
        if (span > unit.longest || span / step.hours() > std::abs(axis.length) / 2) continue;
        ticks.clear();
        for (double hour : multiples(axis.low, axis.high, step.hours()))
            ticks.push_back({hour, axis.position(hour),
                             hour == 0 ? std::string(zero) : timeLabel(hour, unit, 4)});
        if (readable(ticks, room)) return ticks;
    }
    if (ticks.size() > 1) ticks.resize(1); // a very narrow axis keeps one
    return ticks;
}

std::vector<Tick> minorTimeTicks(const Axis& axis, const std::vector<Tick>& major) {
    if (major.size() < 2) return {};
    constexpr double closest = 9;   // nearer than this they read as one gray bar
    constexpr double mostParts = 7; // more cannot be counted at a glance; a week has seven days
    const double step = major[1].value - major[0].value;
    for (const TimeStep& finer : timeSteps) {
        const double parts = step / finer.hours();
        const double apart = std::abs(axis.length) * finer.hours() / (axis.high - axis.low);
        if (parts < 1.5 || parts > mostParts + .1 || apart < closest ||
            std::abs(parts - std::round(parts)) > rounding)
            continue;
        std::vector<Tick> ticks;
        for (double hour : multiples(axis.low, axis.high, finer.hours()))
            ticks.push_back({hour, axis.position(hour), ""});
        return ticks;
    }
    return {};
}

std::string timeWords(double hour, double span) {
    const auto unit = std::find_if(timeUnits.begin(), timeUnits.end(),
                                   [&](const TimeUnit& one) { return span <= one.longest; });
    return timeLabel(hour, *unit, std::abs(hour) >= 100 * unit->hours ? 3 : 2);
}

std::string tickNumber(double value, int digits) {
    std::string words = base::significant(value, digits);
    if (words.find('.') != std::string::npos) {
        words.erase(words.find_last_not_of('0') + 1);
        if (words.ends_with('.')) words.pop_back();
    }
    if (words.starts_with('-')) words.replace(0, 1, "\xE2\x88\x92");
    return words;
}

std::vector<double> spread(const std::vector<double>& wanted, const std::vector<double>& heights,
                           double top, double bottom) {
    std::vector<std::size_t> order(wanted.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
    // Taking out the height of all blocks above leaves positions that only need to be in order: the
    // nearest such (isotonic regression) come from joining neighbors that are out of order.
    struct Cluster {
        double sum;
        std::size_t count;
        double mean() const { return sum / static_cast<double>(count); }
    };
    std::vector<Cluster> clusters;
    double above = 0;
    for (std::size_t i : order) {
        clusters.push_back({wanted[i] - heights[i] / 2 - above, 1});
        above += heights[i];
        while (clusters.size() > 1 &&
               clusters[clusters.size() - 2].mean() > clusters.back().mean()) {
            clusters[clusters.size() - 2].sum += clusters.back().sum;
            clusters[clusters.size() - 2].count += clusters.back().count;
            clusters.pop_back();
        }
    }
    std::vector<double> middles(wanted.size());
    std::size_t next = 0;
    double stacked = 0;
    for (const Cluster& cluster : clusters) {
        const double at = std::clamp(cluster.mean(), top, std::max(top, bottom - above));
        for (std::size_t i = 0; i < cluster.count; ++i, ++next) {
            middles[order[next]] = at + stacked + heights[order[next]] / 2;
            stacked += heights[order[next]];
        }
    }
    return middles;
}

} // namespace cistern::drawing
