#pragma once
#include "body/course.h"
#include "reader/story.h"

#include <vector>

namespace cistern::reader {

/// The signs that a list of exam findings states: named ones as they stand, measured ones by the
/// thresholds (asked, and there or not). Findings that no prior knows are left out.
struct Stated {
    std::string finding;         ///< as in assets/findings.yaml
    std::optional<bool> there;   ///< of a named one
    std::optional<double> value; ///< of a measured one, in the finding's unit
};
std::vector<Sign> signsOf(const std::vector<Stated>& findings, const Priors& priors,
                          body::Kind kind);

/// What signs say of stories. One a question.
class SignEvidence {
public:
    /// Both must outlive it.
    SignEvidence(const Priors& priors, const Question& question);

    /// Analytes whose levels some stated sign follows; they must be simulated.
    const std::vector<body::Analyte>& analytes() const { return analytes_; }

    /// P(each stated sign is told | the story, and the state in which the animal came), in the
    /// order of Question::signs: of those that are not there, of not being told.
    std::vector<double> chances(const Story& story, const body::Snapshot& presented) const;
    /// Logarithm of P(all of them): general signs are tempered, see Priors::together.
    double log(const std::vector<double>& chances) const;

private:
    const Priors* priors_;
    const Question* question_;
    std::vector<body::Analyte> analytes_;
};

} // namespace cistern::reader
