#include "base/statistics.h"
#include "lab/counter/chamber.h"
#include "lab/counter/film.h"
#include "lab/counter/red_cells.h"
#include "real_bench.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace cistern;
using body::Kind;

namespace {

lab::Film read(const lab::Blood& blood, std::uint32_t number = 0,
               const lab::FilmReader& reader = {}) {
    base::Chance chance(1, base::Purpose::film, 0, number);
    return readFilm(*real::bench().counter, blood, reader, chance);
}

} // namespace

TEST_CASE("Differential limits print as the common table has them", "[lab]") {
    // Ruemke 1979 and 1985, as remembered from haematology texts: the lower limit rounded down, the
    // upper one up.
    struct Row {
        int k, n, low, high;
    };
    for (const Row& row : {Row{0, 100, 0, 4},     Row{1, 100, 0, 6},     Row{2, 100, 0, 8},
                           Row{3, 100, 0, 9},     Row{4, 100, 1, 10},    Row{5, 100, 1, 12},
                           Row{10, 100, 4, 18},   Row{15, 100, 8, 24},   Row{20, 100, 12, 30},
                           Row{25, 100, 16, 35},  Row{30, 100, 21, 40},  Row{40, 100, 30, 51},
                           Row{50, 100, 39, 61},  Row{10, 200, 2, 10},   Row{20, 200, 6, 16},
                           Row{40, 200, 14, 27},  Row{100, 200, 42, 58}, Row{50, 500, 7, 13},
                           Row{150, 500, 26, 35}, Row{250, 500, 45, 55}, Row{20, 1000, 1, 4},
                           Row{100, 1000, 8, 13}, Row{500, 1000, 46, 54}}) {
        INFO(row.k << " of " << row.n);
        CHECK(lab::printedLimits(row.k, row.n) == std::pair(row.low, row.high));
    }
}

TEST_CASE("A hundred cells told apart scatter as the binomial does", "[lab]") {
    constexpr int films = 10000, cells = 100;
    constexpr double share = 0.1;
    double sum = 0, squares = 0;
    int covered = 0;
    base::Chance chance(1, base::Purpose::test);
    for (int i = 0; i < films; ++i) {
        const int k = lab::countOf(cells, share, chance);
        sum += k;
        squares += k * k;
        const auto [low, high] = base::shareLimits(k, cells, 0.95);
        covered += low <= share && share <= high;
    }
    const double mean = sum / films;
    // Exact: mean 10, standard deviation 3; of 10,000 the mean is known to 0.03, the deviation to
    // 0.02, and 0.1 is more than three of either.
    CHECK(mean == Approx(10).margin(0.1));
    CHECK(std::sqrt(squares / films - mean * mean) == Approx(3).margin(0.1));
    CHECK(covered >= 0.95 * films); // the exact interval never covers less
}

TEST_CASE("A film tells kinds, bands and toxic cells in their shares", "[lab]") {
    lab::Blood blood = real::blood(Kind::dog);
    blood.white = {6, 2, 1.5, 0.3, 0.2};
    blood.toxic = 0.25;
    blood.nucleated = 8;
    constexpr std::uint32_t films = 2000;
    std::array<double, lab::whiteKindCount> kinds{};
    double toxic = 0, nucleated = 0, platelets = 0;
    for (std::uint32_t i = 0; i < films; ++i) {
        const lab::Film film = read(blood, i);
        CHECK(film.cells == 200);
        for (std::size_t k = 0; k < kinds.size(); ++k) kinds[k] += film.kinds[k];
        toxic += film.toxic;
        nucleated += film.nucleated();
        platelets += film.platelets;
    }
    for (std::size_t k = 0; k < kinds.size(); ++k) {
        const double p = blood.white[k] / 10;
        CHECK(kinds[k] / films / 200 ==
              Approx(p).margin(4 * std::sqrt(p * (1 - p) / 200 / films))); // four errors
    }
    CHECK(toxic / films == Approx(0.25).margin(4 * std::sqrt(0.25 * 0.75 / 200 / films)));
    CHECK(nucleated / films == Approx(8).margin(4 * std::sqrt(8. / 2 / films)));
    // 10 fields, 24 platelets in each, films 20 % thicker or thinner: 21 % of one film.
    CHECK(platelets / films == Approx(blood.platelets).epsilon(4 * 0.21 / std::sqrt(films)));
}

