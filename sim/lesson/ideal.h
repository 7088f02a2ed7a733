#pragma once
#include "lesson/lesson.h"
#include "reader/posterior.h"

namespace cistern::lesson {

/// What a reader may see of a lesson as it stands: the draws taken, their results, the exam and the
/// lists; how blood was treated only as far as whoever reads could know it. No insult, no truth.
reader::Question question(const Lesson& lesson);
/// The same of a case as it is written: every draw, every test.
reader::Question question(const Case& subject, const Knowledge& knowledge);

/// The reader for a question of this knowledge, which must outlive it.
reader::Reader readerOf(const Knowledge& knowledge, reader::Question question);

/// What the ideal reader answers: bands from the 10 % and 90 % points about the median, points as
/// the weights, results distrusted where that brings the better mark, and as next step the key's
/// best if its heaviest explanation is true, else a blind pick.
Answers idealAnswers(const reader::Posterior& posterior, const Case& subject, const Truth& truth);

/// Everyone's marks on a case as it is written, and what the ideal reader believes.
struct Readers {
    Truth truth;
    reader::Posterior posterior;
    Sheet ideal, naive, shrug;
};
Readers readers(const Case& subject, const Knowledge& knowledge, const reader::Effort& effort);

/// Animals of an ensemble in a lesson: enough for marks, within a second.
inline constexpr std::size_t lessonAnimals = 20000;

} // namespace cistern::lesson
