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

    /// Whether some stated sign follows the state in which the animal came.
    bool needsState() const { return needsState_; }
    /// Analytes whose levels some stated sign follows; they must be simulated.
    const std::vector<body::Analyte>& analytes() const { return analytes_; }

    /// P(each stated sign is told | the story, and the state in which the animal came), in the
    /// order of Question::signs: of those that are not there, of not being told. Each lies within
    /// (0, 1), but is 1 for a sign that no prior knows, as those that the age settles. `presented`
    /// is looked at only if needsState().
    std::vector<double> chances(const Story& story, const body::Snapshot& presented) const;
    /// Logarithm of P(all of them): general signs are tempered, see Priors::together.
    double log(const std::vector<double>& chances) const;

private:
    /// A stated sign, made ready.
    struct Asked {
        const SignPrior* prior;   ///< null: nothing is known of it
        bool there;               ///< as it was stated
        double checkUp, usual;    ///< P(sign | nothing wrong), the second of an animal with a
                                  ///< complaint
        std::vector<double> rows; ///< by insult: P(sign | it at its median severity, alone); NaN:
                                  ///< the usual
    };
    const Priors* priors_;
    std::size_t kind_;
    double presented_; ///< [h]
    Stories stories_;
    std::vector<const InsultPrior*> insults_;
    std::vector<Asked> asked_;
    std::vector<body::Analyte> analytes_;
    bool needsState_ = false;

    /// An event that acts on signs.
    struct Cause {
        const Event* event;
        body::Insult insult;
        std::size_t row;
    };
    double fromTables(const Asked& asked, double usual, const std::vector<Cause>& causes) const;
    double fromState(const Asked& asked, double usual, const std::vector<Cause>& causes,
                     const body::Snapshot& presented) const;
};

} // namespace cistern::reader
