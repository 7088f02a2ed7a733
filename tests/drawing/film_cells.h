#pragma once
#include "drawing/film/paint.h"

#include <cmath>
#include <vector>

/// Single cells painted by themselves, and what is measured of them.
namespace cistern::test {

using namespace cistern::drawing::film;

constexpr float oilScale = 1000.F / 120, dryScale = 4.2F, lowScale = .77F; // [px/um]
constexpr std::size_t redPlane = 0, greenPlane = 1, bluePlane = 2;

/// A red cell as a plan would make it: of middling size, in the plane in focus.
inline Cell redCell(FilmCell kind, body::Kind animal, std::uint64_t seed) {
    const bool cat = animal == body::Kind::cat;
    Cell cell;
    cell.kind = kind;
    cell.animal = animal;
    cell.seed = seed;
    cell.radius = cat ? 2.9F : 3.5F; // 5.8 and 7.0 um across (Schalm, from memory)
    cell.pallor = cat ? .14F : .66F;
    if (kind == FilmCell::polychromatophil) {
        cell.radius = cat ? 3.5F : 4.15F;
        cell.pallor = .05F;
        cell.dye = .72F;
        cell.blue = .16F;
    } else if (kind == FilmCell::spherocyte) {
        cell.radius = cat ? 2.2F : 2.55F; // a sphere of the same volume
        cell.pallor = 0;
        cell.dye = 1.22F;
    } else if (kind == FilmCell::nucleatedRed) {
        cell.radius = 4.5F;
        cell.pallor = 0;
        cell.blue = .12F;
    }
    return cell;
}

struct Look {
    float scale = oilScale;
    float focus = 0;
    lab::Stain stain{};
    float half = 12; ///< of the square looked at, around 0, 0 [um]
};

using Painter = void (*)(const Cell&, const Light&, Density&);

inline Density painted(const Cell& cell, Painter painter, const Look& how = {}) {
    const Mixture mixture(how.stain);
    const Light light{mixture, {how.scale, 1.25F, how.focus}};
    const int side = static_cast<int>(2 * how.half * how.scale);
    const auto corner = static_cast<double>(-how.half);
    Density density(side, side, corner, corner, static_cast<double>(how.scale));
    painter(cell, light, density);
    return density;
}

/// All density of a color, times area [um2].
inline double sum(const Density& density, std::size_t plane) {
    double all = 0;
    for (std::size_t i = plane; i < density.planes.size(); i += 3)
        all += static_cast<double>(density.planes[i]);
    return all / (density.scale * density.scale);
}

/// Area where a color is denser than that [um2].
inline double area(const Density& density, std::size_t plane, float denser) {
    double count = 0;
    for (std::size_t i = plane; i < density.planes.size(); i += 3)
        count += density.planes[i] > denser;
    return count / (density.scale * density.scale);
}

/// Mean density of a color between two distances from the middle [um].
inline double between(const Density& density, std::size_t plane, double near, double far) {
    double all = 0, count = 0;
    for (int y = 0; y < density.height; ++y)
        for (int x = 0; x < density.width; ++x) {
            const double off = std::hypot(density.left + (x + .5) / density.scale,
                                          density.top + (y + .5) / density.scale);
            if (off < near || off >= far) continue;
            const auto at = static_cast<std::size_t>(3 * (y * density.width + x)) + plane;
            all += static_cast<double>(density.planes[at]);
            ++count;
        }
    return all / count;
}

} // namespace cistern::test
