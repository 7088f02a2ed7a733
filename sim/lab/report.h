#pragma once
#include "body/course.h"
#include "body/red_sign.h"
#include "lab/analyzer.h"
#include "lab/bench.h"
#include "lab/control/state.h"
#include "lab/counter/blood_count.h"
#include "lab/specimen/handling.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::lab {

/// A draw: how its blood was taken and treated, and what measure() saw of it.
struct Specimen {
    std::string id;  ///< "4711-1": seed and draw number
    double hour = 0; ///< when it was drawn, scenario time
    Handling handling{};
    Indices seen{};         ///< of the serum, by the photometer
    body::RedSigns signs{}; ///< what the illness left on the red cells, for the film
};

enum class Flag { none, low, high };

/// One printed result. The one type that terminal, desk, paper and exports show.
struct Result {
    body::Analyte analyte{};
    double value = 0; ///< in the model's unit, rounded as printed (conventional step)
    Bound bound =
        Bound::exact;     ///< below/above: the true value is beyond `value`, a limit of the method
    double halfWidth = 0; ///< analytical doubt: 1.96 standard deviations [model's unit]
    std::optional<Interval> interval;
    Flag flag = Flag::none; ///< judged as printed: value and interval at the conventional step
    std::vector<std::string> notes; ///< reruns, dilutions, specimen warnings, in plain words
    Trace trace{};                  ///< what the photometer saw; empty unless the method has one
};

/// What the laboratory sends back for one draw.
struct Report {
    Specimen specimen;
    std::vector<Result> results;
    std::vector<std::string>
        notRun; ///< tests asked for that this laboratory does not run, with why
    std::vector<std::string> warnings; ///< about the specimen as a whole
    bool clotted = false;              ///< a thread of clot hung in the EDTA tube
    bool shortSample = false;          ///< the probe met fibrin in the serum
    std::optional<BloodCount> blood;   ///< counter and film, where blood was counted: for showing
    std::optional<ControlState> controls{}; ///< of the charts, if they were asked for
    const Result* find(body::Analyte analyte) const;
};

/// Measures a draw: true level x wobble x specimen x method, rounded. `number` separates draws at
/// the same hour and repeats of one tube: it names the analyzer's run. All chance comes from the
/// animal's seed; which other tests are asked for changes no result. Total protein wobbles as its
/// parts do, red cells as one specimen, and what is calculated (see calculated.h) follows from
/// results as printed. Reads bilirubin and triglycerides for the indices. Throws
/// std::invalid_argument for an unknown test, a level that is not a finite amount, or a number of
/// 2^26 and more; std::out_of_range for an analyte without a method.
Report measure(const Bench& bench, const body::Individual& animal, const body::Snapshot& truth,
               const Specimen& specimen, const std::vector<std::string>& tests,
               std::uint64_t number, const Machine& machine = {});

/// The flag of a result against its interval, both to the step at which they are printed.
Flag judged(const Result& result, const Writing& writing);

/// Hemolysis, icterus and lipemia in a word each: "clear", "pink", "red"; "clear", "yellow";
/// "clear", "hazy".
std::string hemolysisWord(const Specimen& specimen);
std::string icterusWord(const Specimen& specimen);
std::string lipemiaWord(const Specimen& specimen);

/// A result as printed, without unit: "412", "< 3", "> 5000".
std::string printed(const Result& result, const Bench& bench, Units units);
/// The number alone, without "<" or ">". A limit never rounds to where it would say too much.
std::string printedNumber(const Result& result, const Bench& bench, Units units);
/// An amount in the model's unit, in the analyte's unit and step; the number alone.
std::string printed(double amount, body::Analyte analyte, const Bench& bench, Units units);
/// The interval as printed: "17 - 95"; "" if there is none.
std::string printedInterval(const Result& result, const Bench& bench, Units units);
/// The half-width as printed: to the step, or to a tenth of it where it is only a few steps. "" for
/// a result beyond the range, whose doubt is one-sided.
std::string printedHalfWidth(const Result& result, const Bench& bench, Units units);

/// P(at least one of k healthy results lies outside) = 1 - 0.95^k, if they were independent.
double chanceOfOneOutside(int k);
/// The same where results rise and fall together, as healthy animals of this kind show it.
double chanceOfOneOutside(int k, body::Kind kind, const Bench& bench);

} // namespace cistern::lab
