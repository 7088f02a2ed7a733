#pragma once
#include "lab/bench.h"
#include "reader/posterior.h"
#include "report/text.h"

#include <cstdint>
#include <string>
#include <vector>

namespace cistern::report {

/// What the ideal reader made of a case, and how it was found.
struct Weighing {
    Patient patient;
    std::uint64_t seed = 1; ///< of the ensemble
    double seconds = 0;     ///< that the weighing took, without what further tests would bring
    reader::Question question;
    reader::Posterior posterior;
};

/// As JSON, two blanks a level, in this order; members in "?" only where the case asks for them:
///     {"caution": "...", "animals": 100000, "stories": 50000, "effective": 812.3, "rounds": 2,
///      "seed": 1, "seconds": 0.9,
///      "explanations": [{"name": "...", "weight": 0.93, "error": 0.004, "prior": 0.1,
///                        "after_exam": 0.3}], "unlisted": 0.02,
///      "organs": {"liver": {"work": {"low": 9, "median": 13, "high": 18, "unit": "%"},
///                           "leak": {"low": ..., "median": ..., "high": ..., "unit": "fold"}}},
///      "moved": [{"what": "bile acids", "kind": "result", "draw": 1, "bits": 1.9,
///                 "towards"?: "..."}],
///      "spoiled": [{"analyte": "K", "draw": 1, "chance": 0.4}],
///      "next": [{"test": "...", "bits": 0.31, "error": 0.02, "cost": 2, "bits_per_cost": 0.16}]}
/// An organ of which a leak has no meaning has none. `low` and `high` are the 5 % and 95 % points;
/// weights are millionths and add up to 1, heaviest first; a finding has no draw; spoiled results
/// are those with a chance of 1 % and more. Ends with a line end.
std::string weighJson(const Weighing& weighing);

/// Fewer effective stories than this are too few to trust tenths of a weight (standard error 0.05).
inline constexpr double fewEffective = 100;

/// What was found, in sentences, a paragraph each: what the data speak for, the organs, what moved
/// the reader, what would tell more, and how far all of it can be trusted.
std::vector<std::string> weighTold(const Weighing& weighing, const lab::Bench& bench,
                                   lab::Units units);

// Numbers as a reader of so many stories may say them, and no digit more.

/// A share in %, its last digit where the first of its standard error stands, tenths at best:
/// "71.3", "70", "< 0.1". At least one part in `effective` is in doubt, whatever the error says.
std::string shownShare(double share, double error, double effective);
/// The error of such a share in %, one digit: "0.4".
std::string shownShareError(double error, double effective);
/// Points of an organ's work [%] or leak [fold], low, median, high, to the doubt of percentiles of
/// so many stories.
struct ShownPoints {
    std::string low, median, high;
};
ShownPoints shownWork(const reader::Points& work, double effective);
ShownPoints shownLeak(const reader::Points& leak, double effective);
/// Bits to their standard error, hundredths at best.
std::string shownBits(double bits, double error);

/// The explanation that a finding or result raised most, by its part of the divergence; -1 if there
/// is none.
int towards(const reader::Moved& moved, const std::vector<double>& prior);

/// "ALT 412 U/L" of a result that moved the reader, as printed in its sample; the finding itself.
std::string shownMoved(const reader::Moved& moved, const reader::Question& question,
                       const lab::Bench& bench, lab::Units units);

/// Indexes of values, the greatest first; equal ones in their order.
std::vector<std::size_t> greatestFirst(const std::vector<double>& values);

} // namespace cistern::report
