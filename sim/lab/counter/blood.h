#pragma once
#include "body/names.h"

#include <array>

namespace cistern::lab {

/// Kinds of white cells that are told apart, in the order of Blood::white. The machine cannot tell
/// bands from segmented neutrophils; the film can.
inline constexpr std::array whiteKinds{body::Analyte::neutrophils, body::Analyte::bands,
                                       body::Analyte::lymphocytes, body::Analyte::monocytes,
                                       body::Analyte::eosinophils};
inline constexpr std::size_t whiteKindCount = whiteKinds.size();

/// What drawing, mixing and standing did to the cells of a tube. Blood that was handled well has
/// none of it.
struct Wear {
    double clumped = 0;       ///< share of the platelets that hang in clumps, 0..1
    double clumpSize = 0;     ///< platelets in a clump, mean, >= 2 where there are any
    double whiteLost = 0;     ///< share of the white cells caught in a clot, 0..1
    double plateletsLost = 0; ///< share of the platelets caught in a clot, 0..1
    double redLost = 0;       ///< share of the red cells caught in a clot, 0..1
    double swelling = 1;      ///< size of the red cells in the counter, fold of fresh
    double packing = 1;       ///< size of the red cells in the spun tube, fold of fresh
    double hours = 0;         ///< from the draw to the film [h]
};

/// Blood in the EDTA tube, as it truly is before what standing did to it.
struct Blood {
    body::Kind kind{};
    double red = 0;                             ///< red cells [10*12/L]
    double volume = 0;                          ///< their mean volume [fL]
    double reticulocytes = 0;                   ///< [10*9/L]; aggregate ones in the cat
    std::array<double, whiteKindCount> white{}; ///< by whiteKinds [10*9/L]
    double toxic = 0;                           ///< share of neutrophils, 0..1
    double platelets = 0;                       ///< [10*9/L]
    double large = 0;                           ///< share of platelets that are giants, 0..1
    double nucleated = 0;                       ///< nucleated red cells per 100 white cells
    Wear wear{};
};

/// Clumps of platelets that are in the tube [10*9/L].
double plateletClumps(const Blood& blood);
/// All white cells [10*9/L].
double whiteCells(const Blood& blood);

/// Throws std::invalid_argument unless all amounts are finite and not negative, shares lie in 0..1,
/// clumps, if any, hold two platelets or more, and red cells have a volume.
void validate(const Blood& blood);

} // namespace cistern::lab
