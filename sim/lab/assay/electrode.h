#pragma once

namespace cistern::lab {

/// Voltage of an ideal electrode for a tenfold amount [mV]. Nernst: R T ln 10 / (z F).
double nernstSlope(double celsius, double charge = 1);

/// Share of the volume of serum that is not water, 0..1. Protein [g/L], fat [g/L]. Waterhouse:
/// water = 99.1 - 1.03 fat - 0.73 protein, in % and g/dL (from memory).
double solids(double protein, double fat);

} // namespace cistern::lab
