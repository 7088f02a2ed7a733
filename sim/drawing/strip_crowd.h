#pragma once
#include "drawing/strip.h"

namespace cistern::drawing {

/// Places a dot for each peer over the baseline, in columns inside `room`, which stands on it; a
/// dot is at most `largest` across and shrinks to fit. The axis and the baseline are placed
/// already. The same peers give the same dots.
void placeCrowd(const StripView& view, const Box& room, double largest, StripPlaces& places);

} // namespace cistern::drawing
