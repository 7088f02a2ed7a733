#pragma once
#include "body/insult.h"
#include "lab/bench.h"
#include "lesson/case.h"
#include "report/csv.h"
#include "terminal/page.h"
#include "terminal/world.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace cistern::terminal {

/// The options of `herd` as they were written.
struct HerdOptions {
    std::string species, animals = "1000", insult, severity, from, to, age, analytes, method,
                         seed = "1", units = "conventional", format = "text";
    bool measured = false, intervals = false;
};

/// Animals of one kind, and what is looked at in them.
struct Herd {
    body::Kind kind{};
    std::uint64_t seed = 1, animals = 0;
    std::optional<double> age; ///< [h]
    std::optional<body::Insult> insult;
    std::vector<body::Analyte> analytes;
    std::vector<std::string> tests; ///< that measure them; none: only the truth is wanted
    body::Parts parts = body::allParts;

    body::Signalment anyone() const; ///< an animal of the age against which a herd is judged
};

/// Throws UsageError for options that make no herd, or do not go together.
Herd herdOf(const HerdOptions& options, const lesson::Knowledge& knowledge);

/// "2000 dogs, seed 1, healthy."
std::string described(const Herd& herd);

/// Calls `take` with every member in order. A few thousand at a time are held in memory.
void eachMember(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                const std::function<void(const report::Member&)>& take);

/// The same laboratory, printing a thousand times finer: limits of rounded results would jump by
/// whole steps of print, a third of the interval of bilirubin.
lesson::Knowledge unrounded(lesson::Knowledge knowledge);

/// The fewest animals with a 2.5 percentile among them, in round numbers: ranks need 39.
inline constexpr std::uint64_t fewestForPercentiles = 40;

// What is shown of a herd, one file each.

/// Median and middle 95 % beside the published interval.
void showLimits(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                lab::Units units);
/// Reference intervals rebuilt from the measured, and how many of the healthy show a flag.
void showIntervals(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                   const HerdOptions& options, lab::Units units);

} // namespace cistern::terminal
