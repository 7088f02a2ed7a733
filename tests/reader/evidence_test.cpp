// What results say of stories, against Bayes by hand.
#include "hand_question.h"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace hand;

namespace {

double below(double x) {
    return std::erfc(-x / std::numbers::sqrt2) / 2;
}

/// Stories as they would have been lived: levels and what of them is own are set by hand.
struct Table {
    reader::Priors priors;
    reader::Question question;
    reader::Wanted wanted;
    reader::Lived lived;

    /// Samples at these hours, each with these results.
    Table(const std::vector<double>& hours, const std::vector<lab::Result>& results) {
        question.who = adult(Kind::dog);
        for (const double hour : hours) {
            question.samples.push_back({});
            question.samples.back().hour = hour;
            question.samples.back().report.results = results;
        }
        wanted = wantedFor(question);
    }
    /// A story in which each sample shows these levels, by wanted.analytes, all wholly own.
    void add(const std::vector<double>& levels, double own) {
        const auto columns =
            static_cast<Eigen::Index>(wanted.analytes.size() * wanted.hours.size());
        const auto row = static_cast<Eigen::Index>(lived.size());
        lived.stories.emplace_back();
        lived.alive.push_back(1);
        lived.level.conservativeResize(row + 1, columns);
        lived.own.conservativeResize(row + 1, columns);
        for (Eigen::Index c = 0; c < columns; ++c) {
            lived.level(row, c) = levels[static_cast<std::size_t>(c) % levels.size()];
            lived.own(row, c) = own;
        }
    }
    std::vector<double> logs(double astray) const {
        const reader::Stories how(priors, question);
        const reader::ResultEvidence evidence(question, bench(), species(), wanted, astray);
        std::vector<double> all;
        for (std::size_t i = 0; i < lived.size(); ++i) all.push_back(evidence.log(lived, i, how));
        return all;
    }
    /// A bench of one method that reads by its stated `a` and `b` alone, to no step at all.
    static lab::Bench& bench() {
        static lab::Bench one = [] {
            lab::Bench bench;
            for (const Analyte analyte : {Analyte::ALT, Analyte::AST}) {
                lab::Method method;
                method.analyte = analyte;
                method.a = 1e-6; // logarithmic all over
                method.b = 0.05;
                method.least = 1;
                method.most = 1e6;
                method.dilution = 1;
                method.specimen = "serum";
                method.conventional = {"U/L", 1, 1e-9};
                bench.methods.push_back(method);
            }
            return bench;
        }();
        return one;
    }
    static body::Species& species() {
        static body::Species one = [] {
            body::Species dog = known().dog;
            for (const Analyte analyte : {Analyte::ALT, Analyte::AST}) {
                dog.between[static_cast<std::size_t>(analyte)] = 0.3;
                dog.within[static_cast<std::size_t>(analyte)] = 0.1;
            }
            return dog;
        }();
        return one;
    }
    static double dayVariance() { return std::log1p(0.01); }
};

lab::Result printed(Analyte analyte, double value, lab::Bound bound = lab::Bound::exact) {
    lab::Result result;
    result.analyte = analyte;
    result.value = value;
    result.bound = bound;
    result.halfWidth = 1.96 * 0.05 * value;
    return result;
}

} // namespace

TEST_CASE("Two hypotheses and one result: Bayes by hand", "[reader]") {
    // Logarithms of ALT normal about log 50 and log 400, deviation as below; 100 U/L printed.
    Table table({0}, {printed(Analyte::ALT, 100)});
    constexpr double own = 0.4;
    table.add({50}, own);
    table.add({400}, own);
    const double variance = own * own + Table::dayVariance() + 0.05 * 0.05;
    const auto logs = table.logs(0);
    const double odds =
        (std::pow(std::log(100 / 400.), 2) - std::pow(std::log(100 / 50.), 2)) / (2 * variance);
    CHECK(logs[0] - logs[1] == Approx(odds).epsilon(1e-9));
    // At a prevalence of 20 % of the second: by the formula of odds.
    const double post = 0.2 / (0.2 + 0.8 * std::exp(odds));
    CHECK(0.2 * std::exp(logs[1]) / (0.2 * std::exp(logs[1]) + 0.8 * std::exp(logs[0])) ==
          Approx(post).epsilon(1e-9));
}

