#include "lab/film/slide.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

using namespace cistern;
using body::Kind;
using lab::FilmArea;
using lab::FilmCell;
using lab::Slide;

namespace {

Slide blood(Kind kind, double red) {
    Slide slide;
    slide.kind = kind;
    slide.red = red;
    slide.white = 10;
    slide.of(FilmCell::segmented) = 0.7;
    slide.of(FilmCell::lymphocyte) = 0.3;
    return slide;
}

double length(const Slide& slide, FilmArea area) {
    return lab::reach(slide, area).length();
}

} // namespace

TEST_CASE("A film is a wedge from its feathered edge", "[lab]") {
    const Slide slide = blood(Kind::dog, 7);
    // Chosen so that fields hold what is derived from their volume; by eye elsewhere.
    CHECK(lab::meanThickness(slide, 300) == Approx(0.45).margin(0.1));
    CHECK(lab::meanThickness(slide, 1500) == Approx(1.0).margin(0.05));
    CHECK(lab::meanThickness(slide, 2200) > 1.2);
    CHECK(lab::meanThickness(slide, 6000) < 2.0);
    CHECK(lab::meanThickness(slide, 14000) > 5);
    CHECK(lab::meanThickness(slide, 30000) < 6.7);
    double before = 0;
    for (double x = 200; x < lab::filmLength; x += 50) {
        const double here = lab::meanThickness(slide, x);
        CHECK(here > before);
        before = here;
    }
    Slide thick = slide;
    thick.thickness = 1.5;
    CHECK(lab::meanThickness(thick, 5000) == Approx(1.5 * lab::meanThickness(slide, 5000)));
}

TEST_CASE("A film is uneven by a twentieth, thins out to its sides and ends there", "[lab]") {
    const Slide slide = blood(Kind::dog, 7);
    double sum = 0, least = 9, most = 0;
    int places = 0;
    for (double y = 2000; y < 16000; y += 37) {
        const double share = lab::thickness(slide, 5000, y) / lab::meanThickness(slide, 5000);
        sum += share;
        least = std::min(least, share);
        most = std::max(most, share);
        ++places;
    }
    // About 80 bumps across, each within 5 %: their mean is known to half a percent.
    CHECK(sum / places == Approx(1).margin(0.01));
    CHECK(least > 0.95);
    CHECK(least < 0.98);
    CHECK(most < 1.05);
    CHECK(most > 1.02);
    CHECK(lab::thickness(slide, 5000, 400) < 0.8 * lab::thickness(slide, 5000, 3000));
    CHECK(lab::thickness(slide, 5000, 17600) < 0.8 * lab::thickness(slide, 5000, 3000));
    for (const auto& [x, y] :
         {std::pair(-1., 9000.), std::pair(30001., 9000.), std::pair(5000., -1.),
          std::pair(5000., 18001.), std::pair(std::nan(""), 9000.)})
        CHECK(lab::thickness(slide, x, y) == 0);
    // The tip wavers: at 150 um some of it is film and some is glass.
    int film = 0, glass = 0;
    for (double y = 2000; y < 16000; y += 37)
        (lab::thickness(slide, 150, y) > 0 ? film : glass) += 1;
    CHECK(film > 20);
    CHECK(glass > 20);
    // No step anywhere else: a micrometer further on it is the same to a thousandth.
    for (double x = 500; x < 29000; x += 777)
        CHECK(lab::thickness(slide, x + 1, 9000) ==
              Approx(lab::thickness(slide, x, 9000)).epsilon(0.004));
}

TEST_CASE("Crowding is red cells' area on the area they lie on", "[lab]") {
    // pi 3.5^2 um2 x 7e-3 /um3 x 1.72 um; 173 cells on 120 um x 120 um.
    const Slide dog = blood(Kind::dog, 7);
    CHECK(lab::crowding(dog, 1.72) == Approx(38.4845 * 7e-3 * 1.72).epsilon(1e-5));
    CHECK(7e-3 * 120 * 120 * 1.72 == Approx(173.4).margin(0.1));
    CHECK(lab::crowding(blood(Kind::cat, 8.5), 2.05) == Approx(0.46).margin(0.005));
    Slide small = dog;
    small.redDiameter = 0.8;
    CHECK(lab::crowding(small, 1.72) == Approx(0.64 * lab::crowding(dog, 1.72)));
    CHECK(lab::crowding(blood(Kind::dog, 0), 3) == 0);
}

