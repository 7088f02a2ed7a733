#pragma once
#include "drawing/axis.h"
#include "drawing/meaning.h"
#include "drawing/painter.h"

#include <optional>
#include <string>
#include <vector>

/// The crowd strip: one result against healthy peers. Plain data in, marks out.
namespace cistern::drawing {

struct StripView {
    enum class Bound { exact, below, above }; ///< the analyzer could tell only "<" or ">" the value
    struct Earlier {
        double value = 0;
        double halfWidth = 0; ///< a change up to this could be mere wobble (reference change)
    };
    std::vector<double> peers;       ///< measured values of healthy animals, any order
    std::optional<double> low, high; ///< the interval, low <= high; either may be missing
    double value = 0, halfWidth = 0; ///< this animal, and the analyzer's doubt (>= 0)
    Bound bound = Bound::exact;
    std::optional<Earlier> earlier;
    Meaning meaning = Meaning::leaks; ///< color and shape of the peg's head
    bool logarithmic = false;         ///< what is not above zero is drawn at the low end
    double textScale = 1;             ///< above zero
    std::string valueWords; ///< "1,840 U/L", "> 2,000 U/L"; empty: the number, three digits
};

/// One scale for the crowd; beyond a break a tighter one for what lies far out. Positions follow
/// the order of values throughout.
struct StripAxis {
    Axis crowd;
    std::optional<Axis> below, above; ///< each begins or ends where the crowd's axis does
    double position(double value) const;
};

/// Everything placed, in pixels of the box's own system.
struct StripPlaces {
    StripAxis axis;
    double baseline = 0;     ///< y on which the crowd stands
    double lane = 0;         ///< height under it, for the earlier result
    std::vector<Point> dots; ///< middles, one for each peer in the order given
    double dot = 0;          ///< their diameter
    Point head;              ///< middle of the peg's head
    double headHalf = 0;
    double barHeight = 0, barFrom = 0, barTo = 0; ///< y of the doubt, and its ends in x
    std::optional<Text> words; ///< the value, if it lies beyond a break and there is room
};

/// Places all; throws std::invalid_argument with one sentence if the view cannot be drawn: a number
/// that is not finite, an interval upside down, a logarithm with nothing above zero.
StripPlaces stripPlaces(const StripView& view, const Box& box);

/// The strip in its box: peers as dots, interval as brackets, this animal as a peg, its earlier
/// result under the line. Throws as stripPlaces() does.
Group strip(const StripView& view, const Box& box);

/// Where the value stands: "above 97 % of healthy dogs", "among the middle half of healthy dogs",
/// "below all 200 healthy dogs". A share is never told higher than it was counted.
std::string standing(const StripView& view, const std::string& peersName);

/// What the strip shows, in sentences, for those who cannot see it.
std::string words(const StripView& view, const std::string& peersName);

} // namespace cistern::drawing
