#pragma once
#include "base/chance.h"
#include "lab/assay/cup.h"
#include "lab/assay/machine.h"
#include "lab/bench.h"

namespace cistern::lab {

/// Standard deviation of a repeat in one run at this amount, in the model's unit: sqrt(a^2 + (b
/// x)^2). Source of the form: Rocke and Lorenzato 1995, Technometrics 37:176.
double repeatability(const Method& method, double amount);

/// Standard deviation of a result at this amount, in the model's unit: repeatability and the bias
/// of runs, and for a diluted specimen the spread of the dilution; the constant part `a` then
/// counts as many times as the specimen was thinned.
double spread(const Method& method, double amount, bool diluted = false);

/// What the machine remarks when its probe took up too little.
inline constexpr std::string_view shortSample = "short sample: the probe drew air";

/// The factor by which one run reads everything too high or too low, about 1.
double runFactor(const Method& method, base::Chance& chance);

/// Reads a cup in a run on a machine, by the method's assay if it has one, else with the spread
/// that is stated. A trace that is not straight is diluted as what lies above the range. Below the
/// range: bound `below` at `least`, or none at all where the range begins at the analyte's origin.
/// Above it: diluted and run again, and `above` if it still lies beyond, at `most` times the
/// dilution. A dilution of 1 means that the method does not dilute. Nothing is read above the
/// analyte's ceiling. Throws std::invalid_argument for an amount below zero, no sample at all, or
/// solids that leave no water.
Reading read(const Method& method, const Cup& cup, const Machine& machine, double runFactor,
             base::Chance& chance);

/// What sound machines read of a cup on average, in a run without bias.
Reading readQuietly(const Method& method, const Cup& cup);

/// Limit of blank and limit of detection from the spread of blanks and of a low specimen.
/// Armbruster and Pry 2008, Clin Biochem Rev 29 Suppl 1:S49.
double limitOfBlank(double blankMean, double blankSpread);
double limitOfDetection(double limitOfBlank, double lowSpread);

} // namespace cistern::lab
