// What of a lesson the ideal reader is shown.
#include "lab/specimen/handling_words.h"
#include "lesson/ideal.h"

#include <stdexcept>

namespace cistern::lesson {

namespace {

/// A report without what only the laboratory of the case could know.
reader::Sample sample(const Taken& taken, const Draw& draw) {
    reader::Sample out;
    out.hour = taken.report.specimen.hour;
    out.handedIn = draw.handedIn;
    out.report = taken.report;
    lab::Specimen& specimen = out.report.specimen;
    specimen.id.clear(); // it begins with the animal's seed
    if (draw.handedIn) specimen.handling = lab::shownPart(specimen.handling);
    out.handling = specimen.handling;
    return out;
}

} // namespace

reader::Question question(const Lesson& lesson) {
    const Case& subject = lesson.subject();
    if (lesson.taken().empty()) throw std::logic_error("a reader needs a draw");
    reader::Question out;
    out.who = subject.who;
    out.who.seed = 0;
    out.who.potassiumRichCells = false; // nothing that an exam shows
    out.meals = subject.meals;
    for (const Taken& taken : lesson.taken())
        out.samples.push_back(sample(taken, subject.draws.at(taken.draw)));
    std::vector<reader::Stated> stated;
    for (const Finding& finding : subject.exam) {
        std::optional<bool> there;
        if (!finding.value) there = finding.degree != "absent";
        stated.push_back({finding.name, there, finding.value});
    }
    out.signs = reader::signsOf(stated, lesson.knowledge().priors, subject.who.kind);
    out.explanations = explanations(subject, lesson.knowledge());
    out.organs = subject.organs;
    out.own = subject.newPriors;
    return out;
}

reader::Question question(const Case& subject, const Knowledge& knowledge) {
    return question(Lesson(subject, knowledge));
}

} // namespace cistern::lesson
