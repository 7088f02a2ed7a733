#pragma once
#include "reader/story.h"

#include <cstdint>
#include <map>
#include <unordered_map>
#include <vector>

namespace cistern::reader {

/// From where an ensemble's stories are drawn, round by round. The first round takes rare insults
/// more often than they are, and long ones, which are dear, less often than that. Each later one
/// draws half its stories near those that weighed much so far, and half anew, of main insults by
/// what theirs weighed. All rounds together are one proposal (the balance heuristic: Veach and
/// Guibas 1995, from memory), so a story's weight is the prior over how often all of them would
/// have drawn it.
class Rounds {
public:
    /// Must outlive it.
    Rounds(const Stories& stories, std::uint64_t seed);

    /// Begins a round: near these stories, closer than the round before, and anew by the weight of
    /// main insults (by number in Stories::mains(); sum 1).
    void begin(std::vector<Story> parents, const std::vector<double>& mains);
    std::size_t size() const { return 1 + later_.size(); }

    /// Draws story number `number` in the present round.
    Story draw(std::uint64_t number) const;
    /// How often a round would draw a story, over how often the priors would.
    double share(std::size_t round, const Story& story) const;

private:
    /// Shares of stories drawn anew, by main insult.
    struct Shares {
        std::vector<double> reached; ///< cumulative, in the order of Stories::mains()
        std::unordered_map<const InsultPrior*, double> over; ///< share over the prior
    };
    struct Later {
        Shares anew;
        double width; ///< standard deviation by which deviates are moved
        std::vector<Story> parents;
        std::multimap<std::uint64_t, std::size_t> alike; ///< parents by structure
    };
    const Stories* stories_;
    std::uint64_t seed_;
    Shares first_;
    std::vector<Later> later_;

    Shares shares(const std::vector<double>& wanted) const;
    Story drawn(const Shares& shares, double at, std::uint64_t number) const;
};

} // namespace cistern::reader
