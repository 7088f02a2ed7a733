#pragma once
#include "lab/report.h"
#include "lab/specimen/handled.h"

namespace cistern::lab {

/// One draw on its way through the laboratory, inside measure(): what of it is known to all that
/// read from it.
struct Draw {
    const Bench& bench;
    const body::Individual& animal;
    const body::Snapshot& truth;
    std::uint64_t number;
    const Machine& machine;
    Specimen specimen;
    Handled handled{};
    double drawn = 1; ///< share of a serum sample that the probe takes up in this run
    std::optional<BloodCount> blood{};

    base::Chance chance(base::Purpose purpose, std::uint64_t item = 0) const;
};

/// Throws std::invalid_argument unless streams of chance have room for a draw of this number.
void checkNumber(std::uint64_t number);

/// What the animal holds at the hour, its day's wobble included. Total protein wobbles as its parts
/// do, red cells as one specimen. Throws std::invalid_argument for a level that is not a finite
/// amount.
double held(const Draw& draw, body::Analyte analyte);

/// Sends the blood through needle, tubes, wait and spin, and lets the photometer look at the serum.
void handle(Draw& draw);

/// A method's specimen as it stands on the machine.
Cup cup(const Draw& draw, const Method& method);

/// How far the run reads an analyte too high or too low, about 1.
double runOf(const Draw& draw, body::Analyte analyte);
/// The same by the animal's seed and the number of the draw.
double runFactorOf(const Method& method, std::uint64_t seed, std::uint64_t number);

/// One pass of the tube through the counter, and one film. The bench must have a counter.
BloodCount countBlood(const Draw& draw);

/// What the counter, the film or the capillary gives; nothing for what is read otherwise.
std::optional<double> counted(const Draw& draw, body::Analyte analyte);

/// A result of the machine; one from those it is made of, or nothing, with the reason, where they
/// do not allow it.
Result measured(const Draw& draw, const Method& method);
std::optional<Result> calculated(const Draw& draw, const Method& method, std::string& why);

/// What is to be said of the specimens and their reading as a whole, in plain words, never a
/// diagnosis.
std::vector<std::string> warnings(const Draw& draw, const Report& report);

} // namespace cistern::lab
