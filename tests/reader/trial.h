#pragma once
#include "lesson/case.h"
#include "reader/fit.h"
#include "reader/posterior.h"

#include <optional>

namespace cistern::tests {

/// An animal drawn from the priors, whole: its story, itself, and what of it a reader may see.
struct Trial {
    reader::Question question;
    reader::Story story;
    body::Snapshot truth; ///< at hour 0, of the real animal
    reader::Fits fits = 0;
};

/// Kinds of animal that trials take turns with: young, adult and old dogs and cats.
std::vector<body::Signalment> patients();

/// Draws trial number `number`: a story from the priors, a real animal with its own healthy levels,
/// blood through the laboratory, and twelve findings told or not. Each kind of insult is an
/// explanation. Nothing if no animal lives through the story.
std::optional<Trial> trial(const lesson::Knowledge& knowledge, const body::Signalment& who,
                           const std::vector<std::string>& tests, std::uint64_t number);

/// What trials show of the reader: where the truth lay in its distributions, and how often its
/// weights were right.
struct Calibration {
    struct Organ {
        body::Tissue organ{};
        std::vector<double> work, leak; ///< places of the truth, 0..1; uniform if all is well
    };
    std::vector<Organ> organs;
    struct Said {
        double weight;
        bool right;
    };
    std::vector<Said> said;    ///< every explanation of every trial
    std::vector<double> worth; ///< effective stories of each trial
    double bits = 0;           ///< mean of -log2 of the weight on what was true
};
Calibration calibrate(const lesson::Knowledge& knowledge, const std::vector<std::string>& tests,
                      std::size_t trials, std::size_t animals);

/// P of a Kolmogorov-Smirnov distance as great as that of these values from 0..1 evenly. Asymptotic
/// series; Press and others, Numerical Recipes, from memory.
double uniformity(std::vector<double> values);

} // namespace cistern::tests
