// What an animal's state and its tube put on a slide.
#include "lab/film/making.h"
#include "lab/film/track.h"
#include "real_bench.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace cistern;
using body::Kind;
using body::RedSign;
using lab::FilmCell;

namespace {

const lab::FilmLaws& laws() {
    return *real::bench().film;
}

lab::FilmBlood healthy(Kind kind) {
    lab::FilmBlood from;
    from.blood = real::blood(kind);
    return from;
}

lab::Slide slide(const lab::FilmBlood& from, std::uint32_t day = 1, std::uint64_t seed = 7) {
    base::Chance animal(seed, base::Purpose::test, 1), today(seed, base::Purpose::test, 0, day);
    lab::Slide made = lab::made(laws(), from, animal, today);
    lab::validate(made);
    return made;
}

double sum(const lab::Slide& slide, bool (*of)(FilmCell)) {
    double all = 0;
    for (const FilmCell cell : lab::filmCells())
        if (of(cell)) all += slide.of(cell);
    return all;
}
bool white(FilmCell cell) {
    return lab::isWhite(cell) || cell == FilmCell::smudge;
}

} // namespace

TEST_CASE("The film of a healthy animal is clean", "[lab]") {
    const Kind kind = GENERATE(Kind::dog, Kind::cat);
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const lab::Slide film = slide(healthy(kind), 1, seed);
        const double odd = sum(film, lab::isRed) - film.of(FilmCell::polychromatophil);
        CHECK(odd < 0.005); // of red cells: fewer than are told of any film
        CHECK(film.of(FilmCell::metamyelocyte) == 0);
        CHECK(film.of(FilmCell::smudge) < 0.02);
        CHECK(film.agglutinated + film.clumps + film.aged + film.toxic + film.nucleated == 0);
        CHECK(film.redDiameter == Approx(1));
        // Harvey (from memory): Howell-Jolly bodies in up to 1 % of a cat's red cells, Heinz bodies
        // in 1 to 5 %; rows are mild in cats, and dogs show hardly any of these.
        CHECK(film.howellJolly <= (kind == Kind::cat ? 0.01 : 0.002));
        CHECK(film.heinz <= (kind == Kind::cat ? 0.05 : 0));
        if (kind == Kind::cat) CHECK(film.heinz >= 0.005);
        CHECK(film.rouleaux <= (kind == Kind::cat ? 0.15 : 0.03));
    }
}

TEST_CASE("What the laboratory counts is what lies on the slide", "[lab]") {
    lab::FilmBlood from = healthy(Kind::dog);
    from.blood.white = {5, 5, 1, 0.5, 2};
    from.blood.reticulocytes = 325; // of 6.5 10*12/L: 5 %
    from.blood.wear.whiteLost = 0.2;
    from.blood.wear.redLost = 0.03;
    from.blood.wear.plateletsLost = 0.1;
    from.blood.wear.clumped = 0.4;
    from.blood.wear.clumpSize = 20;
    const lab::Slide film = slide(from);
    CHECK(film.of(FilmCell::polychromatophil) == Approx(0.05));
    CHECK(film.red == Approx(0.97 * 6.5));
    CHECK(film.white == Approx(0.8 * 13.5));
    CHECK(film.platelets + film.clumps * film.clumpSize == Approx(0.9 * from.blood.platelets));
    CHECK(film.platelets == Approx(0.6 * 0.9 * from.blood.platelets));
    CHECK(sum(film, white) == Approx(1));
    const double told = 1 - film.of(FilmCell::smudge);
    CHECK(film.of(FilmCell::segmented) / told == Approx(5 / 13.5));
    CHECK((film.of(FilmCell::band) + film.of(FilmCell::metamyelocyte)) / told == Approx(5 / 13.5));
    CHECK((film.of(FilmCell::eosinophil) + film.of(FilmCell::basophil)) / told == Approx(2 / 13.5));
    CHECK((film.of(FilmCell::lymphocyte) + film.of(FilmCell::reactiveLymphocyte)) / told ==
          Approx(1 / 13.5));
    CHECK(film.of(FilmCell::smudge) > slide(healthy(Kind::dog)).of(FilmCell::smudge));
    lab::FilmBlood none = healthy(Kind::cat);
    none.blood.white = {};
    none.blood.red = none.blood.reticulocytes = 0;
    CHECK(sum(slide(none), white) == 0);
}

