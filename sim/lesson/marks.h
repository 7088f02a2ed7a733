#pragma once
#include "lesson/answers.h"
#include "lesson/case.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::lesson {

/// What was true of an organ at the last draw taken.
struct OrganTruth {
    body::Tissue organ{};
    double leak = 1;   ///< fold of own healthy release per gram
    double work = 100; ///< [%] of the healthy organ
};

struct Truth {
    double hour = 0; ///< scenario time of the last draw taken [h]
    std::vector<OrganTruth> organs;
    std::vector<std::string> explanations, next;      ///< from the key; may be empty
    std::vector<body::Analyte> distrusted;            ///< results that deserve no trust
    const OrganTruth* find(body::Tissue organ) const; ///< null if not asked
};

/// The truth of a case whose last draw taken found the animal like this.
Truth truthOf(const Case& lesson, const body::Snapshot& last);

/// The parts of a mark. `weight` of each is in marks.cpp, one table.
enum class Part { leak, work, explanations, next, specimen };
std::string_view name(Part part); // "leak", "work", "explanations", "next step", "specimen"

struct Mark {
    Part part{};
    std::optional<body::Tissue> organ; ///< for leak and work
    double points = 0; ///< 100 is perfect; may fall below 0, where a bold answer missed
    double weight = 0; ///< share of the whole, 0..1; all weights of a sheet add up to 1
};

/// One reader's marks on one case.
struct Sheet {
    std::string reader; ///< "you", "the shrug", "the naive reader", "the ideal reader"
    std::string how;    ///< how that reader reads, one sentence; empty for the learner
    Answers answers;
    std::vector<Mark> parts;
    double total = 0; ///< weighted sum, at most 100; may fall below 0
};

/// The learner's sheet and those of fixed readers on the same case and reports.
struct Marks {
    Sheet learner, shrug, naive;
    std::optional<Sheet> ideal; ///< once Lesson::compare() brought it; never part of a record
};

// The scores. Each is proper: its expectation is greatest for the answer that says what one
// believes. The maps to points are affine, so they stay proper; nothing is clipped.

/// Weighted interval score of a median and one 80 % band, >= 0, 0 for a certain hit; in the unit of
/// its arguments. Bracher and others 2021 (one interval: (|y - m| / 2 + alpha / 2 * IS) / 1.5) with
/// the interval score of Gneiting and Raftery 2007, alpha = 0.2.
double intervalScore(const Band& band, double truth);

/// Leak: the interval score in doublings (log2 fold; truth and answer alike held to leastLeak ..
/// mostLeak), 100 points for 0, 0 points for 1.5 doublings. Between 100 and -786.
double leakPoints(const Band& fold, double truth);

/// Work: the interval score in percentage points, 100 points for 0, 0 points for 30. Between 100
/// and -400.
double workPoints(const Band& percent, double truth);

/// Points over explanations: Brier score, 100 for all points on what is true (evenly, if several
/// are), 0 for all on one wrong explanation.
double explanationPoints(const std::map<std::string, double>& points,
                         const std::vector<std::string>& list,
                         const std::vector<std::string>& isTrue);

/// Next step: 100 for the best, 60 for another acceptable one, else 0; a reader who names none gets
/// what a blind pick from the list would bring.
double nextPoints(const std::optional<std::string>& next, const std::vector<std::string>& list,
                  const std::vector<std::string>& acceptable);

/// Specimen: the share of sound results that were trusted and of faulty ones that were not, each
/// kind counting half; 0 .. 100.
double specimenPoints(const std::vector<body::Analyte>& distrusted,
                      const std::vector<body::Analyte>& measured,
                      const std::vector<body::Analyte>& faulty);

/// The result by which a careless reader judges an organ: its first clue that was measured, see
/// organ.h. From the last report that has it; null if none has.
const lab::Result* leadingResult(body::Tissue tissue, const std::vector<lab::Report>& reports);

/// Fixed readers' answers. The shrug knows only that patients come: leak 1.5 (0.7 .. 8) fold, work
/// 80 (25 .. 100) %, even points. It is a stand-in for the prior and the same for every case: a
/// mark that waits for no ensemble and holds none of its chance. The naive reader: bigger number,
/// sicker organ (a count or a hormone: the number is the organ); a flag means disease; no flag
/// means healthy.
Answers shrugAnswers(const Case& lesson);
Answers naiveAnswers(const Case& lesson, const Knowledge& knowledge,
                     const std::vector<lab::Report>& reports);

/// Marks one reader's answers. `measured`: results of the draws taken.
Sheet sheet(const std::string& reader, const Answers& answers, const Case& lesson,
            const Truth& truth, const std::vector<body::Analyte>& measured);

/// Marks the learner and the fixed readers.
Marks marks(const Answers& learner, const Case& lesson, const Knowledge& knowledge,
            const Truth& truth, const std::vector<lab::Report>& reports);

/// A total in words, kind and honest: "71 of 100", or below zero "no points: the bands were narrow
/// and missed".
std::string inWords(double total);

} // namespace cistern::lesson
