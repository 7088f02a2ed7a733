#include "reference/animals.h"

#include <catch2/catch.hpp>

using namespace cistern::body;
using namespace reference;

namespace {

double worstDrift(const Individual& animal) {
    const Course days = course(animal, {}, every(24, 60 * 24));
    double worst = 0;
    for (std::size_t look = 0; look < days.size(); ++look)
        for (std::size_t r = 0; r < reading::count; ++r) {
            const double start = days.at(0).value[r];
            const double drift = std::abs(days.at(look).value[r] - start);
            worst = std::max(worst, start == 0 ? drift : drift / start);
        }
    return worst;
}

} // namespace

// The species' set points are the equations' point of rest, so only rounding and the last of growth
// (1e-9 of bone at eight years) may move a reading: a millionth is a thousand times that.
TEST_CASE("A healthy adult stands still for sixty days in every reading", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        CAPTURE(name(kind));
        CHECK(worstDrift(adult(kind)) < 1e-6);
    }
}

TEST_CASE("Every animal drawn from a species stands still at its own set points", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat})
        for (std::uint64_t seed = 1; seed <= 25; ++seed) {
            CAPTURE(name(kind), seed);
            Signalment who = adult(kind).who;
            who.seed = seed;
            const Individual animal = individual(known().species(kind), who);
            CHECK(worstDrift(animal) < 1e-6);
            const Course one = course(animal, {}, {1000});
            for (Analyte analyte : analytes()) {
                CAPTURE(name(analyte));
                CHECK(one.at(0).level(analyte) == Approx(setPoint(animal, analyte)).epsilon(1e-6));
            }
        }
}
