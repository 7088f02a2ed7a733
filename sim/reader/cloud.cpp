#include "reader/cloud.h"

#include "reader/weights.h"

#include <Eigen/Cholesky>

#include <cmath>
#include <numbers>

namespace cistern::reader {

using Index = Eigen::Index;

Eigen::MatrixXd kernelRoot(const Eigen::MatrixXd& deviates, const std::vector<double>& weights,
                           double width) {
    const Index size = deviates.rows();
    const Eigen::Map<const Eigen::VectorXd> weight(weights.data(), deviates.cols());
    const double sum = weight.sum();
    const Eigen::MatrixXd apart = deviates.colwise() - Eigen::VectorXd(deviates * weight / sum);
    const Eigen::MatrixXd shown = apart * (weight / sum).asDiagonal() * apart.transpose();
    // As many stories as these weigh have shown it; as many more as there are deviates stand for
    // what was thought before.
    const double shownBy = effective(weights), thought = static_cast<double>(size) + 1;
    const double bandwidth = std::pow(4 / ((static_cast<double>(size) + 2) * shownBy),
                                      1 / (static_cast<double>(size) + 4));
    const Eigen::MatrixXd kernel =
        (shownBy * bandwidth * bandwidth * shown +
         thought * width * width * Eigen::MatrixXd::Identity(size, size)) /
        (shownBy + thought);
    return kernel.llt().matrixL();
}

Cloud::Cloud(const Stories& stories, const std::vector<const Story*>& members,
             const std::vector<double>& weights, const std::vector<std::size_t>& centers,
             double width)
    : like_(*members.front()) {
    const auto count = static_cast<Index>(members.size());
    const Index size = stories.deviates(like_).size();
    Eigen::MatrixXd at(size, count);
    for (Index i = 0; i < count; ++i)
        at.col(i) = stories.deviates(*members[static_cast<std::size_t>(i)]);
    root_ = kernelRoot(at, weights, width);
    centers_.resize(size, static_cast<Index>(centers.size()));
    for (std::size_t c = 0; c < centers.size(); ++c)
        centers_.col(static_cast<Index>(c)) = at.col(static_cast<Index>(centers[c]));
    scaled_ = root_.triangularView<Eigen::Lower>().solve(centers_);
    for (Index i = 0; i < size; ++i) peak_ /= std::sqrt(2 * std::numbers::pi) * root_(i, i);
}

Story Cloud::draw(const Stories& stories, std::size_t center, base::Chance& chance) const {
    Eigen::VectorXd moved(root_.rows());
    for (double& one : moved) one = chance.normal();
    moved = centers_.col(static_cast<Index>(center)) + root_.triangularView<Eigen::Lower>() * moved;
    return stories.with(like_, moved);
}

double Cloud::density(const Eigen::VectorXd& deviates) const {
    const Eigen::VectorXd at = root_.triangularView<Eigen::Lower>().solve(deviates);
    const auto apart = (scaled_.colwise() - at).colwise().squaredNorm();
    return peak_ * (-0.5 * apart.array()).exp().mean();
}

} // namespace cistern::reader
