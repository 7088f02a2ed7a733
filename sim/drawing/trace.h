#pragma once
#include "drawing/axis.h"
#include "drawing/picture.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

/// The trace: absorbance over the seconds of one running reaction, drawn as far as it has run.
/// Plain data in, marks out.
namespace cistern::drawing {

/// Every word of the drawing that is not data, for other languages.
struct TraceWords {
    std::string seconds = "seconds after the start", absorbance = "absorbance";
    std::string window = "the rate is read here";
};

struct TraceView {
    std::string title, subtitle;         ///< either may be empty
    std::vector<double> seconds;         ///< rising, at least two
    std::vector<double> absorbance;      ///< one for each
    double windowFrom = 0, windowTo = 0; ///< [s] where the rate is read; none if not rising
    /// Slope [1/s] and intercept at second 0 of the line fitted across the window.
    std::optional<std::pair<double, double>> line;
    double shownUntil = 0; ///< [s] how far the reaction has run; nothing later is drawn
    std::string verdict;   ///< "bent: substrate runs out"; may be empty
    double textScale = 1;  ///< letters shrink where the box has no room for them
    TraceWords words;
};

/// Where things stand. The axes span the whole reaction from the start, so that a running trace
/// does not shift.
struct TracePlaces {
    Box field;
    Axis seconds, absorbance;
    std::optional<Point> pen; ///< end of the trace; none before the first reading
};

/// Places all; throws std::invalid_argument with one sentence if the view cannot be drawn: fewer
/// than two readings, counts that differ, a number that is not finite, a box less than 200 wide or
/// 120 high.
TracePlaces tracePlaces(const TraceView& view, const Box& box);

/// The trace in its box. Throws as tracePlaces() does.
Group trace(const TraceView& view, const Box& box);

/// What the trace shows, in sentences, for those who cannot see it.
std::string words(const TraceView& view);

} // namespace cistern::drawing
