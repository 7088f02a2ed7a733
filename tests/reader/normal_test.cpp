// Conditioning on results one after another, against closed forms.
#include "reader/normal.h"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace cistern;
using reader::Normal;
using reader::Sight;

namespace {

double phi(double x) {
    return std::erfc(-x / std::numbers::sqrt2) / 2;
}
double density(double x) {
    return std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
}

Normal normalOf(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance) {
    Normal normal;
    const auto size = static_cast<std::size_t>(mean.size());
    normal.reset(size);
    for (std::size_t i = 0; i < size; ++i) {
        normal.mean(i) = mean(static_cast<Eigen::Index>(i));
        for (std::size_t j = i; j < size; ++j)
            normal.covariance(i, j) =
                covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
    return normal;
}

Sight seen(double at, lab::Bound bound = lab::Bound::exact) {
    return {at, bound, 0.01};
}

} // namespace

TEST_CASE("Exact results one after another have the density of the whole", "[reader]") {
    // Two draws of three analytes: own levels that go together, days, analyzers.
    const Eigen::Matrix3d own{{0.16, 0.03, 0}, {0.03, 0.04, 0.01}, {0, 0.01, 0.09}};
    const Eigen::Vector3d day{0.02, 0.01, 0.03}, error{0.001, 0.004, 0.002};
    Eigen::MatrixXd covariance(6, 6);
    covariance << own, own, own, own;
    covariance.diagonal() += (Eigen::VectorXd(6) << day + error, day + error).finished();
    const Eigen::VectorXd mean{{3., 2., 1., 3.5, 2.2, 0.7}}, y{{3.4, 1.9, 1.3, 3.8, 2.4, 0.9}};
    Normal normal = normalOf(mean, covariance);
    double log = 0;
    for (std::size_t i = 0; i < 6; ++i)
        log += std::log(normal.see(i, seen(y(static_cast<Eigen::Index>(i))), 0));
    const Eigen::LLT<Eigen::MatrixXd> root(covariance);
    const double square = root.matrixL().solve(y - mean).squaredNorm();
    const double logRoot = Eigen::MatrixXd(root.matrixL()).diagonal().array().log().sum();
    CHECK(log == Approx(-square / 2 - logRoot - 3 * std::log(2 * std::numbers::pi)).epsilon(1e-12));
}

TEST_CASE("What is left to be known is what conditioning leaves", "[reader]") {
    const Eigen::Matrix3d covariance{{0.5, 0.2, 0.3}, {0.2, 0.4, 0.1}, {0.3, 0.1, 1}};
    const Eigen::Vector3d mean{1, 2, 0};
    Normal normal = normalOf(mean, covariance);
    normal.see(0, seen(1.6), 0);
    normal.see(1, seen(1.7), 0);
    const Eigen::Matrix2d known = covariance.topLeftCorner<2, 2>();
    const Eigen::RowVector2d gain = covariance.row(2).head<2>() * known.inverse();
    CHECK(normal.mean(2) == Approx((gain * Eigen::Vector2d(0.6, -0.3)).value()).epsilon(1e-12));
    CHECK(normal.covariance(2, 2) ==
          Approx(1 - (gain * covariance.col(2).head<2>()).value()).epsilon(1e-12));
}

TEST_CASE("A result beyond a limit counts as the chance of lying there", "[reader]") {
    const Eigen::Matrix2d covariance{{1, 0.6}, {0.6, 4}};
    const Eigen::Vector2d mean{1, 2};
    SECTION("alone") {
        Normal normal = normalOf(mean, covariance);
        CHECK(normal.see(0, seen(1.5, lab::Bound::below), 0) == Approx(phi(0.5)).epsilon(1e-12));
        Normal other = normalOf(mean, covariance);
        CHECK(other.see(1, seen(7, lab::Bound::above), 0) == Approx(phi(-2.5)).epsilon(1e-12));
    }
    SECTION("given another result") {
        Normal normal = normalOf(mean, covariance);
        normal.see(0, seen(2), 0);
        const double left = std::sqrt(4 - 0.36);
        CHECK(normal.see(1, seen(2, lab::Bound::below), 0) ==
              Approx(phi((2 - 2.6) / left)).epsilon(1e-12));
    }
    SECTION("and moves what goes with it by the moments of a normal cut off") {
        // Mean of z > 0: density(0) / phi(0); variance 1 less its square. Textbook.
        Normal normal = normalOf(mean, covariance);
        normal.see(0, seen(1, lab::Bound::above), 0);
        const double cut = density(0) / phi(0);
        CHECK(normal.mean(1) == Approx(2 + 0.6 * cut).epsilon(1e-12));
        CHECK(normal.covariance(1, 1) == Approx(4 - 0.36 * cut * cut).epsilon(1e-12));
    }
    SECTION("far out as well") {
        Normal normal = normalOf(mean, covariance);
        normal.see(0, seen(13, lab::Bound::above), 0);
        // Half a percent: the series' next term, 10 / 12^5, is far less.
        CHECK(normal.mean(1) == Approx(2 + 0.6 * (12 + 1 / 12. - 2 / 1728.)).epsilon(1e-6));
        CHECK(normal.covariance(1, 1) > 4 - 0.36);
        CHECK(normal.covariance(1, 1) < 4);
    }
}

TEST_CASE("Two limits of results that go together come close to their joint chance", "[reader]") {
    // Sheppard 1899, from memory: both below their means, 1/4 + asin(r) / (2 pi).
    for (const double r : {-0.5, 0.3, 0.8}) {
        const Eigen::Matrix2d covariance{{1, r}, {r, 1}};
        Normal normal = normalOf(Eigen::Vector2d::Zero(), covariance);
        const double both = normal.see(0, seen(0, lab::Bound::below), 0) *
                            normal.see(1, seen(0, lab::Bound::below), 0);
        // The approximation by moments is off by less than 0.01 here.
        CHECK(both == Approx(0.25 + std::asin(r) / (2 * std::numbers::pi)).margin(0.01));
    }
}

TEST_CASE("A result gone astray moves nothing, and never makes a story impossible", "[reader]") {
    const Eigen::Matrix2d covariance{{1, 0.6}, {0.6, 4}};
    constexpr double astray = 1e-3;
    Normal normal = normalOf(Eigen::Vector2d::Zero(), covariance);
    CHECK(normal.see(0, seen(40), astray) == Approx(astray * 0.01));
    CHECK(normal.mean(1) == Approx(0).margin(1e-12));
    CHECK(normal.covariance(1, 1) == Approx(4));
    // By hand, where both may be: density at 3 is 0.00443185; share sound 0.997747.
    Normal near = normalOf(Eigen::Vector2d::Zero(), covariance);
    CHECK(near.see(0, seen(3), astray) == Approx(0.999 * 0.00443185 + 1e-5).epsilon(1e-6));
    CHECK(near.mean(1) == Approx(0.6 * 3 * 0.997747).epsilon(1e-5));
}
