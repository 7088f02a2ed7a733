#pragma once
#include <Eigen/Dense>

#include <functional>
#include <vector>

namespace open_data {

using Numbers = std::vector<double>;
/// Levels at the hours of the data, from parameters.
using Model = std::function<Numbers(const Numbers& parameters)>;

struct Fit {
    bool converged;
    Numbers estimate, error; ///< of each parameter; the error is the standard error
    double spread;           ///< residual standard error
};

/// Least squares by Levenberg and Marquardt; the slopes are central differences of the model.
Fit fit(const Model& model, const Numbers& observed, const Numbers& start);

} // namespace open_data
