#include "drawing/painter.h"

#include "courses.h"
#include "drawing/theme.h"

#include <catch2/catch.hpp>

using namespace cistern::test;

namespace {

Picture blank(double width, double height) {
    Picture picture{width, height, "a test", "", "en", {}};
    picture.marks.push_back({Shape{rectangle({0, 0, width, height}), rgb(0xFFFFFF), {}}});
    return picture;
}

Color at(const Pixels& pixels, int x, int y) {
    const auto i = 4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(pixels.width) +
                        static_cast<std::size_t>(x));
    return {pixels.rgba[i], pixels.rgba[i + 1], pixels.rgba[i + 2], pixels.rgba[i + 3] / 255.0};
}

/// Box of all pixels darker than white.
Box inked(const Pixels& pixels) {
    int left = pixels.width, top = pixels.height, right = 0, bottom = 0;
    for (int y = 0; y < pixels.height; ++y)
        for (int x = 0; x < pixels.width; ++x)
            if (!(at(pixels, x, y) == rgb(0xFFFFFF))) {
                left = std::min(left, x);
                right = std::max(right, x + 1);
                top = std::min(top, y);
                bottom = std::max(bottom, y + 1);
            }
    return {double(left), double(top), double(right - left), double(bottom - top)};
}

} // namespace

TEST_CASE("shapes are filled and stroked where they stand, at any scale", "[drawing]") {
    Picture picture = blank(40, 30);
    picture.marks.push_back({Shape{rectangle({10, 10, 20, 10}), rgb(0x123456), {}}});
    for (int scale : {1, 2, 3}) {
        const Pixels seen = pixels(picture, scale);
        CHECK(seen.width == 40 * scale);
        CHECK(seen.height == 30 * scale);
        CHECK(at(seen, 10 * scale, 10 * scale) == rgb(0x123456));
        CHECK(at(seen, 30 * scale - 1, 20 * scale - 1) == rgb(0x123456));
        CHECK(at(seen, 10 * scale - 1, 10 * scale) == rgb(0xFFFFFF));
        CHECK(at(seen, 30 * scale, 15 * scale) == rgb(0xFFFFFF));
    }
}

TEST_CASE("a dash leaves gaps and a group moves and cuts what is in it", "[drawing]") {
    Picture picture = blank(100, 40);
    picture.marks.push_back(
        {Shape{polyline({{0, 10}, {100, 10}}), {}, Stroke{rgb(0), 4, {20, 20}}}});
    Group group{"moved", {50, 20}, rectangle({0, 0, 10, 10}), {}};
    group.marks.push_back({Shape{rectangle({-50, -20, 100, 40}), rgb(0xFF0000), {}}});
    picture.marks.push_back({group});
    const Pixels seen = pixels(picture);
    CHECK(at(seen, 10, 10) == rgb(0));
    CHECK(at(seen, 30, 10) == rgb(0xFFFFFF));
    CHECK(at(seen, 50, 10) == rgb(0));
    CHECK(at(seen, 50, 20) == rgb(0xFF0000));
    CHECK(at(seen, 59, 29) == rgb(0xFF0000));
    CHECK(at(seen, 60, 25) == rgb(0xFFFFFF));
    CHECK(at(seen, 49, 25) == rgb(0xFFFFFF));
}

TEST_CASE("a half-clear color comes out with its own color and alpha", "[drawing]") {
    Picture picture{10, 10, "", "", "en", {}};
    Color color = rgb(0xC06020);
    color.alpha = 0.5;
    picture.marks.push_back({Shape{rectangle({0, 0, 10, 10}), color, {}}});
    const Color seen = at(pixels(picture), 5, 5);
    // Half of 255 levels are lost when alpha is multiplied in: two levels of rounding.
    CHECK(std::abs(seen.red - 0xC0) <= 2);
    CHECK(std::abs(seen.green - 0x60) <= 2);
    CHECK(std::abs(seen.blue - 0x20) <= 2);
    CHECK(seen.alpha == Approx(0.5).margin(1 / 255.0));
}