TEST_CASE("Red cells show how they were filled and how fast they are made", "[lab]") {
    lab::FilmBlood small = healthy(Kind::dog);
    small.volume = 8. / 27;
    CHECK(slide(small).redDiameter == Approx(2. / 3)); // the shape is kept: a cube root

    lab::FilmBlood pale = healthy(Kind::dog);
    pale.filling = 0.96; // days and animals differ by so much
    CHECK(slide(pale).of(FilmCell::hypochromic) == 0);
    pale.filling = 0.75;
    const lab::Slide empty = slide(pale);
    CHECK(empty.of(FilmCell::hypochromic) > 0.8);
    CHECK(empty.of(FilmCell::schistocyte) > 0.02);
    CHECK(empty.of(FilmCell::keratocyte) > 0.02);

    lab::FilmBlood young = healthy(Kind::dog);
    young.blood.red = 2.5;
    young.blood.reticulocytes = 500;
    const lab::Slide made = slide(young), usual = slide(healthy(Kind::dog));
    CHECK(made.redSpread > 1.5 * usual.redSpread);
    // Chosen: a body in one of twenty young cells.
    CHECK(made.howellJolly == Approx(0.05 * 0.2).margin(0.001));
    CHECK(made.of(FilmCell::target) > usual.of(FilmCell::target));
}

TEST_CASE("Other organs and proteins leave their marks on red cells", "[lab]") {
    const lab::Slide usual = slide(healthy(Kind::dog));
    lab::FilmBlood from = healthy(Kind::dog);
    from.liverWork = 0;
    CHECK(slide(from).of(FilmCell::acanthocyte) > 0.03);
    from = healthy(Kind::dog);
    from.cholesterol = 2;
    CHECK(slide(from).of(FilmCell::target) > usual.of(FilmCell::target) + 0.02);
    from = healthy(Kind::dog);
    from.urea = 60;
    CHECK(slide(from).of(FilmCell::echinocyte) > 0.05);
    from = healthy(Kind::dog);
    from.proteinExcess = 1;
    CHECK(slide(from).rouleaux > usual.rouleaux + 0.3);
    from.proteinExcess = 100;
    CHECK(slide(from).rouleaux < 1);
}

TEST_CASE("The tube and the wait leave theirs", "[lab]") {
    lab::FilmBlood from = healthy(Kind::dog);
    from.edtaExcess = 1; // half full
    CHECK(slide(from).of(FilmCell::echinocyte) == Approx(1 - std::exp(-0.16)));
    double before = -1, smudges = 0, swollen = -1;
    for (const double hours : {0.5, 3., 8., 24.}) {
        from = healthy(Kind::dog);
        from.blood.wear.hours = hours;
        const lab::Slide film = slide(from);
        CHECK(film.aged > before);
        CHECK(film.of(FilmCell::smudge) >= smudges);
        CHECK(film.hypersegmented >= swollen);
        before = film.aged, smudges = film.of(FilmCell::smudge), swollen = film.hypersegmented;
    }
    CHECK(before > 0.9); // a day on the cells
    from.blood.wear.packing = 1.1;
    CHECK(slide(from).redDiameter == Approx(std::cbrt(1.1)));
}

TEST_CASE("Neutrophils and lymphocytes tell of steroids, infection and age", "[lab]") {
    lab::FilmBlood from = healthy(Kind::dog);
    CHECK(slide(from).drumstick == 0);
    from.female = true;
    CHECK(slide(from).drumstick > 0.01);
    from.lymphocytes = 0.2;
    const double kept = slide(from).hypersegmented;
    CHECK(kept > 0.1);
    from.blood.white = {2, 6, 0.4, 0.5, 0.1}; // bands: it is no steroid
    from.blood.toxic = 0.5;
    const lab::Slide shifted = slide(from);
    CHECK(shifted.hypersegmented < kept / 3);
    CHECK(shifted.of(FilmCell::metamyelocyte) > 0.1);
    CHECK(shifted.toxic == 0.5);
    const double grade = shifted.toxicGrade;
    from.blood.toxic = 0.9;
    CHECK(slide(from).toxicGrade > grade);
    const auto reactive = [](const lab::FilmBlood& of) {
        const lab::Slide film = slide(of);
        return film.of(FilmCell::reactiveLymphocyte) / film.of(FilmCell::lymphocyte);
    };
    lab::FilmBlood young = healthy(Kind::dog), ill = healthy(Kind::dog);
    young.age = 2000; // h: twelve weeks
    ill.acutePhase = 2;
    CHECK(reactive(young) > 2 * reactive(healthy(Kind::dog)));
    CHECK(reactive(ill) > 2 * reactive(healthy(Kind::dog)));
    lab::FilmBlood few = healthy(Kind::dog);
    few.platelets = 0.1;
    CHECK(slide(few).largePlatelets > slide(healthy(Kind::dog)).largePlatelets + 0.1);
}

