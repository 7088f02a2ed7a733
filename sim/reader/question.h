#pragma once
#include "lab/report.h"
#include "reader/priors.h"

#include <string>
#include <vector>

namespace cistern::reader {

/// What a draw is known to be: when, how its blood was treated as far as that was seen, and what
/// came back.
struct Sample {
    double hour = 0; ///< scenario time
    lab::Handling handling{};
    bool handedIn = false; ///< only the tubes were seen
    lab::Report report;
};

/// A finding as it was stated: there, or looked for and not there.
struct Sign {
    std::string name;
    bool there = true;
};

/// One way in which an explanation is true of an animal.
struct Meaning {
    std::vector<const body::InsultKind*> with;         ///< all of these, the first before all
    std::vector<const body::InsultKind*> without;      ///< and none of these
    std::optional<std::pair<double, double>> severity; ///< of the first, in its unit
    std::optional<bool> running; ///< whether the first still acts at the last draw
};

/// One of the list over which a learner's points are spread.
struct Explanation {
    std::string name;
    bool nothingWrong = false;
    std::vector<Meaning> meanings; ///< none (and not nothing wrong): no animal here has it
};

/// All that a reader may see of a case, and what it is asked. It holds no insult, no truth and no
/// seed of the animal.
struct Question {
    body::Signalment who;        ///< kind, age, weight, sex, condition; `seed` is never looked at
    std::vector<double> meals;   ///< known meals [h]
    std::vector<Sample> samples; ///< in the order of time, at least one
    std::vector<Sign> signs;
    std::vector<Explanation> explanations; ///< the truth is one of them; empty: not asked
    std::vector<body::Tissue> organs;      ///< asked at the last sample's hour
    std::vector<InsultPrior> own;          ///< of insults that the case itself defines

    double last() const { return samples.back().hour; }
    /// The hour at which the animal was first seen ill: the earliest sample within six weeks of the
    /// last. Earlier ones are looks at health.
    double presented() const;
};

} // namespace cistern::reader
