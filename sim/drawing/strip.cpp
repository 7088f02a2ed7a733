#include "drawing/strip.h"

#include "drawing/brushwork.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

using namespace brushwork;

namespace {

/// What leaks is a drop, what works a block, what is cleared a square on its corner, what is held
/// in balance a triangle, as in the course of levels. All fit the same half-width.
Path headShape(Meaning meaning, Point at, double half) {
    const double left = at.x - half, right = at.x + half, top = at.y - half, low = at.y + half;
    switch (meaning) {
    case Meaning::leaks: {
        const double r = 0.72 * half, round = 0.5523 * r; // see rounded() in picture.cpp
        const double belly = low - r, neck = at.y - 0.15 * half;
        return Path()
            .move({at.x, top})
            .curve({at.x + 0.2 * half, at.y - 0.5 * half}, {at.x + r, neck}, {at.x + r, belly})
            .curve({at.x + r, belly + round}, {at.x + round, low}, {at.x, low})
            .curve({at.x - round, low}, {at.x - r, belly + round}, {at.x - r, belly})
            .curve({at.x - r, neck}, {at.x - 0.2 * half, at.y - 0.5 * half}, {at.x, top})
            .close();
    }
    case Meaning::works: {
        const double side = 0.85 * half;
        return rounded({at.x - side, at.y - side, 2 * side, 2 * side}, 0.2 * half);
    }
    case Meaning::held:
        return Path().move({at.x, top}).line({right, low}).line({left, low}).close();
    case Meaning::cleared:
        break;
    }
    return diamond(at, half);
}

class Drawer {
public:
    Drawer(const StripView& view, const Box& box)
        : view_(view), box_(box), places_(stripPlaces(view, box)), tones_(tonesOf(view.meaning)) {}

    Group draw() {
        ground();
        if (view_.earlier) earlier(*view_.earlier);
        Group crowd{"peers", {}, {}, {}};
        for (const Point& dot : places_.dots)
            fill(crowd, circle(dot, places_.dot / 2), theme::stoneDark);
        group_.marks.push_back({std::move(crowd)});
        clearing();
        if (view_.low) bracket("low", *view_.low, 1);
        if (view_.high) bracket("high", *view_.high, -1);
        doubt();
        peg();
        if (places_.words) group_.marks.push_back({*places_.words});
        return std::move(group_);
    }

private:
    const StripView& view_;
    const Box& box_;
    StripPlaces places_;
    Tones tones_;
    Group group_;

    static constexpr double halo = 1.5; ///< of clear ground around what lies over the dots

    void ground() {
        const double y = places_.baseline;
        const StripAxis& axis = places_.axis;
        line(group_, {box_.x, y}, {box_.right(), y}, theme::line, 1.2);
        if (axis.below) breakMark(axis.crowd.start);
        if (axis.above) breakMark(axis.crowd.start + axis.crowd.length);
    }

    /// Two slanted strokes with clear ground between them: the scale changes here.
    void breakMark(double x) {
        const double y = places_.baseline, rise = std::min(places_.lane, 7.0) - 0.5;
        constexpr double apart = 2.2, slant = 2;
        fill(group_, rectangle({x - apart, y - 1, 2 * apart, 2}), theme::panel);
        for (const double side : {-apart, apart})
            line(group_, {x + side - slant, y + rise}, {x + side + slant, y - rise},
                 theme::stoneDark, 1.4);
    }

    void earlier(const StripView::Earlier& before) {
        const double half = places_.lane / 2 - 0.5, y = places_.baseline + places_.lane / 2 + 0.2;
        const StripAxis& axis = places_.axis;
        const double from = axis.position(before.value - before.halfWidth);
        const double to = axis.position(before.value + before.halfWidth);
        const double thick = std::max(2.5, 0.9 * half);
        fill(group_, rounded({from, y - thick / 2, to - from, thick}, thick / 2), tones_.soft);
        Group peg{"earlier", {}, {}, {}};
        const double stroke = std::clamp(half / 3, 1.0, 1.6);
        peg.marks.push_back(
            {Shape{headShape(view_.meaning, {axis.position(before.value), y}, half - stroke / 2),
                   theme::panel, Stroke{theme::ink, stroke, {}}}});
        group_.marks.push_back({std::move(peg)});
    }

    /// Clear ground around the peg, so that it stands out from the dots.
    void clearing() {
        const Point head = places_.head;
        line(group_, head, {head.x, places_.baseline}, theme::panel, stem() + 2 * halo);
        if (places_.barTo - places_.barFrom > stem() + 2 * halo) {
            const double thick = thickness() + 2 * halo;
            fill(group_,
                 rounded({places_.barFrom - halo, places_.barHeight - thick / 2,
                          places_.barTo - places_.barFrom + 2 * halo, thick},
                         thick / 2),
                 theme::panel);
        }
        fill(group_, headShape(view_.meaning, head, places_.headHalf + 1), theme::panel);
    }

