#include "base/statistics.h"
#include "lesson/film_at_hand.h"

#include <boost/math/distributions/binomial.hpp>

#include <numeric>

using namespace cistern;
using namespace cistern::film;

namespace {

const lesson::ClassMark& markOf(const TallyMarks& marks, TallyClass kind) {
    for (const lesson::ClassMark& mark : marks.classes)
        if (mark.kind == kind) return mark;
    FAIL("no such class");
    return marks.classes.front();
}

} // namespace

TEST_CASE("The range of a fair tally holds the central 95 of a hundred", "[lesson]") {
    // "From 8 % a fair count gives 3 to 14": tails by an independent library.
    const boost::math::binomial eight(100, 0.08);
    CHECK(cdf(eight, 2) < 0.025);
    CHECK(cdf(eight, 3) > 0.025);
    CHECK(cdf(complement(eight, 14)) < 0.025);
    CHECK(cdf(complement(eight, 13)) > 0.025);
    FilmTally tally;
    addMany(tally, FilmCell::band, FilmCell::band, 14);
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 86);
    TallyTruth truth = leftShift();
    truth.share = {0.92, 0.08, 0, 0, 0, 0, 0};
    const TallyMarks marks = lesson::marks(tally, truth);
    const lesson::ClassMark& bands = markOf(marks, TallyClass::band);
    CHECK(bands.fair == std::pair(3, 14));
    CHECK(bands.points == 100);
    CHECK(bands.chance == Approx(2 * cdf(complement(eight, 13))).epsilon(1e-9));
    CHECK(bands.sentence == "You said 14 bands of 100; from 8 % a fair count gives 3 to 14 in 19 "
                            "of 20 tallies: nothing to object to.");
    CHECK(marks.total == Approx(100));
}

TEST_CASE("Honest tallies lie outside a class's limits one time in twenty, at no cost",
          "[lesson]") {
    constexpr int tallies = 2000;
    const TallyTruth truth = leftShift();
    TallyTruth elsewhere = truth; // the same cells, but none of them in the monolayer
    elsewhere.monolayer = {0, 1};
    std::array<int, lesson::tallyClassCount> outside{};
    double count = 0, harsh = 0, worst = 100;
    for (std::uint32_t i = 0; i < tallies; ++i) {
        const FilmTally tally = tallyOf(truth, i, honest);
        const TallyMarks marks = lesson::marks(tally, truth);
        for (const lesson::ClassMark& mark : marks.classes)
            outside[at(mark.kind)] += !mark.saidFair;
        count += marks.count / tallies;
        worst = std::min(worst, marks.total);
        harsh += lesson::marks(tally, elsewhere).count / tallies;
    }
    for (const TallyClass kind : lesson::tallyClasses(false)) {
        // Exact tails hold 5 % at most, whole numbers less; of 2000 one error is 9.7, three 29.
        INFO(name(kind) << ": " << outside[at(kind)] << " of " << tallies);
        CHECK(outside[at(kind)] <= 0.05 * tallies + 3 * 9.7);
    }
    CHECK(std::accumulate(outside.begin(), outside.end(), 0) > 0.01 * tallies);
    INFO("mean of the count mark " << count << ", without allowance for luck " << harsh);
    CHECK(count == Approx(100)); // luck costs nothing at all
    CHECK(worst == Approx(100));
    CHECK(harsh > 95);  // nor much where the reader chose the place
    CHECK(harsh < 100); // but it is another scale
}

TEST_CASE("Calling bands segmented is marked down", "[lesson]") {
    constexpr int tallies = 1000;
    const TallyTruth truth = leftShift();
    const Namer blind = [](FilmCell truly, base::Chance&) {
        return truly == FilmCell::band ? FilmCell::segmented : truly;
    };
    int counted = 0, named = 0;
    for (std::uint32_t i = 0; i < tallies; ++i) {
        const TallyMarks marks = lesson::marks(tallyOf(truth, i, blind), truth);
        counted += marks.count < 70;
        named += marks.naming < 90;
        CHECK(markOf(marks, TallyClass::band).said == 0);
    }
    INFO(counted << " by the count, " << named << " by the names, of " << tallies);
    CHECK(counted > 0.9 * tallies);
    CHECK(named > 0.9 * tallies);
}

