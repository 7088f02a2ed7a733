// The ideal reader at work beside whoever reads.
#include "case_at_hand.h"
#include "lesson/beside.h"

#include <catch2/catch.hpp>

namespace cistern::lesson {

namespace {

constexpr std::chrono::milliseconds aMinute{60000}; // far more than it takes

} // namespace

TEST_CASE("What the reader beside finds is the same whenever it began", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson early(subject, known()), late(subject, known());
    ReaderBeside before, at;
    CHECK_FALSE(before.ready());
    CHECK(before.progress() == 0);
    for (Lesson* one : {&early, &late}) {
        one->apply(Go{Stage::report});
        one->apply(Go{Stage::reading});
    }
    before.begin(early);
    before.begin(early); // goes on with what was begun
    CHECK(before.waitFor(aMinute));
    CHECK(before.ready());
    CHECK(before.progress() == 1);
    for (Lesson* one : {&early, &late}) {
        for (const body::Tissue organ : one->questions().organs) {
            one->apply(SetLeak{organ, {1, 0.5, 2}});
            one->apply(SetWork{organ, {50, 20, 90}});
        }
        one->apply(SetPoints{{{"chronic liver disease", 100}}});
        one->apply(SetNext{"bile acids"});
        one->apply(Commit{});
    }
    before.compare(early);
    at.compare(late);
    REQUIRE(early.ideal());
    REQUIRE(late.ideal());
    CHECK(early.ideal()->weights == late.ideal()->weights);
    CHECK(early.marks().ideal->total == late.marks().ideal->total);
}

TEST_CASE("The reader beside drops what was begun on other draws, and stops when it goes",
          "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    ReaderBeside reader;
    reader.begin(lesson);
    lesson.apply(Go{Stage::plan});
    lesson.apply(ChooseTests{1, {}});
    reader.begin(lesson);
    CHECK(reader.progress() < 1); // anew
}

} // namespace cistern::lesson
