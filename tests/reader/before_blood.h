#pragma once
#include "reader/signs.h"
#include "scenario/at_hand.h"

#include <string>
#include <vector>

namespace cistern::test {

/// An animal of which only age and signs are known.
reader::Question noBlood(body::Kind kind, double years, const std::vector<reader::Sign>& signs,
                         body::Sex sex = body::Sex::spayedFemale);

/// The animals of stories when they are first seen, at every median of their species; those that
/// none lives through are empty.
std::vector<std::optional<body::Snapshot>> presented(const reader::Question& question,
                                                     const std::vector<reader::Story>& stories);

/// What signs leave of the priors, no blood seen: each main insult with its weight in percent,
/// heaviest first, "nothing wrong" among them. `each` stories are drawn of each main insult, the
/// same for the same question.
struct Belief {
    std::string insult;
    double percent;
};
std::vector<Belief> beforeBlood(const reader::Question& question, std::size_t each);
double percentOf(const std::vector<Belief>& beliefs, const std::string& insult);

} // namespace cistern::test
