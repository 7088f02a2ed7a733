// White cells of a film, as shapes: what their seeds say of them without a pixel.
#include "white_cells.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace cistern::test;

namespace {

constexpr std::uint64_t many = 3000; // cells a check looks at

/// Least and greatest neck of many cells.
struct Necks {
    float least = 9, most = 0;
};
Necks necks(FilmCell kind, std::uint16_t marks) {
    Necks found;
    for (const auto animal : animals)
        for (std::uint64_t seed = 1; seed <= many; ++seed) {
            const float neck = film::shaped(cellOf(kind, seed, marks, animal)).neck;
            found.least = std::min(found.least, neck);
            found.most = std::max(found.most, neck);
        }
    return found;
}

/// How many parts of a nucleus lie deeper than `depth` [um], counted on a grid.
int parts(const film::NucleusEdge& edge, float depth, float radius) {
    constexpr float step = .12F; // [um]
    const int side = static_cast<int>(2 * radius / step);
    std::vector<int> deep(static_cast<std::size_t>(side) * side, 0);
    const auto at = [&](int x, int y) -> int& {
        return deep[static_cast<std::size_t>(y) * side + x];
    };
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x)
            at(x, y) = edge.at(static_cast<float>(x) * step - radius,
                               static_cast<float>(y) * step - radius)
                           .distance < -depth;
    int count = 0;
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            if (at(x, y) == 0) continue;
            ++count;
            std::vector<std::array<int, 2>> open{{x, y}};
            while (!open.empty()) {
                const auto [px, py] = open.back();
                open.pop_back();
                if (px < 0 || py < 0 || px >= side || py >= side || at(px, py) == 0) continue;
                at(px, py) = 0;
                for (int dy = -1; dy <= 1; ++dy)
                    for (int dx = -1; dx <= 1; ++dx) open.push_back({px + dx, py + dy});
            }
        }
    return count;
}

} // namespace

TEST_CASE("clear bands and segmented neutrophils part under the rules of 1/2 and of 1/3",
          "[drawing]") {
    // Both rules are common practice: a neck under half, or under a third, of the widest width.
    const Necks segmented = necks(FilmCell::segmented, 0);
    CHECK(segmented.most <= .27F);
    CHECK(segmented.least > .05F);
    CHECK(necks(FilmCell::segmented, mark::hypersegmented).most <= .27F);
    CHECK(necks(FilmCell::segmented, mark::drumstick).most <= .27F);
    const Necks band = necks(FilmCell::band, 0);
    CHECK(band.least >= .85F);
    CHECK(band.most <= 1);
    CHECK(necks(FilmCell::band, mark::toxic).least >= .85F);
    CHECK(necks(FilmCell::metamyelocyte, 0).least >= .85F);
}

TEST_CASE("doubtful neutrophils lie between the rules, whichever they are called", "[drawing]") {
    for (const FilmCell kind : {FilmCell::segmented, FilmCell::band}) {
        const Necks found = necks(kind, mark::doubtful);
        CHECK(found.least >= .33F);
        CHECK(found.most <= .5F);
        CHECK(found.most - found.least > .1F); // they use the room
    }
}

TEST_CASE("segmented neutrophils have three to five lobes in the usual shares", "[drawing]") {
    std::map<int, double> counted;
    for (std::uint64_t seed = 1; seed <= many; ++seed)
        counted[film::shaped(cellOf(FilmCell::segmented, seed)).lobes] += 1.0 / many;
    // 36, 46, 18 % were chosen; 3 standard errors of a share of 3,000 are under 2.8 %.
    CHECK(counted.size() == 3);
    CHECK(std::fabs(counted[3] - .36) < .028);
    CHECK(std::fabs(counted[4] - .46) < .028);
    CHECK(std::fabs(counted[5] - .18) < .028);
    for (std::uint64_t seed = 1; seed <= many; ++seed) {
        const int over =
            film::shaped(cellOf(FilmCell::segmented, seed, mark::hypersegmented)).lobes;
        CHECK((over == 6 || over == 7)); // "5 or 6 and more" (Harvey, from memory)
        const int two = film::shaped(cellOf(FilmCell::eosinophil, seed)).lobes;
        CHECK((two == 2 || two == 3));
        CHECK(film::shaped(cellOf(FilmCell::band, seed)).lobes == 1);
    }
}

TEST_CASE("the lobes that are told are the lobes that are seen", "[drawing]") {
    constexpr std::uint16_t plain = 0;
    // Worn down by more than half a neck, a nucleus falls into its lobes.
    for (const std::uint16_t marks : {plain, mark::hypersegmented, mark::drumstick}) {
        int right = 0;
        constexpr int cells = 300;
        for (std::uint64_t seed = 1; seed <= cells; ++seed) {
            const Cell cell = cellOf(FilmCell::segmented, seed, marks);
            film::Nucleus nucleus = film::nucleusOf(cell);
            nucleus.stick.clear();
            const film::NucleusEdge edge(nucleus);
            right += parts(edge, .42F * nucleus.widest(), cell.radius) == nucleus.lobes;
        }
        CAPTURE(marks, right);
        CHECK(right >= .97 * cells); // few lie so close that they touch: as on glass
    }
    // Bands never fall apart.
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const Cell cell = cellOf(FilmCell::band, seed);
        const film::Nucleus nucleus = film::nucleusOf(cell);
        CHECK(parts(film::NucleusEdge(nucleus), .42F * nucleus.widest(), cell.radius) == 1);
    }
}

