#pragma once

namespace cistern::lab {

/// Cells that pass an aperture too close together give one pulse. `crowding` is their mean number
/// in the space (or time) in which two are not told apart: concentration times sensing volume, or
/// rate times dead time; >= 0. Both return pulses per cell.
///
/// Every cell lengthens the time in which no other is told apart: e^-crowding, as a sensing volume
/// does. Standard counting theory.
double pulsesExtending(double crowding);
/// Only cells that gave a pulse do: 1 / (1 + crowding), as a counting circuit does.
double pulsesNotExtending(double crowding);

/// Cells from pulses as the machine corrects them, taking its dead time for one that does not
/// extend: pulses / (1 - crowding of the pulses). Exact to the second order in crowding; what it
/// misses grows with the square. Throws std::domain_error if the pulses fill the whole space.
double correctedCells(double pulses, double crowding);

/// The classic table's addition to a count: 2.5 (D / 100)^3 (500 / V) (count / 1000)^2, with the
/// aperture's diameter D [um] and the metered volume V [uL]. Mattern 1957; Wales and Wilson 1961.
double classicAddition(double count, double diameter, double volume);

/// The sensing volume [uL] that stands behind that table: 1250 um3 for each (D / 10)^3, about 1.6
/// times a cylinder as long as it is wide.
double sensingVolume(double diameter);

} // namespace cistern::lab
