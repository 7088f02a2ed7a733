#include "lab/counter/film.h"

#include "base/statistics.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

constexpr double perHundred = 100;
// Beyond this wait cells on the film are full of holes and swollen (Stockham and Scott, from
// memory: 4 to 6 h).
constexpr double oldAfter = 4; // [h]

/// Cells met one after another, each of a kind with its share of the weights.
std::array<int, whiteKindCount> told(int cells, const std::array<double, whiteKindCount>& weights,
                                     base::Chance& chance) {
    std::array<int, whiteKindCount> kinds{};
    double sum = 0;
    for (const double one : weights) sum += one;
    for (int i = 0; i < cells; ++i) {
        double at = chance.uniform() * sum;
        std::size_t kind = 0;
        while (kind + 1 < whiteKindCount && at >= weights[kind]) at -= weights[kind++];
        ++kinds[kind];
    }
    return kinds;
}

} // namespace

double Film::bandsOfNeutrophils() const {
    const int both = kinds[0] + kinds[1];
    return both > 0 ? static_cast<double>(kinds[1]) / both : 0;
}

double Film::nucleated() const {
    return cells > 0 ? perHundred * nucleatedMet / cells : 0;
}

int countOf(int n, double share, base::Chance& chance) {
    int met = 0;
    for (int i = 0; i < n; ++i) met += chance.uniform() < share;
    return met;
}

Film readFilm(const Counter& counter, const Blood& blood, const FilmReader& reader,
              base::Chance& chance) {
    validate(blood);
    Film film;
    const double neutrophils = blood.white[0] + blood.white[1];
    auto weights = blood.white;
    weights[1] = std::min(blood.white[1] * reader.bands, neutrophils);
    weights[0] = neutrophils - weights[1];
    const int cells = static_cast<int>(counter.filmCells);
    if (whiteCells(blood) > 0) {
        film.cells = cells;
        film.kinds = told(cells, weights, chance);
        film.nucleatedMet = static_cast<int>(chance.poisson(blood.nucleated / perHundred * cells));
    }
    if (neutrophils > 0)
        film.toxic = countOf(cells, std::min(1., blood.toxic * reader.toxic), chance) /
                     static_cast<double>(cells);

    const double kept = blood.platelets * (1 - blood.wear.plateletsLost);
    const double density = std::exp(counter.filmDensity * chance.normal() -
                                    counter.filmDensity * counter.filmDensity / 2);
    film.plateletsPerField = chance.poisson(counter.filmFields * density * kept *
                                            (1 - blood.wear.clumped) / counter.fieldPlatelets) /
                             counter.filmFields;
    film.platelets = plateletEstimate(film.plateletsPerField, counter.fieldPlatelets);
    constexpr double perMicroliter = 1e3; // of 10*9/L
    constexpr double clearly = 3;         // clumps that nobody overlooks
    film.clumps =
        chance.poisson(plateletClumps(blood) * perMicroliter * counter.edgeBlood) >= clearly;
    film.old = blood.wear.hours > oldAfter;
    return film;
}

std::pair<int, int> printedLimits(int k, int n) {
    constexpr double slack = 1e-9; // of a percent: a limit that is whole but for its last bit
    const auto [low, high] = base::shareLimits(k, n, 0.95);
    return {static_cast<int>(std::floor(100 * low + slack)),
            static_cast<int>(std::ceil(100 * high - slack))};
}

double correctedWhite(double counted, double nucleatedPer100) {
    return counted * perHundred / (perHundred + nucleatedPer100);
}

bool needsCorrection(double nucleatedPer100) {
    return nucleatedPer100 > 5;
}

double plateletEstimate(double perField, double perPlatelet) {
    return perField * perPlatelet;
}

} // namespace cistern::lab
