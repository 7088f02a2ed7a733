#pragma once
#include "body/names.h"

#include <vector>

namespace cistern::body {

/// Parts of the body that nothing else waits for: they are stepped only when their readings are
/// asked for. Everything else (organs, water, filtration, red cells, signals) always moves.
enum class Part { enzymes, bile, portal, protein, sugar, salts, whiteCells, platelets };
inline constexpr int partCount = 8;

/// A set of parts, one bit each.
using Parts = unsigned;
inline constexpr Parts allParts = (1u << partCount) - 1;
constexpr bool has(Parts parts, Part part) {
    return (parts >> static_cast<int>(part)) & 1u;
}

/// The parts that must be stepped to know these analytes; none named means all.
Parts partsFor(const std::vector<Analyte>& wanted);
/// Whether a reading is known when only these parts are stepped; see reading.h.
bool known(int reading, Parts parts);

} // namespace cistern::body
