// Slides of the shipped cases, and what a case says of its film.
#include "at_hand.h"

#include <catch2/catch.hpp>

using namespace cistern;
using body::RedSign;
using lab::FilmCell;

namespace {

std::vector<lesson::Case> shipped() {
    std::vector<lesson::Case> all;
    for (const std::string& path : base::Disk().list(CISTERN_SOURCE "/scenarios", ".yaml"))
        all.push_back(scenario::readCase(base::Disk(), path, test::assets().knowledge));
    return all;
}

/// The reports of all draws, with these tests or the case's own.
std::vector<lab::Report> reports(const lesson::Case& one, const lesson::Knowledge& knowledge,
                                 const std::vector<std::string>& tests = {}) {
    std::vector<lab::Report> all;
    const body::Individual animal = lesson::patient(one, knowledge);
    for (std::size_t d = 0; d < one.draws.size(); ++d) {
        const auto& asked = tests.empty() ? one.draws[d].tests : tests;
        const auto truth =
            lesson::atDraws(one, knowledge, lesson::partsFor(asked, knowledge.bench, one.who.kind));
        all.push_back(lesson::report(one, knowledge, animal, truth[d], d, asked));
    }
    return all;
}

lesson::Case withInsult(const std::string& insult) {
    test::Memory memory;
    memory.texts["a.yaml"] = "cistern: 1\ntitle: A case\n"
                             "patient: {species: dog, age: 5 y, weight: 18 kg, seed: 1}\n"
                             "insults: [" +
                             insult +
                             "]\n"
                             "draws: [{at: 0 h, tests: [blood count]}]\n";
    return scenario::readCase(memory, "a.yaml", test::assets().knowledge);
}

} // namespace

TEST_CASE("every draw of every shipped case makes a sound slide", "[scenario]") {
    for (const lesson::Case& one : shipped())
        for (const lab::Report& report :
             reports(one, test::assets().knowledge, {"blood count", "film"})) {
            INFO(one.name << " " << report.specimen.id);
            REQUIRE(report.blood);
            const lab::Slide& slide = report.blood->slide;
            CHECK_NOTHROW(lab::validate(slide));
            CHECK(slide.kind == one.who.kind);
            CHECK(slide.red > 1);
            CHECK(slide.white > 0.1);
            double told = 0;
            for (const FilmCell cell : lab::filmCells())
                if (lab::isWhite(cell) || cell == FilmCell::smudge) told += slide.of(cell);
            CHECK(told == Approx(1));
            CHECK(slide.thickness > 0.7);
            CHECK(slide.thickness < 1.4);
            CHECK(slide.redDiameter > 0.8);
            CHECK(slide.redDiameter < 1.2);
        }
}

TEST_CASE("which tests are asked for changes no slide", "[scenario]") {
    for (const lesson::Case& one : shipped()) {
        INFO(one.name);
        const auto few = reports(one, test::assets().knowledge, {"blood count"});
        const auto many = reports(one, test::assets().knowledge,
                                  {"chemistry", "film", "blood count", "clotting", "bile acids"});
        for (std::size_t d = 0; d < few.size(); ++d)
            CHECK(few[d].blood->slide == many[d].blood->slide);
    }
}

TEST_CASE("making slides changes no result", "[scenario]") {
    lesson::Knowledge without = test::assets().knowledge;
    without.bench.film.reset();
    for (const lesson::Case& one : shipped()) {
        INFO(one.name);
        const auto with = reports(one, test::assets().knowledge), plain = reports(one, without);
        for (std::size_t d = 0; d < with.size(); ++d) {
            REQUIRE(with[d].results.size() == plain[d].results.size());
            for (std::size_t i = 0; i < with[d].results.size(); ++i)
                CHECK(with[d].results[i].value == plain[d].results[i].value);
            CHECK(with[d].warnings == plain[d].warnings);
        }
    }
}

TEST_CASE("yellow and pale shows what its answer speaks of: spherocytes and clumps", "[scenario]") {
    const lesson::Case one = scenario::readCase(
        base::Disk(), CISTERN_SOURCE "/scenarios/yellow_and_pale.yaml", test::assets().knowledge);
    const auto films = reports(one, test::assets().knowledge);
    const lab::Slide &now = films[0].blood->slide, &later = films[1].blood->slide;
    CHECK(now.of(FilmCell::spherocyte) > 0.2);
    CHECK(now.agglutinated > 0.1);
    CHECK(later.of(FilmCell::spherocyte) < now.of(FilmCell::spherocyte));
    CHECK(later.of(FilmCell::polychromatophil) > 2 * now.of(FilmCell::polychromatophil));
}

TEST_CASE("what a case's tubes and animals went through lies on their slides", "[scenario]") {
    const auto slideOf = [](const std::string& name, std::size_t draw) {
        const lesson::Case one = scenario::readCase(
            base::Disk(), CISTERN_SOURCE "/scenarios/" + name + ".yaml", test::assets().knowledge);
        return reports(one, test::assets().knowledge, {"blood count"})[draw].blood->slide;
    };
    // A thimble of blood in a big tube of EDTA; clumped platelets; a store of neutrophils that is
    // spent; a liver of which an eighth is left.
    CHECK(slideOf("a_thimble_in_a_big_tube", 0).of(FilmCell::echinocyte) > 0.3);
    CHECK(slideOf("thirty_eight", 0).clumps > 5);
    CHECK(slideOf("thirty_eight", 1).clumps == 0);
    const lab::Slide spent = slideOf("an_ordinary_total", 0);
    CHECK(spent.of(FilmCell::metamyelocyte) > 0.05);
    CHECK(spent.toxic > 0.2);
    CHECK(slideOf("no_smoke_from_the_chimney", 0).of(FilmCell::acanthocyte) > 0.03);
}

TEST_CASE("a case says what an insult leaves on red cells", "[scenario]") {
    const lesson::Case one = withInsult("{insult: hemolysis, severity: 9 %, from: -48 h, to: 0 h, "
                                        "film: {Heinz bodies: 30 %, keratocytes: 4 %}}");
    const body::RedSigns& film = one.insults[0].film;
    CHECK(film.of(RedSign::heinz) == Approx(0.3));
    CHECK(film.of(RedSign::keratocytes) == Approx(0.04));
    CHECK(film.of(RedSign::spherocytes) == 0);
    const lab::FilmLaws& laws = *test::assets().knowledge.bench.film;
    CHECK(lesson::redSigns(one, laws, 0).of(RedSign::heinz) ==
          Approx(0.3 * lab::signsShown(laws.red, -48, 0, 0)));
    const lab::Slide slide = reports(one, test::assets().knowledge)[0].blood->slide;
    CHECK(slide.heinz == Approx(lesson::redSigns(one, laws, 0).of(RedSign::heinz)));
    // Two that know nothing of one another.
    const std::string half = "{insult: hemolysis, severity: 5 %, from: -9 wk, to: 0 h, "
                             "film: {target cells: 50 %}}";
    CHECK(lesson::redSigns(withInsult(half + ", " + half), laws, 0).of(RedSign::targets) ==
          Approx(0.75).margin(1e-9));
    CHECK(lesson::redSigns(withInsult(""), laws, 0).of(RedSign::targets) == 0);
}
