#pragma once
#include "lesson/case.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace cistern::view {

/// Healthy animals of one species, each measured once on the bench at which the patient is: the
/// peers of a result. The same animals every time. Made once, then only looked at, from any thread.
class Crowd {
public:
    static constexpr std::size_t usual = 240; ///< animals

    /// Grown ones, or all of one age [h]. The knowledge must outlive it.
    Crowd(const lesson::Knowledge& knowledge, body::Kind kind, std::optional<double> age = {},
          std::size_t animals = usual);

    body::Kind kind() const { return kind_; }
    std::string name() const; ///< "healthy dogs"
    /// Results as printed [model's unit], in the order of the animals; a limit of the method stands
    /// for what lies beyond it. Empty for what this laboratory does not measure in them.
    const std::vector<double>& peers(body::Analyte analyte) const;
    /// How much one animal's level varies from day to day: coefficient of variation.
    double within(body::Analyte analyte) const;

private:
    body::Kind kind_;
    std::array<double, body::analyteCount> within_{};
    std::array<std::vector<double>, body::analyteCount> peers_;
};

/// The age of a patient's peers: its own if it is not grown, else none.
std::optional<double> ageOfPeers(const body::Signalment& who);

} // namespace cistern::view
