#include "lesson/film_at_hand.h"

using namespace cistern;
using namespace cistern::film;

namespace {

std::string faultOf(const std::function<void()>& act) {
    try {
        act();
    } catch (const std::invalid_argument& fault) {
        return fault.what();
    }
    return "";
}

} // namespace

TEST_CASE("A tally ends at a hundred, counts no cell twice and takes the last one back",
          "[lesson]") {
    FilmTally tally;
    CHECK(tally.add({FilmCell::band, FilmCell::band, false, 7, 0, 0}).empty());
    CHECK(tally.add({FilmCell::band, FilmCell::segmented, false, 7, 0, 0}) ==
          "This cell was counted already.");
    CHECK(contains(tally.add({FilmCell::platelet, FilmCell::platelet, false, 8, 0, 0}),
                   "no place for this: platelet"));
    CHECK(tally.takeBack()->cell == 7);
    CHECK_FALSE(tally.has(7));
    CHECK_FALSE(tally.takeBack());
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 99);
    addMany(tally, FilmCell::nucleatedRed, FilmCell::nucleatedRed, 7); // beside the hundred
    addMany(tally, FilmCell::smudge, FilmCell::smudge, 4);             // passed over
    CHECK(tally.counted() == 99);
    addMany(tally, FilmCell::reactiveLymphocyte, FilmCell::reactiveLymphocyte, 1);
    CHECK(tally.full());
    CHECK(tally.counts()[at(TallyClass::lymphocyte)] == 1);
    CHECK(tally.reactive() == 1);
    CHECK(tally.nucleatedPer100() == Approx(7));
    CHECK(tally.passedOver() == 4);
    CHECK(contains(tally.add({FilmCell::band, FilmCell::band, false, 5, 0, 0}), "go on to 200"));
    tally.goOn();
    CHECK(tally.add({FilmCell::band, FilmCell::band, false, 5, 0, 0}).empty());
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 99);
    CHECK(tally.add({FilmCell::band, FilmCell::band, false, 6, 0, 0}) ==
          "The tally is full at 200 white cells: take one back.");
    CHECK_THROWS_AS(FilmTally(50), std::invalid_argument);
}

TEST_CASE("Metamyelocytes are a class of their own, or joined with bands", "[lesson]") {
    FilmTally tally;
    addMany(tally, FilmCell::band, FilmCell::band, 3);
    addMany(tally, FilmCell::metamyelocyte, FilmCell::metamyelocyte, 2);
    CHECK(tally.lines().size() == 7);
    CHECK(tally.lines()[1].count == 3);
    tally.join(true);
    REQUIRE(tally.lines().size() == 6);
    CHECK(tally.lines()[1].count == 5);
    CHECK(tally.lines()[1].name == "bands and younger");
    // Joined, one called the other is no mistake.
    addMany(tally, FilmCell::metamyelocyte, FilmCell::band, 1);
    TallyTruth truth = leftShift();
    CHECK(lesson::marks(tally, truth).right == 6);
    tally.join(false);
    CHECK(lesson::marks(tally, truth).right == 5);
}

TEST_CASE("A tally prints shares, exact limits and absolute numbers", "[lesson]") {
    FilmTally tally;
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 50);
    addMany(tally, FilmCell::band, FilmCell::band, 5);
    addMany(tally, FilmCell::lymphocyte, FilmCell::lymphocyte, 45);
    const auto lines = tally.lines(12.0);
    // Clopper and Pearson, and the printed table (Ruemke 1985, from memory) of 50 and 5 of 100.
    CHECK(lines[0].exact.first == Approx(39.83).margin(0.0051));
    CHECK(lines[0].exact.second == Approx(60.17).margin(0.0051));
    CHECK(lines[0].printed == std::pair(39, 61));
    CHECK(lines[1].printed == std::pair(1, 12));
    CHECK(lines[6].printed == std::pair(0, 4)); // basophils: none of a hundred
    CHECK(*lines[0].absolute == Approx(6.0));
    CHECK(lines[1].percent == 5);
    CHECK_FALSE(tally.lines()[0].absolute);
    CHECK(FilmTally().lines().empty());
}

