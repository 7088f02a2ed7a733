#include "drawing/trace_plan.h"

#include "drawing/fit.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::drawing {

using namespace brushwork;

namespace {

const Type titleType{19, Weight::semibold, theme::ink};
const Type quietType{13.5, Weight::regular, theme::muted};
const Type verdictType{15, Weight::semibold, theme::thoughtInk};
const Type tickType{13.5, Weight::regular, theme::muted, false, true};
const Type windowType{14, Weight::semibold, theme::leakInk};

constexpr double gap = 6, tickGap = 6, penRoom = 8;
/// Least shares of the box that the field keeps; letters shrink until it does.
constexpr double leastHeight = 0.42, leastWidth = 0.6;

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument("a trace cannot be drawn: " + sentence);
}

void validate(const TraceView& view, const Box& box) {
    if (view.seconds.size() < 2) refuse("it needs at least two readings");
    if (view.absorbance.size() != view.seconds.size())
        refuse("it must have one absorbance for each second told");
    for (std::size_t i = 0; i < view.seconds.size(); ++i) {
        if (!std::isfinite(view.seconds[i]) || !std::isfinite(view.absorbance[i]))
            refuse("reading " + std::to_string(i + 1) + " is not a finite number");
        if (i > 0 && !(view.seconds[i] > view.seconds[i - 1]))
            refuse("its seconds must rise from one to the next");
    }
    if (!std::isfinite(view.windowFrom) || !std::isfinite(view.windowTo))
        refuse("its window is not finite");
    if (view.line && !(std::isfinite(view.line->first) && std::isfinite(view.line->second)))
        refuse("its line is not finite");
    if (std::isnan(view.shownUntil)) refuse("how far it has run is not told");
    if (!(view.textScale > 0 && view.textScale <= 10)) refuse("its text scale is out of range");
    if (!(box.width >= 200 && box.height >= 120)) refuse("its box must be 200 wide and 120 high");
}

class Planner {
public:
    Planner(const TraceView& view, const Box& box) : view_(view), box_(box) {}

    TracePlan plan() {
        double scale = view_.textScale;
        while (!lay(scale, true) && scale > leastScale) scale *= shrink;
        if (!lay(scale, true)) lay(scale, false);
        curve();
        return std::move(plan_);
    }

private:
    const TraceView& view_;
    const Box& box_;
    TracePlan plan_;

    void add(Text text) { plan_.texts.push_back(std::move(text)); }

    /// Lays out with letters of that scale; true if the field keeps room enough. Without `all`, the
    /// words that explain are left out.
    bool lay(double scale, bool all) {
        plan_ = {};
        plan_.letters = scale;
        double top = head(scale, all);
        const double ticks = measure("0", sized(tickType, scale)).height();
        double bottom = box_.bottom() - ticks - tickGap;
        if (all) {
            const Text words =
                hung(view_.words.seconds, sized(quietType, scale), Align::right, box_.right(), 0);
            bottom -= extent(words).height;
            add(words);
            plan_.texts.back().at.y += box_.bottom() - extent(words).height;
        }
        top = std::max(top, box_.y + ticks / 2);
        axes(top, bottom, scale);
        const Box& field = plan_.places.field;
        if (field.height < leastHeight * box_.height || field.width < leastWidth * box_.width)
            return false;
        return !all || (window(scale) && widestFits(scale));
    }

    bool widestFits(double scale) const {
        const auto fits = [&](const std::string& words, const Type& type) {
            return holds(words, sized(type, scale), box_.width);
        };
        return fits(view_.title, titleType) && fits(view_.subtitle, quietType) &&
               fits(view_.verdict, verdictType) &&
               measure(view_.words.seconds, sized(quietType, scale)).width <= box_.width &&
               measure(view_.words.absorbance, sized(quietType, scale)).width <= box_.width;
    }

    /// Title, subtitle, and a row with the name of the axis left and the verdict right; returns
    /// where the field may begin.
    double head(double scale, bool all) {
        double top = box_.y;
        const auto below = [&](const std::string& words, const Type& type) {
            if (words.empty()) return;
            add(hung(words, sized(type, scale), Align::left, box_.x, top, box_.width));
            top = extent(plan_.texts.back()).bottom();
        };
        if (all || view_.verdict.empty()) below(view_.title, titleType);
        if (!all) {
            below(view_.verdict, verdictType);
            return top + gap;
        }
        below(view_.subtitle, quietType);
        if (top > box_.y) top += gap * scale;
        const Text axis =
            hung(view_.words.absorbance, sized(quietType, scale), Align::left, box_.x, top);
        if (view_.verdict.empty()) {
            add(axis);
            return extent(axis).bottom() + gap;
        }
        const Type type = sized(verdictType, scale);
        const double room = box_.width - extent(axis).width - 3 * gap;
        if (measure(view_.verdict, type).width <= room) {
            // On one baseline, so that a verdict that comes while it runs moves nothing.
            add(axis);
            Text verdict = hung(view_.verdict, type, Align::right, box_.right(), top);
            verdict.at.y = axis.at.y;
            add(verdict);
            return std::max(extent(axis).bottom(), extent(verdict).bottom()) + gap;
        }
        below(view_.verdict, verdictType);
        add(hung(view_.words.absorbance, sized(quietType, scale), Align::left, box_.x, top));
        return extent(plan_.texts.back()).bottom() + gap;
    }

