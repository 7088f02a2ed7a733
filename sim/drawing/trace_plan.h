#pragma once
#include "drawing/trace.h"

#include <vector>

namespace cistern::drawing {

/// All of a trace that has a place.
struct TracePlan {
    TracePlaces places;
    std::vector<Text> texts;
    std::vector<Tick> seconds, levels;
    double letters = 1;                ///< scale the letters came out with
    std::optional<Box> band, bandWord; ///< where the rate is read, and the ground of its word
    std::vector<Point> shown;          ///< readings up to now
};

TracePlan tracePlan(const TraceView& view, const Box& box);

} // namespace cistern::drawing
