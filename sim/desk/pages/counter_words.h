#pragma once
#include "desk/wording.h"
#include "lesson/free_play.h"

#include <string>
#include <vector>

/// What the page Counter says of an organ at play.
namespace cistern::desk {

/// What a sentence is made with.
struct Telling {
    const Wording* wording;
    const lab::Bench* bench;
    lab::Units units;
};

/// An organ at play, and the same organ in the other species.
struct Played {
    lesson::FreePlay play;
    lesson::LeakingOrgan other;
};

/// "3.5 hours", "2.5 days".
std::string lasting(double hours);
/// True if both species clear its marker about as fast.
bool bothAlike(const Played& one);
/// "35 %", on one line.
std::string percent(double share);

/// A sentence under "counter." about this organ: organ, animal, marker, half, share and so on stand
/// in it. Throws as sentence() does.
std::string sentence(const Telling& telling, const std::string& path, const Played& one);
/// "ALT 268 U/L", as the laboratory would print it; and how that stands to the healthy.
std::string reading(const Telling& telling, const Played& one);
std::string standing(const Telling& telling, const Played& one);
/// What the number tells and what it does not, a sentence or two each.
std::vector<std::string> plainWords(const Telling& telling, const Played& one);

} // namespace cistern::desk