    void axes(double top, double bottom, double scale) {
        const auto [least, most] =
            std::minmax_element(view_.absorbance.begin(), view_.absorbance.end());
        double low = *least, high = *most;
        if (hasWindow() && view_.line)
            for (double second : {view_.windowFrom, view_.windowTo}) {
                low = std::min(low, lineAt(second));
                high = std::max(high, lineAt(second));
            }
        constexpr double flattest = 0.01; // absorbance: less than this is drawn as level
        const double spare = std::max(0.0, flattest - (high - low)) / 2;
        low -= spare;
        high += spare;
        const Type type = sized(tickType, scale);
        const Extent digit = measure("0", type);
        // Room for the pen and, over the curve, for the word of the window.
        const double over =
            hasWindow() ? measure("x", sized(windowType, scale)).height() + 2 * gap : penRoom;
        const double span = std::max(1.0, bottom - top - over - penRoom);
        const double perPixel = (high - low) / span;
        Axis& levels = plan_.places.absorbance;
        levels = {low - penRoom * perPixel, high + over * perPixel, bottom, top - bottom, false};
        plan_.levels = levelTicks(levels, 1.9 * digit.height(),
                                  [](double value) { return tickNumber(value, 4); });
        double wide = 0;
        for (const Tick& tick : plan_.levels)
            wide = std::max(wide, measure(tick.words, type).width);
        const double left = box_.x + wide + tickGap * scale;
        const double last = measure(tickNumber(view_.seconds.back(), 4), type).width / 2;
        const double right = box_.right() - std::max(last, penRoom);
        plan_.places.field = {left, top, right - left, bottom - top};
        // A number at the very top would stand in the row of the axis' name.
        std::erase_if(plan_.levels,
                      [&](const Tick& tick) { return tick.at - digit.height() / 2 < top - gap; });
        for (const Tick& tick : plan_.levels)
            add(hung(tick.words, type, Align::right, left - tickGap * scale,
                     tick.at - digit.height() / 2));
        Axis& seconds = plan_.places.seconds;
        seconds = {std::min(0.0, view_.seconds.front()), view_.seconds.back(), left, right - left,
                   false};
        secondTicks(seconds, type, bottom + tickGap / 2);
    }

    void secondTicks(const Axis& axis, const Type& type, double top) {
        const auto words = [](double value) { return tickNumber(value, 4); };
        double room = 0;
        for (double end : {axis.low, axis.high})
            room = std::max(room, measure(words(end), type).width);
        plan_.seconds = levelTicks(axis, 1.6 * room, words);
        double taken = axis.start - tickGap * plan_.letters; // where the levels end
        for (const Tick& tick : plan_.seconds) {
            const Text text = hung(tick.words, type, Align::center, tick.at, top);
            const Box letters = extent(text);
            if (letters.x < taken || letters.right() > box_.right()) continue;
            taken = letters.right();
            add(text);
        }
    }

    bool hasWindow() const { return view_.windowTo > view_.windowFrom; }
    double lineAt(double second) const { return view_.line->first * second + view_.line->second; }

    /// The band and its word, which stands above the curve; false if the word has no room.
    bool window(double scale) {
        if (!hasWindow()) return true;
        const Box& field = plan_.places.field;
        const double from = plan_.places.seconds.position(view_.windowFrom);
        const double to = plan_.places.seconds.position(view_.windowTo);
        plan_.band = Box{from, field.y, to - from, field.height};
        const Type type = sized(windowType, scale);
        const double width = measure(view_.words.window, type).width;
        if (width + 2 * gap > field.width) return false;
        const double middle =
            std::clamp((from + to) / 2, field.x + width / 2 + gap, field.right() - width / 2 - gap);
        add(hung(view_.words.window, type, Align::center, middle, field.y + gap / 2));
        plan_.bandWord = extent(plan_.texts.back());
        return true;
    }

    void curve() {
        TracePlaces& places = plan_.places;
        if (!plan_.band) window(plan_.letters);
        const auto at = [&](double second, double level) {
            return Point{places.seconds.position(second), places.absorbance.position(level)};
        };
        for (std::size_t i = 0; i < view_.seconds.size(); ++i) {
            const double second = view_.seconds[i];
            if (second > view_.shownUntil) {
                if (i > 0) { // the pen is on its way to this reading
                    const double before = view_.seconds[i - 1];
                    const double way = (view_.shownUntil - before) / (second - before);
                    places.pen = at(view_.shownUntil,
                                    std::lerp(view_.absorbance[i - 1], view_.absorbance[i], way));
                }
                return;
            }
            plan_.shown.push_back(at(second, view_.absorbance[i]));
        }
        places.pen = plan_.shown.back();
    }
};

} // namespace

TracePlan tracePlan(const TraceView& view, const Box& box) {
    validate(view, box);
    return Planner(view, box).plan();
}

TracePlaces tracePlaces(const TraceView& view, const Box& box) {
    return tracePlan(view, box).places;
}

} // namespace cistern::drawing
