#include "desk/pages/film_kept.h"

#include <catch2/catch.hpp>

using namespace cistern;
using namespace cistern::desk;
using lab::FilmCell;

namespace {

lab::Slide slideOf(std::uint64_t seed) {
    lab::Slide slide;
    slide.seed = seed;
    slide.red = 6.5;
    slide.white = 12;
    slide.of(FilmCell::segmented) = .8;
    slide.of(FilmCell::band) = .2;
    return slide;
}

FilmWork someWork() {
    FilmWork work;
    lesson::FilmTally first(200, true);
    first.add({FilmCell::segmented, FilmCell::band, false, 18446744073709551615u, 4000.25, 9000.5});
    work.before.push_back(first);
    work.tally.add({FilmCell::band, FilmCell::band, true, 7, 1.5, 2.5});
    work.tally.add({FilmCell::lymphocyte, FilmCell::nucleatedRed, false, 8, 3, 4});
    work.marked = true;
    return work;
}

} // namespace

TEST_CASE("What was counted on a film comes back as it was kept", "[desk]") {
    const lab::Slide slide = slideOf(3);
    const std::string text = toText(someWork(), slide);
    const auto back = filmWork(text, slide);
    REQUIRE(back);
    CHECK(back->marked);
    REQUIRE(back->before.size() == 1);
    CHECK(back->before[0].end() == 200);
    CHECK(back->before[0].joined());
    const lesson::Told& far = back->before[0].told().at(0);
    CHECK(far.cell == 18446744073709551615u);
    CHECK(far.truly == FilmCell::segmented);
    CHECK(far.said == FilmCell::band);
    CHECK(far.x == 4000.25);
    CHECK(back->tally.told().size() == 2);
    CHECK(back->tally.told()[0].doubtful);
    CHECK(toText(*back, slide) == text);
}

TEST_CASE("A tally of another slide, or a spoiled one, is begun anew", "[desk]") {
    const std::string text = toText(someWork(), slideOf(3));
    CHECK_FALSE(filmWork(text, slideOf(4)));
    lab::Slide other = slideOf(3);
    other.clumps = .1; // the same seed, but the blood was handled otherwise
    CHECK_FALSE(filmWork(text, other));
    CHECK_FALSE(filmWork("", slideOf(3)));
    CHECK_FALSE(filmWork(text.substr(0, text.size() / 2), slideOf(3)));
    for (const auto& [found, instead] :
         {std::pair{"\"band neutrophil\"", "\"bands\""}, std::pair{"\"7\"", "\"seven\""},
          std::pair{"\"end\": 100", "\"end\": 101"}, std::pair{"\"8\"", "\"7\""}}) {
        std::string spoiled = text;
        const std::size_t at = spoiled.find(found);
        INFO(found);
        REQUIRE(at != std::string::npos);
        spoiled.replace(at, std::string(found).size(), instead);
        CHECK_FALSE(filmWork(spoiled, slideOf(3)));
    }
}
