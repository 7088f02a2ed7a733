// A slide under the lens, placed in a window.
#include "desk/microscope.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <variant>

using namespace cistern;
using namespace cistern::desk;

namespace {

Microscope view() {
    Microscope out;
    lab::Slide slide;
    slide.red = 7;
    slide.white = 10;
    slide.of(lab::FilmCell::segmented) = 1;
    out.slide = std::make_shared<const lab::Slide>(slide);
    out.number = 1;
    out.power = 100;
    out.middle = {5000, 9000};
    out.width = 120;
    out.box = {50, 30, 360, 270};
    out.within = out.box;
    return out;
}

/// The pixels of a picture that holds nothing else, on white.
drawing::Pixels shown(const Microscope& microscope) {
    drawing::Picture picture{500, 400, "", "", "en", {}};
    picture.marks.push_back(
        {drawing::Shape{drawing::rectangle({0, 0, 500, 400}), drawing::rgb(0xFFFFFF), {}}});
    picture.marks.push_back({seenThrough(microscope)});
    return drawing::pixels(picture);
}

drawing::Color at(const drawing::Pixels& pixels, int x, int y) {
    const auto first = 4 * static_cast<std::size_t>(y * pixels.width + x);
    return {pixels.rgba[first], pixels.rgba[first + 1], pixels.rgba[first + 2]};
}

bool white(const drawing::Color& color) {
    return color.red == 255 && color.green == 255 && color.blue == 255;
}

int apart(const drawing::Color& a, const drawing::Color& b) {
    return std::max({std::abs(int{a.red} - int{b.red}), std::abs(int{a.green} - int{b.green}),
                     std::abs(int{a.blue} - int{b.blue})});
}

/// Pixels that differ between two pictures, by whether they lie so far from a place.
struct Differing {
    int within = 0, beyond = 0;
};
Differing differing(const drawing::Pixels& a, const drawing::Pixels& b, Point from, double least,
                    double most) {
    Differing out;
    for (int y = 0; y < a.height; ++y)
        for (int x = 0; x < a.width; ++x) {
            if (apart(at(a, x, y), at(b, x, y)) < 8) continue;
            const double off = std::hypot(x + .5 - from.x, y + .5 - from.y);
            ++(off >= least && off <= most ? out.within : out.beyond);
        }
    return out;
}

} // namespace

TEST_CASE("A place in the window and on the slide are the same, there and back", "[desk]") {
    for (const double width : {120., 240., 1200.}) {
        Microscope one = view();
        one.width = width;
        for (const Point place : {Point{50, 30}, Point{333.25, 211.5}, Point{-20, 900}}) {
            const Point back = one.inWindow(one.onSlide(place));
            CHECK(back.x == Approx(place.x).margin(1e-7)); // [px]: the last digits
            CHECK(back.y == Approx(place.y).margin(1e-7));
        }
        const Point middle = one.inWindow(one.middle);
        CHECK(middle.x == Approx(one.box.middle().x));
        CHECK(middle.y == Approx(one.box.middle().y));
        CHECK(one.inWindow({one.left(), one.top()}).x == Approx(one.box.x));
        CHECK(one.inWindow({one.left(), one.top()}).y == Approx(one.box.y));
    }
}

TEST_CASE("What is seen and how large it is shown give pixels per um", "[desk]") {
    Microscope one = view();
    CHECK(one.scale() == Approx(3)); // 360 px, 120 um
    CHECK(one.optics().scale == Approx(3));
    one.box.width = 720;
    CHECK(one.scale() == Approx(6));
    one.width = 1200;
    CHECK(one.scale() == Approx(.6));
    one.focus = -1.25;
    CHECK(one.optics().focus == Approx(-1.25));
    // Apertures of dry lenses and of oil, as drawing/film/density.h tells them.
    for (const auto& [power, aperture] : {std::pair{10, .25}, {50, .85}, {100, 1.25}}) {
        one.power = power;
        CHECK(one.optics().aperture == Approx(aperture));
    }
}

TEST_CASE("Nothing of a slide is drawn beside its box, nor outside its room", "[desk]") {
    Microscope one = view();
    one.box = {50.5, 30.25, 360, 270};
    one.rings.push_back({{one.left(), one.top()}, 20, true}); // half of it lies beside the box
    one.within = {0, 100, 500, 120};
    const drawing::Pixels pixels = shown(one);
    int outside = 0, inside = 0;
    for (int y = 0; y < pixels.height; ++y)
        for (int x = 0; x < pixels.width; ++x) {
            const bool in = x >= 50 && x < 411 && y >= 100 && y < 220;
            (in ? inside : outside) += !white(at(pixels, x, y));
        }
    CHECK(outside == 0);
    CHECK(inside > 300 * 119);
}

TEST_CASE("A slide covers its box to the edge", "[desk]") {
    const drawing::Pixels pixels = shown(view());
    for (const Point corner : {Point{50, 30}, Point{409, 30}, Point{50, 299}, Point{409, 299}})
        CHECK(!white(at(pixels, static_cast<int>(corner.x), static_cast<int>(corner.y))));
}

TEST_CASE("Rings lie about their cells, the chosen one stands out", "[desk]") {
    const Microscope bare = view();
    const drawing::Pixels without = shown(bare);
    for (const bool chosen : {false, true}) {
        Microscope one = bare;
        one.rings.push_back({{5010, 8985}, 8, chosen});
        const Point middle = one.inWindow({5010, 8985});
        const double radius = 8 * one.scale();
        const double half = look(one.rings[0]).underWidth / 2 + 1; // and a pixel of its edge
        const Differing all = differing(without, shown(one), middle, radius - half, radius + half);
        CHECK(all.within > 3 * radius);
        CHECK(all.beyond == 0);
    }
    CHECK(look({{}, 1, true}).overWidth > look({{}, 1, false}).overWidth);
    for (const bool chosen : {false, true}) {
        const RingLook drawn = look({{}, 1, chosen});
        CHECK(drawn.underWidth > drawn.overWidth); // it shows on any cell
        CHECK(apart(drawn.under, drawn.over) > 60);
    }
}

TEST_CASE("A picture of a slide shows the pixels of its stage", "[desk]") {
    const Microscope one = view();
    const drawing::Pixels pixels = shown(one);
    drawing::film::Stage stage(*one.slide);
    const drawing::Pixels plain = stage.seen(one.left(), one.top(), 360, 270, one.optics());
    int off = 0;
    for (int y = 0; y < 270; ++y)
        for (int x = 0; x < 360; ++x) off += apart(at(pixels, 50 + x, 30 + y), at(plain, x, y)) > 1;
    CHECK(off == 0);
}
