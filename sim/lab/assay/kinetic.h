#pragma once
#include "lab/assay/assay.h"

namespace cistern::lab {

/// Units per liter for one absorbance a minute: 1000 x total / (absorption [L/mmol/cm] x path x
/// sample). Source of the form: IFCC.
double enzymeFactor(double absorption, const Volumes& volumes, double path = 1);

/// Share of the greatest rate at this much substrate. Michaelis and Menten.
double saturation(double substrate, double affinity);

/// The course of one cuvette from the start, without light: what the first enzyme has turned over
/// and what the indicator shows [mmol/L].
struct Progress {
    double turned = 0, shown = 0;
};

/// Moves the reaction on by `step` [s]. `rate` is what the enzyme would turn over at the nominal
/// substrate [mmol/L/s]; `substrate` and `indicator` are what the cuvette started with.
Progress moved(const Kinetic& assay, Progress now, double rate, double substrate, double indicator,
               double step);

/// The longest straight run of readings from `first` on that keeps to the useful absorbance; its
/// end, or `first` if there is none. Where the indicator falls, the serum's own color, as seen at
/// the start, does not hide that it is gone.
std::size_t straightEnd(const Kinetic& assay, const Trace& trace, std::size_t first);

/// A straight line through readings first..last - 1 of a trace: its slope [1/s].
double slope(const Trace& trace, std::size_t first, std::size_t last);

} // namespace cistern::lab
