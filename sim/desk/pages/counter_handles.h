#pragma once
#include "desk/pages/counter_words.h"
#include "desk/sheet.h"

#include <functional>

/// The three handles of the page Counter.
namespace cistern::desk {

/// Where a half-life stands on its track, 0 (slow) to 1 (quick); the spout is as wide.
double drainShare(double halfLife);

/// Between the cards [em].
inline constexpr double handleGap = .8;

/// A card for each handle; `turn` gets where they stand once one was moved.
void handleCards(Flow& flow, const Telling& telling, const Played& one,
                 const std::function<void(const lesson::Handles&)>& turn);

} // namespace cistern::desk