TEST_CASE("A slip in fifty costs little, one name for all costs everything", "[lesson]") {
    constexpr int tallies = 300;
    const TallyTruth truth = leftShift();
    double careful = 0, lazy = 0;
    const Namer slips = [](FilmCell truly, base::Chance& chance) {
        return chance.uniform() < 0.02 ? met(leftShift().share, chance) : truly;
    };
    const Namer all = [](FilmCell, base::Chance&) { return FilmCell::segmented; };
    for (std::uint32_t i = 0; i < tallies; ++i) {
        careful += lesson::marks(tallyOf(truth, i, slips), truth).total / tallies;
        lazy += lesson::marks(tallyOf(truth, i, all), truth).total / tallies;
    }
    INFO("careful " << careful << ", lazy " << lazy);
    CHECK(careful > 96);
    CHECK(lazy < 35); // the monolayer alone is worth 20
}

TEST_CASE("Doubtful cells are right either way and widen what is fair", "[lesson]") {
    TallyTruth truth = leftShift();
    truth.share = {0.90, 0.10, 0, 0, 0, 0, 0};
    truth.unsure = {0.06, 0.06, 0, 0, 0, 0, 0};
    FilmTally tally;
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 84);
    addMany(tally, FilmCell::segmented, FilmCell::band, 6, true);
    addMany(tally, FilmCell::band, FilmCell::band, 10);
    const TallyMarks marks = lesson::marks(tally, truth);
    CHECK(marks.right == 100);
    CHECK(marks.doubtful == 6);
    CHECK(marks.confusions.empty());
    // 4 % at the least and 16 % at the most may be called bands.
    CHECK(markOf(marks, TallyClass::band).fair ==
          std::pair(base::binomialRange(100, 0.04, 0.95).first,
                    base::binomialRange(100, 0.16, 0.95).second));
    FilmTally wrong;
    addMany(wrong, FilmCell::segmented, FilmCell::monocyte, 1, true);
    CHECK(lesson::marks(wrong, truth).right == 0); // doubtful, but never that
}

TEST_CASE("A reader at the feathered edge is told of the place, not of luck", "[lesson]") {
    TallyTruth truth = leftShift();
    FilmTally edge, middle;
    for (auto [tally, x] : {std::pair{&edge, atEdge}, {&middle, inMonolayer}}) {
        addMany(*tally, FilmCell::segmented, FilmCell::segmented, 60, false, x);
        addMany(*tally, FilmCell::band, FilmCell::band, 8, false, x);
        addMany(*tally, FilmCell::lymphocyte, FilmCell::lymphocyte, 14, false, x);
        addMany(*tally, FilmCell::monocyte, FilmCell::monocyte, 18, false, x); // of 5 %
    }
    const TallyMarks there = lesson::marks(edge, truth), here = lesson::marks(middle, truth);
    CHECK(there.outside == 100);
    CHECK(there.area == 0);
    CHECK(here.area == 100);
    const lesson::ClassMark& far = markOf(there, TallyClass::monocyte);
    const lesson::ClassMark& luck = markOf(here, TallyClass::monocyte);
    CHECK_FALSE(far.metFair);
    CHECK(far.points == 0);
    CHECK(luck.points == 100);
    CHECK(contains(far.sentence, "outside the monolayer cells gather"));
    CHECK(contains(luck.sentence, "luck, which costs nothing"));
    CHECK(contains(there.sentences[1], "100 of 100 white cells were counted outside"));
    CHECK(there.naming == 100);
}

TEST_CASE("Confusions are told most frequent first, with what tells the two apart", "[lesson]") {
    FilmTally tally;
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 60);
    addMany(tally, FilmCell::monocyte, FilmCell::band, 2);
    addMany(tally, FilmCell::band, FilmCell::segmented, 5);
    addMany(tally, FilmCell::nucleatedRed, FilmCell::lymphocyte, 3);
    addMany(tally, FilmCell::reactiveLymphocyte, FilmCell::lymphocyte, 4); // one class
    addMany(tally, FilmCell::platelet, FilmCell::smudge, 1);
    const TallyMarks marks = lesson::marks(tally, leftShift());
    REQUIRE(marks.confusions.size() == 4);
    CHECK(marks.confusions[0].said == FilmCell::segmented);
    CHECK(marks.confusions[0].truly == FilmCell::band);
    CHECK(marks.confusions[0].times == 5);
    CHECK(contains(marks.confusions[0].apart, "parallel sides"));
    CHECK(contains(marks.confusions[1].apart, "almost black nucleus"));
    CHECK(contains(marks.confusions[2].apart, "lacy"));
    CHECK(marks.right == 64);
    CHECK(marks.told == 75);
    CHECK_THROWS_AS(lesson::marks(FilmTally(), leftShift()), std::invalid_argument);
}