TEST_CASE("Clumps lie at the feathered edge of a film, and only clumps", "[lab]") {
    lab::Blood blood = real::blood(Kind::cat);
    CHECK_FALSE(read(blood).clumps);
    CHECK_FALSE(read(blood).old);
    blood.wear.clumped = 0.3;
    blood.wear.clumpSize = 20;
    blood.wear.hours = 8;
    CHECK(read(blood).clumps);
    CHECK(read(blood).old); // after 4 to 6 h, Stockham and Scott (from memory)
    CHECK(read(lab::Blood{}).cells == 0);
    CHECK(read(lab::Blood{}).bandsOfNeutrophils() == 0);
}

TEST_CASE("Nucleated red cells are taken off the white cells above five", "[lab]") {
    // count * 100 / (100 + n), done above 5: eClinPath. 15.0 with 50 is 10.0; 12 with 20 is 10.
    CHECK(lab::correctedWhite(15, 50) == Approx(10).epsilon(1e-12));
    CHECK(lab::correctedWhite(12, 20) == Approx(10).epsilon(1e-12));
    CHECK_FALSE(lab::needsCorrection(5));
    CHECK(lab::needsCorrection(6));
}

TEST_CASE("Platelets are told from the fields of the oil lens", "[lab]") {
    // 12 a field: 180,000/uL by 15,000 (Cornell), 240,000 by 20,000 (Tasker 1999); 7: 105,000, an
    // example of Cornell's, low for a dog (211 on, Merck blood table).
    CHECK(lab::plateletEstimate(12) == 180);
    CHECK(lab::plateletEstimate(12, 20) == 240);
    CHECK(lab::plateletEstimate(7) == 105);
}

TEST_CASE("Counting scatters with the root of the count", "[lab]") {
    // Poisson; Dacie and Lewis: 25 cells 20 %, 100 10 %, 400 5 %, 2500 2 %; ten fields of 12
    // platelets 9.1 %.
    CHECK(lab::countVariation(25) == Approx(0.2));
    CHECK(lab::countVariation(100) == Approx(0.1));
    CHECK(lab::countVariation(400) == Approx(0.05));
    CHECK(lab::countVariation(1000) == Approx(0.0316).margin(0.00005));
    CHECK(lab::countVariation(2500) == Approx(0.02));
    CHECK(lab::countVariation(120) == Approx(0.091).margin(0.001));
    for (const double mean : {4., 25., 400., 10000.}) {
        constexpr int n = 20000;
        base::Chance chance(2, base::Purpose::test, 0, static_cast<std::uint32_t>(mean));
        double sum = 0, squares = 0;
        for (int i = 0; i < n; ++i) {
            const double k = chance.poisson(mean);
            sum += k;
            squares += k * k;
        }
        const double seen = std::sqrt(squares / n - sum / n * sum / n) / (sum / n);
        CHECK(seen == Approx(lab::countVariation(mean)).epsilon(0.025)); // 0.5 % is one error
    }
}

TEST_CASE("A chamber count follows from its area, depth and dilution", "[lab]") {
    // Improved Neubauer, 0.1 mm deep; per uL: four corners at 1:20, N * 50; nine squares, N * 22.2;
    // nine at 1:100, N * 111; five groups at 1:200, N * 10,000; 25 groups at 1:100, N * 1,000.
    // Common practice, exact arithmetic.
    const auto perMicroliter = [](double area, double dilution) {
        return 1000 * lab::perCell({area, dilution});
    };
    CHECK(perMicroliter(4, 20) == Approx(50).epsilon(1e-12));
    CHECK(perMicroliter(9, 20) == Approx(22.2).margin(0.05));
    CHECK(perMicroliter(9, 100) == Approx(111.1).margin(0.05));
    CHECK(perMicroliter(5 * 0.04, 200) == Approx(10000).epsilon(1e-12));
    CHECK(perMicroliter(25 * 0.04, 100) == Approx(1000).epsilon(1e-12));
    CHECK(lab::chamberCount({4, 20}, 140, 152) == Approx(7.3).epsilon(1e-12));
    CHECK(lab::sidesAgree(100, 128)); // 2 sqrt(228) = 30.2
    CHECK_FALSE(lab::sidesAgree(100, 132));
    CHECK_THROWS_AS(lab::perCell({0, 20}), std::invalid_argument);
    CHECK_THROWS_AS(lab::countVariation(0), std::invalid_argument);
}

