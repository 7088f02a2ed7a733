#pragma once
#include "base/chance.h"
#include "lesson/film_tally.h"

#include <catch2/catch.hpp>

#include <functional>

/// Tallies made by hand and by chance, for the tests of tallies.
namespace cistern::film {

using lab::FilmCell;
using lesson::ClassCounts;
using lesson::ClassShares;
using lesson::FilmTally;
using lesson::TallyClass;
using lesson::TallyMarks;
using lesson::TallyTruth;

inline constexpr std::array<FilmCell, lesson::tallyClassCount> kinds{
    FilmCell::segmented, FilmCell::band,       FilmCell::metamyelocyte, FilmCell::lymphocyte,
    FilmCell::monocyte,  FilmCell::eosinophil, FilmCell::basophil};
inline constexpr double inMonolayer = 8000, atEdge = 500; // [um]

inline std::size_t at(TallyClass kind) {
    return static_cast<std::size_t>(kind);
}

/// A left shift: shares of segmented, bands, metamyelocytes, lymphocytes, monocytes, eosinophils
/// and basophils.
inline TallyTruth leftShift() {
    TallyTruth truth;
    truth.share = {0.70, 0.08, 0.01, 0.14, 0.05, 0.019, 0.001};
    truth.monolayer = {5000, 12000};
    return truth;
}

inline FilmCell met(const ClassShares& share, base::Chance& chance) {
    double place = chance.uniform();
    std::size_t kind = 0;
    while (kind + 1 < share.size() && place >= share[kind]) place -= share[kind++];
    return kinds[kind];
}

using Namer = std::function<FilmCell(FilmCell, base::Chance&)>;

inline FilmCell honest(FilmCell truly, base::Chance&) {
    return truly;
}

/// A whole tally from cells met by chance, named somehow, at one place.
inline FilmTally tallyOf(const TallyTruth& truth, std::uint32_t number, const Namer& namer,
                         double x = inMonolayer, int end = 100) {
    base::Chance chance(11, base::Purpose::test, 0, number);
    FilmTally tally(end);
    for (std::uint64_t cell = 1; !tally.full(); ++cell) {
        const FilmCell truly = met(truth.share, chance);
        REQUIRE(tally.add({truly, namer(truly, chance), false, cell, x, 0}).empty());
    }
    return tally;
}

inline void addMany(FilmTally& tally, FilmCell truly, FilmCell said, int times,
                    bool doubtful = false, double x = inMonolayer) {
    for (int i = 0; i < times; ++i)
        REQUIRE(tally.add({truly, said, doubtful, 1000 + tally.told().size(), x, 0}).empty());
}

inline bool contains(const std::string& text, std::string_view part) {
    return text.find(part) != text.npos;
}

} // namespace cistern::film
