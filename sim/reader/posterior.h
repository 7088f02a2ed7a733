#pragma once
#include "reader/evidence.h"
#include "reader/signs.h"

#include <functional>
#include <string>
#include <vector>

namespace cistern::reader {

/// How an ensemble is to be made.
struct Effort {
    std::size_t animals = 100000; ///< half as many stories, all rounds together
    std::uint64_t seed = 1;       ///< of the ensemble, not of the patient
    int threads = 1;
    /// After each tenth of the work: share done, weights of the explanations so far. May be empty;
    /// returning false stops early, with what is there.
    std::function<bool(double, const std::vector<double>&)> progress;
};

/// Points of a weighted distribution.
struct Points {
    double p05 = 0, p10 = 0, median = 0, p90 = 0, p95 = 0;
};

/// An organ as it may be.
struct Seen {
    double work = 1; ///< share of the healthy organ
    double leak = 1; ///< fold
};

struct OrganBelief {
    body::Tissue organ{};
    Points work; ///< share of the healthy organ
    Points leak; ///< fold
    /// A cloud of stories, each as often as its weight says; to be drawn.
    std::vector<Seen> seen;
};

/// How far one finding or result, by itself, moves the weights.
struct Moved {
    std::string what; ///< "icterus", "no vomiting", "ALT"
    std::size_t sample = 0;
    bool finding = false;
    std::vector<double> weights; ///< of the explanations, by the prior and this alone
    double bits = 0;             ///< Kullback-Leibler divergence of these from the prior's
};

/// What a test or repeat not yet run would tell about the explanations.
struct Gain {
    std::string test; ///< "bile acids", "chemistry in 3 days"
    double bits = 0;  ///< expected fall of the entropy of the weights, >= 0
    double error = 0; ///< standard error of it
    double cost = 0;  ///< relative, as in assets/tests.yaml
    double perCost() const { return cost > 0 ? bits / cost : 0; }
};

/// What the data hold.
struct Posterior {
    std::size_t animals = 0, stories = 0;
    double effective = 0; ///< effective number of stories, (sum w)^2 / sum w^2
    int rounds = 1;
    std::vector<std::string> names;      ///< of the explanations
    std::vector<double> prior, signs;    ///< their weights before anything; after the exam alone
    std::vector<double> weights, errors; ///< after all; by how much an ensemble may miss them
    double unlisted = 0; ///< weight of stories that no explanation of the list fits, left out above
    std::vector<OrganBelief> organs;
    std::vector<Datum> results;  ///< that counted
    std::vector<double> spoiled; ///< P(handling or machine moved it), by `results`
    std::vector<Moved> moved;    ///< findings, then results
    std::vector<Gain> gains;     ///< best first; empty unless asked for
};

/// Where a value lies in a distribution: the share below it, and the share that equals it.
struct Place {
    double below = 0, equal = 0;
};

/// The reader at work on one question: lives an ensemble, weighs it, and where few stories carry
/// the weight lives another near those.
class Reader {
public:
    /// Priors, bench and species must outlive it.
    Reader(const Priors& priors, const lab::Bench& bench, const body::Species& species,
           Question question);
    ~Reader();
    Reader(Reader&&) noexcept;

    /// The same to the last bit for any number of threads.
    Posterior weigh(const Effort& effort);
    /// What each test of the bench that the last sample lacks would tell, and a repeat of its tests
    /// after 1, 3 and 7 days. After weigh().
    std::vector<Gain> gains(int threads) const;

    /// For calibration, after weigh(): where an organ's work, or leak, lies among the stories'.
    Place workAt(body::Tissue organ, double share) const;
    Place leakAt(body::Tissue organ, double fold) const;

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

} // namespace cistern::reader
