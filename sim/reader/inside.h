#pragma once
#include "reader/fit.h"
#include "reader/posterior.h"
#include "reader/rounds.h"
#include "reader/weights.h"

#include <array>
#include <bit>
#include <limits>

namespace cistern::reader {

/// The reader's table: stories, what they weigh, and why. For the files of this folder only.
struct Reader::Inside {
    const lab::Bench& bench;
    const body::Species& species;
    Question question;
    Stories stories;
    SignEvidence signs;
    Wanted wanted;
    ResultEvidence results;

    std::uint64_t seed = 1; ///< of the ensemble
    Lived lived;
    std::vector<Stories::Origins> origins;
    std::vector<std::vector<double>> draws;  ///< by round: draws of it over the prior's
    std::vector<double> drawn;               ///< log prior over how often it was drawn
    std::vector<std::vector<double>> told;   ///< chances of the signs
    std::vector<double> toldAll, resultsAll; ///< log evidence
    std::size_t ofFirst = 0;                 ///< stories of the first round, before all others
    std::vector<Explained> fit;
    std::vector<double> weights; ///< after all, of stories that the list holds

    Inside(const Priors& priors, const lab::Bench& ofLab, const body::Species& ofKind,
           Question asked);

    void clear() {
        lived = {};
        origins.clear();
        draws.clear();
        drawn.clear();
        told.clear();
        toldAll.clear();
        resultsAll.clear();
        fit.clear();
        weights.clear();
    }
    /// Lives and weighs more stories.
    void extend(std::vector<Story> more, const Effort& effort);
    /// Works out how often each story was to be drawn, by rounds of so many.
    void count(const Rounds& rounds, const std::vector<double>& drawnOf, int threads);
    /// Logarithms of weights; of what the list of explanations holds, unless `all`.
    std::vector<double> logs(bool withSigns, bool withResults, bool all = false) const;
    /// Shares of the explanations under weights of what the list holds.
    std::vector<double> explained(const std::vector<double>& under) const;

    /// Weight of each main insult, in the order of Stories::mains().
    std::vector<double> ofMains(const std::vector<double>& under) const;

    Posterior summary(int rounds, int threads);
    std::vector<std::size_t> heavy() const; ///< stories that are not passed over
    std::vector<OrganBelief> organs(const std::vector<std::size_t>& rows, int threads) const;
    std::vector<double> spoiled(const std::vector<std::size_t>& rows, int threads) const;
    std::vector<Moved> moved(const std::vector<double>& prior, int threads) const;
};

} // namespace cistern::reader
