#include "reference/animals.h"

#include <catch2/catch.hpp>

using namespace cistern::body;
using namespace reference;

TEST_CASE("A cat with a dog's numbers is that dog, to the last bit", "[body]") {
    for (std::uint64_t number = 0; number < 20; ++number) {
        Plan plan = randomPlan({known().dog, known().dog, known().insults}, number, 7);
        const Course dog = simulate(plan);
        plan.animal.own.kind = plan.animal.who.kind = Kind::cat;
        const Course cat = simulate(plan);
        CAPTURE(number);
        CHECK((dog.table() == cat.table()).all());
    }
}

TEST_CASE("A drawn cat with a dog's numbers has the dog's set points and half-lives", "[body]") {
    Signalment who = adult(Kind::dog).who;
    who.seed = 7;
    const Individual dog = individual(known().dog, who, 3);
    Species numbers = known().dog;
    numbers.kind = who.kind = Kind::cat;
    const Individual cat = individual(numbers, who, 3);
    for (Analyte analyte : analytes()) CHECK(setPoint(dog, analyte) == setPoint(cat, analyte));
    for (std::size_t pool = 0; pool < poolCount; ++pool)
        CHECK(dog.own.pool[pool].halfLife == cat.own.pool[pool].halfLife);
}

TEST_CASE("The same insult goes differently in dog and cat", "[body]") {
    const std::vector<Window> necrosis{{Drive::liverDeath, 0, 12, deathRate(0.3, 12)}};
    const Course dog = course(adult(Kind::dog), necrosis, {72}),
                 cat = course(adult(Kind::cat), necrosis, {72});
    const auto fold = [](const Course& c, Kind kind) {
        return c.at(0).level(Analyte::ALT) / setPoint(adult(kind), Analyte::ALT);
    };
    CHECK(fold(dog, Kind::dog) > 10 * fold(cat, Kind::cat)); // the cat's is over and gone by then
}
