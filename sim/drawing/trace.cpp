#include "drawing/trace.h"

#include "drawing/brushwork.h"
#include "drawing/theme.h"
#include "drawing/trace_plan.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

using namespace brushwork;

namespace {

class Drawer {
public:
    Drawer(const TraceView& view, const Box& box)
        : view_(view),
          plan_(tracePlan(view, box)),
          places_(plan_.places),
          weight_(std::clamp(places_.field.height / 220, 0.8, 1.6)) {}

    Group draw() {
        group_.name = words(view_);
        ground();
        fitted();
        curve();
        if (places_.pen) pen(*places_.pen);
        for (const Text& text : plan_.texts) group_.marks.emplace_back().is = text;
        return std::move(group_);
    }

private:
    const TraceView& view_;
    TracePlan plan_;
    const TracePlaces& places_;
    double weight_; ///< of lines: a larger field bears stronger ones
    Group group_;

    void ground() {
        const Box& field = places_.field;
        fill(group_, rectangle(field), theme::field);
        if (plan_.band) fill(group_, rectangle(*plan_.band), faded(theme::leakSoft, 0.4));
        for (const Tick& tick : plan_.levels)
            line(group_, {field.x, tick.at}, {field.right(), tick.at}, theme::line, 1);
        for (const Tick& tick : plan_.seconds)
            line(group_, {tick.at, field.y}, {tick.at, field.bottom()}, theme::line, 1);
        if (plan_.band)
            for (double x : {plan_.band->x, plan_.band->right()})
                line(group_, {x, field.y}, {x, field.bottom()}, theme::leak, 1.2, {4, 4});
        if (plan_.bandWord) {
            const Box& word = *plan_.bandWord;
            fill(group_, rounded({word.x - 4, word.y, word.width + 8, word.height}, 4),
                 mixed(theme::field, theme::leakSoft, 0.4));
        }
        stroke(group_, rectangle(field), theme::stone, 1.2);
    }

    Point onLine(double second) const {
        return {places_.seconds.position(second),
                places_.absorbance.position(view_.line->first * second + view_.line->second)};
    }

    /// The fitted line across the window, broad and soft under the readings, with a core; as far as
    /// the reaction has run.
    void fitted() {
        if (!view_.line || !plan_.band) return;
        const double to = std::min(view_.windowTo, view_.shownUntil);
        if (to <= view_.windowFrom) return;
        Group fit{"fitted line", {}, rectangle(places_.field), {}};
        line(fit, onLine(view_.windowFrom), onLine(to), theme::leakSoft, 8 * weight_);
        line(fit, onLine(view_.windowFrom), onLine(to), theme::leak, 2.2 * weight_);
        group_.marks.emplace_back().is = std::move(fit);
    }

    void curve() {
        Group curve{"trace", {}, {}, {}};
        std::vector<Point> points = plan_.shown;
        if (places_.pen) points.push_back(*places_.pen);
        if (points.size() > 1) stroke(curve, polyline(points), theme::ink, 1.3 * weight_);
        // Readings as dots, as dense as they stay apart.
        const double dot = 1.9 * weight_, apart = 2.6 * dot;
        double last = -apart;
        for (const Point& reading : plan_.shown) {
            if (reading.x - last < apart) continue;
            fill(curve, circle(reading, dot), theme::ink);
            last = reading.x;
        }
        group_.marks.emplace_back().is = std::move(curve);
    }

    /// The pen: where the reaction is now.
    void pen(Point tip) {
        Group pen{"pen", {}, {}, {}};
        const Box& field = places_.field;
        const double top = plan_.bandWord ? plan_.bandWord->bottom() : field.y;
        line(pen, {tip.x, top}, {tip.x, field.bottom()}, theme::thought, 1.2, {2, 4});
        const double r = std::min(4.4 * weight_, 6.5);
        fill(pen, circle(tip, r + 1.5), theme::field);
        fill(pen, circle(tip, r), theme::thought);
        fill(pen, circle(tip, 0.38 * r), theme::field);
        group_.marks.emplace_back().is = std::move(pen);
    }
};

} // namespace

Group trace(const TraceView& view, const Box& box) {
    return Drawer(view, box).draw();
}

std::string words(const TraceView& view) {
    const auto number = [](double value) { return tickNumber(value, 4); };
    std::string told = view.title.empty() ? "A reaction" : view.title;
    const auto after = std::upper_bound(view.seconds.begin(), view.seconds.end(), view.shownUntil);
    if (after == view.seconds.begin()) return told + ": no reading yet.";
    const auto last = static_cast<std::size_t>(after - view.seconds.begin()) - 1;
    told += ": absorbance " + number(view.absorbance.front()) + " at " +
            number(view.seconds.front()) + " s, " + number(view.absorbance[last]) + " at " +
            number(view.seconds[last]) + " s.";
    if (view.windowTo > view.windowFrom)
        told += " The rate is read from " + number(view.windowFrom) + " to " +
                number(view.windowTo) + " s.";
    if (view.line) {
        constexpr double minute = 60; // seconds
        told += " The line changes by " + number(minute * view.line->first) + " a minute.";
    }
    if (!view.verdict.empty()) told += " " + view.verdict + ".";
    return told;
}

} // namespace cistern::drawing
