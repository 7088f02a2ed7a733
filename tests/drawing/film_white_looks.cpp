// White cells of a film, as painted: sizes, marks, and what tells them apart without hue.
#include "white_cells.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace cistern::test;

namespace {

double distance(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    double sum = 0;
    for (std::size_t k = 0; k < 3; ++k) sum += (a[k] - b[k]) * (a[k] - b[k]);
    return std::sqrt(sum);
}

std::array<double, 3> meanPlasm(FilmCell kind, std::uint16_t marks) {
    std::array<double, 3> mean{};
    constexpr int cells = 30;
    for (std::uint64_t seed = 1; seed <= cells; ++seed) {
        const Gray gray = measured(cellOf(kind, seed, marks));
        for (std::size_t k = 0; k < 3; ++k) mean[k] += gray.color[k] / cells;
    }
    return mean;
}

double sum(const film::Density& density) {
    double all = 0;
    for (const float value : density.planes) all += static_cast<double>(value);
    return all;
}

bool finite(const film::Density& density) {
    return std::all_of(density.planes.begin(), density.planes.end(),
                       [](float value) { return std::isfinite(value); });
}

} // namespace

TEST_CASE("a painted white cell is as large as its radius says, at any scale", "[drawing]") {
    for (const float scale : {1000.F / 120, 4.2F})
        for (const FilmCell kind : whites) {
            double share = 0;
            constexpr int cells = 12;
            for (std::uint64_t seed = 1; seed <= cells; ++seed) {
                const Cell cell = cellOf(kind, seed);
                const double own = measured(cell, scale).radius / static_cast<double>(cell.radius);
                CHECK(std::fabs(own - 1) < .05); // ragged edges
                share += own / cells;
            }
            CAPTURE(static_cast<int>(kind), scale, share);
            CHECK(std::fabs(share - 1) < .025); // half a pixel of soft edge is .02
        }
}

TEST_CASE("no white cell reaches further than a sixth of its radius and its halo", "[drawing]") {
    for (const FilmCell kind : whites)
        for (std::uint64_t seed = 1; seed <= 30; ++seed) {
            const Cell cell = cellOf(kind, seed);
            film::Density density = painted(cell, 4.2F);
            for (int y = 0; y < density.height; ++y)
                for (int x = 0; x < density.width; ++x) {
                    const double wx = density.left + (x + .5) / density.scale;
                    const double wy = density.top + (y + .5) / density.scale;
                    if (std::hypot(wx, wy) < 1.17 * static_cast<double>(cell.radius) + 1.3)
                        continue;
                    const float* pixel = density.row(y) + static_cast<std::ptrdiff_t>(3) * x;
                    REQUIRE((pixel[0] == 0 && pixel[1] == 0 && pixel[2] == 0));
                }
        }
}

TEST_CASE("the same cell is the same bytes, another seed another cell", "[drawing]") {
    for (const FilmCell kind : whites)
        for (const auto animal : animals) {
            const Cell cell = cellOf(kind, 11, 0, animal);
            CHECK(painted(cell).planes == painted(cell).planes);
            Cell other = cell;
            other.seed = 12;
            CHECK(painted(cell).planes != painted(other).planes);
        }
    const Cell smudge = cellOf(FilmCell::smudge, 11);
    CHECK(painted(smudge).planes == painted(smudge).planes);
    CHECK(painted(smudge).planes != painted(cellOf(FilmCell::smudge, 21)).planes);
}

TEST_CASE("every mark changes what is painted", "[drawing]") {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        const auto plain = painted(cellOf(FilmCell::segmented, seed)).planes;
        for (const std::uint16_t marks : {mark::toxic, mark::doehle, mark::vacuoles,
                                          mark::drumstick, mark::hypersegmented, mark::doubtful})
            CHECK(painted(cellOf(FilmCell::segmented, seed, marks)).planes != plain);
        const auto full = painted(cellOf(FilmCell::eosinophil, seed)).planes;
        CHECK(painted(cellOf(FilmCell::eosinophil, seed, mark::emptyGranules)).planes != full);
        CHECK(painted(cellOf(FilmCell::band, seed, mark::doubtful)).planes !=
              painted(cellOf(FilmCell::band, seed)).planes);
    }
}

TEST_CASE("marks change a cell in the direction they mean", "[drawing]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const double plain = sum(painted(cellOf(FilmCell::segmented, seed)));
        // A drumstick and a Doehle body are more dye, holes are less; toxic ones are bluer.
        CHECK(sum(painted(cellOf(FilmCell::segmented, seed, mark::drumstick))) > plain);
        CHECK(sum(painted(cellOf(FilmCell::segmented, seed, mark::doehle))) > plain);
        CHECK(sum(painted(cellOf(FilmCell::eosinophil, seed, mark::emptyGranules))) <
              sum(painted(cellOf(FilmCell::eosinophil, seed))));
        Cell slight = cellOf(FilmCell::segmented, seed, mark::toxic), severe = slight;
        slight.blue = .2F;
        severe.blue = .9F;
        CHECK(measured(slight).color[0] >
              1.5 * measured(cellOf(FilmCell::segmented, seed)).color[0]);
        CHECK(measured(severe).color[0] > measured(slight).color[0]);
    }
}

TEST_CASE("densities are finite for every kind, mark, place on the film and scale", "[drawing]") {
    for (const float scale : {.77F, 2.F, 4.2F, 1000.F / 120})
        for (const auto animal : animals) {
            for (const FilmCell kind : whites)
                for (const std::uint16_t marks : whiteMarks)
                    for (const float deep : {0.F, 1.F}) {
                        Cell cell = cellOf(kind, 5, marks, animal);
                        cell.thick = deep;
                        cell.flat = 1 - deep;
                        cell.z = deep * 2; // out of focus too
                        CAPTURE(scale, static_cast<int>(kind), marks, deep);
                        const film::Density density = painted(cell, scale);
                        CHECK(finite(density));
                        CHECK(sum(density) > 0);
                    }
            const film::Density smudge = painted(cellOf(FilmCell::smudge, 5, 0, animal), scale);
            CHECK(finite(smudge));
            CHECK(sum(smudge) > 0);
        }
}

