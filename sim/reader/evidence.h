#pragma once
#include "lab/bench.h"
#include "reader/ensemble.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace cistern::reader {

/// One printed result as evidence.
struct Datum {
    std::size_t sample = 0;
    body::Analyte analyte{};
    double value = 0; ///< model's unit
    lab::Bound bound = lab::Bound::exact;
    double deviation = 0; ///< of the analyzer, at this value [model's unit]
};

/// Chance that a result has gone astray, to anywhere within twenty standard deviations of healthy
/// animals. Assumed, and small: a result far out counts against a story by about nine nats, as one
/// at four standard deviations does, and by no more, so that none wipes out a whole ensemble.
inline constexpr double straying = 1e-3;

/// What results say of stories, the animal's own healthy levels averaged over: given a story, the
/// results (on a scale that is logarithmic where the analyzer's error is a share, and linear near
/// nothing) are normal about what the first animal would show, with a covariance made of how
/// healthy levels vary between animals (shared by repeated draws), the day's wobble (shared by
/// draws within a minute) and the analyzer. Results that follow from others of the sheet are left
/// out. "<" and ">" count as the chance of lying there. What the printed indices tell of hemolysis,
/// icterus and lipemia is taken as known; what the sheet itself shows to be unsound is not taken at
/// face value. One a question.
class ResultEvidence {
public:
    /// All must outlive it. `wanted` must hold what neededFor() in sheet.h names and every sample's
    /// hour: throws std::invalid_argument if it does not. `astray` is the chance that a result says
    /// nothing at all, see `straying`.
    ResultEvidence(const Question& question, const lab::Bench& bench, const body::Species& species,
                   const Wanted& wanted, double astray = straying);
    ~ResultEvidence();
    ResultEvidence(ResultEvidence&&) noexcept;

    /// Results that count, in the order of samples and panels.
    const std::vector<Datum>& data() const;

    /// What this story's animals would print, by data(), on the scales of sheet.h: mean and
    /// covariance, own healthy levels, day and analyzer together.
    struct Expected {
        Eigen::VectorXd mean;
        Eigen::MatrixXd covariance;
    };
    Expected expected(const Lived& lived, std::size_t row, const Stories& stories) const;

    /// log P(all results | story) for row `row`, up to a constant that is the same for all.
    double log(const Lived& lived, std::size_t row, const Stories& stories) const;
    /// The same of each result alone.
    std::vector<double> alone(const Lived& lived, std::size_t row, const Stories& stories) const;
    /// log leak of each organ given the results and the story: mean and deviation, from what the
    /// results say of the animal's own healthy levels. Columns of `lived.leak`.
    std::vector<std::pair<double, double>> logLeak(const Lived& lived, std::size_t row,
                                                   const Stories& stories) const;
    /// Whether handling moved each result by more than its analyzer's doubt, in this story.
    std::vector<char> spoiled(const Lived& lived, std::size_t row, const Stories& stories) const;

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

} // namespace cistern::reader
