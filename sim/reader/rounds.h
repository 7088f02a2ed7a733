#pragma once
#include "reader/cloud.h"
#include "reader/kin.h"

#include <cstdint>
#include <unordered_map>
#include <vector>

namespace cistern::reader {

/// From where an ensemble's stories are drawn, round by round. The first round takes rare insults
/// more often than they are, and long ones, which are dear, less often than that. Each later one
/// takes main insults by what they weighed so far, and of each draws some stories anew, some near
/// the kin of what weighed and some in clouds of one structure. All rounds together are one
/// proposal (the balance heuristic: Veach and Guibas 1995, from memory), so a story's weight is the
/// prior over how often all of them would have drawn it.
class Rounds {
public:
    /// Must outlive it.
    Rounds(const Stories& stories, std::uint64_t seed);

    /// Begins a round. Main insults are taken by their weights (by number in Stories::mains(); sum
    /// above 0), the rare more often than that; of each, stories near those that weigh most (by
    /// the logarithms of their weights), closer than the round before, and some anew.
    void begin(const std::vector<Story>& lived, const std::vector<Stories::Origins>& origins,
               const std::vector<double>& logs, const std::vector<double>& mains);
    std::size_t size() const { return 1 + later_.size(); }

    /// Draws story number `number` in the present round.
    Story draw(std::uint64_t number) const;
    /// How often a round would draw a story, over how often the priors would.
    double share(std::size_t round, const Story& story, const Stories::Origins& origins) const;

private:
    /// Shares of stories drawn anew, by main insult.
    struct Shares {
        std::vector<double> reached; ///< cumulative, in the order of Stories::mains()
        std::vector<double> over;    ///< share over the prior, in the same order
    };
    struct Later {
        Shares anew;
        double width = 0.5; ///< by which deviates are moved where nothing tells more
        std::vector<Cloud> clouds;
        std::vector<std::pair<std::size_t, std::size_t>> centers;    ///< cloud, and number in it
        std::unordered_multimap<std::uint64_t, std::size_t> alike;   ///< clouds by structure
        std::vector<Kin> kin;                                        ///< each main insult once
        std::vector<std::pair<std::size_t, std::size_t>> kinCenters; ///< kin, and number in it
    };
    const Stories* stories_;
    std::uint64_t seed_;
    Shares first_;
    std::vector<Later> later_;

    Shares shares(const std::vector<double>& wanted) const;
    void addCenters(Later& round, std::size_t main, const std::vector<Story>& lived,
                    const std::vector<std::size_t>& stories, const std::vector<double>& weights,
                    std::size_t count) const;
    Story drawn(const Shares& shares, double at, std::uint64_t number) const;
    Story drawnNear(const Later& round, double at, std::uint64_t number) const;
};

} // namespace cistern::reader
