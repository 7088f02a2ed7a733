#pragma once
#include "body/individual.h"
#include "lab/bench.h"
#include "lab/specimen/handling.h"

#include <string>
#include <vector>

namespace cistern::lab {

/// What a draw takes from the animal.
struct Volume {
    std::vector<std::string> tubes; ///< those of blood that the tests need, in the order of filling
    double taken = 0;               ///< [mL]
    double blood = 0;               ///< what the animal holds, about [mL]
    double share() const { return taken / blood; }
};

/// What may be drawn at once. Common practice after the limits for research animals (Diehl and
/// others 2001, J Appl Toxicol; from memory): a healthy animal spares a tenth of its blood, not
/// more often than every few weeks; a sick one a hundredth a day (custom of intensive care).
inline constexpr double healthyShare = 0.1, sickShare = 0.01;

/// The tube that a method's specimen comes from: "edta" for "EDTA plasma".
std::string tubeFor(const Method& method);

/// The tubes that these tests need and the blood they hold at this handling.
Volume volume(const Bench& bench, const body::Individual& animal, const Handling& handling,
              const std::vector<std::string>& tests);

} // namespace cistern::lab
