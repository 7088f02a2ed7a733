#pragma once
#include "lab/report.h"
#include "report/table.h"

#include <string>
#include <string_view>
#include <vector>

namespace cistern::report {

// Comma-separated values by RFC 4180: a header line, lines ended by CR LF (also the last), fields
// quoted only where they hold a comma, a quote or a line end. `.` is the decimal point, times are
// hours, units stand in brackets in the header and follow UCUM.

/// A field as it is written: quoted if it must be.
std::string csvField(std::string_view text);
/// Fields as one line.
std::string csvLine(const std::vector<std::string>& fields);

/// Results, one row each: time[h], specimen, analyte, value, bound ("", "<", ">"), unit, low, high,
/// flag ("", "L", "H"), half width, notes (separated by "; "; the last tells how the specimen was
/// handled, if not as usual).
std::string resultsCsv(const std::vector<lab::Report>& reports, const lab::Bench& bench,
                       lab::Units units);

std::string tableCsv(const Table& table);

/// A member of a herd as it is and as it was measured.
struct Member {
    std::uint64_t number = 0;
    body::Signalment who; ///< age at hour 0
    body::Snapshot truth; ///< the animal's mean at that hour, before day-to-day wobble
    lab::Report report;
};

/// The herd's header: number, age[y], weight[kg], sex, true:ALT[U/L] ..., measured:ALT[U/L] ...,
/// and `beyond`, which names the measured values that are limits ("bilirubin < CK >"): their column
/// holds the limit itself, so that it stays a number.
std::string herdHeader(const lab::Bench& bench, lab::Units units,
                       const std::vector<body::Analyte>& analytes);
/// One animal's line. An analyte that was not measured leaves its field empty.
std::string herdLine(const Member& member, const lab::Bench& bench, lab::Units units,
                     const std::vector<body::Analyte>& analytes);

} // namespace cistern::report
