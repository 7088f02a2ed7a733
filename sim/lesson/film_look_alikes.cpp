#include "lesson/film_pairs.h"

#include <algorithm>
#include <array>

namespace cistern::lesson {

namespace {

using lab::FilmCell;

/// What a kind is taken for, the likeliest first. From memory of the textbooks; order chosen.
struct Likeness {
    FilmCell cell;
    std::array<FilmCell, 4> others;
};
constexpr std::array<Likeness, lab::filmCellCount> likenesses{
    Likeness{FilmCell::discocyte,
             {FilmCell::polychromatophil, FilmCell::spherocyte, FilmCell::hypochromic,
              FilmCell::target}},
    Likeness{
        FilmCell::polychromatophil,
        {FilmCell::discocyte, FilmCell::nucleatedRed, FilmCell::spherocyte, FilmCell::hypochromic}},
    Likeness{
        FilmCell::hypochromic,
        {FilmCell::target, FilmCell::discocyte, FilmCell::keratocyte, FilmCell::polychromatophil}},
    Likeness{FilmCell::spherocyte,
             {FilmCell::discocyte, FilmCell::polychromatophil, FilmCell::schistocyte,
              FilmCell::echinocyte}},
    Likeness{
        FilmCell::echinocyte,
        {FilmCell::acanthocyte, FilmCell::keratocyte, FilmCell::schistocyte, FilmCell::discocyte}},
    Likeness{FilmCell::acanthocyte,
             {FilmCell::echinocyte, FilmCell::keratocyte, FilmCell::schistocyte, FilmCell::target}},
    Likeness{
        FilmCell::target,
        {FilmCell::hypochromic, FilmCell::discocyte, FilmCell::keratocyte, FilmCell::acanthocyte}},
    Likeness{
        FilmCell::schistocyte,
        {FilmCell::keratocyte, FilmCell::acanthocyte, FilmCell::spherocyte, FilmCell::echinocyte}},
    Likeness{FilmCell::keratocyte,
             {FilmCell::schistocyte, FilmCell::acanthocyte, FilmCell::echinocyte,
              FilmCell::hypochromic}},
    Likeness{FilmCell::nucleatedRed,
             {FilmCell::lymphocyte, FilmCell::polychromatophil, FilmCell::reactiveLymphocyte,
              FilmCell::discocyte}},
    Likeness{FilmCell::segmented,
             {FilmCell::band, FilmCell::eosinophil, FilmCell::basophil, FilmCell::metamyelocyte}},
    Likeness{
        FilmCell::band,
        {FilmCell::segmented, FilmCell::monocyte, FilmCell::metamyelocyte, FilmCell::basophil}},
    Likeness{
        FilmCell::metamyelocyte,
        {FilmCell::band, FilmCell::monocyte, FilmCell::reactiveLymphocyte, FilmCell::segmented}},
    Likeness{FilmCell::lymphocyte,
             {FilmCell::nucleatedRed, FilmCell::reactiveLymphocyte, FilmCell::monocyte,
              FilmCell::platelet}},
    Likeness{FilmCell::reactiveLymphocyte,
             {FilmCell::monocyte, FilmCell::lymphocyte, FilmCell::metamyelocyte,
              FilmCell::nucleatedRed}},
    Likeness{FilmCell::monocyte,
             {FilmCell::band, FilmCell::reactiveLymphocyte, FilmCell::metamyelocyte,
              FilmCell::lymphocyte}},
    Likeness{FilmCell::eosinophil,
             {FilmCell::basophil, FilmCell::segmented, FilmCell::band, FilmCell::monocyte}},
    Likeness{FilmCell::basophil,
             {FilmCell::eosinophil, FilmCell::segmented, FilmCell::monocyte, FilmCell::band}},
    Likeness{
        FilmCell::smudge,
        {FilmCell::plateletClump, FilmCell::lymphocyte, FilmCell::monocyte, FilmCell::precipitate}},
    Likeness{FilmCell::platelet,
             {FilmCell::precipitate, FilmCell::lymphocyte, FilmCell::plateletClump,
              FilmCell::nucleatedRed}},
    Likeness{FilmCell::plateletClump,
             {FilmCell::smudge, FilmCell::precipitate, FilmCell::platelet, FilmCell::basophil}},
    Likeness{FilmCell::precipitate,
             {FilmCell::platelet, FilmCell::plateletClump, FilmCell::smudge, FilmCell::basophil}}};

constexpr bool inOrder() {
    for (std::size_t i = 0; i < likenesses.size(); ++i)
        if (likenesses[i].cell != static_cast<FilmCell>(i)) return false;
    return true;
}
static_assert(inOrder(), "likenesses follow the order of the cells");

} // namespace

std::vector<FilmCell> lookAlikes(FilmCell cell, body::Kind kind) {
    const auto asked = lab::askedOf(kind);
    std::vector<FilmCell> likes;
    for (const FilmCell other : likenesses.at(static_cast<std::size_t>(cell)).others)
        if (std::find(asked.begin(), asked.end(), other) != asked.end()) likes.push_back(other);
    return likes;
}

} // namespace cistern::lesson
