#pragma once
#include "drawing/film/white_shape.h"

#include <array>
#include <string>
#include <vector>

/// White cells for tests: a cell of each kind and what a painted one measures.
namespace cistern::test {

namespace film = cistern::drawing::film;
namespace mark = cistern::lab::mark;
using film::Cell;
using film::Dyes;
using lab::FilmCell;

inline constexpr std::array whites{
    FilmCell::segmented,          FilmCell::band,     FilmCell::metamyelocyte, FilmCell::lymphocyte,
    FilmCell::reactiveLymphocyte, FilmCell::monocyte, FilmCell::eosinophil,    FilmCell::basophil};
inline constexpr std::array animals{body::Kind::dog, body::Kind::cat};
inline constexpr std::array<std::uint16_t, 9> whiteMarks{0,
                                                         mark::toxic,
                                                         mark::doehle,
                                                         mark::vacuoles,
                                                         mark::emptyGranules,
                                                         mark::drumstick,
                                                         mark::hypersegmented,
                                                         mark::doubtful,
                                                         mark::toxic | mark::doehle |
                                                             mark::vacuoles};

/// Least and greatest radius of a kind [um]: halves of the usual diameters (Harvey; Reagan, from
/// memory).
inline std::array<float, 2> radii(FilmCell kind) {
    switch (kind) {
    case FilmCell::metamyelocyte:
        return {6.5F, 7.75F};
    case FilmCell::lymphocyte:
        return {4.2F, 5.1F};
    case FilmCell::reactiveLymphocyte:
        return {5.5F, 7.25F};
    case FilmCell::monocyte:
        return {7.75F, 9.5F};
    case FilmCell::eosinophil:
    case FilmCell::basophil:
        return {6.25F, 7.5F};
    case FilmCell::smudge:
        return {6.5F, 10};
    default:
        return {6, 7.25F};
    }
}

inline Cell cellOf(FilmCell kind, std::uint64_t seed, std::uint16_t marks = 0,
                   body::Kind animal = body::Kind::dog) {
    Cell cell;
    cell.seed = seed;
    cell.kind = kind;
    cell.animal = animal;
    cell.marks = marks;
    cell.blue = (marks & mark::toxic) != 0 ? .7F : 0;
    const auto [least, most] = radii(kind);
    cell.radius = least + (most - least) * static_cast<float>(seed * 7 % 10) / 9;
    return cell;
}

/// A cell alone in the middle of a square of density; its middle at 0, 0.
inline film::Density painted(const Cell& cell, float scale = 1000.F / 120) {
    const film::Mixture mixture{lab::Stain{}};
    film::Optics optics;
    optics.scale = scale;
    optics.aperture = scale < 2 ? .25F : 1.25F;
    const film::Light light{mixture, optics};
    const double half = 2 * static_cast<double>(cell.radius) + 2;
    const int side = static_cast<int>(2 * half * static_cast<double>(scale));
    film::Density density(side, side, -half, -half, static_cast<double>(scale));
    if (cell.kind == FilmCell::smudge)
        film::paintSmudge(cell, light, density);
    else
        film::paintWhite(cell, light, density);
    return density;
}

/// Of a painted cell, without its colors: what is left to an eye that tells no hue.
struct Gray {
    double radius = 0;             ///< of a circle of its area [um]
    double nucleus = 0;            ///< share of its area
    double blocks = 0;             ///< spread of the nucleus's density over its mean
    double plasm = 0;              ///< mean density of the cytoplasm, well within
    double grain = 0;              ///< spread of the same over its mean
    std::array<double, 3> color{}; ///< mean density of the cytoplasm by plane: hue after all
};
Gray measured(const Cell& cell, float scale = 1000.F / 120);

} // namespace cistern::test
