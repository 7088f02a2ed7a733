#include "drawing/film/field.h"
#include "drawing/film/paint.h"
#include "film_slides.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

using namespace cistern;
using namespace cistern::drawing;
using namespace cistern::drawing::film;
using body::Kind;

namespace {

/// Whether a part of one picture is another, byte for byte.
bool holds(const Pixels& whole, const Pixels& part, int x, int y) {
    for (int row = 0; row < part.height; ++row) {
        const auto at = [](const Pixels& of, int px, int py) {
            return of.rgba.begin() + 4 * (static_cast<std::ptrdiff_t>(py) * of.width + px);
        };
        const auto from = at(part, 0, row);
        if (!std::equal(from, from + 4 * part.width, at(whole, x, y + row))) return false;
    }
    return true;
}

double mean(const Pixels& pixels, std::size_t plane) {
    double sum = 0;
    for (std::size_t i = plane; i < pixels.rgba.size(); i += 4) sum += pixels.rgba[i];
    return sum / (pixels.width * pixels.height);
}

} // namespace

TEST_CASE("Rectangles of a film agree pixel for pixel where they meet or overlap", "[drawing]") {
    const Slide slide = films::crowd(GENERATE(Kind::dog, Kind::cat));
    const auto [power, scale, x] =
        GENERATE(std::tuple(100, 1000.F / 120, 4210.), std::tuple(100, 1000.F / 120, 15000.),
                 std::tuple(50, 4.F, 300.), std::tuple(10, 0.77F, 1000.));
    const Optics optics = opticsOf(power, scale, power == 100 ? .6F : 0);
    const double pixel = 1 / static_cast<double>(optics.scale);
    Stage stage(slide);
    const Pixels whole = stage.seen(x, 8000, 300, 200, optics);
    for (const auto& [i, j] : {std::pair(0, 0), std::pair(150, 0), std::pair(37, 90)}) {
        Stage fresh(slide);
        const Pixels part = fresh.seen(x + i * pixel, 8000 + j * pixel, 150, 100, optics);
        CHECK(holds(whole, part, i, j));
        CHECK(holds(whole, stage.seen(x + i * pixel, 8000 + j * pixel, 150, 100, optics), i, j));
    }
}

TEST_CASE("A film looked at again after long wandering is the same", "[drawing]") {
    Slide slide = films::healthy(Kind::dog);
    slide.red = 1; // quick to paint
    Stage stage(slide);
    const Optics optics = opticsOf(100, 2);
    const Pixels first = stage.seen(4000, 4000, 60, 60, optics);
    for (int i = 0; i < 12; ++i) // more patches than are kept
        CHECK(stage.cells({5000. + i * 700, 9000, 600, 600}).size() > 100);
    CHECK(stage.seen(4000, 4000, 60, 60, optics).rgba == first.rgba);
}

TEST_CASE("Cells of a rectangle are those whose middle lies in it", "[drawing]") {
    const Slide slide = films::crowd(Kind::cat);
    Stage stage(slide);
    const Box box{4000, 7000, 250, 130};
    const auto within = [&](const Cell& cell) {
        const double x = cell.x, y = cell.y;
        return x >= box.x && x < box.right() && y >= box.y && y < box.bottom();
    };
    const std::vector<Cell> cells = stage.cells(box);
    CHECK(std::all_of(cells.begin(), cells.end(), within));
    const std::vector<Cell> around = plan(slide, {31, 56, 38, 61});
    CHECK(static_cast<std::ptrdiff_t>(cells.size()) ==
          std::count_if(around.begin(), around.end(), within));

    for (const Box& beyond : {Box{-500, -500, 400, 400}, Box{-9000, 5000, 400, 400},
                              Box{40000, 5000, 400, 400}, Box{5000, 19000, 400, 400}})
        CHECK(stage.cells(beyond).empty());
}

