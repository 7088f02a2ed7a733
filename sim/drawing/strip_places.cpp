#include "drawing/strip_crowd.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::drawing {

double StripAxis::position(double value) const {
    if (below && value < crowd.low) return below->position(value);
    if (above && value > crowd.high) return above->position(value);
    return crowd.position(value);
}

namespace {

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument("a crowd strip cannot be drawn: " + sentence);
}

void validate(const StripView& view, const Box& box) {
    const auto finite = [](double number, const char* what) {
        if (!std::isfinite(number)) refuse(std::string(what) + " is not a finite number");
    };
    for (double peer : view.peers) finite(peer, "a healthy value");
    finite(view.value, "its value");
    if (view.low) finite(*view.low, "the lower end of its interval");
    if (view.high) finite(*view.high, "the upper end of its interval");
    if (view.low && view.high && *view.low > *view.high) refuse("its interval is upside down");
    if (!(view.halfWidth >= 0 && std::isfinite(view.halfWidth))) refuse("its doubt is not told");
    if (view.earlier) {
        finite(view.earlier->value, "the earlier value");
        if (!(view.earlier->halfWidth >= 0 && std::isfinite(view.earlier->halfWidth)))
            refuse("the wobble of the earlier value is not told");
    }
    if (!(view.textScale > 0 && view.textScale <= 10)) refuse("its text scale is out of range");
    if (!(box.width >= 40 && box.height >= 12)) refuse("its box must be 40 wide and 12 high");
}

/// A stretch of values as the axis measures it: plain, or their logarithms.
struct Stretch {
    double low = 0, high = 0;
    bool empty = true;
    double length() const { return high - low; }
    void take(double at) {
        low = empty ? at : std::min(low, at);
        high = empty ? at : std::max(high, at);
        empty = false;
    }
};

class AxisMaker {
public:
    AxisMaker(const StripView& view, double left, double width, double wordsRoom)
        : view_(view), left_(left), width_(width), wordsRoom_(wordsRoom) {
        for (double peer : view.peers) take(crowd_, peer);
        if (view.low) take(crowd_, *view.low);
        if (view.high) take(crowd_, *view.high);
        if (crowd_.empty) take(crowd_, view.value);
        if (crowd_.empty && view.earlier) take(crowd_, view.earlier->value);
        if (crowd_.empty) refuse("a logarithm needs a level above zero");
        pad();
        all_ = crowd_;
        takeWithDoubt(view.value, view.halfWidth);
        if (view.earlier) takeWithDoubt(view.earlier->value, view.earlier->halfWidth);
    }

    StripAxis make() {
        const double below = crowd_.low - all_.low, above = all_.high - crowd_.high;
        if (crowd_.length() >= comfortable * all_.length()) return broken(0, 0);
        const double farBelow = farWidth(true), farAbove = farWidth(false);
        // Break the longer side; the other too if the crowd were still pressed.
        const double rest = crowd_.length() + std::min(below, above);
        const double one = above >= below ? farAbove : farBelow;
        if (crowd_.length() / rest * (width_ - one) >= comfortable * width_)
            return above >= below ? broken(0, farAbove) : broken(farBelow, 0);
        return broken(std::min(farBelow, mostOfTwo * width_),
                      std::min(farAbove, mostOfTwo * width_));
    }

private:
    /// Share of the width below which the crowd is thought pressed, above the third it always has.
    static constexpr double comfortable = 0.47;
    static constexpr double farShare = 0.25;                    ///< of the width, beyond a break
    static constexpr double mostOfOne = 0.5, mostOfTwo = 0.265; ///< with words beside the peg
    static constexpr double padShare = 0.04; ///< of the crowd's width, at each end

    const StripView& view_;
    double left_, width_, wordsRoom_;
    Stretch crowd_, all_;

    double measureOf(double value) const { return view_.logarithmic ? std::log(value) : value; }
    double valueOf(double at) const { return view_.logarithmic ? std::exp(at) : at; }
    void take(Stretch& stretch, double value) const {
        if (!view_.logarithmic || value > 0) stretch.take(measureOf(value));
    }
    void pad() {
        constexpr double narrowest = 1e-9; // of its level: less cannot be told from one value
        double more = padShare * crowd_.length();
        if (crowd_.length() <= narrowest * std::abs(crowd_.low)) {
            constexpr double tenth = 0.1;
            more = view_.logarithmic || crowd_.low == 0 ? tenth : tenth * std::abs(crowd_.low);
        }
        crowd_.low -= more;
        crowd_.high += more;
    }
    void takeWithDoubt(double value, double doubt) {
        take(all_, value);
        take(all_, value + doubt);
        // Where the lower end nears zero a logarithm knows no end: as far down as up is enough.
        if (view_.logarithmic && value > 0)
            take(all_, std::max(value - doubt, value * value / (value + doubt)));
        else
            take(all_, value - doubt);
    }

