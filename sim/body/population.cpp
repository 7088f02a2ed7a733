#include "body/population.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <stdexcept>

namespace cistern::body {

double AgeCurve::at(double age) const {
    if (ages.empty()) return 1;
    const auto next = std::upper_bound(ages.begin(), ages.end(), age);
    if (next == ages.begin()) return factors.front();
    if (next == ages.end()) return factors.back();
    const auto i = static_cast<std::size_t>(next - ages.begin());
    const double part = (age - ages[i - 1]) / (ages[i] - ages[i - 1]);
    return factors[i - 1] + part * (factors[i] - factors[i - 1]);
}

void Population::mix() {
    mixing = {};
    if (correlations.empty()) return;
    Eigen::MatrixXd r = Eigen::MatrixXd::Identity(analyteCount, analyteCount);
    for (const Correlation& one : correlations) {
        const auto a = static_cast<Eigen::Index>(one.first);
        const auto b = static_cast<Eigen::Index>(one.second);
        r(a, b) = r(b, a) = one.r;
    }
    const Eigen::LLT<Eigen::MatrixXd> root(r);
    if (root.info() != Eigen::Success)
        throw std::invalid_argument("no population has these correlations all at once");
    mixing = root.matrixL();
}

} // namespace cistern::body
