#pragma once
#include "drawing/meaning.h"
#include "lab/bench.h"

namespace cistern::view {

/// What a result tells, by the group in which the laboratory reports it; salts, signals and cells
/// are held in balance.
drawing::Meaning meaning(const lab::Method& method);

} // namespace cistern::view
