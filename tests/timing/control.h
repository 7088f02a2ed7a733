#pragma once

namespace cistern::timing {

/// Prints how long a million control runs of two levels take with all rules, and as ratios in one
/// run: against the same rules written with whole histories, and against the warning alone.
void controlRuns();

} // namespace cistern::timing
