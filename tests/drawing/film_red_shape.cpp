#include "drawing/film/red_shape.h"
#include "film_cells.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace cistern;
using namespace cistern::test;
namespace mark = cistern::lab::mark;

namespace {

constexpr body::Kind dog = body::Kind::dog, cat = body::Kind::cat;
constexpr std::uint64_t seeds = 24; // cells of each sort that are looked at

/// Area within the outline [um2], by the shape alone.
double outlined(const RedShape& shape) {
    constexpr float step = .05F;
    double all = 0;
    for (float y = -6; y < 6; y += step)
        for (float x = -6; x < 6; x += step) all += seen(shape, x, y).outside < 0;
    return all * static_cast<double>(step * step);
}

/// How far the outline lies from the middle, all around [um].
std::vector<float> outlineOf(const RedShape& shape) {
    std::vector<float> found;
    constexpr int around = 1440;
    for (int i = 0; i < around; ++i) {
        const float angle = 2 * pi * static_cast<float>(i) / around;
        float out = 7;
        while (seen(shape, out * std::cos(angle), out * std::sin(angle)).outside > 0) out -= .01F;
        found.push_back(out);
    }
    return found;
}

/// Where the outline stands out from its surroundings [rad].
std::vector<double> tips(const RedShape& shape) {
    const std::vector<float> out = outlineOf(shape);
    const auto count = static_cast<int>(out.size());
    const auto at = [&](int i) { return out[static_cast<std::size_t>((i + count) % count)]; };
    std::vector<double> found;
    constexpr int reach = 24;     // 6 degrees: half of the least distance of points
    constexpr float least = .06F; // [um] of a tip's height
    for (int i = 0; i < count; ++i) {
        float most = 0, lowest = 9;
        for (int j = -reach; j <= reach; ++j) {
            most = std::max(most, at(i + j));
            lowest = std::min(lowest, at(i + j));
        }
        const bool top =
            at(i) >= most && (found.empty() || i * 2 * M_PI / count - found.back() > .1);
        if (top && at(i) - lowest > least) found.push_back(i * 2 * M_PI / count);
    }
    return found;
}

/// Coefficient of variation of the gaps between tips.
double unevenness(const std::vector<double>& tips) {
    std::vector<double> gaps{tips.front() + 2 * M_PI - tips.back()};
    for (std::size_t i = 1; i < tips.size(); ++i) gaps.push_back(tips[i] - tips[i - 1]);
    double mean = 0, square = 0;
    for (const double gap : gaps) mean += gap / static_cast<double>(gaps.size());
    for (const double gap : gaps)
        square += (gap - mean) * (gap - mean) / static_cast<double>(gaps.size());
    return std::sqrt(square) / mean;
}

} // namespace

TEST_CASE("an echinocyte has 10 to 30 even points, an acanthocyte few uneven knobs", "[drawing]") {
    // Numbers: Harvey, from memory.
    double unevenPoints = 0, unevenKnobs = 0;
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const RedShape crenated = redShape(redCell(FilmCell::echinocyte, dog, seed)),
                       knobbed = redShape(redCell(FilmCell::acanthocyte, dog, seed));
        const std::vector<double> points = tips(crenated), knobs = tips(knobbed);
        CHECK(points.size() == crenated.points.count);
        CHECK(points.size() >= 10);
        CHECK(points.size() <= 30);
        CHECK(unevenness(points) < .2);
        CHECK(knobbed.knobs.count >= 2);
        CHECK(knobbed.knobs.count <= 10);
        CHECK(knobs.size() >= 2);
        CHECK(knobs.size() <= 10);
        unevenPoints += unevenness(points) / seeds;
        unevenKnobs += unevenness(knobs) / seeds;
    }
    CHECK(unevenKnobs > 3 * unevenPoints);
}

TEST_CASE("a schistocyte is a part of a cell, a keratocyte lacks a bite", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const double whole = outlined(redShape(redCell(FilmCell::discocyte, dog, seed)));
        const double part = outlined(redShape(redCell(FilmCell::schistocyte, dog, seed)));
        CHECK(part < .75 * whole);
        CHECK(part > .08 * whole);
        const double bitten = outlined(redShape(redCell(FilmCell::keratocyte, dog, seed)));
        CHECK(bitten < .96 * whole);
        CHECK(bitten > .7 * whole);
    }
}

TEST_CASE("Howell-Jolly bodies are 0.5 to 1 um across, Heinz bodies 0.5 to 2 um", "[drawing]") {
    // Harvey, from memory.
    for (const body::Kind animal : {dog, cat})
        for (std::uint64_t seed = 0; seed < seeds; ++seed) {
            CAPTURE(seed);
            Cell cell = redCell(FilmCell::discocyte, animal, seed);
            const Density bare = painted(cell, paintRed);
            cell.marks = mark::howellJolly | mark::heinz;
            const RedShape shape = redShape(cell);
            REQUIRE(shape.dots.count == 1);
            REQUIRE(shape.nubs.count == 1);
            CHECK(2 * shape.dots[0].radius >= .5F);
            CHECK(2 * shape.dots[0].radius <= 1);
            CHECK(2 * shape.nubs[0].radius >= .5F);
            CHECK(2 * shape.nubs[0].radius <= 2);
            // Half in, half out: a nub on the edge.
            CHECK(std::fabs(seen(shape, shape.nubs[0].x, shape.nubs[0].y).outside) < .35F);
            cell.marks = mark::howellJolly;
            Density added = painted(cell, paintRed);
            for (std::size_t i = 0; i < added.planes.size(); ++i) added.planes[i] -= bare.planes[i];
            const double across = 2 * std::sqrt(area(added, greenPlane, .95F) / M_PI);
            CHECK(across == Approx(2 * shape.dots[0].radius).margin(.1)); // a pixel is 0.12 um
        }
}

TEST_CASE("a neighbor flattens or hollows a cell where it lies", "[drawing]") {
    Cell cell = redCell(FilmCell::discocyte, dog, 3);
    cell.dentCount = 2;
    cell.dents[0] = {1, 0, 2.5F, true};
    cell.dents[1] = {0, 8, 5.5F, false};
    const RedShape shape = redShape(cell);
    CHECK(seen(shape, 2.6F, 0).outside > 0);
    CHECK(seen(shape, 0, 2.6F).outside > 0);
    CHECK(seen(shape, -2.6F, 0).outside < 0);
    CHECK(seen(shape, 0, -2.6F).outside < 0);
}
