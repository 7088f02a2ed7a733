#include "reference/animals.h"

#include <catch2/catch.hpp>

#include <mutex>

using namespace cistern::body;
using namespace reference;

namespace {

Plan planOf(std::size_t animal, bool single) {
    Plan plan = randomPlan(ground(), animal, 3);
    plan.single = single;
    return plan;
}

/// Puts the vector unit back when a test is done with it.
struct Width {
    int before = lanesInUse();
    ~Width() { useLanes(before); }
};

/// Every animal's own course, one at a time.
const std::vector<Course>& alone(bool single) {
    const auto all = [](bool which) {
        std::vector<Course> each;
        for (std::size_t i = 0; i < 64; ++i) each.push_back(simulate(planOf(i, which)));
        return each;
    };
    static const std::vector<Course> twice = all(false), once = all(true);
    return single ? once : twice;
}

bool same(const Course& a, const Course& b) {
    return a.hours() == b.hours() && (a.table() == b.table()).all();
}

} // namespace

TEST_CASE("An animal's course is the same bits in every lane, batch, thread and vector unit",
          "[body]") {
    const Width kept;
    const bool single = GENERATE(false, true);
    alone(single);
    for (int width : laneWidths()) {
        useLanes(width);
        REQUIRE(lanesInUse() == width);
        for (std::size_t animals : {1u, 2u, 3u, 7u, 64u})
            for (int threads : {1, 2, 4}) {
                CAPTURE(single, width, animals, threads);
                std::mutex lock;
                std::vector<int> seen(animals, 0);
                std::size_t equal = 0;
                simulate(
                    animals, [&](std::size_t i) { return planOf(i, single); },
                    [&](std::size_t i, const Course& c) {
                        const std::lock_guard guard(lock);
                        ++seen[i];
                        equal += same(c, alone(single)[i]);
                    },
                    threads);
                CHECK(equal == animals);
                CHECK(seen == std::vector<int>(animals, 1)); // each once
            }
    }
}

TEST_CASE("Neighbors in a batch do not touch one another", "[body]") {
    const Width kept;
    const bool single = GENERATE(false, true);
    for (int width : laneWidths()) {
        useLanes(width);
        const std::size_t lanes = static_cast<std::size_t>(single ? 2 * width : width);
        for (std::size_t shift = 0; shift < lanes; ++shift) {
            CAPTURE(single, width, shift);
            // Animal 5 in the lane of this shift, among others.
            simulate(
                lanes, [&](std::size_t i) { return planOf(i == shift ? 5 : 20 + i, single); },
                [&](std::size_t i, const Course& c) {
                    if (i == shift) CHECK(same(c, alone(single)[5]));
                },
                1);
        }
    }
}

TEST_CASE("A run watched live is the same bits as the course", "[body]") {
    const Width kept;
    for (int width : laneWidths()) {
        useLanes(width);
        for (std::size_t animal : {0u, 1u, 2u, 3u}) {
            CAPTURE(width, animal);
            Run run(planOf(animal, false));
            std::size_t equal = 0;
            for (std::size_t look = 0; look < alone(false)[animal].size(); ++look) {
                const Snapshot there = alone(false)[animal].at(look);
                equal += run.advance(there.hour).value == there.value;
            }
            CHECK(equal == alone(false)[animal].size());
        }
    }
}

TEST_CASE("Animals of two precisions do not go side by side", "[body]") {
    CHECK_THROWS_WITH(simulate(
                          2, [](std::size_t i) { return planOf(i, i == 1); },
                          [](std::size_t, const Course&) {}, 1),
                      "animals side by side are all of one precision");
}

TEST_CASE("A vector unit that the machine lacks is refused", "[body]") {
    const Width kept;
    CHECK_THROWS_WITH(useLanes(3), "this machine has no vector unit of 3 doubles");
    CHECK(lanesInUse() == kept.before);
}
