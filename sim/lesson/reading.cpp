// All fixed readers on one case.
#include "lesson/ideal.h"

namespace cistern::lesson {

reader::Reader readerOf(const Knowledge& knowledge, reader::Question question) {
    const body::Species& species = knowledge.species(question.who.kind);
    return {knowledge.priors, knowledge.bench, species, std::move(question)};
}

Readers readers(const Case& subject, const Knowledge& knowledge, const reader::Effort& effort) {
    const Lesson lesson(subject, knowledge);
    const std::vector<body::Analyte> measured = lesson.questions().results;
    std::vector<lab::Report> reports;
    for (const Taken& taken : lesson.taken()) reports.push_back(taken.report);

    Readers out;
    out.truth = truthOf(subject, atDraws(subject, knowledge).at(lesson.taken().back().draw));
    out.posterior = readerOf(knowledge, question(lesson)).weigh(effort);
    out.ideal = idealSheet(out.posterior, subject, out.truth, measured);
    out.naive = sheet("the naive reader", naiveAnswers(subject, knowledge, reports), subject,
                      out.truth, measured);
    out.shrug = sheet("the shrug", shrugAnswers(subject), subject, out.truth, measured);
    return out;
}

} // namespace cistern::lesson
