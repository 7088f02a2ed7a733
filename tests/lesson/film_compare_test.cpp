#include "base/statistics.h"
#include "lesson/film_at_hand.h"

using namespace cistern;
using namespace cistern::film;

TEST_CASE("Two counts of one slide are told apart no more often than chance allows", "[lesson]") {
    constexpr int pairs = 150;
    const TallyTruth truth = leftShift();
    int differ = 0;
    for (std::uint32_t i = 0; i < pairs; ++i)
        differ +=
            compare(tallyOf(truth, 2 * i, honest), tallyOf(truth, 2 * i + 1, honest)).chance < 0.05;
    // 5 % of 150 is 7.5, one error 2.7; three errors.
    CHECK(differ <= 7.5 + 3 * 2.7);
    const Namer blind = [](FilmCell truly, base::Chance&) {
        return truly == FilmCell::band ? FilmCell::segmented : truly;
    };
    int found = 0;
    for (std::uint32_t i = 0; i < 20; ++i)
        found += compare(tallyOf(truth, 2 * i, honest, inMonolayer, 200),
                         tallyOf(truth, 2 * i + 1, blind, inMonolayer, 200))
                     .chance < 0.05;
    CHECK(found >= 18); // 16 bands of 200 against none
}

TEST_CASE("The chance over all classes is that of exact tables", "[lesson]") {
    // With two classes the chi-square orders tables as Fisher's test does where both counts are of
    // one size: the chances agree but for the 10,000 deals (error 0.5 points at most).
    for (const auto& [one, other] : {std::pair{14, 9}, {3, 9}, {20, 22}, {0, 8}}) {
        const ClassCounts first{100 - one, one}, second{100 - other, other};
        const lesson::TallyComparison both = lesson::compare(first, second);
        CHECK(both.chance == Approx(base::fisherExact(one, 100, other, 100)).margin(0.02));
        CHECK(lesson::compare(first, second).chance == both.chance);
        REQUIRE(both.classes.size() == 2);
        CHECK(both.classes[1].chance == Approx(base::fisherExact(one, 100, other, 100)));
    }
    const auto same = lesson::compare(ClassCounts{60, 14, 0, 26}, ClassCounts{60, 14, 0, 26});
    CHECK(same.chance == 1);
    const auto bands = lesson::compare(ClassCounts{86, 14}, ClassCounts{91, 9});
    // fisher.test of 14, 86, 9, 91: 0.376, the hypergeometric sum; 1 / 0.376 is 2.7.
    CHECK(bands.classes[1].sentence ==
          "14 and 9 bands: two counts of 100 cells differ so much in about 1 of 3 pairs.");
    CHECK(contains(bands.sentence, "Chance alone"));
    CHECK(contains(lesson::compare(ClassCounts{100, 0}, ClassCounts{88, 12}).sentence,
                   "more than chance"));
    CHECK_THROWS_AS(lesson::compare(ClassCounts{}, ClassCounts{1}), std::invalid_argument);
    CHECK(lesson::compare(ClassCounts{90, 6, 4}, ClassCounts{90, 4, 6}, true).chance == 1);
}

TEST_CASE("Own count, machine, laboratory and truth stand side by side", "[lesson]") {
    FilmTally tally;
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 30);
    addMany(tally, FilmCell::lymphocyte, FilmCell::lymphocyte, 10);
    const auto own = lesson::column("you", tally);
    CHECK(own.cells == 40);
    CHECK(own.find(TallyClass::lymphocyte)->share == Approx(0.25));
    CHECK(own.find(TallyClass::lymphocyte)->count == 10);

    lab::Count machine;
    machine.neutrophils = 8;
    machine.lymphocytes = 1.5;
    machine.monocytes = 0.4;
    machine.eosinophils = 0.1;
    const auto counter = lesson::column("machine", machine);
    CHECK_FALSE(counter.cells);
    CHECK(counter.find(TallyClass::band) == counter.find(TallyClass::segmented)); // not parted
    CHECK(counter.find(TallyClass::band)->share == Approx(0.8));
    CHECK(counter.find(TallyClass::basophil) == nullptr);

    lab::Film film;
    film.cells = 200;
    film.kinds = {120, 20, 40, 16, 4};
    const auto laboratory = lesson::column("laboratory", film);
    CHECK(laboratory.cells == 200);
    CHECK(laboratory.find(TallyClass::metamyelocyte)->count == 20); // with bands
    CHECK(laboratory.find(TallyClass::segmented)->share == Approx(0.6));

    const auto truth = lesson::column("truth", leftShift(), true);
    CHECK(truth.find(TallyClass::metamyelocyte)->share == Approx(0.09));
    CHECK(lesson::column("empty", FilmTally()).entries.empty());
}
