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
///                 "handling"?: {"in_words": ["EDTA tube 20 % full"], "attempts": 1,
///                     "tubes": [{"tube": "edta", "fill": 0.2, "inversions": 8, "clot_h": 0.5,
///                                "spin_rcf": 1500, "spin_min": 10, "topped_from"?: "serum"}],
///                     "unseparated_h": 0, "temperature_Cel": 22, "light": "room",
///                     "light_h": 0.5, "film_after_h": 0.5},
///                 "indices": {"hemolysis_g/L": 0.05, "icterus_umol/L": 4, "lipemia_mmol/L": 0.6},
///                 "results": [{"analyte": "ALT", "value": 412, "bound"?: "<" or ">",
///                              "unit": "U/L", "low"?: 18, "high"?: 100, "flag"?: "L" or "H",
///                              "half_width"?: 13, "notes"?: ["..."]}],
///                 "not_run": ["..."], "warnings": ["..."]}]}
/// `handling` is there where it was not the usual, tubes in the order of filling.
/// Values are numbers as printed. Ends with a line end.
std::string resultsJson(const Patient& patient, const std::vector<lab::Report>& reports,
                        const lab::Bench& bench, lab::Units units);

/// A table as JSON: {"columns": ["time[h]", ...], "rows": [[0, ...], ...]}, headings as in CSV,
/// seven significant digits; null for a value that is not finite.
std::string tableJson(const Table& table);

} // namespace cistern::report
