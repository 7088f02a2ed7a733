#pragma once
#include "drawing/film/cell.h"
#include "drawing/film/texture.h"

#include <vector>

namespace cistern::drawing::film {

/// A place on the line along a nucleus [um], and half its width there.
struct Bead {
    float x = 0, y = 0, half = 0;
};

/// A round hollow in the side of a nucleus; none where half is 0.
struct Notch {
    float x = 0, y = 0, half = 0;
};

/// The form of a nucleus: a line with a width, which serves for every kind of cell. Seen from the
/// cell's middle, turned as it is.
struct Nucleus {
    std::vector<Bead> spine;
    std::vector<Bead> stick; ///< a drumstick, if any
    Notch notch;
    int lobes = 1;

    float widest() const;    ///< half the width of the spine
    float narrowest() const; ///< likewise
    float reach() const;     ///< of its furthest edge from the cell's middle
};

/// What a cell's nucleus looks like: from its seed, kind, marks and radius. Empty for a cell that
/// is no white one.
Nucleus nucleusOf(const Cell& cell);

/// Answers how far a place is from the edge of a nucleus.
class NucleusEdge {
public:
    explicit NucleusEdge(const Nucleus& nucleus);
    struct Near {
        float distance = 9; ///< [um], negative inside; no more than "far" if 9
        float half = 1;     ///< half the width of the nucleus there
    };
    Near at(float x, float y) const;

private:
    struct Link {
        float x, y, dx, dy; ///< from here to there
        float perSquare;    ///< 1 over its squared length
        float half, more;   ///< half width here, and how much more there
    };
    void link(const std::vector<Bead>& beads);

    std::vector<Link> links_;
    Notch notch_;
    float reach_;
};

} // namespace cistern::drawing::film
