#pragma once
#include "base/chance.h"
#include "lab/specimen/handling.h"
#include "lab/specimen/laws.h"

namespace cistern::lab {

/// Fibrin that still forms in serum spun after so long [h]: 1 at once, 0 when the clot is whole.
double fibrinLeft(const SpinLaws& laws, double clot);

/// Share of loose cells that a spin left afloat, above what a usual one leaves.
double afloat(const SpinLaws& laws, const Tube& tube);

/// Share of its volume that the probe takes up in one go through so much fibrin: chance decides,
/// anew for each.
double takenUp(const SpinLaws& laws, double fibrin, base::Chance& probe);

} // namespace cistern::lab
