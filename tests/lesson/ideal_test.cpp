// The ideal reader's answers and marks, from beliefs made by hand.
#include "base/chance.h"
#include "believed.h"
#include "case_at_hand.h"
#include "lesson/ideal.h"
#include "lesson/record.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace cistern::lesson {

namespace {

using body::Analyte;

/// What a set of distrusted results is expected to earn, by going through every set of faulty ones.
double expected(const std::vector<Analyte>& doubted, const std::vector<Doubt>& doubts) {
    std::vector<Analyte> measured;
    for (const Doubt& one : doubts) measured.push_back(one.analyte);
    double sum = 0;
    for (std::size_t set = 0; set < std::size_t{1} << doubts.size(); ++set) {
        std::vector<Analyte> faulty;
        double chance = 1;
        for (std::size_t i = 0; i < doubts.size(); ++i) {
            const bool bad = (set >> i & 1) != 0;
            chance *= bad ? doubts[i].chance : 1 - doubts[i].chance;
            if (bad) faulty.push_back(doubts[i].analyte);
        }
        sum += chance * specimenPoints(doubted, measured, faulty);
    }
    return sum;
}

const std::vector<Analyte> some = {Analyte::ALT, Analyte::AST,     Analyte::K,
                                   Analyte::Ca,  Analyte::glucose, Analyte::urea};

} // namespace

TEST_CASE("No other set of distrusted results is expected to earn more", "[lesson]") {
    base::Chance chance(7, base::Purpose::test);
    for (int i = 0; i < 40; ++i) {
        const std::size_t n = 1 + static_cast<std::size_t>(i) % some.size();
        std::vector<Doubt> doubts;
        for (std::size_t j = 0; j < n; ++j) {
            const double u = chance.uniform();
            doubts.push_back({some[j], i % 3 == 0 ? u : u * u * u});
        }
        const double own = expected(distrusted(doubts), doubts);
        for (std::size_t set = 0; set < std::size_t{1} << n; ++set) {
            std::vector<Analyte> other;
            for (std::size_t j = 0; j < n; ++j)
                if ((set >> j & 1) != 0) other.push_back(some[j]);
            CAPTURE(i, n, set);
            CHECK(expected(other, doubts) <= own + 1e-9); // points; rounding of 64 terms
        }
    }
}

TEST_CASE("Among sound results a small doubt is worth stating", "[lesson]") {
    // 2 / (n + 2) with n = 6 is 0.25.
    const auto of = [](double doubt) {
        std::vector<Doubt> doubts;
        for (const Analyte analyte : some) doubts.push_back({analyte, 0});
        doubts[2].chance = doubt;
        return distrusted(doubts);
    };
    CHECK(of(0).empty());
    CHECK(of(0.24).empty());
    CHECK(of(0.26) == std::vector<Analyte>{Analyte::K});
    CHECK(distrusted({}).empty());
}

TEST_CASE("A calculated result is doubted as its worst part, a repeated one as its worst draw",
          "[lesson]") {
    reader::Posterior posterior;
    posterior.results = {
        {0, Analyte::protein}, {0, Analyte::albumin}, {0, Analyte::K}, {1, Analyte::K}};
    posterior.spoiled = {0.1, 0.3, 0.6, 0.2};
    const auto all = doubts(posterior, {Analyte::albumin, Analyte::globulin, Analyte::K,
                                        Analyte::anionGap, Analyte::ALT});
    REQUIRE(all.size() == 5);
    CHECK(all[0].chance == 0.3);
    CHECK(all[1].chance == 0.3); // protein less albumin
    CHECK(all[2].chance == 0.6);
    CHECK(all[3].chance == 0.6); // with potassium in it
    CHECK(all[4].chance == 0);
}

TEST_CASE("The ideal reader answers its median, its 10 and 90 % points and its weights",
          "[lesson]") {
    const Case subject = scarredLiver();
    const Lesson lesson = finished(subject);
    reader::Posterior posterior = believed(lesson);
    posterior.organs[0].leak = {0, 0.001, 2, 5000, 9000};
    const auto answers = idealAnswers(posterior, subject, lesson.truth(), {});
    const OrganAnswer& liver = answers.organs.at(body::Tissue::liver);
    CHECK(*liver.work == Band{30, 20, 45});
    CHECK(*liver.leak == Band{2, leastLeak, mostLeak}); // held to what may be answered
    CHECK(answers.points.at("chronic liver disease") == Approx(70));
    CHECK(answers.points.at("nothing wrong") == Approx(10));
    CHECK(answers.next == "bile acids"); // its heaviest explanation is true

    std::swap(posterior.weights[0], posterior.weights[1]);
    CHECK_FALSE(idealAnswers(posterior, subject, lesson.truth(), {}).next);
    posterior.weights = {0, 0, 0}; // no story fits
    CHECK(idealAnswers(posterior, subject, lesson.truth(), {}).points.at("nothing wrong") ==
          Approx(100. / 3));
}

TEST_CASE("A lesson takes the ideal reader's belief after the commitment, and its record does not",
          "[lesson]") {
    const Case subject = scarredLiver();
    Lesson open(subject, known());
    CHECK_THROWS_AS(open.compare(reader::Posterior{}), std::logic_error);
    Lesson lesson = finished(subject);
    CHECK_FALSE(lesson.marks().ideal);
    const std::string before = toJson(lesson).dump();
    const double own = lesson.marks().learner.total;
    lesson.compare(believed(lesson));
    REQUIRE(lesson.marks().ideal);
    CHECK(lesson.marks().ideal->parts.size() == lesson.marks().learner.parts.size());
    CHECK(lesson.marks().learner.total == own);
    CHECK(toJson(lesson).dump() == before);
    CHECK(replay(before, "r.json", subject, known()).sameMarks);
}

TEST_CASE("An explanation means the insults that it names, unless the case says otherwise",
          "[lesson]") {
    Case subject = scarredLiver();
    subject.explanations = {"nothing wrong", "chronic liver disease", "a bad dream"};
    auto list = explanations(subject, known());
    REQUIRE(list.size() == 3);
    CHECK(list[0].nothingWrong);
    CHECK(list[0].meanings.empty());
    REQUIRE(list[1].meanings.size() == 1);
    CHECK(list[1].meanings[0].with ==
          std::vector<const body::InsultKind*>{&insultKind("hepatic fibrosis")});
    CHECK(list[2].meanings.empty());
    CHECK_FALSE(list[2].nothingWrong);

    subject.means["a bad dream"] = {{{&insultKind("fright")}, {}, std::nullopt, false}};
    list = explanations(subject, known());
    REQUIRE(list[2].meanings.size() == 1);
    CHECK(list[2].meanings[0].running == false);
}

} // namespace cistern::lesson
