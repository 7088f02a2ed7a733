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

Density red(const Cell& cell, const Look& how = {}) {
    return painted(cell, paintRed, how);
}

/// Middle's density over the rim's, where the rim is thickest.
double middleOverRim(const Cell& cell) {
    const Density density = red(cell);
    const double r = cell.radius;
    return between(density, greenPlane, 0, .2 * r) / between(density, greenPlane, .7 * r, .85 * r);
}

} // namespace

TEST_CASE("a red cell is painted as large as it is, at every scale", "[drawing]") {
    for (const float scale : {oilScale, dryScale, lowScale})
        for (std::uint64_t seed = 0; seed < seeds; ++seed) {
            CAPTURE(scale, seed);
            Cell cell = redCell(FilmCell::discocyte, seed % 2 ? cat : dog, seed);
            cell.pallor = 0; // its middle counts too
            const double extent = area(red(cell, {scale}), greenPlane, .17F); // half of the rim's
            // Uneven outlines hold another area by their squares (under 1 %), pixels round off a
            // part of their number (some 1 % of the rim's), more where they are large.
            const double allowed = scale < 1 ? .12 : .03;
            CHECK(std::sqrt(extent / M_PI) == Approx(cell.radius).epsilon(allowed));
        }
}

TEST_CASE("a dog's red cell is pale in its middle, a cat's hardly", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const double dogs = middleOverRim(redCell(FilmCell::discocyte, dog, seed));
        CHECK(dogs > .25); // pallor .66 leaves .34, and the middle wanders
        CHECK(dogs < .55);
        CHECK(middleOverRim(redCell(FilmCell::discocyte, cat, seed)) > .78);
    }
}

TEST_CASE("a hypochromic cell is a thin rim around an empty middle", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        Cell cell = redCell(FilmCell::hypochromic, dog, seed);
        cell.pallor = .87F;
        const Density hypochromic = red(cell),
                      ordinary = red(redCell(FilmCell::discocyte, dog, seed));
        CHECK(middleOverRim(cell) < .35);
        const double r = cell.radius;
        CHECK(between(hypochromic, greenPlane, 0, .5 * r) <
              .6 * between(ordinary, greenPlane, 0, .5 * r));
    }
}

TEST_CASE("a spherocyte is smaller, denser and not pale in its middle", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const Cell ball = redCell(FilmCell::spherocyte, dog, seed),
                   disc = redCell(FilmCell::discocyte, dog, seed);
        CHECK(middleOverRim(ball) > 1);
        const auto mean = [](const Cell& cell) {
            return between(red(cell), greenPlane, 0, static_cast<double>(.85F * cell.radius));
        };
        CHECK(mean(ball) > 1.4 * mean(disc));
    }
}

TEST_CASE("a polychromatophil is larger, bluer and not pale in its middle", "[drawing]") {
    for (const body::Kind animal : {dog, cat})
        for (std::uint64_t seed = 0; seed < seeds; ++seed) {
            CAPTURE(seed);
            const Cell young = redCell(FilmCell::polychromatophil, animal, seed),
                       old = redCell(FilmCell::discocyte, animal, seed);
            const Density youngs = red(young), olds = red(old);
            const auto blueness = [](const Density& d) {
                return sum(d, redPlane) / sum(d, bluePlane);
            };
            CHECK(blueness(youngs) > 2 * blueness(olds));
            CHECK(area(youngs, greenPlane, .17F) > 1.2 * area(olds, greenPlane, .17F));
            CHECK(middleOverRim(young) > .85);
        }
}

TEST_CASE("a target has a dense middle, a pale ring and a dense rim", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        Cell cell = redCell(FilmCell::target, dog, seed);
        const RedShape shape = redShape(cell);
        const auto& ring = shape.profile.ringAt;
        CHECK(std::is_sorted(ring.begin(), ring.end()));
        // Around the middle, which may wander.
        cell.angle = 0;
        cell.x = -shape.profile.middleX;
        cell.y = -shape.profile.middleY;
        const Density density = red(cell);
        const double r = cell.radius;
        const double middle = between(density, greenPlane, 0, .10 * r),
                     pale = between(density, greenPlane, .40 * r, .46 * r),
                     rim = between(density, greenPlane, .78 * r, .84 * r);
        CHECK(middle > 1.25 * pale);
        CHECK(rim > 1.25 * pale);
    }
}

TEST_CASE("a nucleus is small, round, denser than a lymphocyte's, and not even", "[drawing]") {
    constexpr double chromatin = 1.58; // density of one unit in green (density.cpp)
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        Cell cell = redCell(FilmCell::nucleatedRed, dog, seed);
        const RedNucleus& nucleus = redShape(cell).nucleus;
        CHECK(nucleus.radius < .55F * cell.radius);
        CHECK(std::hypot(nucleus.x, nucleus.y) + nucleus.radius < .9F * cell.radius);
        cell.x = -nucleus.x;
        cell.y = -nucleus.y;
        const Density density = red(cell);
        const double inner = .75 * static_cast<double>(nucleus.radius);
        const double mean = between(density, greenPlane, 0, inner);
        CHECK(mean > 1.05 * chromatin);
        double square = 0, count = 0;
        for (int y = 0; y < density.height; ++y)
            for (int x = 0; x < density.width; ++x) {
                if (std::hypot(density.left + (x + .5) / density.scale,
                               density.top + (y + .5) / density.scale) > inner)
                    continue;
                const auto at = static_cast<std::size_t>(3 * (y * density.width + x)) + greenPlane;
                square += std::pow(static_cast<double>(density.planes[at]) - mean, 2);
                ++count;
            }
        CHECK(std::sqrt(square / count) > .07 * mean); // an even one would have the grain's .01
    }
}

