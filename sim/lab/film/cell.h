#pragma once
#include "body/names.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

/// What may be met on a stained blood film: red cells by their form, white cells in the order of a
/// tally, platelets, and what only looks like a cell.
enum class FilmCell : std::uint8_t {
    discocyte, // an ordinary red cell
    polychromatophil,
    hypochromic,
    spherocyte,
    echinocyte,
    acanthocyte,
    target,
    schistocyte,
    keratocyte,
    nucleatedRed,
    segmented,
    band,
    metamyelocyte,
    lymphocyte,
    reactiveLymphocyte,
    monocyte,
    eosinophil,
    basophil,
    smudge,
    platelet,
    plateletClump,
    precipitate // of stain
};
inline constexpr std::size_t filmCellCount = 22;

const std::array<FilmCell, filmCellCount>& filmCells();
std::string_view name(FilmCell cell); ///< "segmented neutrophil", "nucleated red cell", ...
std::optional<FilmCell> filmCellNamed(std::string_view name);

constexpr bool isRed(FilmCell cell) {
    return cell <= FilmCell::nucleatedRed;
}
/// A white cell whose kind can be told: smudges are none.
constexpr bool isWhite(FilmCell cell) {
    return cell >= FilmCell::segmented && cell <= FilmCell::basophil;
}

/// What a cell carries besides its kind; several may be joined.
namespace mark {
inline constexpr std::uint16_t howellJolly = 1, heinz = 2, water = 4, toxic = 8, doehle = 16,
                               vacuoles = 32, inRouleau = 64, agglutinated = 128,
                               emptyGranules = 256, drumstick = 512, hypersegmented = 1024,
                               doubtful = 2048, ///< between band and segmented: either may be said
    large = 4096;                               ///< a platelet as wide as a red cell
} // namespace mark
inline constexpr std::array<std::uint16_t, 13> cellMarks{
    mark::howellJolly,    mark::heinz,     mark::water,        mark::toxic,         mark::doehle,
    mark::vacuoles,       mark::inRouleau, mark::agglutinated, mark::emptyGranules, mark::drumstick,
    mark::hypersegmented, mark::doubtful,  mark::large};
std::string_view markName(std::uint16_t mark); ///< of a single one: "Howell-Jolly body", "toxic"

/// What decides that a cell is of its kind, in this species, one sentence or two: size, nucleus,
/// cytoplasm, granules. From memory of the textbooks (Harvey; Reagan; Stockham and Scott).
std::string_view telling(FilmCell cell, body::Kind kind);
/// What a single mark looks like and what it must not be taken for, one sentence.
std::string_view markTelling(std::uint16_t mark);

/// The kinds that a learner is asked to name in a species, in the order of filmCells(): all but
/// spherocytes in cats, whose healthy red cells show hardly any pallor that could be missed.
std::vector<FilmCell> askedOf(body::Kind kind);

} // namespace cistern::lab
