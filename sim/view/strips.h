#pragma once
#include "drawing/strip.h"
#include "lab/report.h"
#include "view/crowd.h"

#include <string>
#include <vector>

namespace cistern::view {

/// One result against its peers, in printed units. `earlier`, the same analyte in a draw before,
/// may be null; its band is the reference change on the side to which the result went, so the peg
/// lies beyond it exactly if the report tells it as moved. Widely scattered peers get a logarithm.
drawing::StripView strip(const lab::Result& result, const lab::Result* earlier, const Crowd& crowd,
                         const lab::Bench& bench, lab::Units units);

/// Results under one heading.
struct Strips {
    std::string name; ///< "what leaks"
    drawing::Meaning meaning{};
    std::vector<const lab::Result*> results; ///< of the report, in panel order
};

/// All results of a report, each once: what leaks, works, is cleared, is held in balance; red
/// cells, white cells, platelets; clotting; urine. No empty ones.
std::vector<Strips> groups(const lab::Report& report, const lab::Bench& bench);

} // namespace cistern::view
