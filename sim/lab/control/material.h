#pragma once
#include "lab/bench.h"

#include <optional>

namespace cistern::lab {

/// What a control of a material is expected to read: its assigned mean and standard deviation
/// [model's unit].
struct Target {
    double mean = 0, deviation = 1; ///< deviation > 0
    double score(double value) const { return (value - mean) / deviation; }
};

/// True if a control can be read for it: it has a method and is measured, not calculated.
bool controlled(const Bench& bench, body::Analyte analyte);

/// What a material holds of an analyte [model's unit]: `share` of the way from the lower to the
/// upper limit of a grown dog's interval (a cat's, where the dog has none), kept clear of both ends
/// of the measuring range as the bench's controls say. Throws std::out_of_range for an analyte
/// without a method or interval.
double amount(const Bench& bench, const ControlMaterial& material, body::Analyte analyte);

/// By the method's stated precision: repeatability and the bias of runs at this amount.
Target stated(const Method& method, double amount);

/// By readings of a learning period, at least two: their mean and standard deviation (n - 1).
/// Throws std::invalid_argument for fewer or for readings without any spread.
Target learned(const std::vector<double>& readings);

} // namespace cistern::lab
