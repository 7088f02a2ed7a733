#pragma once
#include "base/chance.h"
#include "lab/counter/counter.h"

namespace cistern::lab {

/// Packed cell volume as read from a spun capillary, share of the tube: filled and spun a little
/// unlike its neighbor, set against the scale by eye, read to half a line. What plasma the usual
/// spin leaves between the cells is in the level already. Throws std::invalid_argument unless the
/// level is a share.
double spunVolume(const Counter& counter, double packed, base::Chance& chance);

/// What spun volume, red cells and hemoglobin give. Standard arithmetic.
struct RedIndices {
    double volume = 0;        ///< mean of a cell [fL]
    double hemoglobin = 0;    ///< mean in a cell [pg]
    double concentration = 0; ///< mean in cells [g/L]
};
/// Of packed cells (share), red cells [10*12/L] and hemoglobin [g/L], each above zero.
RedIndices redIndices(double packed, double red, double hemoglobin);

/// Reticulocytes [10*9/L] from their share of the red cells [10*12/L]. eClinPath.
double reticulocyteNumber(double share, double red);
/// Share of reticulocytes as it would be at the usual packed cell volume: 0.45 in the dog, 0.37 in
/// the cat. Willard and Tvedten.
double correctedReticulocytes(double share, double packed, body::Kind kind);
/// Days that reticulocytes stay in blood, longer the paler it is. After Hillman 1969, of people.
double reticulocyteDays(double packed);
/// Corrected percentage over those days; not for cats, in which it tells little (2017, 106 cats).
double productionIndex(double share, double packed, body::Kind kind);

} // namespace cistern::lab
