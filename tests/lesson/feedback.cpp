#include "lesson/feedback.h"

#include "base/text.h"
#include "case_at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

namespace cistern::lesson {

namespace {

std::string wholeText(const Lesson& lesson, lab::Units units = lab::Units::conventional) {
    std::string all;
    for (const Paragraph& paragraph : feedback(lesson, units)) {
        all += "# " + paragraph.heading + "\n";
        for (const std::string& sentence : paragraph.sentences) all += sentence + "\n";
    }
    return all;
}

} // namespace

TEST_CASE("Feedback waits for the commitment", "[lesson]") {
    const Case subject = scarredLiver();
    const Lesson lesson(subject, known());
    CHECK_THROWS_AS(feedback(lesson, lab::Units::si), std::logic_error);
}

TEST_CASE("Feedback tells leak and work of the organ from the animal's own numbers", "[lesson]") {
    const Case subject = scarredLiver();
    const Lesson lesson = finished(subject);
    const std::string text = wholeText(lesson);
    INFO(text);
    const OrganTruth& liver = *lesson.truth().find(body::Tissue::liver);
    const std::string work = base::rounded(liver.work, 1) + " %";
    CHECK_THAT(text, Catch::Contains("At the last draw " + work + " of her liver worked"));
    const lab::Result* alt = lesson.taken()[1].report.find(body::Analyte::ALT);
    REQUIRE(alt);
    CHECK_THAT(text, Catch::Contains("The printed ALT of " +
                                     lab::printed(*alt, known().bench, lab::Units::conventional) +
                                     " U/L is "));
    CHECK_THAT(text, Catch::Contains(
                         "halves in " +
                         base::rounded(lesson.animal().own.pool[int(body::Pool::ALT)].halfLife, 1) +
                         " hours"));
    CHECK_THAT(text, Catch::Contains("What settled it: Albumin and bile acids"));
    CHECK_THAT(text, Catch::Contains("Found: ascites (moderate)."));
    CHECK_THAT(text, Catch::Contains("Looked for and not there: icterus."));
    CHECK_THAT(text, Catch::Contains("You gave 70 of 100 points to it."));
    CHECK_THAT(text, Catch::Contains("That is the best step here."));
    CHECK_THAT(text, Catch::Contains("A liver with few cells left has little left to spill."));
}

TEST_CASE("Feedback says by how much a band missed", "[lesson]") {
    const Case subject = scarredLiver();
    Lesson lesson(subject, known());
    answerAll(lesson);
    lesson.apply(SetWork{body::Tissue::liver, {95, 90, 100}});
    lesson.apply(SetLeak{body::Tissue::liver, {100, 50, 200}});
    lesson.apply(Commit{});
    const OrganTruth& liver = *lesson.truth().find(body::Tissue::liver);
    const std::string text = wholeText(lesson);
    INFO(text);
    CHECK_THAT(text, Catch::Contains("Your work band, 90 to 100 %, began " +
                                     base::rounded(90 - liver.work, 1) + " points above the true " +
                                     base::rounded(liver.work, 1) + " %"));
    CHECK_THAT(text, Catch::Contains("you took it for louder than it was"));
}

TEST_CASE("Feedback on a healthy animal finds nothing that moved without a reason", "[lesson]") {
    const Case subject = healthyCat();
    const Lesson lesson = finished(subject);
    const std::string text = wholeText(lesson, lab::Units::si);
    INFO(text);
    CHECK_THAT(text, Catch::Contains("100 % of his kidney worked"));
    CHECK_THAT(text, Catch::Contains("100 % of his healthy"));
    CHECK_THAT(text, Catch::Contains("No result here measures what the skeletal muscle does"));
    CHECK_THAT(text, !Catch::Contains("What acted on the"));
    CHECK_THAT(text, !Catch::Contains("it would have told"));
    CHECK_THAT(text, !Catch::Contains("Not flagged, though far"));
}

TEST_CASE("Feedback calls a pup's bone growth and not injury", "[lesson]") {
    Case pup = healthyCat();
    pup.who.kind = body::Kind::dog;
    pup.who.age = 5 * 730; // five months [h]
    pup.who.weight = 14;
    pup.organs = {body::Tissue::bone};
    const std::string text = wholeText(finished(pup));
    INFO(text);
    CHECK_THAT(text, Catch::Contains("that is growth, not injury."));
    CHECK_THAT(text, Catch::Contains("No more bone ALP than the healthy flow went into his blood"));
}

TEST_CASE("Feedback is plain: no sentence is empty, unfinished or holds a number gone wrong",
          "[lesson]") {
    const Case liver = scarredLiver(), cat = healthyCat();
    for (const Case* subject : {&liver, &cat})
        for (const lab::Units units : {lab::Units::conventional, lab::Units::si})
            for (const Paragraph& paragraph : feedback(finished(*subject), units)) {
                CHECK_FALSE(paragraph.heading.empty());
                CHECK_FALSE(paragraph.sentences.empty());
                for (const std::string& sentence : paragraph.sentences) {
                    CAPTURE(sentence);
                    REQUIRE_FALSE(sentence.empty());
                    CHECK(sentence.back() == '.');
                    CHECK(sentence.find("nan") == std::string::npos);
                    CHECK(sentence.find("inf ") == std::string::npos);
                    CHECK(sentence.find("..") == std::string::npos);
                }
            }
}

} // namespace cistern::lesson
