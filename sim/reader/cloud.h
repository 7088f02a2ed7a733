#pragma once
#include "reader/story.h"

#include <Eigen/Core>

#include <vector>

namespace cistern::reader {

/// Stories of one structure that weighed much, and where to look for more like them: a kernel
/// estimate over their deviates, with the covariance that the stories show. Where few have shown
/// it, deviates move by `width` each, independently. (Adaptive importance sampling by a mixture:
/// Cappé and others 2004, Journal of Computational and Graphical Statistics 13:907; bandwidth:
/// Silverman 1986, Density Estimation, eq. 4.14; both from memory.)
class Cloud {
public:
    /// `members`: stories that are alike; `weights`: of each, at least one above 0. `centers`:
    /// those of the members, by number, near which stories are drawn, each as often as it is named.
    Cloud(const Stories& stories, const std::vector<const Story*>& members,
          const std::vector<double>& weights, const std::vector<std::size_t>& centers,
          double width);

    const Story& like() const { return like_; } ///< one of its stories
    std::size_t centers() const { return static_cast<std::size_t>(centers_.cols()); }
    /// A story near one of the centers.
    Story draw(const Stories& stories, std::size_t center, base::Chance& chance) const;
    /// How often stories with these deviates are drawn, all centers being taken alike: a density.
    double density(const Eigen::VectorXd& deviates) const;

private:
    Story like_;
    Eigen::MatrixXd root_;    ///< lower Cholesky root of the kernel's covariance
    Eigen::MatrixXd centers_; ///< a column each
    Eigen::MatrixXd scaled_;  ///< the same, in units of the root
    double peak_ = 1;         ///< of the kernel's density
};

/// Lower Cholesky root of a kernel's covariance, from deviates that weighed so much (a column
/// each), and from `width` for as many more stories as there are deviates.
Eigen::MatrixXd kernelRoot(const Eigen::MatrixXd& deviates, const std::vector<double>& weights,
                           double width);

} // namespace cistern::reader
