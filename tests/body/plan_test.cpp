#include "reference/animals.h"

#include <catch2/catch.hpp>

#include <limits>
#include <stdexcept>

using namespace cistern::body;
using namespace reference;

namespace {

Plan good() {
    return {adult(Kind::dog), {{Drive::liverLeak, 0, 10, 2}}, 0, {0, 1, 1, 2}, {}};
}

/// What the plan is refused for; "" if it is not.
template<class Change>
std::string refusal(const Change& change) {
    Plan plan = good();
    change(plan);
    try {
        simulate(plan);
    } catch (const std::invalid_argument& why) {
        return why.what();
    }
    return "";
}

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

} // namespace

TEST_CASE("A plan in order runs, with looks that coincide", "[body]") {
    CHECK(refusal([](Plan&) {}) == "");
    const Course c = simulate(good());
    CHECK((c.table().row(1) == c.table().row(2)).all());
}

TEST_CASE("A plan whose times are out of order is refused with a sentence", "[body]") {
    for (double hour : {1.0, -1.0, none, endless})
        CHECK(refusal([&](Plan& p) { p.looks.push_back(hour); }) ==
              "plan: looks must ascend from the start");
    CHECK(refusal([](Plan& p) { p.from = 0.5; }) == "plan: looks must ascend from the start");
    for (double hour : {none, endless})
        CHECK(refusal([&](Plan& p) { p.from = hour; }) == "plan: the start is not a finite hour");
    for (double hour : {0.0, -1.0, none, endless})
        CHECK(refusal([&](Plan& p) { p.windows[0].to = hour; }) ==
              "plan: a window must end after it starts");
}

TEST_CASE("A drive that is no number, negative or more than all is refused by name", "[body]") {
    for (double value : {-0.1, none, endless})
        CHECK(refusal([&](Plan& p) { p.windows[0].value = value; }) ==
              "plan: the drive 'liver leak' must be a number from zero up");
    for (Drive drive : drives()) {
        CAPTURE(name(drive));
        Plan plan = good();
        plan.windows[0] = {drive, 0, 1, 1.01};
        if (addsUp(drive))
            CHECK_NOTHROW(plan.validate());
        else
            CHECK_THROWS_WITH(plan.validate(), "plan: the drive '" + std::string(name(drive)) +
                                                   "' is a share, at most 1");
    }
}

TEST_CASE("Steps that would stand still or run backward are refused", "[body]") {
    const std::string why =
        "plan: steps must be above zero, the longest no shorter than the shortest";
    for (double hours : {0.0, -1.0, none})
        CHECK(refusal([&](Plan& p) { p.steps.shortest = hours; }) == why);
    for (double hours : {1.0 / 32, none, endless})
        CHECK(refusal([&](Plan& p) { p.steps.longest = hours; }) == why);
}

TEST_CASE("A run does not move back", "[body]") {
    Run run(good());
    run.advance(5);
    CHECK_THROWS_AS(run.advance(4), std::invalid_argument);
    CHECK_THROWS_AS(run.advance(none), std::invalid_argument);
    CHECK(run.advance(5).hour == 5);
}

TEST_CASE("A set point below what healthy muscle sheds is refused with the enzyme's name",
          "[body]") {
    Plan plan = good();
    plan.animal.own.pool[static_cast<std::size_t>(Pool::AST)].setPoint = 1;
    CHECK_THROWS_WITH(simulate(plan), Catch::Contains("set point of AST"));
}

TEST_CASE("What no animal lives through is refused with the reading and the hour", "[body]") {
    Plan plan = good();
    plan.windows[0] = {Drive::liverLeak, 0, 1, 1e308};
    CHECK_THROWS_AS(simulate(plan), BeyondLife);
    CHECK_THROWS_WITH(simulate(plan), "No animal lives through this: at hour 1 its leak of liver "
                                      "would be no number. Make what happens to it before then "
                                      "milder.");
}

TEST_CASE("A bad plan among many stops the herd with its own sentence", "[body]") {
    const auto plan = [](std::size_t i) {
        Plan one = good();
        if (i == 5) one.windows[0].value = -1;
        return one;
    };
    for (int threads : {1, 2})
        CHECK_THROWS_WITH(simulate(
                              9, plan, [](std::size_t, const Course&) {}, threads),
                          Catch::Contains("'liver leak'"));
}