TEST_CASE("Areas follow one another over the whole film, and no monolayer is empty", "[lab]") {
    for (const double red : {0., 0.5, 1., 2., 3., 5., 7., 9., 12., 16., 30.})
        for (const double thickness : {0.3, 1., 2., 3.}) {
            INFO("red cells " << red << ", thickness " << thickness);
            Slide slide = blood(Kind::dog, red);
            slide.thickness = thickness;
            const lab::Reach edge = lab::reach(slide, FilmArea::edge);
            const lab::Reach single = lab::reach(slide, FilmArea::monolayer);
            const lab::Reach body = lab::reach(slide, FilmArea::body);
            CHECK(edge.from == 0);
            CHECK(edge.to == single.from);
            CHECK(single.to == body.from);
            CHECK(body.to == lab::filmLength);
            CHECK(edge.length() > 100);
            CHECK(single.length() >= 299); // [um]
            CHECK(body.length() >= 0);
            CHECK(lab::areaAt(slide, edge.to - 1) == FilmArea::edge);
            CHECK(lab::areaAt(slide, single.from + 1) == FilmArea::monolayer);
            CHECK(lab::areaAt(slide, single.to - 1) == FilmArea::monolayer);
            if (body.length() > 1) CHECK(lab::areaAt(slide, body.from + 1) == FilmArea::body);
        }
}

TEST_CASE("The monolayer lies where cells lie singly, half of them touching", "[lab]") {
    for (const Slide& slide : {blood(Kind::dog, 7), blood(Kind::cat, 8.5)}) {
        const lab::Reach single = lab::reach(slide, FilmArea::monolayer);
        CHECK(single.length() > 3000);
        const double from = lab::crowding(slide, lab::meanThickness(slide, single.from));
        const double to = lab::crowding(slide, lab::meanThickness(slide, single.to));
        CHECK(from == Approx(0.27).margin(0.001));
        CHECK(to == Approx(0.60).margin(0.001));
        const double middle = lab::meanThickness(slide, (single.from + single.to) / 2);
        // About half touch at 0.46; the wedge is steeper behind, so that the middle lies before.
        CHECK(lab::crowding(slide, middle) == Approx(0.46).margin(0.06));
        CHECK(lab::flattening(slide, middle) == 0);
        CHECK(lab::heaping(slide, middle) == 0);
        CHECK(lab::flattening(slide, lab::meanThickness(slide, 200)) == 1);
        CHECK(lab::heaping(slide, lab::meanThickness(slide, 25000)) == 1);
    }
}

TEST_CASE("Anemic blood has its monolayer further back, concentrated blood a narrow one", "[lab]") {
    // A page on smears (vetlexicon): anemic blood spreads far and its monolayer
    // reaches back; concentrated blood has little of one.
    const Slide healthy = blood(Kind::dog, 7), anemic = blood(Kind::dog, 2.5);
    const Slide concentrated = blood(Kind::dog, 11);
    const auto middle = [](const Slide& slide) {
        const lab::Reach single = lab::reach(slide, FilmArea::monolayer);
        return (single.from + single.to) / 2;
    };
    CHECK(middle(anemic) > middle(healthy) + 3000);
    CHECK(middle(concentrated) < middle(healthy));
    CHECK(length(concentrated, FilmArea::monolayer) < 0.6 * length(healthy, FilmArea::monolayer));
    // Plasma alone gets thick too.
    CHECK(lab::heaping(blood(Kind::dog, 0), 6.5) > 0.5);
    CHECK(lab::heaping(blood(Kind::dog, 0), 2) == 0);
}

