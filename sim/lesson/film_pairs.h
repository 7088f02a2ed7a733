#pragma once
#include "lab/film/cell.h"

#include <string>
#include <vector>

namespace cistern::lesson {

/// What tells two kinds apart, in whichever order they are given: a sentence or two for pairs that
/// are often confused, else what decides each of them.
std::string apart(lab::FilmCell one, lab::FilmCell other, body::Kind kind);

/// Kinds that one is taken for, the likeliest first; at least three, all of askedOf(kind).
std::vector<lab::FilmCell> lookAlikes(lab::FilmCell cell, body::Kind kind);

} // namespace cistern::lesson
