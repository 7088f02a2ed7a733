#include "film_cells.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace cistern;
using namespace cistern::test;

namespace {

constexpr body::Kind dog = body::Kind::dog, cat = body::Kind::cat;
constexpr std::uint64_t seeds = 16;
constexpr float faint = .06F; // green density that shows against the ground

Cell platelet(body::Kind animal, std::uint64_t seed, float radius) {
    Cell cell;
    cell.kind = FilmCell::platelet;
    cell.animal = animal;
    cell.seed = seed;
    cell.radius = radius;
    return cell;
}

Cell clump(body::Kind animal, std::uint64_t seed, float radius) {
    Cell cell = platelet(animal, seed, radius);
    cell.kind = FilmCell::plateletClump;
    return cell;
}

Cell precipitate(std::uint64_t seed) {
    Cell cell = platelet(dog, seed, 5);
    cell.kind = FilmCell::precipitate;
    return cell;
}

/// Parts of a picture that hang together.
struct Parts {
    std::vector<int> areas; ///< [px], the largest first
    float across = 0;       ///< farthest two corners of the largest's box apart [um]
};

Parts partsOf(const Density& density, float denser) {
    const int width = density.width, height = density.height;
    std::vector<char> todo(static_cast<std::size_t>(width * height));
    for (std::size_t i = 0; i < todo.size(); ++i)
        todo[i] = density.planes[3 * i + greenPlane] > denser;
    Parts parts;
    int largest = 0;
    for (int start = 0; start < width * height; ++start) {
        if (!todo[static_cast<std::size_t>(start)]) continue;
        std::vector<int> stack{start};
        todo[static_cast<std::size_t>(start)] = 0;
        int area = 0, left = width, right = 0, top = height, bottom = 0;
        while (!stack.empty()) {
            const int at = stack.back(), x = at % width, y = at / width;
            stack.pop_back();
            ++area;
            left = std::min(left, x);
            right = std::max(right, x);
            top = std::min(top, y);
            bottom = std::max(bottom, y);
            for (const int next : {x > 0 ? at - 1 : at, x + 1 < width ? at + 1 : at,
                                   y > 0 ? at - width : at, y + 1 < height ? at + width : at}) {
                char& open = todo[static_cast<std::size_t>(next)];
                if (open) stack.push_back(next);
                open = 0;
            }
        }
        parts.areas.push_back(area);
        if (area <= largest) continue;
        largest = area;
        parts.across = static_cast<float>(std::max(right - left, bottom - top) / density.scale);
    }
    std::sort(parts.areas.rbegin(), parts.areas.rend());
    return parts;
}

/// How steep the steepest edges are: the greatest step from one pixel to the next.
double steepest(const Density& density) {
    float most = 0;
    for (int y = 0; y < density.height; ++y)
        for (int x = 1; x < density.width; ++x) {
            const auto at = static_cast<std::size_t>(3 * (y * density.width + x)) + greenPlane;
            most = std::max(most, std::fabs(density.planes[at] - density.planes[at - 3]));
        }
    return static_cast<double>(most);
}

double greatest(const Density& density, std::size_t plane) {
    float most = 0;
    for (std::size_t i = plane; i < density.planes.size(); i += 3)
        most = std::max(most, density.planes[i]);
    return static_cast<double>(most);
}

} // namespace

TEST_CASE("a platelet is a pale body with grains in its middle", "[drawing]") {
    for (const body::Kind animal : {dog, cat})
        for (std::uint64_t seed = 0; seed < seeds; ++seed) {
            CAPTURE(seed);
            const float radius = animal == cat ? 1.7F : 1.4F;
            const Density density = painted(platelet(animal, seed, radius), paintPlatelet);
            const double r = radius;
            CHECK(between(density, greenPlane, 0, .4 * r) >
                  1.5 * between(density, greenPlane, .55 * r, .95 * r));
            // As wide as it should be: bumpy and flattened to 0.64 at most, fuzzy.
            const double across = 2 * std::sqrt(area(density, greenPlane, faint) / M_PI);
            CHECK(across > 1.3 * r);
            CHECK(across < 2.5 * r);
        }
}

TEST_CASE("some platelets of cats have points, those of dogs none", "[drawing]") {
    const auto reaching = [](body::Kind animal) {
        int count = 0;
        for (std::uint64_t seed = 0; seed < 200; ++seed) {
            const Density density =
                painted(platelet(animal, seed, 1.5F), paintPlatelet, {dryScale});
            count += between(density, redPlane, 2.3, 4) > 2e-4;
        }
        return count;
    };
    CHECK(reaching(dog) == 0);
    // 30 % of 200, a few too short to be seen here; by chance +- 20 (3 standard deviations)
    CHECK(reaching(cat) > 30);
    CHECK(reaching(cat) < 80);
}

TEST_CASE("a large platelet is as wide as a red cell and as grainy as others", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        Cell cell = platelet(dog, seed, 3.4F);
        cell.marks = lab::mark::large;
        const Density density = painted(cell, paintPlatelet);
        const Parts parts = partsOf(density, faint);
        CHECK(parts.across > 5);
        CHECK(parts.across < 9);
        CHECK(greatest(density, greenPlane) > 1.6 * between(density, greenPlane, 1.5, 2.2));
    }
}