TEST_CASE("What gathers at the edge is lacking in the body", "[lab]") {
    Slide slide = blood(Kind::dog, GENERATE(3., 7., 10.));
    slide.drag = GENERATE(0., 0.3, 0.5, 1.);
    INFO("red cells " << slide.red << ", drag " << slide.drag);
    const lab::Gathering swept(slide);
    for (const FilmCell cell :
         {FilmCell::monocyte, FilmCell::segmented, FilmCell::reactiveLymphocyte,
          FilmCell::eosinophil, FilmCell::smudge, FilmCell::lymphocyte, FilmCell::plateletClump,
          FilmCell::platelet}) {
        INFO("kind " << static_cast<int>(cell));
        double all = 0, even = 0;
        for (double x = 2.5; x < lab::filmLength; x += 5) {
            const double t = lab::meanThickness(slide, x), fold = swept.at(cell, x);
            CHECK_FALSE(fold < 0);
            all += fold * t;
            even += t;
        }
        CHECK(all / even == Approx(1).margin(0.005)); // of the sums' steps at the tip

        const double edge = lab::gathering(slide, cell, FilmArea::edge);
        const double body = lab::gathering(slide, cell, FilmArea::body);
        if (cell == FilmCell::platelet || slide.drag == 0)
            CHECK((edge == Approx(1) && body == Approx(1)));
        else if (cell == FilmCell::lymphocyte)
            CHECK((edge < 1 && body > 1));
        else
            CHECK((edge > 1 && body < 1));
        // A count in the monolayer is right: within 1 %, but for clumps.
        if (cell != FilmCell::plateletClump)
            CHECK(lab::gathering(slide, cell, FilmArea::monolayer) == Approx(1).margin(0.01));
    }
}

TEST_CASE("Most clumps of a usual film lie within 1.5 mm of its tip", "[lab]") {
    const Slide slide = blood(Kind::cat, 8.5); // drag as it usually is
    const lab::Gathering swept(slide);
    double near = 0, all = 0;
    for (double x = 2.5; x < lab::filmLength; x += 5) {
        const double clumps = swept.at(FilmCell::plateletClump, x) * lab::meanThickness(slide, x);
        all += clumps;
        if (x < 1500) near += clumps;
    }
    CHECK(near / all > 0.5);
    CHECK(near / all < 0.9);
}

TEST_CASE("Areas are called by their names", "[lab]") {
    for (const FilmArea area : {FilmArea::edge, FilmArea::monolayer, FilmArea::body})
        CHECK(lab::areaNamed(lab::name(area)) == area);
    CHECK(lab::areaNamed("edge") == FilmArea::edge);
    CHECK_FALSE(lab::areaNamed("middle"));
}

TEST_CASE("A slide that no blood could give is refused", "[lab]") {
    CHECK_NOTHROW(lab::validate(blood(Kind::dog, 7)));
    CHECK_NOTHROW(lab::validate(Slide{})); // nothing on it
    std::vector<double Slide::*> amounts{
        &Slide::red,       &Slide::redDiameter, &Slide::redSpread,      &Slide::howellJolly,
        &Slide::heinz,     &Slide::water,       &Slide::rouleaux,       &Slide::agglutinated,
        &Slide::nucleated, &Slide::white,       &Slide::toxic,          &Slide::toxicGrade,
        &Slide::doubtful,  &Slide::drumstick,   &Slide::hypersegmented, &Slide::emptyGranules,
        &Slide::aged,      &Slide::platelets,   &Slide::largePlatelets, &Slide::clumps,
        &Slide::clumpSize, &Slide::precipitate, &Slide::thickness,      &Slide::drag};
    for (std::size_t i = 0; i < amounts.size(); ++i)
        for (const double value :
             {-0.1, std::nan(""), std::numeric_limits<double>::infinity(), 1e9}) {
            INFO("amount " << i << ": " << value);
            Slide slide = blood(Kind::dog, 7);
            slide.*amounts[i] = value;
            CHECK_THROWS_AS(lab::validate(slide), std::invalid_argument);
        }
    const auto refused = [](auto&& change) {
        Slide slide = blood(Kind::dog, 7);
        change(slide);
        CHECK_THROWS_AS(lab::validate(slide), std::invalid_argument);
    };
    refused([](Slide& slide) { slide.of(FilmCell::target) = 1.1; });
    refused(
        [](Slide& slide) { slide.of(FilmCell::target) = slide.of(FilmCell::spherocyte) = 0.6; });
    refused([](Slide& slide) { slide.of(FilmCell::monocyte) = 0.5; });
    refused([](Slide& slide) { slide.share.fill(0); }); // white cells of no kind
    refused([](Slide& slide) { slide.rouleaux = slide.agglutinated = 0.7; });
    refused([](Slide& slide) { slide.stain.blue = -1; });
}
