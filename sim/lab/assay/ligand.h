#pragma once

namespace cistern::lab {

struct Ligand;

/// Four-parameter logistic: signal of an amount, and the amount of a signal: 0 where the signal
/// lies before the curve's start, infinite where it lies past its end.
double signalOf(const Ligand& assay, double amount);
double amountOf(const Ligand& assay, double signal);

} // namespace cistern::lab