TEST_CASE("What a case says of red cells lies on the slide, and shares stay shares", "[lab]") {
    lab::FilmBlood from = healthy(Kind::dog);
    from.signs.of(RedSign::spherocytes) = 0.25;
    from.signs.of(RedSign::agglutinated) = 0.15;
    from.signs.of(RedSign::heinz) = 0.3;
    const lab::Slide film = slide(from);
    CHECK(film.of(FilmCell::spherocyte) == Approx(0.25));
    CHECK(film.agglutinated == Approx(0.15));
    CHECK(film.heinz == Approx(0.3));
    for (const RedSign sign : body::redSigns()) from.signs.of(sign) = 1;
    from.filling = 0.5;
    const lab::Slide all = slide(from); // is valid
    CHECK(sum(all, lab::isRed) <= 1 + 1e-12);
    CHECK(all.of(FilmCell::polychromatophil) ==
          Approx(slide(healthy(Kind::dog)).of(FilmCell::polychromatophil)));
    CHECK(all.rouleaux + all.agglutinated <= 1);
}

TEST_CASE("Signs grow with an illness and fade after it", "[lab]") {
    const auto shown = [](double hour) { return lab::signsShown(laws().red, -96, 0, hour); };
    CHECK(shown(-100) == 0);
    CHECK(shown(-96) == 0);
    CHECK(shown(-72) == Approx(1 - std::exp(-1))); // one time constant, 24 h
    CHECK(shown(0) == Approx(1 - std::exp(-4)));
    CHECK(shown(120) == Approx(shown(0) / 2)); // five days
}

TEST_CASE("Days differ: some films are too thick, dirty, wet or badly stained", "[lab]") {
    constexpr std::uint32_t films = 4000;
    int dirty = 0, wet = 0, wrong = 0;
    double logs = 0, squares = 0;
    std::set<std::uint64_t> seeds;
    const lab::Slide first = slide(healthy(Kind::cat), 0);
    for (std::uint32_t day = 0; day < films; ++day) {
        const lab::Slide film = slide(healthy(Kind::cat), day);
        dirty += film.precipitate > 0;
        wet += film.water > 0;
        wrong += film.stain.blue > 1.25 || film.stain.blue < 0.8;
        CHECK(film.drag >= 0.2);
        CHECK(film.drag <= 0.8);
        CHECK(film.heinz == first.heinz); // the animal's own
        const double log = std::log(film.thickness);
        logs += log;
        squares += log * log;
        seeds.insert(film.seed);
    }
    // As assets/film.yaml says; four standard errors of a share of 4000.
    const auto near = [](double share) {
        return Approx(share).margin(4 * std::sqrt(share / films));
    };
    CHECK(dirty / double{films} == near(0.125));
    CHECK(wet / double{films} == near(0.125));
    CHECK(wrong / double{films} == near(0.08));
    CHECK(logs / films == Approx(0).margin(4 * 0.1 / std::sqrt(films)));
    CHECK(std::sqrt(squares / films) == Approx(0.1).epsilon(0.05)); // cut at 2.5: 2 % less
    CHECK(seeds.size() == films);
}

TEST_CASE("Fields of a film follow one another without meeting", "[lab]") {
    const lab::Slide film = slide(healthy(Kind::dog));
    for (const lab::FilmArea area :
         {lab::FilmArea::edge, lab::FilmArea::monolayer, lab::FilmArea::body})
        for (const double size : {120., 240., 1200.}) {
            const auto fields = lab::track(film, area, size, size);
            const lab::Reach within = lab::reach(film, area);
            REQUIRE_FALSE(fields.empty());
            for (std::size_t i = 0; i < fields.size(); ++i) {
                const lab::FilmField& one = fields[i];
                CHECK(one.top >= 0);
                CHECK(one.top + one.height <= lab::filmWidth);
                if (within.length() >= size) {
                    CHECK(one.left >= within.from - 1e-9);
                    CHECK(one.left + size <= within.to + 1e-9);
                }
                if (i == 0) continue; // the next one lies beside it
                const double apart =
                    std::abs(one.left - fields[i - 1].left) + std::abs(one.top - fields[i - 1].top);
                CHECK(apart == Approx(size).margin(1e-6));
            }
            std::set<std::pair<long, long>> places;
            for (const lab::FilmField& one : fields)
                places.emplace(std::lround(one.left), std::lround(one.top));
            CHECK(places.size() == fields.size());
        }
    CHECK_THROWS_AS(lab::track(film, lab::FilmArea::body, 0, 100), std::invalid_argument);
}
