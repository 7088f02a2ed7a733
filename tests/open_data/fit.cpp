#include "open_data/fit.h"

#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

#include <cmath>

namespace open_data {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Model less observation, in the shape that Eigen asks for.
struct Misfit {
    using Scalar = double;
    enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };
    using InputType = VectorXd;
    using ValueType = VectorXd;
    using JacobianType = MatrixXd;

    const Model& model;
    const Numbers& observed;

    int values() const { return static_cast<int>(observed.size()); }
    int operator()(const VectorXd& parameters, VectorXd& misfit) const {
        const Numbers found = model({parameters.begin(), parameters.end()});
        for (Eigen::Index i = 0; i < misfit.size(); ++i) {
            const auto at = static_cast<std::size_t>(i);
            misfit[i] = found[at] - observed[at];
        }
        return 0;
    }
};

} // namespace

Fit fit(const Model& model, const Numbers& observed, const Numbers& start) {
    using Slopes = Eigen::NumericalDiff<Misfit, Eigen::Central>;
    Slopes slopes(Misfit{model, observed});
    VectorXd x = Eigen::Map<const VectorXd>(start.data(), static_cast<Eigen::Index>(start.size()));
    Eigen::LevenbergMarquardt<Slopes> search(slopes);
    search.parameters.xtol = search.parameters.ftol = 1e-12;
    search.parameters.maxfev = 1000;
    const auto status = search.minimize(x);

    MatrixXd jacobian(slopes.values(), x.size());
    slopes.df(x, jacobian);
    const double variance =
        search.fvec.squaredNorm() / static_cast<double>(slopes.values() - x.size());
    const VectorXd errors =
        ((jacobian.transpose() * jacobian).inverse().diagonal() * variance).cwiseSqrt();
    using namespace Eigen::LevenbergMarquardtSpace;
    const bool converged = status == RelativeReductionTooSmall || status == RelativeErrorTooSmall ||
                           status == RelativeErrorAndReductionTooSmall || status == CosinusTooSmall;
    return {converged, {x.begin(), x.end()}, {errors.begin(), errors.end()}, std::sqrt(variance)};
}

} // namespace open_data
