#pragma once
#include "lab/specimen/handled.h"
#include "reader/ensemble.h"

#include <array>
#include <optional>

namespace cistern::reader {

/// Free hemoglobin from which cells are known to have broken at the draw or after it, and their
/// content is reckoned with [g/L]: clean draws lie below, but for one in some hundred.
inline constexpr double brokenFrom = 0.15;

/// A sample's way from the vein to the machine, as far as the reader can know it: how it was
/// handled by what was seen and by the story, and how many red cells broke by the index that was
/// printed. Whether a tube clotted or its platelets clumped by mere chance is left to the sheet.
class Passage {
public:
    /// Question and bench must outlive it.
    Passage(const Question& question, std::size_t sample, const lab::Bench& bench,
            const body::Species& species, const Wanted& wanted);

    /// What became of a story's blood.
    struct Came {
        lab::Handled handled;
        double free = 0; ///< hemoglobin that its handling alone sets free [g/L]
    };
    /// The same; nothing where it came as a usual tube does. `level`: the story's row of
    /// Lived::level.
    std::optional<Came> came(const double* level, const Story& story, const Stories& stories) const;
    /// Logarithm of the density of the printed index of hemolysis, if handling sets so much free:
    /// cells may have broken at the needle too, and rarely.
    double logIndex(double free) const;
    /// Whether stories differ in how they handled this sample.
    bool hidden() const { return hidden_; }
    /// What becomes of an analyte in a usual tube: clotting platelets give off potassium.
    lab::Alteration usual(const double* level, body::Analyte analyte) const;

    /// Protein and fat of a usual tube, as share of its volume.
    double solids(const double* level) const;

private:
    const lab::Bench* bench_;
    std::size_t sample_;
    const lab::Indices* seen_;
    std::array<body::Individual, 2> animals_; ///< by potassiumRich
    std::array<double, body::analyteCount> healthy_{};
    std::array<Eigen::Index, body::analyteCount> column_{}; ///< -1: not wanted
    bool plain_ = true, hidden_ = false;
    double needle_ = 0; ///< chance that cells broke at the vein

    double levelOf(const double* level, body::Analyte analyte) const;
    Came through(const lab::Handling& handling, const double* level, bool rich) const;
};

} // namespace cistern::reader
