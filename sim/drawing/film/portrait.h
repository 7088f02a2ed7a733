#pragma once
#include "drawing/film/cell.h"
#include "drawing/picture.h"

#include <vector>

namespace cistern::drawing::film {

/// Who is to be drawn alone: a kind of cell of an animal, its looks by the seed.
struct Sitter {
    FilmCell kind{};
    body::Kind animal{};
    std::uint64_t seed = 1;
    std::uint16_t marks = 0; ///< lab::mark, joined
};

/// Width of a portrait on the slide [um].
inline constexpr double portraitWidth = 24;

/// The cell in the middle of a square of so many pixels, among ordinary red cells of its animal,
/// under the oil lens. A clump of platelets is drawn small enough to be seen whole.
Pixels portrait(const Sitter& sitter, int side, const lab::Stain& stain = {});

/// Red cells of one form, of one mark, in rows or clusters: a square where many of them lie.
Pixels company(const Sitter& sitter, int side, const lab::Stain& stain = {});

/// Every class of cell of these animals with its name, for a wall or a test: frames of that side,
/// so many pixels a unit of length.
Picture contactSheet(const std::vector<body::Kind>& animals, double side = 150, double fine = 1.5);

} // namespace cistern::drawing::film