TEST_CASE("letters stay inside the box they were measured to take", "[drawing]") {
    for (Weight weight : {Weight::regular, Weight::semibold, Weight::bold}) {
        for (Align align : {Align::left, Align::center, Align::right}) {
            for (double size : {10.0, 16.0, 40.0}) {
                const Text text = hung("Albumin 34 g/L, ×0.5 below Älpgy", {size, weight, rgb(0)},
                                       align, 400, 20, 300);
                Picture picture = blank(800, 400);
                picture.marks.push_back({text});
                for (double scale : {1.0, 2.0}) {
                    const Box seen = inked(pixels(picture, scale));
                    const Box box = extent(text);
                    CAPTURE(size, scale, seen.x, seen.y, seen.right(), seen.bottom(), box.x, box.y);
                    // A pixel that a letter touches counts whole: one pixel on each side.
                    CHECK(Box{box.x * scale, box.y * scale, box.width * scale, box.height * scale}
                              .contains(seen, 1));
                    CHECK(seen.width > 0.9 * box.width * scale);
                }
            }
        }
    }
}

TEST_CASE("a long line is drawn to its last letter, at any scale and place", "[drawing]") {
    const std::string words =
        "From the first insult to the last draw, and then a good deal further on";
    for (const double scale : {.5, 1., 2.})
        for (const double shift : {0., .37}) {
            const Type type{30, Weight::regular, rgb(0)};
            const Text text = hung(words, type, Align::left, 10 + shift, 10 + shift);
            const double end = extent(text).right();
            Picture picture{end + 20, 80, "", "", "en", {{text}}};
            const Pixels image = pixels(picture, scale);
            int last = 0;
            for (int y = 0; y < image.height; ++y)
                for (int x = 0; x < image.width; ++x)
                    if (image.rgba[4 * (static_cast<std::size_t>(y) *
                                            static_cast<std::size_t>(image.width) +
                                        static_cast<std::size_t>(x)) +
                                   3] > 100)
                        last = std::max(last, x);
            // The last letter ends a little before the room it takes.
            CHECK(last < scale * end + 1);
            CHECK(last > scale * (end - 6));
        }
}

TEST_CASE("what lies beyond a clip is left out, and nothing else", "[drawing]") {
    const auto rows = [](double from) {
        Group group{"", {0, -from}, {}, {}};
        for (int i = 0; i < 40; ++i) {
            const double y = 20.0 * i;
            group.marks.push_back(
                {Shape{rectangle({10, y, 30, 12}), rgb(0xFF), Stroke{rgb(0), 3, {}}}});
            group.marks.push_back({hung("row " + std::to_string(i), {14, Weight::regular, rgb(0)},
                                        Align::left, 60, y)});
        }
        return group;
    };
    // Scrolled by a row, each row stands where the one before it stood.
    const auto shown = [&](double from) {
        Group seen{"", {}, rectangle({0, 100, 200, 200}), {}};
        seen.marks.push_back({rows(from)});
        return pixels({200, 400, "", "", "en", {{seen}}});
    };
    const Pixels one = shown(0), two = shown(20);
    bool any = false;
    for (int y = 0; y < 400; ++y)
        for (int x = 0; x < 50; ++x) {
            const auto at = 4 * (static_cast<std::size_t>(y) * 200 + static_cast<std::size_t>(x));
            CHECK(one.rgba[at + 3] == two.rgba[at + 3]);
            any = any || one.rgba[at + 3] > 0;
            if (y < 100 || y >= 300) CHECK(one.rgba[at + 3] == 0);
        }
    CHECK(any);
}

TEST_CASE("text takes the same room whatever was measured before", "[drawing]") {
    const Type type{15, Weight::regular, rgb(0)};
    const double first = measure("bile acids", type).width;
    measure("bile acids", {40, Weight::bold, rgb(0)});
    wrapped("bile acids and more of them", type, 50);
    CHECK(measure("bile acids", type).width == first);
    CHECK(measure("bile acids", {30, Weight::regular, rgb(0)}).width ==
          Approx(2 * first).epsilon(0.001));
}

TEST_CASE("tabular figures have one width", "[drawing]") {
    const Type type{15, Weight::regular, rgb(0), false, true};
    const double one = measure("1111", type).width;
    for (const char* figures : {"0000", "4444", "8888"})
        CHECK(measure(figures, type).width == Approx(one).margin(0.01)); // 1/1024 px a glyph
}

