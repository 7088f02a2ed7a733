#include "courses.h"
#include "drawing/theme.h"
#include "marks.h"

#include <catch2/catch.hpp>

#include <array>

using namespace cistern::test;

namespace {

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

double dot(const Triple& a, const Triple& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
Triple times(const Matrix& m, const Triple& v) {
    return {dot(m[0], v), dot(m[1], v), dot(m[2], v)};
}

/// Linear sRGB to CIE L*a*b* (D65); CIE 15, sRGB matrix of IEC 61966-2-1.
Triple lab(Triple light) {
    for (double& part : light) part = std::clamp(part, 0.0, 1.0);
    const Triple xyz = times(
        {{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}}, light);
    const auto f = [](double t) {
        return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
    };
    const double x = f(xyz[0] / 0.95047), y = f(xyz[1]), z = f(xyz[2] / 1.08883);
    return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

double difference(const Triple& a, const Triple& b) { // CIE 1976
    return std::sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
                     (a[2] - b[2]) * (a[2] - b[2]));
}

/// How colors look to those who lack one kind of cone. Machado, Oliveira and Fernandes 2009, "A
/// physiologically-based model for simulation of color vision deficiency", severity 1.0, applied to
/// linear light; the numbers as reprinted in public source code, not read in the paper itself.
const std::array<std::pair<const char*, Matrix>, 4> eyes{
    {{"all cones", {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}},
     {"protanopia",
      {{{0.152286, 1.052583, -0.204868},
        {0.114503, 0.786281, 0.099216},
        {-0.003882, -0.048116, 1.051998}}}},
     {"deuteranopia",
      {{{0.367322, 0.860646, -0.227968},
        {0.280085, 0.672501, 0.047413},
        {-0.011820, 0.042940, 0.968881}}}},
     {"tritanopia",
      {{{1.255528, -0.076749, -0.178779},
        {-0.078411, 0.930809, 0.147602},
        {0.004733, 0.691367, 0.303900}}}}}};

} // namespace

TEST_CASE("the measures of color agree with published values", "[drawing]") {
    CHECK(contrast(rgb(0x000000), rgb(0xFFFFFF)) == Approx(21));                 // WCAG 2.2
    CHECK(contrast(rgb(0x777777), rgb(0xFFFFFF)) == Approx(4.48).margin(0.005)); // common practice
    CHECK(lab(linear(rgb(0xFFFFFF)))[0] == Approx(100).margin(0.01));            // by definition
    const Triple red = lab(linear(rgb(0xFF0000))); // L 53.24, a 80.09, b 67.20: from memory
    CHECK(red[0] == Approx(53.24).margin(0.05));
    CHECK(red[1] == Approx(80.09).margin(0.05));
    CHECK(red[2] == Approx(67.20).margin(0.05));
    // A gray has no hue to lose: every row adds up to 1. The numbers have six decimals.
    for (const auto& [name, matrix] : eyes)
        for (const Triple& row : matrix) CHECK(dot(row, {1, 1, 1}) == Approx(1).margin(3e-6));
}

TEST_CASE("words stand out from their ground by at least 4.5 to 1", "[drawing]") {
    namespace t = theme;
    for (const Color& ground : {t::paper, t::panel, t::field})
        for (const Color& words :
             {t::ink, t::muted, t::leakInk, t::workInk, t::thoughtInk, t::balanceInk})
            CHECK(contrast(words, ground) >= 4.5); // WCAG 2.2, 1.4.3 (AA)
    for (const Color& ground :
         {t::line, t::leakSoft, t::workSoft, t::thoughtSoft, t::balanceSoft, t::stone})
        CHECK(contrast(t::ink, ground) >= 4.5);
    // And every word of a course, on its own ground.
    const CourseLayout placed = layout(slowCat());
    for (const Text& text : placed.texts) {
        const Box box = extent(text);
        Color ground = placed.card.contains(box) ? t::panel : t::paper;
        for (const Box& bar : placed.bars)
            if (bar.contains(box)) ground = t::line;
        CAPTURE(text.lines.front());
        CHECK(contrast(text.type.color, ground) >= 4.5);
    }
}

TEST_CASE("lines and marks stand out from their ground by at least 3 to 1", "[drawing]") {
    for (const Color& ground : {theme::panel, theme::field})
        for (const Color& mark :
             {theme::leak, theme::work, theme::thought, theme::balance, theme::stoneDark})
            CHECK(contrast(mark, ground) >= 3); // WCAG 2.2, 1.4.11 (AA)
}

TEST_CASE("leak, work, thought and balance hold apart for the color-blind", "[drawing]") {
    // 2.3 is a difference just seen between areas side by side (Mahy and others 1994, from
    // memory). Thin lines apart from one another want several times that: 20 is our choice, and
    // dashes, shapes and names repeat the meaning.
    constexpr double apart = 20;
    const std::array<Color, 4> lines{theme::leak, theme::work, theme::thought, theme::balance};
    for (const auto& [name, matrix] : eyes) {
        for (std::size_t i = 0; i < lines.size(); ++i) {
            for (std::size_t j = i + 1; j < lines.size(); ++j) {
                CAPTURE(name, i, j);
                CHECK(difference(lab(times(matrix, linear(lines[i]))),
                                 lab(times(matrix, linear(lines[j])))) >= apart);
            }
        }
    }
}
