#pragma once
#include "drawing/film/field.h"

#include <cstdint>
#include <optional>
#include <set>

namespace cistern::drawing::film {

/// A cell that a tally asks about: a white cell, a smudge or a nucleated red cell.
bool nucleated(FilmCell kind);

/// The next nucleated cell that is not among `told`, from a place [um] on: along the film within
/// the area of that place, back a row further down, and so on as a reader of films walks. Nothing
/// if there is none until the film's far side. The stage is of the same slide, whatever its stain.
std::optional<Cell> nextNucleated(Stage& stage, Point from, const std::set<std::uint64_t>& told);

} // namespace cistern::drawing::film