    /// `inward` is +1 for the lower end.
    void bracket(const char* name, double value, double inward) {
        const double x = places_.axis.position(value), rise = places_.baseline - box_.y;
        const double top = places_.baseline - 0.9 * rise, arm = std::clamp(0.09 * rise, 2.5, 5.0);
        Group end{name, {}, {}, {}};
        stroke(end,
               Path()
                   .move({x + inward * arm, top})
                   .line({x, top})
                   .line({x, places_.baseline})
                   .line({x + inward * arm, places_.baseline}),
               theme::ink, 1.4);
        group_.marks.push_back({std::move(end)});
    }

    double thickness() const { return std::clamp(0.09 * box_.height, 2.4, 5.0); }
    double stem() const { return std::clamp(0.055 * box_.height, 1.8, 3.0); }

    /// How far the analyzer may be off; an arrow where it could only tell a bound.
    void doubt() {
        const double y = places_.barHeight, thick = thickness();
        const double from = places_.barFrom, to = places_.barTo;
        Group bar{"doubt", {}, {}, {}};
        if (to > from)
            fill(bar, rounded({from, y - thick / 2, to - from, thick}, thick / 2), tones_.line);
        if (view_.bound != StripView::Bound::exact) {
            const bool above = view_.bound == StripView::Bound::above;
            const double tip = above ? to : from, way = above ? -1 : 1, half = 1.3 * thick;
            const double back = tip + way * 1.5 * half;
            fill(bar, Path().move({tip, y}).line({back, y - half}).line({back, y + half}).close(),
                 tones_.line);
        }
        group_.marks.push_back({std::move(bar)});
    }

    void peg() {
        const Point head = places_.head;
        Group peg{"peg", {}, {}, {}};
        line(peg, head, {head.x, places_.baseline}, tones_.line, stem());
        fill(peg, headShape(view_.meaning, head, places_.headHalf), tones_.line);
        group_.marks.push_back({std::move(peg)});
    }
};

/// Whole percent, rounded down: 199 of 200 are not all.
std::string percent(std::size_t some, std::size_t all) {
    return std::to_string(100 * some / all) + " %";
}

std::string sideWords(const std::string& side, std::size_t some, std::size_t all, bool atLeast,
                      const std::string& peersName) {
    if (some == all) return side + " all " + std::to_string(all) + " " + peersName;
    return side + (atLeast ? " at least " : " ") + percent(some, all) + " of " + peersName;
}

} // namespace

Group strip(const StripView& view, const Box& box) {
    return Drawer(view, box).draw();
}

std::string standing(const StripView& view, const std::string& peersName) {
    const auto count = [&](auto holds) {
        return static_cast<std::size_t>(std::count_if(view.peers.begin(), view.peers.end(), holds));
    };
    const std::size_t all = view.peers.size();
    if (all == 0) return "no " + peersName + " to stand among";
    const std::size_t lower = count([&](double peer) { return peer < view.value; });
    const std::size_t higher = count([&](double peer) { return peer > view.value; });
    using Bound = StripView::Bound;
    if (view.bound != Bound::exact) { // only one side is sure
        const bool above = view.bound == Bound::above;
        const std::size_t sure = above ? lower : higher;
        if (2 * sure < all)
            return std::string("too ") + (above ? "high" : "low") + " to place among " + peersName;
        return sideWords(above ? "above" : "below", sure, all, true, peersName);
    }
    // Rank in half steps: a peer of the same value counts half on either side.
    const std::size_t rank = all + lower - higher; // 0 to 2 * all
    if (2 * rank > 3 * all) return sideWords("above", lower, all, false, peersName);
    if (2 * rank < all) return sideWords("below", higher, all, false, peersName);
    return "among the middle half of " + peersName;
}

std::string words(const StripView& view, const std::string& peersName) {
    const auto number = [](double value) { return tickNumber(value, 3); };
    std::string told;
    if (!view.peers.empty()) {
        const auto [least, most] = std::minmax_element(view.peers.begin(), view.peers.end());
        told += std::to_string(view.peers.size()) + " " + peersName + " range from " +
                number(*least) + " to " + number(*most) + ". ";
    }
    if (view.low && view.high)
        told += "The interval is " + number(*view.low) + " to " + number(*view.high) + ". ";
    else if (view.low)
        told += "The interval begins at " + number(*view.low) + ". ";
    else if (view.high)
        told += "The interval ends at " + number(*view.high) + ". ";
    using Bound = StripView::Bound;
    told += "This value is ";
    if (!view.valueWords.empty())
        told += view.valueWords;
    else
        told += (view.bound == Bound::below   ? "less than "
                 : view.bound == Bound::above ? "more than "
                                              : "") +
                number(view.value);
    if (view.bound == Bound::exact && view.halfWidth > 0)
        told += ", give or take " + number(view.halfWidth);
    told += ": " + standing(view, peersName) + ".";
    if (view.earlier) {
        const bool moved = std::abs(view.value - view.earlier->value) > view.earlier->halfWidth;
        told +=
            " The earlier value was " + number(view.earlier->value) + "; " +
            (moved ? "the change is more than mere wobble." : "the change could be mere wobble.");
    }
    return told;
}

} // namespace cistern::drawing
