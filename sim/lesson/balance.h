#pragma once
#include "lesson/ideal.h"

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace cistern::lesson {

/// How loudly a case's blood speaks, how much is lost, and what three readers make of it.
struct CaseFigures {
    std::string name;
    double weight = 1;                      ///< in its set, > 0
    std::optional<body::Analyte> leading;   ///< the loudest result
    double fold = 0;                        ///< how many times it stands over its limit, > 0
    std::optional<body::Tissue> organ;      ///< the organ in question
    double lost = 0;                        ///< of its work at the last draw [%], 0..100
    double ideal = 0, naive = 0, shrug = 0; ///< marks, at most 100
    std::optional<std::pair<double, double>> pair() const; ///< fold and lost, if both are known
};

/// The loudest of the last report that measured any enzyme: the one that stands highest over its
/// upper limit, of all that tissue leaks. Where no draw looked for enzymes, the leading result of
/// the organ in question (see organ.h), by how far it lies on its sick side.
/// The organ in question is the one, of those asked, that lost most of its work; of several that
/// lost alike (within one percentage point) the one whose leading result stands farthest out.
CaseFigures figures(const Case& subject, const Knowledge& knowledge, const Readers& readers);

/// What a set of cases teaches as a whole.
struct Balance {
    std::size_t pairs = 0; ///< cases of which both fold and loss are known
    /// Spearman's, of fold with loss in whole percentage points, so that organs that nobody could
    /// tell apart count as tied; none if all are alike.
    std::optional<double> correlation;
    std::optional<std::pair<double, double>> limits; ///< 95 %, from four cases on
    double ideal = 0, naive = 0, shrug = 0;          ///< mean marks, cases counted by their weights

    bool loudIsNoSickness() const; ///< |correlation| <= mostCorrelation
    bool idealDoesWell() const { return ideal > naive && ideal > shrug; }
    bool naiveGainsNothing() const { return naive <= shrug; }
    bool balanced() const { return loudIsNoSickness() && idealDoesWell() && naiveGainsNothing(); }
};

/// Beyond this a loud result tells a learner of the set how sick the organ is, or how well (chosen:
/// a fiftieth of the variance of ranks).
inline constexpr double mostCorrelation = 0.15;

Balance balance(std::span<const CaseFigures> cases);

/// What one animal of a case is worth as a question.
enum class Worth {
    fair,
    unanswerable, ///< the ideal reader hardly does better than a shrug: the data do not tell
    trivial       ///< the naive reader does as well as the ideal one, and both do well
};
/// Chosen: marks that a coarser answer may cost.
inline constexpr double hardlyBetter = 5; ///< [points]
inline constexpr double doesWell = 80;    ///< [points]

Worth worth(double ideal, double naive, double shrug);

} // namespace cistern::lesson
