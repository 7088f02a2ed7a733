#include "lesson/lesson.h"

#include "base/chance.h"
#include "case_at_hand.h"

#include <catch2/catch.hpp>

#include <tuple>

namespace cistern::lesson {

namespace {

/// All that an action could change. Reports are told apart by what they print.
auto standing(const Lesson& lesson) {
    std::vector<std::tuple<std::size_t, body::Analyte, double>> results;
    for (const Taken& taken : lesson.taken())
        for (const lab::Result& result : taken.report.results)
            results.emplace_back(taken.draw, result.analyte, result.value);
    return std::tuple(lesson.stage(), lesson.chosen(), lesson.answers(), lesson.committed(),
                      results);
}

/// Sensible and senseless actions, mixed.
Action anyAction(base::Chance& chance) {
    const auto pick = [&](int n) { return static_cast<int>(chance.uniform() * n); };
    const body::Tissue organ = body::tissues()[static_cast<std::size_t>(pick(3))];
    const double a = 100 * chance.uniform(), b = 100 * chance.uniform();
    switch (pick(20)) {
    case 0:
        return Go{static_cast<Stage>(pick(6))};
    case 1:
        return Back{};
    case 2:
        return Undo{};
    case 3:
        return Go{Stage::plan};
    case 4:
        return ChooseTests{static_cast<std::size_t>(pick(3)),
                           pick(5) ? std::vector<std::string>{"chemistry"}
                                   : std::vector<std::string>{}};
    case 5:
        return SetLeak{organ, {a, std::min(a, b), b}};
    case 6:
        return SetLeak{organ, {1 + a, 1, 101}};
    case 7:
        return SetWork{organ, {a, a / 2, a + 10}};
    case 8:
        return SetWork{organ, {a, b, a + 10}};
    case 9:
        return SetPoints{{{"nothing wrong", 50}, {pick(2) ? "chronic liver disease" : "x", 50}}};
    case 10:
        return SetNext{pick(2) ? "bile acids" : "wait and see"};
    case 11:
        return SetDistrusted{{body::Analyte::ALT, body::Analyte::bileAcids}};
    case 12:
        return Commit{};
    default:
        return Go{Stage::reading};
    }
}

} // namespace

TEST_CASE("A refused action changes nothing, and the accepted ones alone lead to the same place",
          "[lesson]") {
    const Case subject = scarredLiver();
    int refused = 0, committed = 0;
    for (std::uint64_t walk = 0; walk < 20; ++walk) {
        base::Chance chance(walk, base::Purpose::test);
        Lesson lesson(subject, known());
        for (int step = 0; step < 400; ++step) {
            const auto before = standing(lesson);
            const std::size_t done = lesson.actions().size();
            try {
                lesson.apply(anyAction(chance));
                REQUIRE(lesson.actions().size() == done + 1);
            } catch (const Refusal& refusal) {
                ++refused;
                REQUIRE(std::string(refusal.what()).back() == '.');
                REQUIRE(standing(lesson) == before);
                REQUIRE(lesson.actions().size() == done);
            }
        }
        committed += lesson.committed();
        Lesson again(subject, known());
        for (const Action& action : lesson.actions()) again.apply(action);
        CHECK(standing(again) == standing(lesson));
    }
    CHECK(refused > 0);
    CHECK(committed > 0); // the walks do reach the end
}

TEST_CASE("Every change before the commitment can be taken back, one by one", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::plan});
    lesson.apply(ChooseTests{1, {}});
    CHECK(lesson.taken().size() == 1);
    answerAll(lesson);
    lesson.apply(SetDistrusted{{body::Analyte::ALT}});
    while (lesson.canUndo()) lesson.apply(Undo{});
    CHECK(lesson.answers() == Answers{});
    CHECK(lesson.taken().size() == 2);
    CHECK_THROWS_AS(lesson.apply(Undo{}), Refusal);
}

TEST_CASE("After the commitment pages turn but nothing changes", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    CHECK_THROWS_AS(lesson.truth(), std::logic_error);
    CHECK_THROWS_AS(lesson.marks(), std::logic_error);
    CHECK_THROWS_AS(lesson.inside(0), std::logic_error);
    CHECK_THROWS_AS(lesson.apply(Go{Stage::cutaway}), Refusal);
    answerAll(lesson);
    lesson.apply(Commit{});
    CHECK(lesson.stage() == Stage::cutaway);
    const Answers answers = lesson.answers();
    CHECK_THROWS_AS(lesson.apply(Commit{}), Refusal);
    CHECK_THROWS_AS(lesson.apply(Undo{}), Refusal);
    lesson.apply(Go{Stage::plan});
    CHECK_THROWS_AS(lesson.apply(ChooseTests{0, {}}), Refusal);
    lesson.apply(Go{Stage::reading});
    CHECK_THROWS_AS(lesson.apply(SetNext{"look elsewhere"}), Refusal);
    CHECK(lesson.answers() == answers);
}

