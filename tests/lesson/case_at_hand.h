#pragma once
#include "base/file.h"
#include "lesson/lesson.h"
#include "scenario/assets.h"

#include <stdexcept>

namespace cistern::lesson {

/// What the program ships with, loaded once for all tests of this layer.
inline const Knowledge& known() {
    static const scenario::Assets assets =
        scenario::loadAssets(base::Disk(), CISTERN_SOURCE "/assets");
    return assets.knowledge;
}

inline const body::InsultKind& insultKind(const std::string& name) {
    for (const body::InsultKind& kind : known().insults)
        if (kind.name == name) return kind;
    throw std::out_of_range("no insult is named " + name);
}

/// A dog whose scarred liver took one more blow: quiet over months, then briefly loud. Invented.
inline Case scarredLiver() {
    Case out;
    out.name = "scarred_liver";
    out.title = "One more blow";
    out.patient = "Bramble";
    out.who.kind = body::Kind::dog;
    out.who.age = 9 * 8766;
    out.who.weight = 18;
    out.who.sex = body::Sex::spayedFemale;
    out.who.condition = 4;
    out.who.seed = 4711;
    out.exam = {{"ascites", "moderate", std::nullopt, ""}, {"icterus", "absent", std::nullopt, ""}};
    out.insults = {{&insultKind("hepatic fibrosis"), 0.75, -9600, 0},
                   {&insultKind("hepatocyte necrosis"), 0.10, -36, -24}};
    Draw first, second;
    first.at = 0;
    first.tests = {"chemistry", "bile acids"};
    second.at = 72;
    second.tests = {"chemistry"};
    out.draws = {first, second};
    out.organs = {body::Tissue::liver, body::Tissue::bileDucts};
    out.explanations = {"nothing wrong", "chronic liver disease", "steroid tablets effect"};
    out.next = {"bile acids", "repeat in 3 days", "look elsewhere"};
    out.key.explanations = {"chronic liver disease"};
    out.key.next = {"bile acids", "repeat in 3 days"};
    out.trap = "The enzymes look mild.";
    out.settles = "Albumin and bile acids, and a round belly.";
    out.debrief = "A liver with few cells left has little left to spill.";
    return out;
}

/// A case in which nothing happens at all.
inline Case healthyCat() {
    Case out;
    out.name = "healthy_cat";
    out.patient = "Tarn";
    out.who.kind = body::Kind::cat;
    out.who.age = 6 * 8766;
    out.who.weight = 4.5;
    out.who.sex = body::Sex::neuteredMale;
    out.who.seed = 12;
    Draw draw;
    draw.tests = {"chemistry"};
    out.draws = {draw};
    out.organs = {body::Tissue::kidney, body::Tissue::skeletalMuscle};
    out.explanations = {"nothing wrong", "early nephron loss"};
    out.key.explanations = {"nothing wrong"};
    return out;
}

inline void answerAll(Lesson& lesson) {
    lesson.apply(Go{Stage::reading});
    for (const body::Tissue organ : lesson.subject().organs) {
        lesson.apply(SetLeak{organ, {2, 1, 6}});
        lesson.apply(SetWork{organ, {50, 20, 90}});
    }
    lesson.apply(SetPoints{
        {{lesson.subject().explanations.at(0), 30}, {lesson.subject().explanations.at(1), 70}}});
    if (!lesson.subject().next.empty()) lesson.apply(SetNext{lesson.subject().next.front()});
}

inline Lesson finished(const Case& subject) {
    Lesson lesson(subject, known());
    answerAll(lesson);
    lesson.apply(Commit{});
    return lesson;
}

} // namespace cistern::lesson
