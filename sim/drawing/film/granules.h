#pragma once
#include "drawing/film/nucleus.h"

#include <span>
#include <vector>

namespace cistern::drawing::film {

/// A small body in a cell, seen from its middle: an oval, or a rod with round ends. Lengths are um.
struct Grain {
    float x = 0, y = 0;
    float along = .3F, across = .3F; ///< half its length, half its width
    float c = 1, s = 0;              ///< which way it lies
    float dye = 1;                   ///< how strongly it took the stain; how clear a hole is
    float reach() const { return std::max(along, across); }
};

enum class Granules : std::uint8_t {
    none,
    round,    // dog eosinophil: orange
    empty,    // the same washed out: clear, ringed
    rods,     // cat eosinophil
    dark,     // dog basophil: few
    lavender, // cat basophil: packed ovals over everything
    fine      // a few magenta specks: granular lymphocytes, toxic neutrophils
};
Granules granulesOf(const Cell& cell);

/// Grains of a cell where its nucleus lets them lie.
std::vector<Grain> grains(const Cell& cell, const NucleusEdge& nucleus);
/// Clear holes: of a monocyte, of age, foam of a toxic neutrophil.
std::vector<Grain> holes(const Cell& cell, const NucleusEdge& nucleus);
bool hasHoles(const Cell& cell);
/// Doehle bodies.
std::vector<Grain> bodies(const Cell& cell, const NucleusEdge& nucleus);
bool hasBodies(const Cell& cell);

/// Grains sorted into squares of 1 um, so that a place looks only at those near it.
class NearGrains {
public:
    /// `soft` is how far a grain shows beyond its edge [um].
    NearGrains(const std::vector<Grain>& grains, float soft);
    std::span<const Grain> at(float x, float y) const {
        const int column = floored(x - left_), row = floored(y - top_);
        if (column < 0 || row < 0 || column >= side_ || row >= side_) return {};
        const auto square = static_cast<std::size_t>(row * side_ + column);
        return {sorted_.data() + starts_[square], starts_[square + 1] - starts_[square]};
    }
    bool empty() const { return sorted_.empty(); }

private:
    float left_ = 0, top_ = 0;
    int side_ = 0; ///< squares
    std::vector<std::size_t> starts_;
    std::vector<Grain> sorted_;
};

} // namespace cistern::drawing::film