    /// Width beyond a break: more on the side of the peg, so that its words fit beside it.
    double farWidth(bool below) const {
        const double at = view_.logarithmic && view_.value <= 0 ? all_.low : measureOf(view_.value);
        if (below ? at >= crowd_.low : at <= crowd_.high) return farShare * width_;
        const double end = below ? all_.low : all_.high;
        const double near = below ? crowd_.low : crowd_.high;
        const double bar = std::min(0.5, 2 * std::abs((end - at) / (end - near)));
        return std::clamp(wordsRoom_ / (1 - bar), farShare * width_, mostOfOne * width_);
    }

    /// The axis with so much room beyond its breaks; zero: no break there.
    StripAxis broken(double below, double above) const {
        const double low = below > 0 ? crowd_.low : all_.low;
        const double high = above > 0 ? crowd_.high : all_.high;
        const bool log = view_.logarithmic;
        StripAxis axis;
        axis.crowd = {valueOf(low), valueOf(high), left_ + below, width_ - below - above, log};
        if (below > 0 && all_.low < crowd_.low)
            axis.below = {valueOf(all_.low), axis.crowd.low, left_, below, log};
        if (above > 0 && all_.high > crowd_.high)
            axis.above = {axis.crowd.high, valueOf(all_.high), left_ + width_ - above, above, log};
        if (below > 0 && !axis.below) return broken(0, above);
        if (above > 0 && !axis.above) return broken(below, 0);
        return axis;
    }
};

/// Shares of the height.
constexpr double laneShare = 0.2, headShare = 0.16, crowdShare = 0.84, barShare = 0.36;
constexpr double dotShare = 0.095, arrowShare = 0.25;
constexpr double wordsSize = 13, wordsGap = 5;

const Color& inkOf(Meaning meaning) {
    static constexpr Color inks[] = {theme::leakInk, theme::workInk, theme::thoughtInk,
                                     theme::balanceInk};
    return inks[static_cast<std::size_t>(meaning)];
}

std::string valueWords(const StripView& view) {
    if (!view.valueWords.empty()) return view.valueWords;
    using Bound = StripView::Bound;
    const char* sign = view.bound == Bound::below ? "< " : view.bound == Bound::above ? "> " : "";
    return sign + tickNumber(view.value, 3);
}

/// The value beside a peg beyond a break, on the roomier side of it.
void placeWords(const StripView& view, const Box& box, const Text& words, StripPlaces& places) {
    const StripAxis& axis = places.axis;
    const double x = places.head.x;
    const bool above = axis.above && view.value > axis.crowd.high;
    const bool below = axis.below && view.value < axis.crowd.low;
    if (!above && !below) return;
    const Axis& far = above ? *axis.above : *axis.below;
    const double left = std::min(places.barFrom, x - places.headHalf) - wordsGap;
    const double right = std::max(places.barTo, x + places.headHalf) + wordsGap;
    const double leftRoom = left - far.start - (above ? wordsGap : 0);
    const double rightRoom = far.start + far.length - right - (below ? wordsGap : 0);
    const Box size = extent(words);
    if (std::max(leftRoom, rightRoom) < size.width || size.height > places.baseline - box.y) return;
    const double at = leftRoom >= rightRoom ? left - size.width : right;
    places.words = hung(words.lines.front(), words.type, Align::left, at, box.y);
}

} // namespace

StripPlaces stripPlaces(const StripView& view, const Box& box) {
    validate(view, box);
    StripPlaces places;
    places.lane = std::clamp(laneShare * box.height, 4.0, 13.0);
    places.baseline = box.bottom() - places.lane;
    places.headHalf = std::clamp(headShare * box.height, 3.5, 10.0);
    const Type type{wordsSize * view.textScale, Weight::semibold, inkOf(view.meaning), false, true};
    const Text words = hung(valueWords(view), type, Align::left, 0, 0);
    using Bound = StripView::Bound;
    const double inset = places.headHalf + 1, arrow = arrowShare * box.height;
    const double left = box.x + inset + (view.bound == Bound::below ? arrow : 0);
    const double right = box.right() - inset - (view.bound == Bound::above ? arrow : 0);
    const double room = extent(words).width + 3 * wordsGap + places.headHalf;
    places.axis = AxisMaker(view, left, right - left, room).make();
    const double rise = places.baseline - box.y;
    const double largest = std::clamp(dotShare * box.height, 2.2, 6.0);
    const double ceiling = crowdShare * rise;
    placeCrowd(view, {box.x, places.baseline - ceiling, box.width, ceiling}, largest, places);
    places.head = {places.axis.position(view.value), box.y + 1 + places.headHalf};
    places.barHeight = places.baseline - barShare * rise;
    places.barFrom =
        view.bound == Bound::below ? box.x + 2 : places.axis.position(view.value - view.halfWidth);
    places.barTo = view.bound == Bound::above ? box.right() - 2
                                              : places.axis.position(view.value + view.halfWidth);
    if (view.bound == Bound::below) places.barTo = places.head.x;
    if (view.bound == Bound::above) places.barFrom = places.head.x;
    placeWords(view, box, words, places);
    return places;
}

} // namespace cistern::drawing
