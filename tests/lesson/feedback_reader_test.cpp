#include "believed.h"
#include "case_at_hand.h"
#include "lesson/feedback.h"

#include <catch2/catch.hpp>

namespace cistern::lesson {

namespace {

std::string under(const std::string& heading, const Lesson& lesson) {
    std::string text;
    for (const Paragraph& paragraph : feedback(lesson, lab::Units::conventional))
        if (paragraph.heading == heading)
            for (const std::string& sentence : paragraph.sentences) text += sentence + "\n";
    return text;
}

const std::string holds = "What the results hold", next = "What a next test would tell";

} // namespace

TEST_CASE("Feedback is silent about a reader that was not compared", "[lesson]") {
    const Case subject = scarredLiver();
    const Lesson lesson = finished(subject);
    CHECK(under(holds, lesson).empty());
    CHECK(under(next, lesson).empty());
}

TEST_CASE("Feedback says what the ideal reader believed and which piece moved it most",
          "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson = finished(subject);
    lesson.compare(believed(lesson));
    const std::string text = under(holds, lesson);
    INFO(text);
    CHECK_THAT(text, Catch::Contains("gives chronic liver disease 70, steroid tablets effect 20 "
                                     "and nothing wrong 10; before the exam nothing wrong 60"));
    const lab::Result* albumin = lesson.taken()[0].report.find(body::Analyte::albumin);
    REQUIRE(albumin);
    const std::string amount =
        lab::printed(*albumin, known().bench, lab::Units::conventional) + " g/dL";
    CHECK_THAT(text, Catch::Contains("On its own, albumin of " + amount +
                                     " at draw 1 would move a careful reader from 10 % to 60 % for "
                                     "chronic liver disease: 1.2 bits."));
    CHECK_THAT(text, Catch::Contains("K of "));
    CHECK_THAT(text, Catch::Contains("would mislead a careful reader from 10 % to 2 %"));
    CHECK_THAT(text, Catch::Contains("as many as 840 stories count."));
    CHECK_THAT(text, !Catch::Contains("rough"));
}

TEST_CASE("Feedback weighs the learner's points and bands against the ideal reader's", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    answerAll(lesson);
    lesson.apply(SetPoints{
        {{"nothing wrong", 60}, {"chronic liver disease", 25}, {"steroid tablets effect", 15}}});
    lesson.apply(SetWork{body::Tissue::liver, {90, 85, 95}});     // the reader: 20 to 45
    lesson.apply(SetWork{body::Tissue::bileDucts, {30, 28, 33}}); // the same
    lesson.apply(SetLeak{body::Tissue::liver, {2, 0.2, 30}});     // the reader: 1 to 4
    lesson.apply(SetLeak{body::Tissue::bileDucts, {2, 1, 4.5}});
    lesson.apply(Commit{});
    lesson.compare(believed(lesson));
    const std::string text = under(holds, lesson);
    INFO(text);
    CHECK_THAT(text, Catch::Contains("You gave more than the results hold to nothing wrong (you "
                                     "60, the reader 10)."));
    CHECK_THAT(text, Catch::Contains("You gave less than they hold to chronic liver disease (you "
                                     "25, the reader 70)."));
    CHECK_THAT(text,
               Catch::Contains("Work of the liver: the reader's 80 % band is 20 to 45 %, most "
                               "likely 30 %; yours lies above it, and the truth lay "));
    CHECK_THAT(text, Catch::Contains("yours is much narrower than the results allow"));
    CHECK_THAT(text,
               Catch::Contains("Leak of the liver: the reader's 80 % band is 1 to 4 fold, most "
                               "likely 2 fold; yours could be "
                               "much narrower"));
    CHECK_THAT(text, Catch::Contains("yours is about as wide"));
}

TEST_CASE("Feedback tells what tests that were left out would have told", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::plan});
    lesson.apply(ChooseTests{0, {"chemistry"}});
    lesson.apply(ChooseTests{1, {}}); // the first draw is the last one taken
    answerAll(lesson);
    lesson.apply(Commit{});
    lesson.compare(believed(lesson));
    const std::string text = under(next, lesson);
    INFO(text);
    // Entropy of 0.1, 0.7, 0.2: 0.332 + 0.360 + 0.464 bits.
    CHECK_THAT(text, Catch::Contains("What is still open on the list is 1.2 bits."));
    CHECK_THAT(text, Catch::Contains("tests that you left out would be expected to tell of it: "
                                     "bile acids 0.30 bits."));
    CHECK_THAT(text, Catch::Contains("most would be expected of clotting 0.40 bits."));
    CHECK_THAT(text, !Catch::Contains("T4"));
}

TEST_CASE("Feedback warns where few stories carry the weight", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson = finished(subject);
    reader::Posterior thin = believed(lesson);
    thin.effective = 12;
    thin.moved.clear();
    thin.gains.clear();
    lesson.compare(thin);
    CHECK_THAT(under(holds, lesson), Catch::Contains("12 stories count. That is few"));
    CHECK(under(next, lesson).empty());
}

} // namespace cistern::lesson
