#pragma once
#include "body/names.h"

namespace cistern::body {

/// One thing that can be read off an animal at a moment. Order: work of each tissue, leak of each
/// tissue, analytes, then the few that follow.
namespace reading {
inline constexpr int work = 0;
inline constexpr int leak = work + tissueCount;
inline constexpr int analyte = leak + tissueCount;
inline constexpr int gfr = analyte + analyteCount;  // [mL/min/kg]
inline constexpr int hydration = gfr + 1;           // body water over healthy [1]
inline constexpr int plasmaVolume = hydration + 1;  // [mL/kg]
inline constexpr int conjugated = plasmaVolume + 1; // bilirubin, conjugated and delta [umol/L]
inline constexpr int delta = conjugated + 1;        // albumin-bound bilirubin [umol/L]
inline constexpr int pool = delta + 1;              // plasma pools of enzymes [U/L]
inline constexpr int release = pool + poolCount;    // into plasma, by pool [U/kg/h]
inline constexpr int count = release + poolCount;
} // namespace reading

} // namespace cistern::body
