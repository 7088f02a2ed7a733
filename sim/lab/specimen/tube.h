#pragma once
#include "lab/specimen/handling.h"
#include "lab/specimen/laws.h"

namespace cistern::lab {

/// EDTA in a tube [g per L of blood]: the full tube's over the fill.
double edtaIn(const TubeLaws& laws, double fill);

/// Volume of red cells in blood with so much EDTA [g/L] over that in none: water leaves for the
/// saltier plasma, and a part of each cell is not water. Ideal osmometer: it overstates, if
/// anything.
double shrunken(const TubeLaws& laws, double edta);

/// EDTA that came into the serum tube [mmol/L of serum]: topped up from the EDTA tube, or carried
/// over by a needle that was in it before. Its plasma holds all the EDTA of its blood.
double edtaInSerum(const TubeLaws& laws, const Handling& handling, double hematocrit);

/// Share of a metal, or of an enzyme that needs it, that is still read with so much EDTA [mmol/L].
double unbound(double half, double steepness, double edta);

/// Plasma's share of the plasma and citrate in a citrate tube.
double plasmaOfCitrate(const TubeLaws& laws, double fill, double hematocrit);

} // namespace cistern::lab
