#pragma once
#include "body/names.h"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace cistern::body {

/// How a healthy level changes with age: a factor on the adult level at some ages [h], straight
/// between them, level beyond the ends. Empty: 1 at every age.
struct AgeCurve {
    std::vector<double> ages, factors;
    double at(double age) const;
};

/// How closely two set points go together between healthy animals: the correlation of their
/// logarithms, -1 to 1.
struct Correlation {
    Analyte first, second;
    double r;
};

/// What is known of a species as a population.
struct Population {
    std::array<AgeCurve, analyteCount> stages;
    std::vector<Correlation> correlations;
    /// Turns independent standard normals, one an analyte, into correlated ones. Empty: as they
    /// are.
    Eigen::MatrixXd mixing;

    /// Works out `mixing`. Throws std::invalid_argument if no population can be correlated so.
    void mix();
};

} // namespace cistern::body
