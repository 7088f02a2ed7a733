#pragma once
#include "body/names.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lesson {

/// A most likely value, and a band that the learner would bet on four to one: an 80 % band, with
/// one chance in ten below `low` and one in ten above `high`. low <= best <= high.
struct Band {
    double best = 0, low = 0, high = 0;
    bool operator==(const Band&) const = default;
};

/// What may be answered. Leak in fold of the organ's own healthy release per gram; below the least
/// everything counts as one ("dry"). Work in % of the healthy organ.
inline constexpr double leastLeak = 0.1, mostLeak = 1000; // [fold]
inline constexpr double leastWork = 0, mostWork = 150;    // [%]

struct OrganAnswer {
    std::optional<Band> leak; ///< [fold]
    std::optional<Band> work; ///< [%]
    bool operator==(const OrganAnswer&) const = default;
};

/// The explanation that stands on every list.
inline constexpr std::string_view nothingWrong = "nothing wrong";

/// How far points may be from adding up to 100: typed decimals and sliders round, a millionth is no
/// mistake.
inline constexpr double pointsSlack = 1e-6;

/// A reading, finished or not.
struct Answers {
    std::map<body::Tissue, OrganAnswer> organs;
    std::map<std::string, double> points;  ///< explanation -> share of 100 points
    std::optional<std::string> next;       ///< next step
    std::vector<body::Analyte> distrusted; ///< results not to be trusted; empty: all are trusted
    bool operator==(const Answers&) const = default;
};

/// Points as people write them: "90", "33.3".
std::string pointsText(double points);

} // namespace cistern::lesson
