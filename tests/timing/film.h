#pragma once

namespace cistern::timing {

/// Prints how long fields of a blood film take to draw, beside the same cells as plain discs.
void films();

} // namespace cistern::timing
