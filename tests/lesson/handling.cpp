// Blood taken and treated otherwise than the case has it: an action like any other.
#include "case_at_hand.h"
#include "lesson/record.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace cistern::lesson {

namespace {

Case withTubes() {
    Case subject = scarredLiver();
    for (Draw& draw : subject.draws)
        draw.handling.tubes = {lab::usualTube("serum"), lab::usualTube("edta")};
    return subject;
}

std::string refusalOf(Lesson& lesson, const Action& action) {
    try {
        lesson.apply(action);
    } catch (const Refusal& refusal) {
        return refusal.what();
    }
    return "";
}

} // namespace

TEST_CASE("A learner may handle a draw otherwise, and take it back", "[lesson]") {
    const Case subject = withTubes();
    Lesson lesson(subject, known());
    CHECK(refusalOf(lesson, Handle{0, "serum clot", "4 min"}) ==
          "That is done on the plan page; this is the bedside page.");
    lesson.apply(Go{Stage::plan});
    lesson.apply(Handle{0, "serum clot", "4 min"});
    CHECK(lesson.handling()[0].tube("serum")->clot == Approx(4. / 60));
    CHECK(lesson.handling()[1] == subject.draws[1].handling);
    CHECK(lesson.taken()[0].report.specimen.handling == lesson.handling()[0]);
    lesson.apply(Undo{});
    CHECK(lesson.handling()[0] == subject.draws[0].handling);
    CHECK(refusalOf(lesson, Handle{7, "serum clot", "4 min"}) ==
          "There is no draw 8; the case offers 2.");
    CHECK(refusalOf(lesson, Handle{0, "serum clot", "4 kg"}) ==
          "The serum clot cannot be \"4 kg\"; allowed: 0 min to 3 d.");
    CHECK(lesson.handling()[0] == subject.draws[0].handling);
}

TEST_CASE("A specimen that was handed in cannot be taken otherwise", "[lesson]") {
    Case subject = withTubes();
    subject.draws[0].handedIn = true;
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::plan});
    CHECK(refusalOf(lesson, Handle{0, "serum clot", "4 min"}) ==
          "That specimen was handed in; how it was taken and treated cannot be changed.");
    lesson.apply(Handle{1, "vein", "cephalic"});
    CHECK(lesson.handling()[1].vein == "cephalic");
}

TEST_CASE("What was done to the blood stands in the record and in a file of answers", "[lesson]") {
    const Case subject = withTubes();
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::plan});
    lesson.apply(Handle{1, "edta inversions", "0"});
    const Replay again = replay(toJson(lesson).dump(), "record.json", subject, known());
    CHECK(again.lesson.actions() == lesson.actions());
    CHECK(again.lesson.handling() == lesson.handling());

    nlohmann::json answers = nlohmann::json::parse(exampleAnswers(lesson));
    answers["draws"] = {1, {{"draw", 2}, {"handling", {{"edta inversions", "0"}}}}};
    Lesson scripted(subject, known());
    for (const Action& action : readAnswers(answers.dump(), "answers.json", subject, known()))
        scripted.apply(action);
    CHECK(scripted.committed());
    CHECK(scripted.handling() == lesson.handling());

    answers["draws"][1]["handling"] = {{"edta inversion", "0"}};
    CHECK_THROWS_AS(readAnswers(answers.dump(), "answers.json", subject, known()),
                    base::InputError);
}

} // namespace cistern::lesson
