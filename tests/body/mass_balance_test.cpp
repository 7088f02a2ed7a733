// Nothing is made from nothing: what a tissue sheds is in the blood, in the tissue fluid, or
// cleared. Releases and levels are added up from the course alone, by Simpson's rule over looks
// that stand so close that the rule itself errs by less than the tolerance.
#include "body/constants.h"
#include "reference/animals.h"

#include <catch2/catch.hpp>

using namespace cistern::body;
using namespace reference;

namespace {

constexpr double spacing = 1.0 / 32; // [h]; all windows start and end on even looks
constexpr double hours = 72;

/// Injuries that move every pool: the liver, its ducts, drugs, muscle; a young animal for bone.
std::vector<Window> everything() {
    return {{Drive::liverDeath, 2, 14, deathRate(0.3, 12)},
            {Drive::liverLeak, 4, 40, 5},
            {Drive::bileBlock, 10, 60, 0.8},
            {Drive::steroidDose, 0, 72, 2},
            {Drive::phenobarbitalDose, 8, 72, 9},
            {Drive::muscleDeath, 6, 9, 2e-3}};
}

Course closeCourse(Kind kind) {
    Plan plan{adult(kind), everything(), 0, every(spacing, hours), {}};
    plan.animal.who.age = 3 * 730; // three months: bone is growing
    plan.steps.longest = plan.steps.shortest = plan.steps.afterGentle = spacing;
    return simulate(plan);
}

/// Integral from the start to an even look, by Simpson's rule over pairs of looks.
template<class Rate>
double integral(const Rate& rate, Eigen::Index until) {
    double sum = 0;
    for (Eigen::Index i = 0; i < until; i += 2)
        sum += (rate(i) + 4 * rate(i + 1) + rate(i + 2)) * spacing / 3;
    return sum;
}

} // namespace

// Worst imbalance measured: 6e-11 (ALT of the cat), from Simpson's rule over CK's and ALT's fast
// pools; it falls to rounding where a course is slow. A billionth leaves room for other animals.
TEST_CASE("What enters plasma is in plasma or was cleared, for every enzyme", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Course close = closeCourse(kind);
        for (Pool pool : pools()) {
            const EnzymePool p = adult(kind).own.pool[static_cast<std::size_t>(pool)];
            const auto level = close.column(poolColumn(pool));
            const auto release = close.column(releaseColumn(pool));
            const double clearance = p.volume * std::log(2.0) / p.halfLife; // [L/kg/h]
            for (Eigen::Index until : {320, 1024, 2304}) {
                CAPTURE(name(kind), name(pool), until);
                const double entered = integral([&](auto i) { return release(i); }, until);
                const double cleared =
                    clearance * integral([&](auto i) { return level(i); }, until);
                const double held = p.volume * (level(until) - level(0));
                CHECK(cleared + held == Approx(entered).epsilon(1e-9).margin(1e-12));
            }
        }
    }
}

TEST_CASE("What muscle sheds is in its tissue fluid or has reached the blood", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Individual animal = adult(kind);
        const Constants<double> c = constants(animal);
        const auto& m = animal.own.muscle;
        const EnzymePool ck = animal.own.pool[static_cast<std::size_t>(Pool::CK)];
        const double content =
            m.recovery * m.mass * ck.muscleContent; // that can reach blood [U/kg]
        const auto& heart = animal.own.heart;
        const double fromHeart = // which beats on in health
            heart.recovery * heart.mass * ck.heartContent * c.muscle.heartShedding;
        const Course close = closeCourse(kind);
        const int muscle = static_cast<int>(Tissue::skeletalMuscle);
        const auto living = close.column(reading::work + muscle);
        const auto fold = close.column(reading::leak + muscle);
        const auto release = (close.column(releaseColumn(Pool::CK)) - fromHeart).eval();
        const auto shed = [&](Eigen::Index i) { return fold(i) * living(i) * c.muscle.shedding; };
        const auto fluid = [&](Eigen::Index i) { // what leaves it by lymph is the delayed release
            return (release(i) / content - m.directShare * shed(i)) / m.lymphRate;
        };
        for (Eigen::Index until : {320, 1024, 2304}) {
            CAPTURE(name(kind), until);
            const double left = integral(shed, until);
            const double entered = integral([&](auto i) { return release(i); }, until) / content;
            CHECK(entered + fluid(until) - fluid(0) == Approx(left).epsilon(1e-9));
        }
    }
}

TEST_CASE("Muscle that died has lost its enzyme or still holds it", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Constants<double> c = constants(adult(kind));
        const Course close = closeCourse(kind);
        const int muscle = static_cast<int>(Tissue::skeletalMuscle);
        const auto living = close.column(reading::work + muscle);
        const auto fold = close.column(reading::leak + muscle);
        // Beyond the shedding of living cells, which goes on as in health.
        const auto lost = [&](Eigen::Index i) {
            return (fold(i) - 1) * living(i) * c.muscle.shedding;
        };
        const Eigen::Index start = 6 * 32, end = 9 * 32, last = 2304;
        const auto died = [&](Eigen::Index i) {
            return i < start || i > end ? 0 : 2e-3 * living(i);
        };
        const double dead = integral(died, end) - integral(died, start);
        const double stillHeld = lost(last) * c.muscle.cytosolTime;
        CAPTURE(name(kind));
        CHECK(integral(lost, last) + stillHeld == Approx(dead).epsilon(1e-9));
    }
}
