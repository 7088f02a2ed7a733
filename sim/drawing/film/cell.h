#pragma once
#include "lab/film/slide.h"

#include <cstdint>

namespace cistern::drawing::film {

using lab::FilmCell;
using lab::Slide;

/// A neighbor that dents a red cell, seen from the cell's own middle and turned as it is.
struct Dent {
    float x = 0, y = 0; ///< middle of a round neighbor [um], or the unit direction to a flat one
    float reach = 0;    ///< radius of the round one, or how far the flat one is off [um]
    bool flat = false;
    bool operator==(const Dent&) const = default;
};

/// One cell (or clump, or speck) as it lies on the film. What follows from `seed` alone, its lobes,
/// granules and outline, is made by its shape.
struct Cell {
    std::uint64_t seed = 0;
    FilmCell kind = FilmCell::discocyte;
    body::Kind animal{};
    std::uint16_t marks = 0; ///< lab::mark, joined
    float x = 0, y = 0;      ///< middle [um]
    float z = 0;             ///< above the glass [um]
    float radius = 3.5F;     ///< [um]
    float angle = 0;         ///< turned by [rad]
    float squash = 1;        ///< short axis over long
    float dye = 1;           ///< hemoglobin, fold of usual
    float pallor = 0;        ///< of the middle, 0 none .. 1 empty
    float blue = 0;          ///< RNA left in a red cell; how toxic a neutrophil, 0..1
    float flat = 0;          ///< 0, or to 1 at the feathered edge
    float thick = 0;         ///< 0, or to 1 in the thick body
    std::uint32_t group = 0; ///< row or cluster it belongs to; 0: none
    int dentCount = 0;
    Dent dents[5]{};

    bool operator==(const Cell&) const = default;
    bool has(std::uint16_t mark) const { return (marks & mark) != 0; }
};

} // namespace cistern::drawing::film