TEST_CASE("Light falls off with the exponent of density", "[drawing]") {
    const Optics optics = opticsOf(100, 1000.F / 120);
    constexpr int margin = 3, size = 60;
    for (const float amount : {0.F, .1F, .5F, 1.F, 2.F, 4.F}) {
        Density density(size + 2 * margin, size + 2 * margin, 0, 0, 1000. / 120);
        std::fill(density.planes.begin(), density.planes.end(), amount);
        const Pixels seen = developed(density, optics, 1, margin);
        CHECK(seen.width == size);
        CHECK(seen.height == size);
        // Lamp F6F2EF; grain is triangular within 1.6 levels, its deviation 0.65, rounding 0.29:
        // the mean of 3,600 is known to 0.012. Four of these, and a little for the swift exponent.
        const double light = std::exp(-static_cast<double>(amount));
        CHECK(mean(seen, 0) == Approx(246 * light).margin(0.06));
        CHECK(mean(seen, 1) == Approx(242 * light).margin(0.06));
        CHECK(mean(seen, 2) == Approx(239 * light).margin(0.06));
        const auto [low, high] = std::minmax_element(seen.rgba.begin(), seen.rgba.end() - 1,
                                                     [](auto a, auto b) { return a < b; });
        CHECK(*high == 255); // solid
        CHECK(static_cast<double>(*low) >= 239 * light - 2.2);
    }
}

TEST_CASE("A point spreads as the objective lets it", "[drawing]") {
    const Optics optics = opticsOf(100, 1000.F / 120);
    // 0.21 wavelengths of green over the aperture, 0.092 um: 0.77 pixels.
    CHECK(spreadOf(optics) == Approx(0.77F).epsilon(0.01));
    constexpr int margin = 3, size = 21;
    Density density(size + 2 * margin, size + 2 * margin, 0, 0, 1000. / 120);
    constexpr float dark = 3;
    for (std::size_t k = 0; k < 3; ++k)
        density.row(margin + 10)[3 * (margin + 10) + static_cast<int>(k)] = dark;
    const Pixels seen = developed(density, optics, 1, margin);
    const auto lost = [&](int x, int y) {
        return 246. -
               seen.rgba[static_cast<std::size_t>(4) * static_cast<std::size_t>(y * size + x)];
    };
    // Of a normal spread cut off at two pixels; grain and rounding within 2.2 levels.
    const double sigma = 0.77, side = std::exp(-1 / (2 * sigma * sigma));
    const double middle = 1 / (1 + 2 * side + 2 * std::pow(side, 4));
    const double all = 246 * (1 - std::exp(-3.));
    CHECK(lost(10, 10) == Approx(all * middle * middle).margin(3));
    CHECK(lost(11, 10) == Approx(all * middle * middle * side).margin(3));
    CHECK(lost(10, 9) == Approx(all * middle * middle * side).margin(3));
    CHECK(lost(14, 10) == Approx(0).margin(2.2));
}

TEST_CASE("Plasma tints the film and not the glass beyond it", "[drawing]") {
    const Slide slide = films::healthy(Kind::dog);
    const Mixture mixture(slide.stain);
    const Light light{mixture, opticsOf(100, 4)};
    Density film(80, 80, 5000, 8000, 4), glass(80, 80, -60, 8000, 4);
    paintGround(slide, light, film);
    paintGround(slide, light, glass);
    CHECK(*std::min_element(film.planes.begin(), film.planes.end()) > 0);
    CHECK(*std::max_element(film.planes.begin(), film.planes.end()) < 0.1F); // faint
    CHECK(*std::max_element(glass.planes.begin(), glass.planes.end()) == 0);
}

TEST_CASE("A field that cannot be is refused", "[drawing]") {
    Stage stage(films::healthy(Kind::dog));
    CHECK_THROWS_AS(stage.seen(0, 0, 0, 10, opticsOf(100, 8)), std::invalid_argument);
    CHECK_THROWS_AS(opticsOf(40, 8), std::invalid_argument);
    CHECK_THROWS_AS(developed(Density(10, 10, 0, 0, 8), opticsOf(100, 8), 1, 0),
                    std::invalid_argument);
    Slide broken;
    broken.red = std::nan("");
    CHECK_THROWS_AS(Stage(broken), std::invalid_argument);
}