TEST_CASE("holes of water shine in focus and are dark from below", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        Cell cell = redCell(FilmCell::discocyte, cat, seed);
        cell.angle = 0;
        cell.marks = mark::water;
        const Spot hole = redShape(cell).holes[0];
        cell.x = -hole.x;
        cell.y = -hole.y;
        Cell dry = cell;
        dry.marks = 0;
        const auto within = [&](const Cell& one, float focus) {
            return between(red(one, {oilScale, focus}), greenPlane, 0,
                           static_cast<double>(.35F * hole.radius));
        };
        CHECK(within(cell, .2F) < within(dry, .2F));
        CHECK(within(cell, -.45F) > within(dry, -.45F));
        CHECK(within(cell, -.45F) > within(cell, .2F) + .1);
    }
}

TEST_CASE("out of focus a cell is wider and softer, with as much dye", "[drawing]") {
    const Cell cell = redCell(FilmCell::discocyte, dog, 5);
    const double inFocus = sum(red(cell), greenPlane);
    double before = 0;
    for (const float focus : {0.F, 1.F, 2.F, 4.F}) {
        CAPTURE(focus);
        const Density density = red(cell, {oilScale, focus});
        const double beyond = between(density, greenPlane, 4.2, 6);
        CHECK(beyond > before - (focus > 0 ? 0 : .01)); // in focus a bright halo lies there
        before = beyond;
        CHECK(sum(density, greenPlane) == Approx(inFocus).epsilon(.01));
        CHECK(sum(red(cell, {oilScale, -focus}), greenPlane) == Approx(inFocus).epsilon(.01));
    }
}

TEST_CASE("at the feathered edge discs lose their pallor, in the body their rims", "[drawing]") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        Cell cell = redCell(FilmCell::discocyte, dog, seed);
        const double r = cell.radius;
        const auto steepest = [&](const Density& d) {
            return between(d, greenPlane, .85 * r, .93 * r) -
                   between(d, greenPlane, 1.07 * r, 1.15 * r);
        };
        const double sharp = steepest(red(cell));
        cell.flat = 1;
        CHECK(middleOverRim(cell) > .85);
        cell.flat = 0;
        cell.thick = 1;
        cell.pallor *= .25F;
        CHECK(steepest(red(cell)) < .6 * sharp);
    }
}

TEST_CASE("coins of a row are more even together than discs that overlap as much", "[drawing]") {
    const Mixture mixture({});
    const Light light{mixture, {oilScale, 1.25F, 0}};
    Density density(300, 120, -5, -7, static_cast<double>(oilScale));
    const auto lay = [&](std::uint16_t marks) {
        std::fill(density.planes.begin(), density.planes.end(), 0.F);
        for (int i = 0; i < 8; ++i) {
            Cell coin = redCell(FilmCell::discocyte, dog, static_cast<std::uint64_t>(i));
            coin.marks = marks;
            coin.squash = .7F;
            coin.pallor = .3F;
            coin.angle = pi / 2;
            coin.x = static_cast<float>(i) * 2.9F;
            paintRed(coin, light, density);
        }
        double mean = 0, square = 0, count = 0;
        const float* row = density.row(58); // through their middles
        for (int x = 80; x < 220; ++x, ++count) mean += static_cast<double>(row[3 * x + 1]);
        mean /= count;
        for (int x = 80; x < 220; ++x)
            square += std::pow(static_cast<double>(row[3 * x + 1]) - mean, 2);
        return std::sqrt(square / count) / mean;
    };
    CHECK(lay(mark::inRouleau) < .95 * lay(0));
}

TEST_CASE("each part of the stain colors what takes it", "[drawing]") {
    // Without detail, so that no edge lines are among the dye.
    const auto gained = [](const Cell& cell, const lab::Stain& stain, std::size_t plane) {
        return sum(red(cell, {lowScale, 0, stain}), plane) / sum(red(cell, {lowScale}), plane);
    };
    const Cell disc = redCell(FilmCell::discocyte, dog, 1),
               young = redCell(FilmCell::polychromatophil, dog, 1),
               nucleated = redCell(FilmCell::nucleatedRed, dog, 1);
    CHECK(gained(disc, {1.2, 1, 1}, greenPlane) == Approx(1.2).epsilon(.01));
    CHECK(gained(disc, {1, 1, 1.3}, greenPlane) == Approx(1).epsilon(.001));
    CHECK(gained(young, {1, .5, 1}, redPlane) < .75);
    CHECK(gained(disc, {1, .5, 1}, redPlane) > .93);
    CHECK(gained(disc, {1, 1.7, 1}, redPlane) > 1.4); // an alkaline rinse grays hemoglobin
    CHECK(gained(nucleated, {1, 1, 1.3}, greenPlane) > 1.1);
}

TEST_CASE("the same red cell is painted the same, and finite, whatever it carries", "[drawing]") {
    constexpr std::uint16_t all =
        mark::howellJolly | mark::heinz | mark::water | mark::inRouleau | mark::agglutinated;
    for (int k = 0; lab::isRed(static_cast<FilmCell>(k)); ++k)
        for (const float scale : {oilScale, lowScale, .2F})
            for (const std::uint16_t marks : {std::uint16_t{0}, all}) {
                CAPTURE(k, scale, marks);
                Cell cell = redCell(static_cast<FilmCell>(k), dog, 77);
                cell.marks = marks;
                cell.thick = .5F;
                cell.z = marks ? .7F : 0;
                const Density one = red(cell, {scale}), other = red(cell, {scale});
                CHECK(one.planes == other.planes);
                CHECK(std::all_of(one.planes.begin(), one.planes.end(),
                                  [](float d) { return std::isfinite(d) && d < 6; }));
                CHECK(sum(one, greenPlane) > 0);
            }
}
