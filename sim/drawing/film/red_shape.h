#pragma once
#include "drawing/film/cell.h"
#include "drawing/film/texture.h"

#include <array>

/// A red cell's shape: plain data that its seed and kind settle before a pixel is shaded. Lengths
/// are um in the cell's own frame: x along its long axis, the middle at 0.
namespace cistern::drawing::film {

/// Up to so many of a thing, in place.
template<class Thing, std::size_t most>
struct Few {
    std::array<Thing, most> all{};
    std::size_t count = 0;
    void add(const Thing& thing) {
        if (count < most) all[count++] = thing;
    }
    const Thing* begin() const { return all.data(); }
    const Thing* end() const { return all.data() + count; }
    bool none() const { return count == 0; }
    const Thing& operator[](std::size_t i) const { return all[i]; }
};

inline float lengthOf(float x, float y) {
    return std::sqrt(x * x + y * y);
}

/// A round thing on, in or cut from a cell.
struct Spot {
    float x = 0, y = 0;
    float radius = 0;
    float depth = 1; ///< how strongly it shows
    float outside(float atX, float atY) const { return lengthOf(atX - x, atY - y) - radius; }
};

/// A short even point of an echinocyte's outline.
struct Point {
    float angle = 0;  ///< 0 .. 2 pi, rising from one to the next
    float height = 0; ///< above the outline between points
};

/// A knob of an acanthocyte or a keratocyte's horn: a round end on a neck that begins within.
struct Knob {
    float fromX = 0, fromY = 0, toX = 0, toY = 0;
    float neck = 0, end = 0; ///< half-widths
};

/// An edge that cuts a part of the cell away: what lies further than `off` in a direction.
struct Cut {
    float x = 1, y = 0; ///< unit direction
    float off = 0;
    float bend = 0; ///< [1/um] leaves horns at both ends where positive
};

/// Hemoglobin from the middle (0) to the rim (1): fold of the cell's own.
struct Profile {
    float middleX = 0, middleY = 0; ///< where the pale middle lies
    float pallor = 0;               ///< 0 none .. 1 empty
    float from = 0, to = .8F;       ///< the pale middle begins to end, and has ended [radii]
    bool domed = false;             ///< a ball: no pallor, thickest in the middle
    float ring = 0;                 ///< depth of a target's pale ring, 0: none
    std::array<float, 4> ringAt{};  ///< begins, is full, begins to end, has ended [radii]
};

/// Nucleus of a nucleated red cell.
struct RedNucleus {
    float x = 0, y = 0;
    float radius = 0; ///< 0: none
    float squash = 1;
    float age = 0; ///< 0 clumped and checkered .. 1 nearly black all through
};

struct RedShape {
    float radius = 3.5F;                     ///< between points and knobs
    float squash = 1;                        ///< short axis (y) over long
    std::array<float, 4> cosines{}, sines{}; ///< waves of 2 to 5 a turn, share of the radius
    Few<Point, 24> points;
    Few<Knob, 8> knobs;
    Few<Cut, 3> cuts;
    Few<Spot, 1> bites;
    Few<Dent, 5> dents;

    Profile profile;
    Few<Spot, 12> bumps; ///< points seen from above
    Few<Spot, 1> dots;   ///< Howell-Jolly bodies
    Few<Spot, 1> nubs;   ///< Heinz bodies
    Few<Spot, 4> holes;  ///< of water; moth-eaten by noise
    RedNucleus nucleus;

    float tint = 0;          ///< azure of the cell's own, may be negative (pink)
    std::uint32_t grain = 0; ///< seed of its textures
    float reach = 0;         ///< nothing is painted further from the middle
};

RedShape redShape(const Cell& cell);

/// A place seen from the outline.
struct Seen {
    float outside = 0; ///< distance from the outline [um], negative within
    float out = 0;     ///< from the middle (0) to the round outline (1), points and cuts apart
};
Seen seen(const RedShape& shape, float x, float y);

/// Nothing lies further outside of the outline than this, its bright halo among it [um].
inline constexpr float redHalo = .8F;

} // namespace cistern::drawing::film