TEST_CASE("Two draws of two analytes: the closed form with all covariances", "[reader]") {
    Table table({-48, 0}, {printed(Analyte::ALT, 80), printed(Analyte::AST, 40)});
    constexpr double own = 0.3;
    table.add({60, 30}, own);
    table.add({90, 45}, own);
    const auto logs = table.logs(0);
    const double r = 0.3; // between ALT and AST, assets/species/dog.yaml
    const double noise = Table::dayVariance() + 0.05 * 0.05;
    Eigen::Matrix4d covariance;
    for (int i = 0; i < 4; ++i)
        for (int j = 0; j < 4; ++j)
            covariance(i, j) = own * own * (i % 2 == j % 2 ? 1 : r) + (i == j ? noise : 0);
    const auto log = [&](double alt, double ast) {
        const double a = std::log(80 / alt), b = std::log(40 / ast);
        const Eigen::Vector4d off{a, b, a, b};
        return -off.dot(covariance.inverse() * off) / 2 -
               std::log(std::pow(2 * std::numbers::pi, 4) * covariance.determinant()) / 2;
    };
    // The scale is asinh: at 2e7 floors its logarithm to 1e-15.
    CHECK(logs[0] == Approx(log(60, 30)).epsilon(1e-9));
    CHECK(logs[1] == Approx(log(90, 45)).epsilon(1e-9));
}

TEST_CASE("Draws of one hour share their day, those of two days do not", "[reader]") {
    // Two runs of one tube: difference by the analyzer alone.
    const auto spreadOf = [](const std::vector<double>& hours) {
        Table table(hours, {printed(Analyte::ALT, 100)});
        table.wanted.hours =
            hours.front() == hours.back() ? std::vector<double>{hours.front()} : hours;
        table.add({100}, 0.3);
        const reader::Stories how(table.priors, table.question);
        const reader::ResultEvidence evidence(table.question, Table::bench(), Table::species(),
                                              table.wanted, 0);
        const Eigen::MatrixXd c = evidence.expected(table.lived, 0, how).covariance;
        return c(0, 0) + c(1, 1) - 2 * c(0, 1);
    };
    CHECK(spreadOf({0, 0}) == Approx(2 * 0.05 * 0.05));
    CHECK(spreadOf({0, 24}) == Approx(2 * (0.05 * 0.05 + Table::dayVariance())));
}

TEST_CASE("\"<\" counts as the chance of lying there", "[reader]") {
    Table table({0}, {printed(Analyte::ALT, 1, lab::Bound::below)});
    table.add({1.2}, 0.4);
    table.add({20}, 0.4);
    const double deviation = std::sqrt(0.16 + Table::dayVariance() + 0.05 * 0.05);
    const auto logs = table.logs(0);
    CHECK(logs[0] == Approx(std::log(below(-std::log(1.2) / deviation))).epsilon(1e-9));
    CHECK(logs[1] == Approx(std::log(below(-std::log(20.) / deviation))).epsilon(1e-9));
}

TEST_CASE("One impossible result costs a story no more than its share", "[reader]") {
    Table table({0}, {printed(Analyte::ALT, 1e5)});
    table.add({50}, 0.4);
    table.add({1e5}, 0.4);
    const auto logs = table.logs(reader::straying);
    // Nine to twelve nats: the peak of a narrow story lies higher than that of a healthy one.
    CHECK(logs[1] - logs[0] > 8);
    CHECK(logs[1] - logs[0] < 12);
}

TEST_CASE("Sensitivity and specificity through the same machinery", "[reader]") {
    // Textbook example (facts of the laboratory, section 8, vetlexicon blood biochemistry
    // overview): TP 235, FP 16, FN 15, TN 200: Se 94 %, Sp 92.6 %. At a prevalence of 20 % PPV
    // 0.760, NPV 0.984. A binormal test with a cut: the sound lie below it with chance Sp, the sick
    // above it with chance Se; a result is "> cut" or "< cut".
    const double sensitivity = 235. / 250, specificity = 200. / 216;
    constexpr double own = 0.4, cut = 1000;
    const double deviation = std::sqrt(own * own + Table::dayVariance() + 0.05 * 0.05);
    const double sound = cut * std::exp(-deviation * base::normalQuantile(specificity));
    const double sick = cut * std::exp(deviation * base::normalQuantile(sensitivity));
    const auto posterior = [&](lab::Bound bound, double prevalence) {
        Table table({0}, {printed(Analyte::ALT, cut, bound)});
        table.add({sound}, own);
        table.add({sick}, own);
        const auto logs = table.logs(0);
        const double ill = prevalence * std::exp(logs[1]),
                     well = (1 - prevalence) * std::exp(logs[0]);
        return ill / (ill + well);
    };
    CHECK(posterior(lab::Bound::above, 0.2) == Approx(0.760).margin(5e-4));
    CHECK(1 - posterior(lab::Bound::below, 0.2) == Approx(0.984).margin(5e-4));
    // Binormal with equal spread at the midpoint, d = 2: Se = Sp = Phi(1) = 0.841; odds by
    // LR+ = Se / (1 - Sp).
    CHECK(below(1) == Approx(0.841).margin(5e-4));
    Table table({0}, {printed(Analyte::ALT, cut, lab::Bound::above)});
    table.add({cut * std::exp(-deviation)}, own);
    table.add({cut * std::exp(deviation)}, own);
    const auto logs = table.logs(0);
    CHECK(std::exp(logs[1] - logs[0]) == Approx(below(1) / (1 - below(1))).epsilon(1e-9));
}
