#pragma once
#include "drawing/film/chromatin.h"
#include "drawing/film/granules.h"
#include "drawing/film/nucleus.h"
#include "drawing/film/paint.h"

#include <array>

namespace cistern::drawing::film {

/// What lies between nucleus and edge: units of dye, and how they vary.
struct Cytoplasm {
    float azure = .026F, protein = .06F, chromatin = 0, gray = 0;
    float deeper = 0;                 ///< how much bluer at the edge than within
    float uneven = .5F, perUm = 2.9F; ///< mottled by this share, so many a um
};

/// The edge of a cell: its radius round about, with waves of two to seven a turn.
class Outline {
public:
    Outline() = default;
    /// The area is that of a circle of this radius [um]; `uneven` is the share of a wave.
    Outline(Dice& dice, float radius, float uneven);
    /// How far out the edge lies in a direction, a unit vector [um].
    float at(float c, float s) const;
    float most() const { return most_; } ///< no further than this [um]

private:
    static constexpr int waves = 6;
    float radius_ = 1, most_ = 1;
    std::array<float, waves> cosines_{}, sines_{};
};

/// A white cell without a pixel: all that its seed says of it, seen from its middle [um].
struct WhiteShape {
    Nucleus nucleus;
    Chromatin chromatin{};
    float nuclear = 1;       ///< strength of the nucleus's dye
    float raggedNucleus = 0; ///< how far its edge strays [um]
    Outline outline;
    float raggedEdge = 0; ///< how far the cell's edge strays [um]
    Cytoplasm cytoplasm;
    Grain halo; ///< pale place beside the nucleus; none where `dye` is 0
    Granules kind{};
    std::vector<Grain> grains, holes, bodies;
    std::uint32_t texture = 0; ///< seed of all that is mottled
};
WhiteShape whiteShape(const Cell& cell);

} // namespace cistern::drawing::film