TEST_CASE("A commitment says what it still lacks", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::reading});
    CHECK(lesson.missing().size() == 6); // two organs twice, points, next step
    lesson.apply(SetPoints{{{"nothing wrong", 40}, {"chronic liver disease", 50}}});
    CHECK_THROWS_WITH(lesson.apply(Commit{}), "The leak of the liver has no answer yet.");
    answerAll(lesson);
    CHECK(lesson.missing().empty());
    lesson.apply(SetPoints{{{"nothing wrong", 40}, {"chronic liver disease", 50}}});
    CHECK_THROWS_WITH(lesson.apply(Commit{}), "The points over the explanations add up to 90; they "
                                              "must add up to 100.");
}

TEST_CASE("Bands out of order, out of range or not a number are refused", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::reading});
    const auto liver = body::Tissue::liver;
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const Band& band : {Band{2, 3, 4}, Band{5, 1, 4}, Band{2, 0, 4}, Band{2, 1, 2000},
                             Band{nan, 1, 4}, Band{2, nan, 4}, Band{2, 1, nan}})
        CHECK_THROWS_AS(lesson.apply(SetLeak{liver, band}), Refusal);
    CHECK_THROWS_AS(lesson.apply(SetWork{liver, {50, -1, 60}}), Refusal);
    CHECK_THROWS_AS(lesson.apply(SetPoints{{{"nothing wrong", nan}}}), Refusal);
    CHECK_THROWS_AS(lesson.apply(SetLeak{body::Tissue::kidney, {2, 1, 4}}), Refusal);
    lesson.apply(SetLeak{liver, {2, 2, 2}}); // a band without width is bold, not wrong
}

TEST_CASE("Leaving out a draw or a test changes no other result", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson whole(subject, known()), part(subject, known());
    part.apply(Go{Stage::plan});
    part.apply(ChooseTests{0, {"bile acids"}});
    REQUIRE(part.taken().size() == 2);
    for (std::size_t i = 0; i < 2; ++i)
        for (const lab::Result& result : part.taken()[i].report.results) {
            const lab::Result* same = whole.taken()[i].report.find(result.analyte);
            REQUIRE(same);
            CHECK(same->value == result.value);
        }
    CHECK(part.taken()[0].report.results.size() < whole.taken()[0].report.results.size());
}

TEST_CASE("A doubt goes when its result is no longer measured", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::report});
    lesson.apply(SetDistrusted{{body::Analyte::bileAcids, body::Analyte::ALT}});
    lesson.apply(Go{Stage::plan});
    lesson.apply(ChooseTests{0, {"chemistry"}});
    CHECK(lesson.answers().distrusted == std::vector<body::Analyte>{body::Analyte::ALT});
}

TEST_CASE("Organs are asked about and opened at the last draw taken", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    CHECK(lesson.questions().hour == 72);
    lesson.apply(Go{Stage::plan});
    lesson.apply(ChooseTests{1, {}});
    CHECK(lesson.questions().hour == 0);
    answerAll(lesson);
    lesson.apply(Commit{});
    const OrganTruth* liver = lesson.truth().find(body::Tissue::liver);
    REQUIRE(liver);
    CHECK(lesson.truth().hour == 0);
    CHECK(liver->work == 100 * lesson.inside(0).work(body::Tissue::liver));
    CHECK(liver->leak == lesson.inside(0).leak(body::Tissue::liver));
    CHECK(liver->work < 40); // three quarters scarred
}

TEST_CASE("A plan starts healthy one day before whatever comes first", "[lesson]") {
    Case subject = scarredLiver();
    CHECK(plan(subject, known(), {0}).from == -9624);
    CHECK(firstInsult(subject) == -9600.0);
    subject.insults.clear();
    CHECK_FALSE(firstInsult(subject));
    CHECK(plan(subject, known(), {0, 72}).from == -24);
    subject.meals = {-2};
    CHECK(plan(subject, known(), {0, 72}).from == -26);
}

} // namespace cistern::lesson
