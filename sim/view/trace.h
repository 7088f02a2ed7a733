#pragma once
#include "drawing/trace.h"
#include "lab/report.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::view {

/// Results of a report that the photometer watched, in its order.
std::vector<const lab::Result*> traced(const lab::Report& report);

/// How a rate becomes a result. The run of the day reads all a little too high or too low, so the
/// printed result lies near their product and not on it.
struct Rate {
    double perMinute = 0; ///< absorbance, above the reagent's own; falling counts as positive
    double factor = 0;    ///< printed units for one of it
};
/// None for what is not read as a rate or has no straight part.
std::optional<Rate> rate(const lab::Result& result, const lab::Bench& bench, lab::Units units);

/// A trace as far as it was watched: its window, the line fitted across it, how rate and factor
/// give the result, and a verdict in words. Throws std::invalid_argument for a result without one.
drawing::TraceView trace(const lab::Result& result, const lab::Bench& bench, lab::Units units);

} // namespace cistern::view