TEST_CASE("from afar a cell is as dark as it is near by", "[drawing]") {
    // Density a um2 of all cells of a kind: what the scan at 10x shows is the same film.
    for (const FilmCell kind : whites)
        for (const auto animal : animals) {
            double near = 0, far = 0;
            for (std::uint64_t seed = 1; seed <= 20; ++seed) {
                const Cell cell = cellOf(kind, seed, 0, animal);
                const film::Density big = painted(cell), small = painted(cell, .77F);
                near += sum(big) / (big.scale * big.scale);
                far += sum(small) / (small.scale * small.scale);
            }
            CAPTURE(static_cast<int>(kind), static_cast<int>(animal), far / near);
            CHECK(std::fabs(far / near - 1) < .08); // lines, rims and halos are left out from afar
        }
}

TEST_CASE("chromatin seen from afar is its own mean", "[drawing]") {
    for (int kind = 0; kind < 5; ++kind) {
        const auto of = static_cast<film::Chromatin>(kind);
        film::Dice dice(1);
        double mean = 0;
        constexpr int places = 100000;
        for (int i = 0; i < places; ++i) {
            const float x = dice.between(-6, 6), y = dice.between(-6, 6);
            const auto seed = static_cast<std::uint32_t>(dice.whole(0, 1 << 20));
            mean += static_cast<double>(film::chromatin(of, x, y, seed, 1)) / places;
        }
        // Spread .21 at most: 4 standard errors of 100,000 are .003.
        CHECK(mean == Approx(film::chromatin(of, 0, 0, 1, 0)).margin(.004));
    }
}

TEST_CASE("a monocyte and a toxic band look alike, yet differ; neither is a normal neutrophil",
          "[drawing]") {
    const auto monocyte = meanPlasm(FilmCell::monocyte, 0);
    const auto toxic = meanPlasm(FilmCell::band, mark::toxic);
    const auto normal = meanPlasm(FilmCell::segmented, 0);
    CAPTURE(monocyte, toxic, normal);
    // Density .02 is about what shows between neighboring patches of a film.
    CHECK(distance(monocyte, toxic) > .02);
    CHECK(2 * distance(monocyte, toxic) < distance(monocyte, normal));
    CHECK(2 * distance(monocyte, toxic) < distance(toxic, normal));
}

TEST_CASE("in the thick body white cells are darker and rounder", "[drawing]") {
    for (const FilmCell kind : whites) {
        constexpr std::uint64_t cells = 20;
        for (std::uint64_t seed = 1; seed <= cells; ++seed) {
            const Cell thin = cellOf(kind, seed);
            Cell thick = thin;
            thick.thick = 1;
            CAPTURE(static_cast<int>(kind), seed);
            CHECK(sum(painted(thick)) > 1.15 * sum(painted(thin))); // 35 % more dye, less spread
            CHECK(film::whiteShape(thick).outline.most() / thick.radius <
                  film::whiteShape(thin).outline.most() / thin.radius);
        }
    }
}

TEST_CASE("any two kinds of white cell differ by more than hue", "[drawing]") {
    // For each kind, shape and texture as an eye without color would have them.
    using Feature = std::function<double(const Cell&, const Gray&)>;
    const std::vector<Feature> features{
        [](const Cell&, const Gray& gray) { return gray.radius; },
        [](const Cell&, const Gray& gray) { return gray.nucleus; },
        [](const Cell&, const Gray& gray) { return gray.blocks; },
        [](const Cell&, const Gray& gray) { return gray.grain; },
        [](const Cell& cell, const Gray&) { return static_cast<double>(film::shaped(cell).neck); },
        [](const Cell& cell, const Gray&) {
            return static_cast<double>(film::shaped(cell).lobes);
        }};
    constexpr int cells = 24;
    struct Kind {
        FilmCell kind;
        std::uint16_t marks;
    };
    std::vector<Kind> kinds;
    for (const FilmCell kind : whites) kinds.push_back({kind, 0});
    kinds.push_back({FilmCell::band, mark::toxic});
    for (const auto animal : animals) {
        std::vector<std::vector<std::array<double, 2>>> told; // mean and variance
        for (const Kind& of : kinds) {
            std::vector<std::array<double, 2>> rows(features.size());
            for (std::uint64_t seed = 1; seed <= cells; ++seed) {
                const Cell cell = cellOf(of.kind, seed, of.marks, animal);
                const Gray gray = measured(cell);
                for (std::size_t f = 0; f < features.size(); ++f) {
                    const double value = features[f](cell, gray);
                    rows[f][0] += value / cells;
                    rows[f][1] += value * value / cells;
                }
            }
            for (auto& [mean, variance] : rows)
                variance = std::max(0.0, variance - mean * mean) + 1e-9;
            told.push_back(rows);
        }
        for (std::size_t a = 0; a < kinds.size(); ++a)
            for (std::size_t b = a + 1; b < kinds.size(); ++b) {
                double best = 0;
                for (std::size_t f = 0; f < features.size(); ++f)
                    best = std::max(best, std::fabs(told[a][f][0] - told[b][f][0]) /
                                              std::sqrt((told[a][f][1] + told[b][f][1]) / 2));
                CAPTURE(static_cast<int>(animal), a, b, best);
                // Two spreads apart: one cell in six falls on the wrong side by this alone.
                CHECK(best > 2);
            }
    }
}
