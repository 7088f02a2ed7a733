#pragma once

namespace cistern::timing {

/// Prints what a weighing of a hundred thousand animals takes, that its cost is linear in animals,
/// and its speed as a ratio against a plain program in the same run.
void weighing();

} // namespace cistern::timing
