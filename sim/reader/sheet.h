#pragma once
#include "reader/ensemble.h"

#include <vector>

namespace cistern::reader {

/// A level that varies in an animal by itself, as part of a result.
struct Ingredient {
    body::Analyte analyte{};
    int sign = 1; ///< -1: subtracted, or divided by
};

/// What a result is made of: red cells of their volume, size and filling, total protein of albumin
/// and globulin. Most are made of themselves alone.
struct Recipe {
    bool sum = false; ///< else a product
    std::vector<Ingredient> parts;
    /// What the first part goes along with from animal to animal, beside what is its own.
    std::vector<Ingredient> along{};
};
Recipe madeOf(body::Analyte analyte);

/// Whether a result says nothing that others of its report do not say already: it was calculated
/// from them, or counted out into them.
bool follows(const lab::Report& report, body::Analyte analyte, const lab::Bench& bench);

/// Analytes that must be among those wanted of an ensemble for its results to be weighed: those
/// printed, their parts, and what their specimens' handling asks for.
std::vector<body::Analyte> neededFor(const Question& question, const lab::Bench& bench);

/// The scale on which a result is close to normal: t = asinh(x / floor), x counted from the
/// analyte's origin; logarithmic above the floor, linear below it.
struct Scale {
    double zero = 0, floor = 1; ///< model's unit
    double of(double x) const;
    double slope(double x) const; ///< dt/dx
};
/// How results vary among healthy animals, as share: the animals, their days, the analyzer.
double healthySpread(const lab::Method& method, const body::Species& species);
/// The floor is where the analyzer's constant error is as large as how levels vary.
Scale scaleOf(const lab::Method& method, const body::Species& species);

/// A result as it stands on the sheet, weighed for what the sheet itself tells of it: what the
/// specimen held if the printed indices are believed, and whether the machine's own
/// checks speak against it.
struct Reading {
    double held = 0; ///< that would have printed so [model's unit]
    lab::Bound bound = lab::Bound::exact;
    double deviation = 0;  ///< of the analyzer, rounding included [model's unit]
    bool doubtful = false; ///< machine, film or control chart speak against it
};
Reading readingOf(const lab::Report& report, const lab::Result& result, const lab::Bench& bench);

} // namespace cistern::reader