TEST_CASE("Red cell indices follow from spun volume, count and hemoglobin", "[lab]") {
    // Standard arithmetic, Dacie and Lewis: a dog, a cat, a dog that regenerates.
    const lab::RedIndices dog = lab::redIndices(0.45, 6.5, 150);
    CHECK(dog.volume == Approx(69.2).margin(0.05));
    CHECK(dog.hemoglobin == Approx(23.1).margin(0.05));
    CHECK(dog.concentration == Approx(333).margin(0.5));
    const lab::RedIndices cat = lab::redIndices(0.37, 8, 122);
    CHECK(cat.volume == Approx(46.25));
    CHECK(cat.hemoglobin == Approx(15.25));
    CHECK(cat.concentration == Approx(329.7).margin(0.05));
    const lab::RedIndices young = lab::redIndices(0.18, 2.2, 54);
    CHECK(young.volume == Approx(81.8).margin(0.05)); // above 77, Merck blood table
    CHECK(young.concentration == Approx(300));        // below 320
    CHECK_THROWS_AS(lab::redIndices(0, 1, 1), std::invalid_argument);
}

TEST_CASE("Reticulocytes are put right for the anemia", "[lab]") {
    CHECK(lab::reticulocyteNumber(0.03, 1.5) == Approx(45)); // eClinPath's example: inadequate
    CHECK(100 * lab::correctedReticulocytes(0.12, 0.20, Kind::dog) == Approx(5.33).margin(0.005));
    CHECK(lab::productionIndex(0.12, 0.20, Kind::dog) == Approx(2.67).margin(0.005)); // 2.0 d
    // A worked example of a human text: 3 % at 22 %, usual 45 %.
    CHECK(100 * lab::correctedReticulocytes(0.03, 0.22, Kind::dog) == Approx(1.467).margin(0.0005));
    CHECK(lab::productionIndex(0.03, 0.22, Kind::dog) == Approx(0.733).margin(0.0005));
    // A cat, usual 37 %: above 0.4 % regenerates. Willard and Tvedten.
    CHECK(100 * lab::correctedReticulocytes(0.05, 0.15, Kind::cat) == Approx(2.03).margin(0.005));
    // Days by packed volume, after Hillman 1969.
    CHECK(lab::reticulocyteDays(0.40) == 1.0);
    CHECK(lab::reticulocyteDays(0.30) == 1.5);
    CHECK(lab::reticulocyteDays(0.15) == 2.5);
}

TEST_CASE("A spun tube is read on its lines, without bias", "[lab]") {
    const lab::Counter& bench = *real::bench().counter;
    constexpr int n = 4000;
    double sum = 0, squares = 0;
    base::Chance chance(3, base::Purpose::test);
    for (int i = 0; i < n; ++i) {
        const double read = lab::spunVolume(bench, 0.452, chance);
        CHECK(std::abs(read / 0.005 - std::round(read / 0.005)) < 1e-9);
        sum += read;
        squares += read * read;
    }
    const double deviation = std::sqrt(squares / n - sum / n * sum / n);
    // 0.8 % of 45 points, 0.35 points of setting, half a line evenly: 0.52 points; of 4000 known
    // to 1.1 %, the mean to 0.008 points.
    CHECK(deviation == Approx(0.0052).epsilon(0.05));
    CHECK(sum / n == Approx(0.452).margin(0.0004));
    CHECK_THROWS_AS(lab::spunVolume(bench, 1.1, chance), std::invalid_argument);
    CHECK_THROWS_AS(lab::spunVolume(bench, std::numeric_limits<double>::quiet_NaN(), chance),
                    std::invalid_argument);
}
