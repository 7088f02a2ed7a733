#pragma once
#include "body/course.h"
#include "lab/bench.h"

#include <string>
#include <vector>

namespace cistern::report {

/// Numbers under headings with units: "ALT[U/L]".
struct Table {
    std::vector<std::string> header;
    std::vector<std::vector<double>> rows;
};

/// The truth over time, a row a look: time[h]; work:TISSUE[%] of each tissue and leak:TISSUE[fold]
/// where it has a meaning; the chosen analytes in their units, in the order given; GFR[mL/min/kg],
/// hydration[%], plasma volume[mL/kg]. Throws std::out_of_range for an analyte without a method.
Table courseTable(const body::Course& course, const lab::Bench& bench, lab::Units units,
                  const std::vector<body::Analyte>& analytes);

/// The parts of the body that such a table of these analytes needs.
body::Parts partsForTable(const std::vector<body::Analyte>& analytes);

/// "ALT[U/L]": a header for an analyte in its unit, which is "1" where it has none.
std::string heading(body::Analyte analyte, const lab::Bench& bench, lab::Units units);

/// Seven significant digits, more than any reading carries.
double sevenDigits(double value);
/// The same as text: shortest form, no exponent. "" for a value that is not finite.
std::string number(double value);

} // namespace cistern::report
