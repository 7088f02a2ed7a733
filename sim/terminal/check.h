#pragma once
#include "scenario/assets.h"
#include "scenario/set.h"
#include "terminal/page.h"
#include "terminal/world.h"

#include <cstdint>
#include <string>

namespace cistern::terminal {

/// The figures of a set: what a reader at ease makes of each case, and whether the set as a whole
/// rewards reading or a rule of thumb. `named` is what the person called it. Throws InputError and
/// body::BeyondLife for a case that cannot be lived through.
void tellSet(World& world, Page& page, const std::string& named, const scenario::Set& set,
             const lesson::Knowledge& knowledge);

/// Marks of three readers on `seats` animals of a case, seeds 1 and up: how they spread, and which
/// seeds make no question. False if some animal cannot be: told with its seed on `err`.
bool tellVariants(World& world, Page& page, const lesson::Case& one,
                  const lesson::Knowledge& knowledge, std::uint64_t seats);

} // namespace cistern::terminal