TEST_CASE("wrapping keeps to its width, loses no letter and never parts a unit", "[drawing]") {
    const Type type{14, Weight::regular, rgb(0)};
    const std::string text = "creatinine 0.7 mg/dL and albumin 34 g/L";
    for (double width = 90; width < 320; width += 7) { // the longest word takes 70
        std::string joined;
        for (const std::string& line : wrapped(text, type, width)) {
            CAPTURE(width, line);
            CHECK(measure(line, type).width <= width);
            CHECK_FALSE(line.ends_with("/"));
            CHECK(line.find("\xE2\x81\xA0") == std::string::npos);
            joined.append(joined.empty() ? "" : " ") += line;
        }
        CHECK(joined == text);
    }
    const auto lines = wrapped("gammaglutamyltransferase", type, 60); // longer than a line
    CHECK(lines.size() > 1);
    for (const std::string& line : lines) CHECK(measure(line, type).width <= 60);
}

TEST_CASE("bytes that are no text cannot harm a picture", "[drawing]") {
    CHECK(printable("a\x01"
                    "b\tc\n") == "a b c ");
    CHECK(printable("\xFF\xC3") == "\xEF\xBF\xBD\xEF\xBF\xBD");
    CHECK(printable("\xEF\xBF\xBF") == "\xEF\xBF\xBD"); // U+FFFF is no character
    CHECK(printable("µ × ½ 日本") == "µ × ½ 日本");
    CHECK(measure("\xFF", {14, Weight::regular, rgb(0)}).width > 0);
}

TEST_CASE("the same course gives the same bytes", "[drawing]") {
    const CourseView view = lockKeepersDog();
    CHECK(png(view) == png(view));
    CHECK(svg(view) == svg(view));
    CHECK(png(view).substr(1, 3) == "PNG");
}

TEST_CASE("a curve is seen in its color where the layout says it runs", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.levels.resize(1);
    view.levels[0].pegs.clear();
    const CourseLayout placed = layout(view);
    const Pixels seen = pixels(picture(placed), 2);
    const auto& points = placed.panels[0].curves[0].points;
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        const Color color =
            at(seen, static_cast<int>(2 * points[i].x), static_cast<int>(2 * points[i].y));
        // The line is 5.2 pixels wide here, so the pixel of its middle is solid.
        CAPTURE(i, int(color.red), int(color.green), int(color.blue));
        CHECK(color == theme::leak);
    }
}

TEST_CASE("a picture too large or empty is refused", "[drawing]") {
    CHECK_THROWS_AS(pixels(blank(100, 100), 1000), std::invalid_argument);
    CHECK_THROWS_AS(pixels(blank(100, 100), 0), std::invalid_argument);
    CHECK_THROWS_AS(pixels(blank(100, 100), std::nan("")), std::invalid_argument);
    CHECK_THROWS_AS(png(blank(0, 100)), std::invalid_argument);
}

TEST_CASE("pixels of an image come out as they went in, and stretch over their box", "[drawing]") {
    const auto two = std::make_shared<Pixels>(Pixels{2, 1, {10, 20, 30, 255, 200, 100, 50, 255}});
    Picture picture = blank(40, 20);
    picture.marks.push_back({Image{{4, 4, 2, 1}, two, "two"}});
    picture.marks.push_back({Image{{10, 4, 20, 10}, two, "the same, ten times as large"}});
    const Pixels seen = pixels(picture);
    CHECK(at(seen, 4, 4) == rgb(0x0A141E));
    CHECK(at(seen, 5, 4) == rgb(0xC86432));
    CHECK(at(seen, 3, 4) == rgb(0xFFFFFF));
    CHECK(at(seen, 11, 8) == rgb(0x0A141E));
    CHECK(at(seen, 28, 8) == rgb(0xC86432));
    CHECK(at(seen, 30, 8) == rgb(0xFFFFFF));
    CHECK(at(seen, 20, 14) == rgb(0xFFFFFF));
    // A PNG of the pixels holds the same.
    CHECK(readPng(png(*two)).rgba == two->rgba);
    const auto less = std::make_shared<Pixels>(Pixels{2, 2, {1, 2, 3, 255}});
    picture.marks.push_back({Image{{0, 0, 2, 2}, less, ""}});
    CHECK_THROWS_AS(pixels(picture), std::runtime_error);
}

TEST_CASE("half clear pixels lie over what is under them", "[drawing]") {
    Picture picture = blank(4, 4);
    const auto one = std::make_shared<Pixels>(Pixels{1, 1, {0, 0, 0, 128}});
    picture.marks.push_back({Image{{0, 0, 4, 4}, one, ""}});
    const Color seen = at(pixels(picture), 2, 2);
    CHECK(std::abs(int(seen.red) - 127) <= 1); // rounding of 255 x 127 / 255
}
