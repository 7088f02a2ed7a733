#pragma once
#include <cstdint>

namespace cistern::drawing::film {

/// How chromatin is laid: what tells nuclei apart besides their form.
enum class Chromatin : std::uint8_t {
    clumped, // dark blocks and pale lanes: segmented neutrophils
    coarse,  // paler, less clumped: bands, metamyelocytes, basophils
    smooth,  // dense, blurred blocks: lymphocytes
    lace,    // pale, with ribbons: monocytes
    open     // pale, even: reactive lymphocytes, eosinophils
};

/// Units of chromatin at a place [um] of a nucleus, about 0.3 to 1.3. Its mean where detail is 0.
float chromatin(Chromatin kind, float x, float y, std::uint32_t seed, float detail);

} // namespace cistern::drawing::film
