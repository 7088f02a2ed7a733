#pragma once
#include "reader/story.h"

#include <cstdint>
#include <utility>
#include <vector>

namespace cistern::reader {

/// Explanations of a list, one bit each; the list has at most 64.
using Fits = std::uint64_t;

/// The explanations of the question's list that are true of a story: of those that one of its
/// meanings makes true, the ones that speak of the main insult before those that speak of a
/// companion, and the more particular before the general; several that are equally so share the
/// story. A story of nothing but passing insults that no explanation names is "nothing wrong". No
/// bits: the list does not hold what happened.
Fits fits(const Story& story, const Question& question, const Stories& stories);

/// What explains a story, whichever of its insults is the main one.
struct Explained {
    std::vector<std::pair<Fits, double>> by; ///< explanations that share it, and the chance of that
                                             ///< (sum 1); none: the list never holds it
    double listed = 0;                       ///< chance that the list holds it at all

    /// Adds a weight to the explanations, each its share.
    void addTo(std::vector<double>& shares, double weight) const;
};
Explained explained(const Story& story, const Stories::Origins& origins, const Question& question,
                    const Stories& stories);

} // namespace cistern::reader