TEST_CASE("a clump of platelets is one mass of its size, 10 to 60 um", "[drawing]") {
    // Size: common knowledge of the trade, from memory.
    for (const body::Kind animal : {dog, cat})
        for (const float radius : {5.F, 8.F, 13.F, 30.F})
            for (std::uint64_t seed = 0; seed < seeds / 2; ++seed) {
                CAPTURE(radius, seed);
                const Density density = painted(clump(animal, seed, radius), paintPlatelet,
                                                {dryScale, 0, {}, 1.2F * radius + 4});
                const Parts parts = partsOf(density, faint);
                int all = 0;
                for (const int area : parts.areas) all += area;
                CHECK(parts.areas.front() > .99 * all); // a wisp at the fuzzy border may part
                // A platelet more or less at either end, and the clump may lie askew.
                CHECK(parts.across > 1.4F * radius);
                CHECK(parts.across < 2 * radius + 3);
            }
}

TEST_CASE("a clump is grainy, and denser where platelets lie over one another", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const Density density = painted(clump(cat, seed, 10), paintPlatelet, {oilScale, 0, {}, 14});
        double mean = 0, count = 0, square = 0;
        for (std::size_t i = greenPlane; i < density.planes.size(); i += 3)
            if (density.planes[i] > faint) {
                const auto d = static_cast<double>(density.planes[i]);
                mean += d;
                square += d * d;
                ++count;
            }
        mean /= count;
        CHECK(std::sqrt(square / count - mean * mean) > .25 * mean);
        CHECK(between(density, greenPlane, 0, 3) > 1.1 * mean);
    }
}

TEST_CASE("precipitate is darker, sharper and more scattered than platelets", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const Density specks = painted(precipitate(seed), paintPrecipitate),
                      cells = painted(platelet(dog, seed, 1.4F), paintPlatelet);
        CHECK(greatest(specks, redPlane) > 1.5 * greatest(cells, redPlane));
        CHECK(steepest(specks) > 3 * steepest(cells));
        CHECK(partsOf(specks, faint).areas.size() > 4);
    }
}

TEST_CASE("precipitate comes into focus above the cells", "[drawing]") {
    Cell cell = precipitate(4);
    cell.z = 2.4F;
    const Density atCells = painted(cell, paintPrecipitate, {oilScale, 0}),
                  above = painted(cell, paintPrecipitate, {oilScale, 2.4F});
    CHECK(steepest(above) > 5 * steepest(atCells));
    CHECK(sum(above, greenPlane) == Approx(sum(atCells, greenPlane)).epsilon(.01));
}

TEST_CASE("platelets and precipitate weigh as much under a low lens", "[drawing]") {
    // What is too small to be seen is laid on as a mean; a tenth and more of a single cell may go
    // astray between pixels, so many are taken together.
    for (const Cell& kind : {platelet(dog, 0, 1.4F), clump(cat, 0, 9), precipitate(0)}) {
        double fine = 0, coarse = 0;
        const auto painter = kind.kind == FilmCell::precipitate ? paintPrecipitate : paintPlatelet;
        for (std::uint64_t seed = 0; seed < 60; ++seed) {
            Cell cell = kind;
            cell.seed = seed;
            fine += sum(painted(cell, painter, {oilScale}), greenPlane);
            coarse += sum(painted(cell, painter, {lowScale}), greenPlane);
        }
        CAPTURE(static_cast<int>(kind.kind), fine, coarse);
        CHECK(coarse == Approx(fine).epsilon(.25));
    }
}

TEST_CASE("the same platelet is painted the same, and finite", "[drawing]") {
    for (const float scale : {oilScale, lowScale, .2F})
        for (Cell cell : {platelet(cat, 3, 2), clump(dog, 3, 8), precipitate(3)}) {
            CAPTURE(scale, static_cast<int>(cell.kind));
            cell.z = .9F;
            const auto painter =
                cell.kind == FilmCell::precipitate ? paintPrecipitate : paintPlatelet;
            const Density one = painted(cell, painter, {scale}),
                          other = painted(cell, painter, {scale});
            CHECK(one.planes == other.planes);
            CHECK(std::all_of(one.planes.begin(), one.planes.end(),
                              [](float d) { return std::isfinite(d) && d < 6; }));
            CHECK(sum(one, greenPlane) > 0);
        }
}

TEST_CASE("a cell is painted by its kind, and not where it does not lie", "[drawing]") {
    for (const Cell& cell : {redCell(FilmCell::target, dog, 1), platelet(dog, 1, 1.4F),
                             clump(cat, 1, 7), precipitate(1)}) {
        CAPTURE(static_cast<int>(cell.kind));
        const auto painter = lab::isRed(cell.kind)                ? paintRed
                             : cell.kind == FilmCell::precipitate ? paintPrecipitate
                                                                  : paintPlatelet;
        CHECK(painted(cell, paint).planes == painted(cell, painter).planes);
        // Beside the picture: at its border part of it shows, further off nothing.
        for (const float off : {12.F, 16.F, 40.F}) {
            Cell aside = cell;
            aside.x = off;
            CHECK(painted(aside, paint).planes == painted(aside, painter).planes);
        }
        Cell gone = cell;
        gone.x = 40;
        CHECK(greatest(painted(gone, paint), redPlane) == 0);
    }
}
