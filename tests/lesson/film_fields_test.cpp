#include "base/statistics.h"
#include "lesson/film_fields.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace cistern;
using body::Kind;

namespace {

bool contains(const std::string& text, std::string_view part) {
    return text.find(part) != text.npos;
}

} // namespace

TEST_CASE("Platelets are estimated from fields, with the limits of the count", "[lesson]") {
    // 12 a field: 180 by 15 (Cornell) and 240 by 20 (Tasker 1999).
    const std::vector<lesson::FieldCount> ten(10, {lesson::usualField, 12});
    const auto estimate = lesson::plateletFields(ten);
    CHECK(estimate.field.mean == Approx(12));
    CHECK(estimate.low == Approx(180));
    CHECK(estimate.high == Approx(240));
    const auto [low, high] = base::countLimits(120, 0.95);
    CHECK(estimate.limits.first == Approx(15 * low / 10));
    CHECK(estimate.limits.second == Approx(20 * high / 10));
    CHECK(estimate.field.enough());
    CHECK(contains(estimate.sentence, "about 180 to 240 x 10*9/L"));
    // Fields of half the size hold half as many.
    const std::vector<lesson::FieldCount> few(4, {lesson::usualField / 2, 6});
    CHECK(lesson::plateletFields(few).field.mean == Approx(12));
    CHECK(contains(lesson::plateletFields(few).sentence, "Count 10 fields"));
    const std::vector<lesson::FieldCount> none(10, {lesson::usualField, 0});
    CHECK(lesson::plateletFields(none).limits.second == Approx(20 * 3.689 / 10).epsilon(1e-3));
    CHECK_THROWS_AS(lesson::fieldMean({}), std::invalid_argument);
    const std::vector<lesson::FieldCount> bad{{std::nan(""), 1}};
    CHECK_THROWS_AS(lesson::fieldMean(bad), std::invalid_argument);
}

TEST_CASE("Grades follow the mean of a field and are marked by steps", "[lesson]") {
    // Weiss 1984 (from memory): dog 2-7, 8-14, 15-29, 30 on; cat 1-2, 3-8, 9-15, 16 on.
    const auto dog = [](double mean) { return lesson::polychromasiaGrade(mean, Kind::dog); };
    const auto cat = [](double mean) { return lesson::polychromasiaGrade(mean, Kind::cat); };
    CHECK(dog(1.4) == 0);
    CHECK(dog(2) == 1);
    CHECK(dog(7.4) == 1);
    CHECK(dog(8) == 2);
    CHECK(dog(29) == 3);
    CHECK(dog(31) == 4);
    CHECK(cat(0.4) == 0);
    CHECK(cat(2) == 1);
    CHECK(cat(3) == 2);
    CHECK(cat(15) == 3);
    CHECK(cat(16) == 4);
    // Inclusion text of a trial in immune-mediated anemia: 1-10, 11-50, 51-150.
    CHECK(lesson::spherocyteGrade(10, Kind::dog) == 1);
    CHECK(lesson::spherocyteGrade(11, Kind::dog) == 2);
    CHECK(lesson::spherocyteGrade(60, Kind::dog) == 3);
    CHECK_FALSE(lesson::spherocyteGrade(60, Kind::cat));
    CHECK(lesson::gradeWords(2) == "moderate (2+)");
    CHECK(lesson::gradeMark(2, 2).points == 100);
    CHECK(lesson::gradeMark(1, 2).points == 50);
    CHECK(lesson::gradeMark(4, 1).points == 0);
    CHECK(contains(lesson::gradeMark(1, 2).sentence, "it is moderate (2+), one step off"));
    CHECK_THROWS_AS(lesson::gradeMark(5, 1), std::invalid_argument);
}
