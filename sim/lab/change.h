#pragma once
#include "lab/report.h"

namespace cistern::lab {

/// How far a second result may lie from the first for no other reason than the analyzer and the
/// animal's day-to-day wobble, as shares of the first: {0.175, -0.175} is +17.5 % and -17.5 %.
struct Change {
    double up = 0, down = 0;
};

/// Reference change value, two-sided 95 %: 2^0.5 * 1.96 * (CV_A^2 + CV_I^2)^0.5. Where the combined
/// coefficient of variation passes 15 % its log-normal form, which is wider upward than downward.
/// Coefficients as shares. Sources, from memory: Fraser and Harris 1989; Walton 2012, Vet Clin
/// Pathol 41:175; Fokkema and others 2006 for the log-normal form.
Change referenceChange(double analytical, double within);

/// True if a result differs from an earlier one by more than the reference change value. `within`
/// is the animal's own coefficient of variation; the analyzer's comes with the results. Where a
/// result is only known to lie beyond a limit, true only if that settles it.
bool moved(const Result& previous, const Result& now, double within);

} // namespace cistern::lab
