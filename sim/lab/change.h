#pragma once
#include "lab/report.h"

namespace cistern::lab {

/// How far a second result may lie from the first for no other reason than the analyzer and the
/// animal's day-to-day wobble, as shares of the first: {0.175, -0.175} is +17.5 % and -17.5 %.
struct Change {
    double up = 0, down = 0;
};

/// The least change that is more than chance, as a share of the first result: 2^0.5 * z * (CV_A^2 +
/// CV_I^2)^0.5, as much up as down; z is 1.96 two-sided, 1.65 where only one direction is asked
/// about. Source, from memory: Fraser and Harris 1989.
double criticalDifference(double analytical, double within, double z);

/// Reference change value, two-sided 95 %: 2^0.5 * 1.96 * (CV_A^2 + CV_I^2)^0.5. Where the combined
/// coefficient of variation passes 15 % its log-normal form, which is wider upward than downward.
/// Coefficients as shares. Sources, from memory: Fraser and Harris 1989; Walton 2012, Vet Clin
/// Pathol 41:175; Fokkema and others 2006 for the log-normal form.
Change referenceChange(double analytical, double within);

/// Index of individuality: what varies in one animal over what varies between animals, (CV_A^2 +
/// CV_I^2)^0.5 / CV_G. Below 0.6 an animal's earlier result says more than the interval of all;
/// above 1.4 the interval serves. Some print its inverse (above 1.7, below 0.7). Infinite where
/// animals do not differ. Source, from memory: Fraser and Harris 1989.
double individuality(double analytical, double within, double between);
inline constexpr double ownBelow = 0.6, intervalAbove = 1.4;

/// How many samples tell an animal's set point to a share of itself with 95 % confidence: (1.96
/// (CV_A^2 + CV_I^2)^0.5 / share)^2, at least 1. Source, from memory: Fraser and Harris 1989.
/// Throws std::invalid_argument unless the share is above 0.
int samplesForSetPoint(double analytical, double within, double share);

/// How far a result may lie from an earlier one by chance [model's unit], on the side to which it
/// went: the reference change, or where an amount of 0 allows no ratio the difference against its
/// own spread.
double changeAllowed(const Result& previous, const Result& now, double within);

/// True if a result differs from an earlier one by more than the reference change value. `within`
/// is the animal's own coefficient of variation; the analyzer's comes with the results. Where a
/// result is only known to lie beyond a limit, true only if that settles it.
bool moved(const Result& previous, const Result& now, double within);

} // namespace cistern::lab
