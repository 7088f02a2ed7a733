#include "reference/animals.h"

#include <catch2/catch.hpp>

using namespace cistern::body;
using namespace reference;

namespace {

/// An animal whose tissues answer at once, so that a release can be made to stop: every lag between
/// an insult and the plasma a fifth of an hour, and nothing regrows.
Individual prompt(Kind kind) {
    Individual animal = adult(kind);
    Species& s = animal.own;
    for (double* lag : {&s.liver.leakLag, &s.liver.fillingLag, &s.liver.responseLag,
                        &s.liver.necrosisCholestasisLag, &s.liver.dyingCytosol,
                        &s.liver.dyingMitochondria, &s.steroid.fastLag, &s.steroid.middleLag,
                        &s.steroid.slowLag, &s.phenobarbital.lag, &s.muscle.dyingCytosol,
                        &s.heart.dyingCytosol, &s.digestion.acinarLeakLag, &s.bone.growthLag})
        *lag = 0.2;
    s.muscle.lymphRate = 5;
    s.liver.regrowth = s.muscle.regrowth = 0;
    s.liver.obstructionDeath = 0;
    if (kind == Kind::cat) { // cats have no steroid form; give this one the dog's, to see it fall
        s.pool[static_cast<std::size_t>(Pool::steroidALP)] =
            known().dog.pool[static_cast<std::size_t>(Pool::steroidALP)];
        s.steroid.steroidAlpGain = known().dog.steroid.steroidAlpGain;
    }
    animal.who.age = 30.4375 * 24; // one month: bone growth is at its height, and over within hours
    return animal;
}

} // namespace

// The closed form of one tank whose inflow has come to rest: what stands above its new level halves
// every half-life. The step takes this decay exactly, so what is left is rounding, and the last of
// the lags (e^-50 ten hours after the insult's end).
TEST_CASE("Once a release has stopped, its enzyme halves in each half-life", "[body]") {
    const std::vector<Window> insults{
        {Drive::liverLeak, 0, 20, 9},     {Drive::bileBlock, 0, 20, 1},
        {Drive::steroidDose, 0, 20, 4},   {Drive::muscleDeath, 0, 20, 1e-4},
        {Drive::liverDeath, 0, 20, 1e-3}, {Drive::heartDeath, 0, 20, 1e-3},
        {Drive::acinarLeak, 0, 20, 20}};
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Individual animal = prompt(kind);
        for (Pool pool : pools()) {
            const EnzymePool& p = animal.own.pool[static_cast<std::size_t>(pool)];
            const double start = 30, end = start + 3 * p.halfLife;
            const Course fall = course(animal, insults, {start, start + p.halfLife, end});
            const double level = fall.at(2).release(pool) * p.halfLife / (p.volume * std::log(2.0));
            const auto above = [&](std::size_t look) { return fall.at(look).pool(pool) - level; };
            CAPTURE(name(kind), name(pool));
            CHECK(above(0) > 0.05 * level); // there is something to fall
            CHECK(above(1) / above(0) == Approx(0.5).epsilon(1e-9));
            CHECK(above(2) / above(0) == Approx(0.125).epsilon(1e-9));
        }
    }
}

// A tank filled by a steady inflow comes within a tenth of its level after log2(10) = 3.32
// half-lives.
TEST_CASE("After a step in release an enzyme is at 90 % after 3.32 half-lives", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Individual animal = prompt(kind);
        for (Pool pool : {Pool::ALT, Pool::AST}) {
            const EnzymePool& p = animal.own.pool[static_cast<std::size_t>(pool)];
            const double from = 10, span = std::log2(10.0) * p.halfLife;
            const Course rise =
                course(animal, {{Drive::liverLeak, 0, 1e5, 9}}, {from, from + span, 5000});
            const auto below = [&](std::size_t look) {
                return rise.at(2).pool(pool) - rise.at(look).pool(pool);
            };
            CAPTURE(name(kind), name(pool));
            CHECK(below(1) / below(0) == Approx(0.1).epsilon(1e-9));
        }
    }
}
