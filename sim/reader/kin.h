#pragma once
#include "reader/story.h"

#include <Eigen/Core>

#include <unordered_map>
#include <vector>

namespace cistern::reader {

/// Stories of one main insult that weighed much, and where to look for others like them in which
/// other things came along: those insults that both have in common move near, all else is drawn as
/// the priors have it.
class Kin {
public:
    /// `centers`: stories of one main insult, by its number in Stories::mains(). `width`: by how
    /// much deviates move where the centers do not tell.
    Kin(const Stories& stories, std::size_t main, std::vector<const Story*> centers, double width);

    std::size_t main() const { return main_; }
    std::size_t centers() const { return centers_.size(); }
    Story draw(const Stories& stories, std::size_t center, base::Chance& chance) const;
    /// How often a story of this main insult is drawn, all centers being taken alike, over how
    /// often the priors give it once the main insult is given.
    double share(const Stories& stories, const Story& story) const;

private:
    /// One kind of insult, as the centers have it.
    struct Kind {
        Eigen::MatrixXd root;             ///< lower Cholesky root of the kernel's covariance
        double logPeak = 0;               ///< of the kernel over that of standard normals
        std::vector<Eigen::Index> having; ///< centers
        Eigen::MatrixXd at;               ///< their deviates, a column each, in units of the root
    };
    std::size_t main_;
    std::vector<Story> centers_;
    std::unordered_map<const InsultPrior*, Kind> kinds_;
};

} // namespace cistern::reader
