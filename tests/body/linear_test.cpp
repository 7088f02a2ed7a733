#include "reference/animals.h"

#include <catch2/catch.hpp>

using namespace cistern::body;
using namespace reference;

// The leak of living cells enters release as a plain product, so twice the leak is twice the rise,
// to rounding.
TEST_CASE("Twice the leak of living liver cells is twice the rise of ALT and AST", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const auto rise = [&](double leak, Analyte analyte) {
            const Course c = course(adult(kind), {{Drive::liverLeak, 5, 50, leak}}, every(3, 120));
            return (c.column(column(analyte)) - c.at(0).level(analyte)).eval();
        };
        for (Analyte analyte : {Analyte::ALT, Analyte::AST}) {
            CAPTURE(name(kind), name(analyte));
            const auto once = rise(3, analyte), twice = rise(6, analyte);
            CHECK((twice - 2 * once).abs().maxCoeff() < 1e-10 * twice.maxCoeff());
            CHECK(once.maxCoeff() > 1);
        }
    }
}

TEST_CASE("Two leaks at different times add up", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const auto rise = [&](double early,
                              double late) { // windows of no leak keep the steps alike
            const Course c = course(
                adult(kind), {{Drive::liverLeak, 5, 50, early}, {Drive::liverLeak, 30, 90, late}},
                every(3, 120));
            return (c.column(column(Analyte::ALT)) - c.at(0).level(Analyte::ALT)).eval();
        };
        const auto both = rise(3, 7);
        CAPTURE(name(kind));
        CHECK((both - rise(3, 0) - rise(0, 7)).abs().maxCoeff() < 1e-10 * both.maxCoeff());
    }
}

// The death rate is -log(1 - share)/T and what dies no longer sheds, so this holds to the share
// that dies: 0.02 of 400 g/kg is 5e-5; twice that is allowed.
TEST_CASE("Twice a small muscle injury is twice the rise of CK", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Individual animal = adult(kind);
        const auto rise = [&](double grams) {
            const double rate = deathRate(grams / animal.own.muscle.mass, 3);
            const Course c = course(animal, {{Drive::muscleDeath, 0, 3, rate}}, every(1, 72));
            return (c.column(column(Analyte::CK)) - c.at(0).level(Analyte::CK)).eval();
        };
        const auto once = rise(0.01), twice = rise(0.02);
        CAPTURE(name(kind));
        CHECK((twice - 2 * once).abs().maxCoeff() < 1e-4 * twice.maxCoeff());
        CHECK(once.maxCoeff() > 10);
    }
}

// Creatinine at rest is production over clearance: that of the filtration, and half a hundredth of
// the healthy one elsewhere (step/kidney.h). With production held, half the nephrons and no growth
// of the rest, it all but doubles; 2000 h is 200 of its time constants. Red cells are held too: the
// anemia of lost nephrons would take a little from the filling of the vessels.
TEST_CASE("At rest creatinine is inverse to its clearance", "[body]") {
    constexpr double elsewhere = 0.005; // of healthy clearance
    for (Kind kind : {Kind::dog, Kind::cat}) {
        Individual animal = adult(kind);
        animal.own.kidney.hyperfiltration = animal.own.kidney.uremicFall = 0;
        animal.own.redCells.erythropoietinOfKidney = animal.own.redCells.lossOfUremia = 0;
        for (double lost : {0.5, 0.75}) {
            const Course c =
                course(animal, {{Drive::nephronDeath, 0, 10, deathRate(lost, 10)}}, {0, 2000});
            const auto of = [&](std::size_t look) { return c.at(look).level(Analyte::creatinine); };
            CAPTURE(name(kind), lost);
            CHECK(of(1) / of(0) ==
                  Approx(1 / (elsewhere + (1 - elsewhere) * (1 - lost))).epsilon(1e-9));
        }
    }
}
