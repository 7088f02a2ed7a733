#pragma once
#include "base/chance.h"
#include "lab/counter/counter.h"
#include "lab/counter/sizes.h"

namespace cistern::lab {

/// How the machine stands in a run: factors by which it reads too much or too little, and what
/// clogs its holes.
struct Tuning {
    double red = 1, size = 1, white = 1, platelets = 1, reticulocytes = 1; ///< about 1
    double redClogged = 0, whiteClogged = 0; ///< share of the opening, 0 .. less than 1
};

/// What one pass of blood through the machine gives.
struct Count {
    double red = 0;                        ///< [10*12/L]
    double volume = 0;                     ///< mean, of red cells [fL]
    double redWidth = 0;                   ///< coefficient of variation of red cells' volume
    double platelets = 0;                  ///< [10*9/L]
    double reticulocytes = 0;              ///< [10*9/L]
    double white = 0;                      ///< all particles that count as white cells [10*9/L]
    double neutrophils = 0;                ///< bands too [10*9/L]
    double lymphocytes = 0;                ///< nucleated red cells and clumps too [10*9/L]
    double monocytes = 0, eosinophils = 0; ///< [10*9/L]
    Sizes sizes{};                         ///< of red cells and platelets
    std::size_t divide = 0;                ///< the channel that parts them
    bool largeParticles = false; ///< more between and beyond them than cells alone would give
    bool slow = false;           ///< a hole let less through than was to be metered
};

/// Draws blood through the counter once. Chance: cells met are Poisson; dilutions, gain, stain.
/// `redChance` and `whiteChance` are separate, so that neither side moves the other. Throws
/// std::invalid_argument for blood that validate() refuses or a hole that is clogged altogether.
Count pass(const Counter& counter, const Blood& blood, const Tuning& setting,
           base::Chance& redChance, base::Chance& whiteChance);

} // namespace cistern::lab
