#pragma once
#include "lab/interval/limits.h"
#include "terminal/herd.h"

#include <string>
#include <vector>

namespace cistern::terminal {

/// What the laboratory found of one analyte in every animal of a herd, and what it makes of it.
struct Found {
    body::Analyte analyte{};
    const lab::Interval* published = nullptr; ///< null if there is none
    std::vector<float> results; ///< unrounded, an animal each; not a number where there is none
    std::vector<bool> flagged;  ///< outside of the published interval, as printed
    lab::Rebuilt rebuilt{};
    double doubt = 0;   ///< the analyzer's coefficient of variation, mean of all
    double between = 0; ///< coefficient of variation of the true levels
};

/// How many healthy animals show at least one flag when so many results are asked for.
struct OneOutside {
    std::string tests;             ///< "chemistry", or "all of these"
    int results = 0;               ///< with a published interval
    double published = 0, own = 0; ///< share of the animals, against either set of intervals
};

/// For each test of which every analyte was looked at and several have an interval, and for all of
/// them together if there are several.
std::vector<OneOutside> oneOutside(const Herd& herd, const lab::Bench& bench,
                                   const std::vector<Found>& found);

/// One row an analyte: its rebuilt interval, the published one, what twenty animals say of that,
/// how much of the variation is an animal's own, and cautions.
std::string intervalsCsv(const std::vector<Found>& found, const lesson::Knowledge& knowledge,
                         body::Kind kind, lab::Units units);

/// Of the first twenty animals with a result those outside of the published interval; nothing
/// without twenty, or without an interval that holds the middle 95 %.
std::optional<int> outsideOfTwenty(const Found& one);

} // namespace cistern::terminal