TEST_CASE("a nucleus stays within its cell, and a drumstick hangs on it", "[drawing]") {
    for (const FilmCell kind : whites)
        for (const auto animal : animals)
            for (const std::uint16_t marks : whiteMarks)
                for (std::uint64_t seed = 1; seed <= 60; ++seed) {
                    const Cell cell = cellOf(kind, seed, marks, animal);
                    CAPTURE(static_cast<int>(kind), marks, seed);
                    CHECK(film::nucleusOf(cell).reach() < cell.radius);
                }
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        const film::Nucleus plain = film::nucleusOf(cellOf(FilmCell::segmented, seed));
        const film::Nucleus with =
            film::nucleusOf(cellOf(FilmCell::segmented, seed, mark::drumstick));
        CHECK(plain.stick.empty());
        REQUIRE_FALSE(with.stick.empty());
        const film::Bead& head = with.stick.back();
        CHECK(2 * head.half >= 1.3F); // 1.3 to 1.6 um, less than any lobe
        CHECK(2 * head.half <= 1.65F);
        CHECK(head.half < .8F * with.widest());
        CHECK(with.lobes == plain.lobes);
        CHECK(film::NucleusEdge(plain).at(head.x, head.y).distance > -.3F); // seen beside it
    }
}

TEST_CASE("granules tell the species", "[drawing]") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const film::WhiteShape dog = film::whiteShape(cellOf(FilmCell::eosinophil, seed));
        const film::WhiteShape cat =
            film::whiteShape(cellOf(FilmCell::eosinophil, seed, 0, cistern::body::Kind::cat));
        CHECK(dog.kind == film::Granules::round);
        CHECK(cat.kind == film::Granules::rods);
        CHECK(dog.grains.size() >= 3);
        CHECK(dog.grains.size() <= 130);
        CHECK(cat.grains.size() >= 220);
        for (const film::Grain& grain : dog.grains) CHECK(grain.along == grain.across);
        for (const film::Grain& grain : cat.grains) CHECK(grain.along > 2 * grain.across);
        const film::WhiteShape dark = film::whiteShape(cellOf(FilmCell::basophil, seed));
        const film::WhiteShape pale =
            film::whiteShape(cellOf(FilmCell::basophil, seed, 0, cistern::body::Kind::cat));
        CHECK(dark.kind == film::Granules::dark);
        CHECK(pale.kind == film::Granules::lavender);
        CHECK(dark.grains.size() <= 40);
        CHECK(pale.grains.size() > 2 * dark.grains.size());
    }
}

TEST_CASE("the shape adds the marks that it draws, and no others", "[drawing]") {
    int foamy = 0, doehle = 0, holed = 0;
    constexpr int cells = 400;
    for (std::uint64_t seed = 1; seed <= cells; ++seed) {
        for (const FilmCell kind : whites)
            for (const std::uint16_t marks : whiteMarks) {
                const Cell cell = cellOf(kind, seed, marks);
                const std::uint16_t told = film::shaped(cell).marks;
                CHECK((told & marks) == marks);
                if (seed > 40) continue;
                const film::WhiteShape shape = film::whiteShape(cell);
                CHECK(shape.bodies.empty() == ((told & mark::doehle) == 0));
                if ((told & mark::vacuoles) != 0) CHECK_FALSE(shape.holes.empty());
            }
        const auto toxic = film::shaped(cellOf(FilmCell::band, seed, mark::toxic)).marks;
        foamy += (toxic & mark::vacuoles) != 0;
        doehle += (toxic & mark::doehle) != 0;
        holed += (film::shaped(cellOf(FilmCell::monocyte, seed)).marks & mark::vacuoles) != 0;
        CHECK(film::shaped(cellOf(FilmCell::segmented, seed)).marks == 0);
    }
    CHECK(foamy == cells);
    CHECK(doehle > .5 * cells); // .35 + .45 x .7 in dogs
    CHECK(doehle < .8 * cells);
    CHECK(holed > .67 * cells); // three in four; 3 standard errors are .065
    CHECK(holed < .82 * cells);
    CHECK(film::shaped(cellOf(FilmCell::discocyte, 1)).marks == 0);
}

TEST_CASE("lymphocytes have round nuclei that fill the cell, reactive ones more room",
          "[drawing]") {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        const Cell cell = cellOf(FilmCell::lymphocyte, seed);
        const float half = film::nucleusOf(cell).widest();
        CHECK(half > .70F * cell.radius);
        // 1 to 1.3 red cells of 7 um across, in a dog (Harvey, from memory).
        CHECK(2 * half > 6);
        CHECK(2 * half < 9.1F);
        const Cell wide = cellOf(FilmCell::reactiveLymphocyte, seed);
        CHECK(film::nucleusOf(wide).widest() < .67F * wide.radius);
    }
}
