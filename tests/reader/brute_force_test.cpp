// Whether results of real animals are spread about a story as the evidence says that they are.
#include "hand_question.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <iomanip>
#include <iostream>

using namespace hand;

namespace {

struct Setting {
    std::string name;
    Kind species;
    std::vector<Happened> what;
};

const std::vector<std::string> everything{"chemistry",       "blood count", "film",
                                          "PCV and protein", "clotting",    "bile acids",
                                          "urine",           "UPC",         "T4"};

constexpr int animals = 4000, stories = 400;

/// Moments of what was printed and of what was expected.
struct Moments {
    std::vector<Analyte> analytes;
    Eigen::VectorXd mean, expected;
    Eigen::MatrixXd covariance, predicted;
    Eigen::ArrayXd exact; ///< share of animals in which a result is exact and undoubted
};

Moments momentsOf(const Setting& setting) {
    const body::Species& species = known().species(setting.species);
    const lab::Bench& bench = known().bench;
    reader::Priors priors;
    for (const Happened& one : setting.what) priors.insults.push_back(priorOf(one));
    reader::Question question;
    question.who = adult(setting.species);
    question.samples.resize(1);

    reader::Story story;
    for (const reader::InsultPrior& prior : priors.insults) story.events.push_back({&prior});
    const auto windows = reader::Stories(priors, question).windows(story, species);
    question.samples[0].report =
        reports(body::median(species, question.who), windows, {0}, everything)[0];
    question.organs = {body::Tissue::liver};
    const reader::Wanted wanted = wantedFor(question);
    const reader::Stories how(priors, question);
    const reader::ResultEvidence evidence(question, bench, species, wanted);
    const reader::Lived lived = reader::live(std::vector<reader::Story>(stories, story), 0, 7, how,
                                             question, wanted, species, 2);

    Moments m;
    const auto n = static_cast<Eigen::Index>(evidence.data().size());
    for (const reader::Datum& datum : evidence.data()) m.analytes.push_back(datum.analyte);
    // Half-lives vary from story to story: means and covariances of the mixture.
    m.expected = Eigen::VectorXd::Zero(n);
    m.predicted = Eigen::MatrixXd::Zero(n, n);
    for (std::size_t row = 0; row < lived.size(); ++row) {
        REQUIRE(lived.alive[row]);
        const auto one = evidence.expected(lived, row, how);
        m.expected += one.mean / stories;
        m.predicted += (one.covariance + one.mean * one.mean.transpose()) / stories;
    }
    m.predicted -= m.expected * m.expected.transpose();

    Eigen::VectorXd count = Eigen::VectorXd::Zero(n), sum = count;
    Eigen::MatrixXd pairs = Eigen::MatrixXd::Zero(n, n), products = pairs;
    for (int i = 0; i < animals; ++i) {
        body::Signalment who = question.who;
        who.seed = static_cast<std::uint64_t>(1000 + i);
        const lab::Report report =
            reports(body::individual(species, who), windows, {0}, everything)[0];
        Eigen::VectorXd t = Eigen::VectorXd::Zero(n), sound = t;
        for (Eigen::Index k = 0; k < n; ++k) {
            const Analyte analyte = m.analytes[static_cast<std::size_t>(k)];
            const lab::Result* result = report.find(analyte);
            if (!result) continue;
            const reader::Reading reading =
                reader::readingOf(report, *result, bench, body::median(species, question.who).own);
            if (reading.doubtful || reading.bound != lab::Bound::exact) continue;
            t(k) = reader::scaleOf(bench.method(analyte), species).of(reading.held) - m.expected(k);
            sound(k) = 1;
        }
        count += sound;
        sum += t;
        pairs += sound * sound.transpose();
        products += t * t.transpose();
    }
    m.exact = count.array() / animals;
    m.mean = m.expected + (sum.array() / count.array()).matrix();
    const Eigen::VectorXd off = m.mean - m.expected;
    m.covariance = (products.array() / pairs.array()).matrix() - off * off.transpose();
    return m;
}

std::vector<Setting> settings() {
    std::vector<Setting> all;
    for (const Kind species : {Kind::dog, Kind::cat}) {
        const std::string who(body::name(species));
        all.push_back({who + ": health", species, {}});
        all.push_back({who + ": necrosis", species, {{"hepatocyte necrosis", 0.3, 48, 12}}});
        all.push_back({who + ": obstruction",
                       species,
                       {{"bile duct obstruction", 0.9, 120, 240, reader::Span::running}}});
        all.push_back({who + ": kidney injury", species, {{"acute kidney injury", 0.6, 72, 24}}});
        all.push_back({who + ": inflammation",
                       species,
                       {{"inflammation", 0.6, 72, 240, reader::Span::running}}});
        all.push_back({who + ": dehydration", species, {{"dehydration", 0.08, 24, 24}}});
    }
    return all;
}

void print(const Setting& setting, const Moments& m) {
    std::cout << setting.name << "\n";
    std::cout << std::fixed << std::setprecision(3);
    for (Eigen::Index k = 0; k < m.mean.size(); ++k) {
        const double sd = std::sqrt(m.predicted(k, k)), real = std::sqrt(m.covariance(k, k));
        std::cout << "  " << std::setw(14) << body::name(m.analytes[static_cast<std::size_t>(k)])
                  << std::setw(9) << m.expected(k) << " off " << std::setw(7)
                  << (m.mean(k) - m.expected(k)) / sd << " sd, spread " << std::setw(6) << sd
                  << " real/model " << std::setw(6) << real / sd << " exact " << m.exact(k) << "\n";
    }
    for (Eigen::Index i = 0; i < m.mean.size(); ++i)
        for (Eigen::Index j = 0; j < i; ++j) {
            const double r =
                m.covariance(i, j) / std::sqrt(m.covariance(i, i) * m.covariance(j, j));
            const double p = m.predicted(i, j) / std::sqrt(m.predicted(i, i) * m.predicted(j, j));
            if (std::abs(r - p) > 0.12 && m.exact(i) > 0.8 && m.exact(j) > 0.8)
                std::cout << "  " << body::name(m.analytes[static_cast<std::size_t>(i)]) << " - "
                          << body::name(m.analytes[static_cast<std::size_t>(j)]) << ": " << r
                          << " model " << p << "\n";
        }
}

} // namespace

TEST_CASE("Moments of what real animals print, beside those expected", "[.table]") {
    for (const Setting& setting : settings()) print(setting, momentsOf(setting));
}
