#pragma once
#include "lab/control/rules.h"

namespace cistern::lab {

/// Many runs of Gaussian controls, to count how often rules are broken. Scores are independent.
struct Trial {
    std::uint64_t runs = 1000000; ///< of these the verdict is counted, > 0
    std::size_t materials = 2;
    double shift = 0;         ///< of every score [SD]
    double factor = 1;        ///< by which the SD has grown, > 0
    std::uint64_t window = 0; ///< the watch starts anew before each counted run and so many less
                              ///< one before it; 0: it goes on from run to run
    RangeRule range = RangeRule::opposite;
    std::uint64_t seed = 1;
    std::size_t threads = 1; ///< the outcome is the same for any number, > 0
};

/// How often.
struct Tally {
    std::uint64_t runs = 0, rejected = 0;
    std::array<std::uint64_t, ruleCount> broken{};
    double share(Rule rule) const; ///< of the runs that broke it, 0..1
    double rejection() const;      ///< share of the runs that broke any rule but the warning
    /// Standard error of a share that truly is `p`, runs being independent.
    double standardError(double p) const;
};

/// Draws the runs (Purpose::control) and counts. Throws std::invalid_argument for a trial without
/// runs, materials, spread or threads.
Tally tally(const Trial& trial);

} // namespace cistern::lab
