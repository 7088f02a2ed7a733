#include "lab/film/cell.h"

#include <stdexcept>

namespace cistern::lab {

namespace {

/// What decides, for the dog and for the cat; an empty text of the cat is that of the dog.
struct Entry {
    FilmCell cell;
    std::string_view name;
    std::string_view dog, cat;

    std::string_view telling(body::Kind kind) const {
        return kind == body::Kind::cat && !cat.empty() ? cat : dog;
    }
};

// Sizes are those of a dried film. From memory of Harvey; Reagan; Schalm; Stockham and Scott.
constexpr std::array<Entry, filmCellCount> entries{
    Entry{
        FilmCell::discocyte, "red cell",
        "About 7 um across, pink, with a pale middle that takes about a third of its width. Judge "
        "the pale middle in the monolayer only: at the feathered edge every red cell loses it.",
        "About 5.8 um across, pink, with hardly any pale middle. Widths vary a little more than "
        "in a dog; a missing pale middle means nothing in a cat."},
    Entry{FilmCell::polychromatophil, "polychromatophil",
          "A young red cell, 7.5 to 9 um, lilac to blue-gray, without a pale middle. It is larger "
          "and bluer than its neighbors; it has no nucleus and is no small lymphocyte.",
          "A young red cell, 6.5 to 7.5 um, lilac to blue-gray. It is larger and bluer than its "
          "neighbors; older reticulocytes of a cat stay pink and are not seen with this stain."},
    Entry{FilmCell::hypochromic, "hypochromic red cell",
          "A thin pink rim around a pale middle wider than half the cell, shading off gradually: "
          "too little hemoglobin, as in lack of iron. A sharp, punched-out hole is an artifact.",
          "A thin pink rim around a clearly pale middle, which a healthy cat's red cells hardly "
          "show: too little hemoglobin. A sharp, shining hole is an artifact of drying."},
    Entry{FilmCell::spherocyte, "spherocyte",
          "About 5 um, round and smooth, dense red with no pale middle. Believe it in the "
          "monolayer only; at the feathered edge every red cell looks like one.",
          "A smaller, denser, round red cell. It is not judged in cats, whose healthy red cells "
          "have hardly any pale middle to lose."},
    Entry{FilmCell::echinocyte,
          "echinocyte",
          "A crenated red cell: 10 to 30 short, even points all around. Usually an artifact of "
          "slow drying, too much EDTA or old blood, and then many lie in one area.",
          {}},
    Entry{FilmCell::acanthocyte, "acanthocyte",
          "A red cell with 4 to 8 knobs of uneven length, unevenly set. Even, short points all "
          "around are those of an echinocyte.",
          "A red cell with 4 to 8 knobs of uneven length, unevenly set; in cats often with disease "
          "of the liver. Even, short points all around are those of an echinocyte."},
    Entry{FilmCell::target,
          "target cell",
          "A bull's-eye: a red spot in the middle, a pale ring, a red rim. A water artifact has a "
          "sharp, shining edge that moves in and out of focus.",
          {}},
    Entry{FilmCell::schistocyte, "schistocyte",
          "A fragment of a red cell, smaller than its neighbors and with pointed ends: a helmet or "
          "a triangle, without a pale middle. A whole cell with two horns is a keratocyte.",
          "A fragment of a red cell, smaller than its neighbors and with pointed ends: a helmet or "
          "a triangle. A whole cell with two horns is a keratocyte."},
    Entry{FilmCell::keratocyte,
          "keratocyte",
          "A red cell of about full size that looks bitten: a gap in the edge with a horn on "
          "either side. A helmet-shaped fragment, clearly smaller, is a schistocyte.",
          {}},
    Entry{FilmCell::nucleatedRed, "nucleated red cell",
          "8 to 10 um; a small, round, almost black nucleus, often off center, in plenty of pink "
          "to lilac cytoplasm. A lymphocyte's nucleus is larger, smoother and leaves only a thin "
          "sky-blue rim.",
          "7 to 9 um; a small, round, almost black nucleus, often off center, in plenty of pink to "
          "lilac cytoplasm. A lymphocyte's nucleus is larger, smoother and leaves only a thin "
          "sky-blue rim."},
    Entry{FilmCell::segmented,
          "segmented neutrophil",
          "12 to 14 um; three to five lobes of dark, clumped chromatin joined by narrow necks, "
          "none wider than half of the widest lobe. Cytoplasm almost clear, no colored granules.",
          {}},
    Entry{FilmCell::band,
          "band neutrophil",
          "12 to 15 um; a U, S, horseshoe or ring nucleus with parallel sides that nowhere narrows "
          "to "
          "half of its widest part, paler than a segmented one's. Cytoplasm nearly clear; a "
          "gray-blue one with sharp holes and a lacy nucleus is a monocyte.",
          {}},
    Entry{FilmCell::metamyelocyte,
          "metamyelocyte",
          "13 to 16 um; a kidney-shaped nucleus with only a shallow dent, pale blue cytoplasm. Met "
          "only in a strong left shift; a monocyte is larger, with lacier chromatin and gray-blue "
          "cytoplasm.",
          {}},
    Entry{FilmCell::lymphocyte, "lymphocyte",
          "7 to 9 um; a round nucleus about as wide as a red cell, smooth and dense, that nearly "
          "fills the cell; a thin sky-blue rim, often on one side only. A nucleated red cell has a "
          "smaller, blacker nucleus and pink to lilac cytoplasm.",
          "7 to 9 um; a round nucleus, clearly wider than a cat's red cell, smooth and dense, that "
          "nearly fills the cell; a thin sky-blue rim. A nucleated red cell has a smaller, blacker "
          "nucleus and pink to lilac cytoplasm."},
    Entry{FilmCell::reactiveLymphocyte,
          "reactive lymphocyte",
          "10 to 15 um; a nucleus from clumped to open, plenty of deep royal-blue cytoplasm, paler "
          "beside the nucleus. A monocyte's cytoplasm is gray-blue with holes and its nucleus "
          "lacy.",
          {}},
    Entry{FilmCell::monocyte,
          "monocyte",
          "15 to 20 um, the largest; a nucleus of any shape, paler and lacy or ribboned; wide "
          "gray-blue cytoplasm like ground glass, often with sharp round holes. The shape of the "
          "nucleus does not part it from a band: the cytoplasm and the lace do.",
          {}},
    Entry{FilmCell::eosinophil, "eosinophil",
          "12 to 18 um; a nucleus of two or three lobes and round orange-pink granules, few to "
          "many, of unequal size. Granules may have washed out and leave empty round holes, as "
          "often in sighthounds.",
          "12 to 15 um; a nucleus of two or three lobes, the cell filled with many small, "
          "brick-to-orange rods. Oval, lavender granules are those of a basophil."},
    Entry{FilmCell::basophil, "basophil",
          "12 to 18 um; a long, twisted ribbon of a nucleus in gray-lavender cytoplasm with a few "
          "scattered, dark violet granules. Take it by the ribbon where granules are sparse.",
          "12 to 18 um; a twisted nucleus that looks moth-eaten, for the cell is packed with oval, "
          "pale lavender-gray granules. A cat's eosinophil has orange rods instead."},
    Entry{FilmCell::smudge,
          "smudge cell",
          "A burst white cell: a pink-purple net without outline or cytoplasm. Its kind cannot be "
          "told; it is passed over, and many of them mean old blood or too hard a push.",
          {}},
    Entry{FilmCell::platelet, "platelet",
          "2 to 4 um; pale blue-gray and fuzzy, with fine red-purple grains in the middle and no "
          "nucleus. One that lies on a red cell has a pale halo; it is no inclusion.",
          "2 to 6 um, of very unequal size, some with threads or points; pale blue-gray with fine "
          "red-purple grains and no nucleus. One that lies on a red cell has a pale halo; it is no "
          "inclusion."},
    Entry{FilmCell::plateletClump, "platelet clump",
          "A grainy purple mass, 10 to 60 um, in which single platelets show at the border; no "
          "nucleus. Look for clumps at the feathered edge before a low count is believed.",
          "A grainy purple mass, 10 to 60 um, in which single platelets show at the border; no "
          "nucleus. Common in cats: look at the feathered edge before a low count is believed."},
    Entry{FilmCell::precipitate,
          "stain precipitate",
          "Purple-black grains, 0.2 to 1 um, above the cells and between them, sharp when the "
          "cells are not. It is no parasite, no platelet and no bacterium.",
          {}}};

struct MarkEntry {
    std::uint16_t mark;
    std::string_view name, telling;
};
constexpr std::array<MarkEntry, cellMarks.size()> markEntries{
    MarkEntry{mark::howellJolly, "Howell-Jolly body",
              "A Howell-Jolly body is one round, blue-black dot of 0.5 to 1 um in a red cell; a "
              "platelet on top is fuzzy, grainy and has a halo."},
    MarkEntry{mark::heinz, "Heinz body",
              "A Heinz body is a pale round nub of 0.5 to 2 um at the edge of a red cell; it takes "
              "no purple, as a Howell-Jolly body does."},
    MarkEntry{mark::water, "water artifact",
              "A water artifact is a shining hole with a sharp edge that moves in and out of "
              "focus: slow drying, no parasite and no pallor."},
    MarkEntry{mark::toxic, "toxic",
              "Toxic change is blue cytoplasm, foamy holes and Doehle bodies in a neutrophil; it "
              "does not change the class of the cell."},
    MarkEntry{mark::doehle, "Doehle body",
              "A Doehle body is a gray-blue, angular smudge of 1 to 2 um in a neutrophil's "
              "cytoplasm; alone it means little in a cat."},
    MarkEntry{mark::vacuoles, "vacuoles",
              "Vacuoles are clear round holes in the cytoplasm; in old blood they come by standing "
              "alone."},
    MarkEntry{mark::inRouleau, "in a rouleau",
              "A rouleau is a row of red cells like a pile of coins; saline parts it, clusters of "
              "agglutinated cells it does not."},
    MarkEntry{mark::agglutinated, "agglutinated",
              "Agglutinated red cells hang together like grapes; saline does not part them."},
    MarkEntry{mark::emptyGranules, "empty granules",
              "Empty round holes in a cell with a nucleus of two or three lobes are washed-out "
              "granules of an eosinophil, as often in sighthounds."},
    MarkEntry{mark::drumstick, "drumstick",
              "A drumstick is a small knob on a thin stalk at a lobe of the nucleus: a female "
              "animal, and no lobe of its own."},
    MarkEntry{mark::hypersegmented, "hypersegmented",
              "Six lobes or more are hypersegmented: cells kept in the blood by steroids, or old "
              "blood."},
    MarkEntry{mark::doubtful, "doubtful",
              "The nucleus narrows to between a third and half of its widest part: schools differ, "
              "and either segmented or band may be said."},
    MarkEntry{mark::large, "large platelet",
              "A platelet as wide as a red cell is a large one; its grains and the missing nucleus "
              "tell it."}};

const Entry& entry(FilmCell cell) {
    return entries.at(static_cast<std::size_t>(cell));
}

const MarkEntry& markEntry(std::uint16_t mark) {
    for (const MarkEntry& one : markEntries)
        if (one.mark == mark) return one;
    throw std::invalid_argument("what a cell carries is told one mark at a time");
}

constexpr bool inOrder() {
    for (std::size_t i = 0; i < filmCellCount; ++i)
        if (entries[i].cell != static_cast<FilmCell>(i)) return false;
    for (std::size_t i = 0; i < cellMarks.size(); ++i)
        if (markEntries[i].mark != cellMarks[i]) return false;
    return true;
}
static_assert(inOrder(), "the tables follow the order of the lists");

} // namespace

const std::array<FilmCell, filmCellCount>& filmCells() {
    static const auto all = [] {
        std::array<FilmCell, filmCellCount> cells{};
        for (std::size_t i = 0; i < filmCellCount; ++i) cells[i] = static_cast<FilmCell>(i);
        return cells;
    }();
    return all;
}

std::string_view name(FilmCell cell) {
    return entry(cell).name;
}

std::optional<FilmCell> filmCellNamed(std::string_view name) {
    for (const Entry& one : entries)
        if (one.name == name) return one.cell;
    return std::nullopt;
}

std::string_view markName(std::uint16_t mark) {
    return markEntry(mark).name;
}

std::string_view markTelling(std::uint16_t mark) {
    return markEntry(mark).telling;
}

std::string_view telling(FilmCell cell, body::Kind kind) {
    return entry(cell).telling(kind);
}

std::vector<FilmCell> askedOf(body::Kind kind) {
    std::vector<FilmCell> asked;
    for (const FilmCell cell : filmCells())
        if (cell != FilmCell::spherocyte || kind == body::Kind::dog) asked.push_back(cell);
    return asked;
}

} // namespace cistern::lab