TEST_CASE("Nucleated red cells are taken off the white count above five per hundred", "[lesson]") {
    FilmTally tally;
    addMany(tally, FilmCell::segmented, FilmCell::segmented, 50);
    addMany(tally, FilmCell::nucleatedRed, FilmCell::nucleatedRed, 2); // 4 per 100
    CHECK(tally.corrected(12) == 12);
    addMany(tally, FilmCell::nucleatedRed, FilmCell::nucleatedRed, 8); // 20 per 100
    CHECK(tally.corrected(12) == Approx(10)); // 12 x 100 / 120, eClinPath's rule
    CHECK(*tally.lines(12.)[0].absolute == Approx(10));
}

TEST_CASE("The truth of a slide is its white cells without smudges", "[lesson]") {
    lab::Slide slide;
    slide.kind = body::Kind::cat;
    slide.nucleated = 3;
    slide.doubtful = 0.5;
    slide.of(FilmCell::segmented) = 0.4;
    slide.of(FilmCell::band) = 0.1;
    slide.of(FilmCell::lymphocyte) = 0.2;
    slide.of(FilmCell::reactiveLymphocyte) = 0.1;
    slide.of(FilmCell::smudge) = 0.2;
    slide.of(FilmCell::discocyte) = 0.9; // a share of red cells
    const TallyTruth truth = lesson::tallyTruth(slide, {4000, 9000});
    CHECK(truth.share[at(TallyClass::segmented)] == Approx(0.5));
    CHECK(truth.share[at(TallyClass::band)] == Approx(0.125));
    CHECK(truth.share[at(TallyClass::lymphocyte)] == Approx(0.375));
    // Half of the bands, and as many segmented, may be called either.
    CHECK(truth.unsure[at(TallyClass::band)] == Approx(0.0625));
    CHECK(truth.unsure[at(TallyClass::segmented)] == Approx(0.0625));
    CHECK(truth.unsure[at(TallyClass::lymphocyte)] == 0);
    CHECK(truth.nucleated == 3);
    CHECK(truth.kind == body::Kind::cat);
    CHECK(truth.monolayer.to == 9000);
    CHECK(lesson::tallyTruth(lab::Slide{}, {0, 1}).share == ClassShares{});
}

TEST_CASE("Keys of the tally are kept as text, and faults are told in a sentence", "[lesson]") {
    lesson::TallyKeys keys;
    validate(keys);
    CHECK(keys.of(FilmCell::segmented) == '1');
    CHECK(keys.said('5') == FilmCell::reactiveLymphocyte);
    CHECK_FALSE(keys.said('x'));
    CHECK_FALSE(keys.said('\0'));
    CHECK(keys.of(FilmCell::platelet) == '\0');
    keys.key = {'s', 'b', 'm', 'l', 'r', 'o', 'e', 'p', 'n', '0'};
    CHECK(keys.said('S') == FilmCell::segmented);
    CHECK(lesson::tallyKeys(toText(keys)) == keys);
    CHECK(toText(keys) == "segmented=s band=b metamyelocyte=m lymphocyte=l reactive=r monocyte=o "
                          "eosinophil=e basophil=p nucleated=n smudge=0");
    keys.key[1] = 'S';
    CHECK(faultOf([&] { validate(keys); }) ==
          "Keys of the tally: \"segmented\" and \"band\" have the same key, s.");
    keys.key[1] = '+';
    CHECK(faultOf([&] { validate(keys); }) ==
          "Keys of the tally: the key for \"band\" must be a letter a to z or a digit.");
    const std::string text = toText(lesson::TallyKeys{});
    const auto without = [&](std::string_view part, std::string_view instead) {
        std::string changed = text;
        return changed.replace(changed.find(part), part.size(), instead);
    };
    const auto says = [&](std::string_view part, std::string_view instead) {
        return faultOf([&] { lesson::tallyKeys(without(part, instead)); });
    };
    CHECK(contains(says("smudge=0", ""), "\"smudge\" has no key"));
    CHECK(contains(says("band=2", "band=22"), "\"band=22\" should be a name, = and one key"));
    CHECK(contains(says("band=2", "band"), "should be a name, = and one key"));
    CHECK(contains(says("band=2", "bnad=2"), "did you mean \"band\"?"));
    CHECK(contains(says("band=2", "band=2 band=x"), "\"band\" is given twice"));
    CHECK(contains(says("band=2", "band=1"), "have the same key, 1"));
}
