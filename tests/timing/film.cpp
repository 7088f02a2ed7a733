#include "film.h"

#include "clock.h"
#include "drawing/film/field.h"
#include "drawing/film_slides.h"
#include "lab/film/track.h"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <memory>
#include <numbers>
#include <string>
#include <vector>

namespace cistern::timing {

namespace {

using drawing::film::Cell;
using drawing::film::Optics;
using drawing::film::Stage;

constexpr int side = 1000, tile = 256; // [px]
constexpr int rounds = 5;

struct View {
    const char* name;
    lab::FilmArea area;
    int power;
    double across; ///< of the field [um]
};
constexpr View views[] = {{"monolayer", lab::FilmArea::monolayer, 100, 120},
                          {"thick body", lab::FilmArea::body, 100, 120},
                          {"feathered edge", lab::FilmArea::edge, 100, 120},
                          {"scan of the edge", lab::FilmArea::edge, 10, 1200}};

double median(std::vector<double> v) {
    std::sort(v.begin(), v.end());
    return v[v.size() / 2];
}

struct Place {
    double left, top; // [um]
};

/// Fields of an area, spread over it: each round looks at another.
std::vector<Place> places(const lab::Slide& slide, const View& view) {
    const auto all = lab::track(slide, view.area, view.across, view.across);
    std::vector<Place> chosen;
    for (std::size_t i = 0; i < rounds; ++i) {
        const lab::FilmField& field = all[(2 * i + 1) * all.size() / (2 * rounds)];
        chosen.push_back({field.left, field.top});
    }
    return chosen;
}

void disc(cairo_t* pen, const Cell& cell, double x, double y, double radius) {
    const auto tone = [&](double light) {
        return lab::isWhite(cell.kind) ? std::array{.45 * light, .35 * light, .65 * light}
                                       : std::array{.85 * light, .55 * light, .55 * light};
    };
    const std::unique_ptr<cairo_pattern_t, decltype(&cairo_pattern_destroy)> shade(
        cairo_pattern_create_radial(x, y, 0, x, y, radius), &cairo_pattern_destroy);
    for (const double stop : {0., .5, 1.}) {
        const auto [red, green, blue] = tone(1.1 - .2 * stop);
        cairo_pattern_add_color_stop_rgba(shade.get(), stop, red, green, blue, .85);
    }
    cairo_set_source(pen, shade.get());
    cairo_arc(pen, x, y, radius, 0, 2 * std::numbers::pi);
    cairo_fill(pen);
}

/// The same cells as one would first draw them: discs with a soft shade, laid over one another.
/// Gives a pixel, to keep the work in use.
unsigned plainly(const std::vector<Cell>& cells, const Place& place, double scale) {
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, side, side), &cairo_surface_destroy);
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> pen(cairo_create(surface.get()),
                                                                 &cairo_destroy);
    cairo_set_source_rgb(pen.get(), .94, .93, .93);
    cairo_paint(pen.get());
    for (const Cell& cell : cells)
        disc(pen.get(), cell, (static_cast<double>(cell.x) - place.left) * scale,
             (static_cast<double>(cell.y) - place.top) * scale,
             static_cast<double>(cell.radius) * scale);
    cairo_surface_flush(surface.get());
    return cairo_image_surface_get_data(surface.get())[0];
}

struct Took {
    std::vector<double> first, again, plain; ///< [s]
    double cells = 0, sum = 0;
};

Took fields(const lab::Slide& slide, const View& view) {
    const double scale = side / view.across;
    const Optics optics = drawing::film::opticsOf(view.power, static_cast<float>(scale));
    Took took;
    for (const Place& place : places(slide, view)) {
        Stage stage(slide);
        const auto look = [&] {
            const double start = threadSeconds();
            took.sum += stage.seen(place.left, place.top, side, side, optics).rgba[0];
            return threadSeconds() - start;
        };
        took.first.push_back(look());
        took.again.push_back(look());
        constexpr double reach = 8; // [um] within which a cell outside shows
        const std::vector<Cell> cells =
            stage.cells({place.left - reach, place.top - reach, view.across + 2 * reach,
                         view.across + 2 * reach});
        took.cells += static_cast<double>(cells.size()) / rounds;
        const double start = threadSeconds();
        took.sum += plainly(cells, place, scale);
        took.plain.push_back(threadSeconds() - start);
    }
    return took;
}

void tiles(const lab::Slide& slide) {
    constexpr double across = 120, scale = side / across;
    constexpr int rows = 8;
    const Optics optics = drawing::film::opticsOf(100, static_cast<float>(scale));
    const auto field = lab::track(slide, lab::FilmArea::monolayer, across, across).front();
    Stage stage(slide);
    std::vector<double> took;
    double sum = 0;
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < rows; ++x) {
            const double start = threadSeconds();
            sum += stage
                       .seen(field.left + x * tile / scale, field.top + y * tile / scale, tile,
                             tile, optics)
                       .rgba[0];
            took.push_back(threadSeconds() - start);
        }
    double mean = 0;
    for (const double one : took) mean += one / static_cast<double>(took.size());
    std::printf("%-4s %-17s %d tiles of %d px on first sight: mean %.1f ms, median %.1f, worst "
                "%.1f%s\n",
                std::string(body::name(slide.kind)).c_str(), "monolayer", rows * rows, tile,
                1e3 * mean, 1e3 * median(took), 1e3 * *std::max_element(took.begin(), took.end()),
                sum > 0 ? "" : " (nothing)");
}

} // namespace

void films() {
    std::printf("Blood film, fields of %d x %d px on one core, ms, median of %d places; plain: the "
                "same cells as shaded discs by Cairo.\n",
                side, side, rounds);
    std::printf("                       power  cells   first   again   plain   again/plain\n");
    for (const body::Kind kind : {body::Kind::dog, body::Kind::cat}) {
        const lab::Slide slide = cistern::films::healthy(kind);
        for (const View& view : views) {
            const Took took = fields(slide, view);
            const double again = median(took.again), plain = median(took.plain);
            std::printf("%-4s %-17s %4dx %6.0f %7.1f %7.1f %7.1f %10.1f%s\n",
                        std::string(body::name(kind)).c_str(), view.name, view.power, took.cells,
                        1e3 * median(took.first), 1e3 * again, 1e3 * plain, again / plain,
                        took.sum > 0 ? "" : " (nothing)");
        }
        tiles(slide);
    }
    std::puts("");
    std::fflush(stdout);
}

} // namespace cistern::timing
