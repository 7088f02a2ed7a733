#include "reference/animals.h"

#include <catch2/catch.hpp>

#include <mutex>

using namespace cistern::body;
using namespace reference;

namespace {

Plan planOf(std::size_t animal) {
    return randomPlan(ground(), animal, 3);
}

/// Puts the vector unit back when a test is done with it.
struct Width {
    int before = lanesInUse();
    ~Width() { useLanes(before); }
};

/// Every animal's own course, one at a time.
const std::vector<Course>& alone() {
    static const std::vector<Course> courses = [] {
        std::vector<Course> each;
        for (std::size_t i = 0; i < 64; ++i) each.push_back(simulate(planOf(i)));
        return each;
    }();
    return courses;
}

bool same(const Course& a, const Course& b) {
    return a.hours() == b.hours() && (a.table() == b.table()).all();
}

} // namespace

TEST_CASE("An animal's course is the same bits in every lane, batch, thread and vector unit",
          "[body]") {
    const Width kept;
    alone();
    for (int width : laneWidths()) {
        useLanes(width);
        REQUIRE(lanesInUse() == width);
        for (std::size_t animals : {1u, 2u, 3u, 7u, 64u})
            for (int threads : {1, 2, 4}) {
                CAPTURE(width, animals, threads);
                std::mutex lock;
                std::vector<int> seen(animals, 0);
                std::size_t equal = 0;
                simulate(
                    animals, planOf,
                    [&](std::size_t i, const Course& c) {
                        const std::lock_guard guard(lock);
                        ++seen[i];
                        equal += same(c, alone()[i]);
                    },
                    threads);
                CHECK(equal == animals);
                CHECK(seen == std::vector<int>(animals, 1)); // each once
            }
    }
}

TEST_CASE("Neighbors in a batch do not touch one another", "[body]") {
    const Width kept;
    for (int width : laneWidths()) {
        useLanes(width);
        for (std::size_t shift = 0; shift < static_cast<std::size_t>(width); ++shift) {
            CAPTURE(width, shift);
            // Animal 5 in the lane of this shift, among others.
            simulate(
                static_cast<std::size_t>(width),
                [&](std::size_t i) { return planOf(i == shift ? 5 : 20 + i); },
                [&](std::size_t i, const Course& c) {
                    if (i == shift) CHECK(same(c, alone()[5]));
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
            Run run(planOf(animal));
            std::size_t equal = 0;
            for (std::size_t look = 0; look < alone()[animal].size(); ++look) {
                const Snapshot there = alone()[animal].at(look);
                equal += run.advance(there.hour).value == there.value;
            }
            CHECK(equal == alone()[animal].size());
        }
    }
}

TEST_CASE("A vector unit that the machine lacks is refused", "[body]") {
    const Width kept;
    CHECK_THROWS_WITH(useLanes(3), "this machine has no vector unit of 3 doubles");
    CHECK(lanesInUse() == kept.before);
}
