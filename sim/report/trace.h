#pragma once
#include "lab/report.h"

#include <string>

namespace cistern::report {

/// What the photometer saw of one result, as a chart of characters: time across, absorbance up, the
/// readings that were used as "o" and the others as ".". Lines of 80 cells at most, each ended. A
/// sentence where there is no trace.
std::string traceChart(const lab::Report& report, body::Analyte analyte, const lab::Bench& bench);

/// The same for machines: "time[h],specimen,analyte,wavelength[nm],reading[s],absorbance[1],used".
std::string tracesCsv(const std::vector<lab::Report>& reports, body::Analyte analyte);

} // namespace cistern::report
