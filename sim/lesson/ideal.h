#pragma once
#include "lesson/lesson.h"
#include "reader/posterior.h"

namespace cistern::lesson {

/// A case's list of explanations with what each means: what the case says of it, else every kind of
/// insult, of the shelf or the case's own, that it names or that `explains` it. One without a
/// meaning is of no animal that can be made here, and the ideal reader gives it nothing.
std::vector<reader::Explanation> explanations(const Case& subject, const Knowledge& knowledge);

/// Explanations of which the ideal reader makes no animal: without a meaning, or by insults alone
/// of which no prior is known.
std::vector<std::string> beyondTheReader(const Case& subject, const Knowledge& knowledge);

/// What a reader may see of a lesson as it stands: the draws taken, their results, the exam and the
/// lists; how blood was treated only as far as whoever reads could know it. No insult, no truth, no
/// seed. At least one draw must be taken (else std::logic_error).
reader::Question question(const Lesson& lesson);
/// The same of a case as it is written: every draw, every test.
reader::Question question(const Case& subject, const Knowledge& knowledge);

/// The reader for a question of this knowledge, which must outlive it.
reader::Reader readerOf(const Knowledge& knowledge, reader::Question question);

/// A result and how likely it is that specimen or machine spoiled it.
struct Doubt {
    body::Analyte analyte{};
    double chance = 0; ///< 0..1
};
/// These results' chances: the worst of its draws for each, of a calculated one the worst of its
/// parts, 0 for one that the reader knows nothing of.
std::vector<Doubt> doubts(const reader::Posterior& posterior,
                          const std::vector<body::Analyte>& measured);
/// The results to distrust for the highest expected specimenPoints(), as if these chances were
/// independent. Given which results are faulty the score is a sum over results, so each is settled
/// by itself: it is distrusted if q E[1 / faulty] > (1 - q) E[1 / sound], the numbers in their
/// classes with this one, each over two unless the other class is empty. Beside n - 1 results that
/// are surely sound that is q > 2 / (n + 2): a faulty one is half of the mark.
std::vector<body::Analyte> distrusted(const std::vector<Doubt>& doubts);

/// What the ideal reader answers: bands from the 10 % and 90 % points about the median, points as
/// the weights, results distrusted where that brings the better mark, and as next step the key's
/// best if its heaviest explanation is true, else a blind pick. `measured`: results of the draws.
Answers idealAnswers(const reader::Posterior& posterior, const Case& subject, const Truth& truth,
                     const std::vector<body::Analyte>& measured);
/// Its marks.
Sheet idealSheet(const reader::Posterior& posterior, const Case& subject, const Truth& truth,
                 const std::vector<body::Analyte>& measured);

/// Everyone's marks on a case as it is written, and what the ideal reader believes.
struct Readers {
    Truth truth;
    reader::Posterior posterior;
    Sheet ideal, naive, shrug;
};
Readers readers(const Case& subject, const Knowledge& knowledge, const reader::Effort& effort);

/// Animals of an ensemble in a lesson: enough for marks, within a second.
inline constexpr std::size_t lessonAnimals = 40000;

} // namespace cistern::lesson
