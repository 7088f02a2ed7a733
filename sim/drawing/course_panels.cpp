#include "drawing/course_panels.h"

#include "base/text.h"
#include "drawing/course_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace cistern::drawing {

namespace {

/// Lines of one color are told apart by these, in order; eight, then round again.
const std::vector<double>& dash(std::size_t index) {
    static const std::array<std::vector<double>, 8> dashes{{{},
                                                            {11, 5},
                                                            {2.5, 3.5},
                                                            {14, 4, 2.5, 4},
                                                            {6, 4},
                                                            {12, 3.5, 2.5, 3.5, 2.5, 3.5},
                                                            {19, 6},
                                                            {6, 3, 2.5, 3}}};
    return dashes[index % dashes.size()];
}

/// Widens a range by a share of its span so that no curve runs along the frame.
void pad(Axis& axis, double share) {
    if (axis.logarithmic) {
        const double factor = std::pow(axis.high / axis.low, share);
        axis.low /= factor;
        axis.high *= factor;
    } else {
        const double room = share * (axis.high - axis.low);
        axis.low = std::max(0.0, axis.low - room);
        axis.high += room;
    }
}

Axis levelAxis(const PanelPlan& panel, bool logarithmic) {
    constexpr double deepest = 1e-6;  // what is this far below the highest is drawn at the edge
    constexpr double deepestBar = .5; // an error bar pulls the axis no lower than half its peg
    double low = INFINITY, high = 0;
    const auto take = [&](double value) {
        high = std::max(high, value);
        if (value > 0 || !logarithmic) low = std::min(low, value);
    };
    for (const Trace& trace : panel.traces) {
        for (double value : trace.values) take(value);
        for (const Peg& peg : trace.pegs) {
            take(peg.value + peg.halfWidth);
            take(std::max(deepestBar * peg.value, peg.value - peg.halfWidth));
        }
    }
    if (panel.health) take(*panel.health);
    if (!(high > 0)) high = 1;
    low = std::clamp(low, high * deepest, high);
    if (panel.health) low = std::min(low, *panel.health); // the healthy level is always on it
    Axis axis{low, high, 0, 1, logarithmic};
    if (logarithmic) {
        constexpr double calm = 1.6; // a span below this would make wobble look like disease
        const double missing = std::sqrt(std::max(1.0, calm * calm * low / high));
        axis.low /= missing;
        axis.high *= missing;
    } else if (low < 0.5 * high)
        axis.low = 0;
    else
        axis.low = std::max(0.0, std::min(low, high - 0.4 * high));
    pad(axis, 0.05);
    return axis;
}

} // namespace

std::vector<PanelPlan> levelPanels(const CourseView& view) {
    std::vector<PanelPlan> panels;
    std::map<std::pair<std::string, Meaning>, std::size_t> used;
    for (const LevelLine& line : view.levels) {
        const std::string heading =
            view.fold ? view.words.fold : view.words.level + " " + line.unit;
        auto panel = std::find_if(panels.begin(), panels.end(),
                                  [&](const PanelPlan& one) { return one.heading == heading; });
        if (panel == panels.end()) {
            panels.push_back({heading, {}, {}, {}, {}, 1, 0});
            panel = panels.end() - 1;
        }
        const double over = view.fold ? line.healthy : 1;
        Trace trace{line.name,    levelWords(view, line.values.back(), line.healthy),
                    line.meaning, dash(used[{heading, line.meaning}]++),
                    line.values,  line.pegs};
        for (double& value : trace.values) value /= over;
        for (Peg& peg : trace.pegs) peg = {peg.hour, peg.value / over, peg.halfWidth / over};
        // In units, a panel of one line can show its healthy level; one of several cannot.
        panel->health = view.fold                                   ? std::optional(1.0)
                        : panel->traces.empty() && line.healthy > 0 ? std::optional(line.healthy)
                                                                    : std::nullopt;
        panel->traces.push_back(std::move(trace));
    }
    for (PanelPlan& panel : panels) {
        panel.axis = levelAxis(panel, view.logarithmic);
        panel.words = [fold = view.fold](double value) {
            return fold ? "\xC3\x97" + tickNumber(value, 2) : tickNumber(value, 3);
        };
    }
    return panels;
}

PanelPlan workPanel(const CourseView& view) {
    PanelPlan panel{view.words.work, {}, {0, 100, 0, 1, false}, {}, {}, 0.36, 0};
    for (const WorkLine& line : view.work) {
        Trace trace{line.name,      base::rounded(100 * line.shares.back(), 1) + "\xC2\xA0%",
                    Meaning::works, dash(panel.traces.size()),
                    line.shares,    {}};
        for (double& value : trace.values) {
            value *= 100;
            panel.axis.high = std::max(panel.axis.high, value);
        }
        panel.traces.push_back(std::move(trace));
    }
    panel.axis.high *= 1.04; // an organ in full work does not run along the frame
    panel.words = [](double value) { return base::rounded(value, 1) + "\xC2\xA0%"; };
    return panel;
}

std::vector<Point> thinned(const std::vector<Point>& points) {
    constexpr double visible = 0.25;
    std::vector<bool> keep(points.size(), false);
    keep.front() = keep.back() = true;
    std::vector<std::pair<std::size_t, std::size_t>> spans{{0, points.size() - 1}};
    while (!spans.empty()) {
        const auto [first, last] = spans.back();
        spans.pop_back();
        const Point a = points[first], b = points[last];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        double worst = visible;
        std::size_t split = 0;
        for (std::size_t i = first + 1; i < last; ++i) {
            const double off =
                std::abs((b.x - a.x) * (points[i].y - a.y) - (b.y - a.y) * (points[i].x - a.x)) /
                length; // x rises, so length > 0
            if (off > worst) {
                worst = off;
                split = i;
            }
        }
        if (split == 0) continue;
        keep[split] = true;
        spans.push_back({first, split});
        spans.push_back({split, last});
    }
    std::vector<Point> few;
    for (std::size_t i = 0; i < points.size(); ++i)
        if (keep[i]) few.push_back(points[i]);
    return few;
}

} // namespace cistern::drawing
