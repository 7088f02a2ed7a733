#pragma once
#include "report/table.h"
#include "report/text.h"

#include <string>
#include <vector>

namespace cistern::report {

/// Results as JSON, two blanks a level, keys in this order; members in "?" are left out where there
/// is nothing to say:
///     {"caution": "...",
///      "patient": {"name": "Bramble", "species": "dog", "sex": "spayed female", "age_y": 9,
///                  "weight_kg": 18, "condition": 4, "seed": 4711},
///      "units": "conventional",
///      "draws": [{"time_h": 0, "specimen": "4711-1", "vein": "jugular", "fasted_h"?: 12,
///                 "indices": {"hemolysis_g/L": 0.05, "icterus_umol/L": 4, "lipemia_mmol/L": 0.6},
///                 "results": [{"analyte": "ALT", "value": 412, "bound"?: "<" or ">",
///                              "unit": "U/L", "low"?: 18, "high"?: 100, "flag"?: "L" or "H",
///                              "half_width"?: 13, "notes"?: ["..."]}],
///                 "not_run": ["..."], "warnings": ["..."]}]}
/// Values are numbers as printed. Ends with a line end.
std::string resultsJson(const Patient& patient, const std::vector<lab::Report>& reports,
                        const lab::Bench& bench, lab::Units units);

/// A table as JSON: {"columns": ["time[h]", ...], "rows": [[0, ...], ...]}, headings as in CSV,
/// seven significant digits; null for a value that is not finite.
std::string tableJson(const Table& table);

} // namespace cistern::report
