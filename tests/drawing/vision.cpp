#include "vision.h"

#include "courses.h"
#include "drawing/theme.h"
#include "marks.h"

#include <catch2/catch.hpp>

#include <array>

using namespace cistern::test;

TEST_CASE("the measures of color agree with published values", "[drawing]") {
    CHECK(contrast(rgb(0x000000), rgb(0xFFFFFF)) == Approx(21));                 // WCAG 2.2
    CHECK(contrast(rgb(0x777777), rgb(0xFFFFFF)) == Approx(4.48).margin(0.005)); // common practice
    CHECK(toLab(linear(rgb(0xFFFFFF)))[0] == Approx(100).margin(0.01));          // by definition
    const Triple red = toLab(linear(rgb(0xFF0000))); // L 53.24, a 80.09, b 67.20: from memory
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
                CHECK(difference(toLab(times(matrix, linear(lines[i]))),
                                 toLab(times(matrix, linear(lines[j])))) >= apart);
            }
        }
    }
}
