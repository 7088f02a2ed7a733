#pragma once
#include "drawing/film/nucleus.h"

namespace cistern::drawing::film {

/// A band of even width bent in an arc, or in an S. Lengths are um. Filled in braces, so that draws
/// of chance keep their order with every compiler.
struct Ribbon {
    float radius = 3; ///< of its bend
    float span = 3;   ///< how far round it goes [rad]
    float half = 1.6F;
    float uneven = .04F; ///< share by which the width varies
    bool twice = false;  ///< bends back halfway
    int beads = 9;

    Ribbon times(float size) const {
        return {radius * size, span, half * size, uneven, twice, beads};
    }
};
std::vector<Bead> ribbon(Dice& dice, const Ribbon& form);

/// Draws a ribbon in at one place, to between 1/3 and 1/2 of its widest: neither a band nor
/// segmented for certain.
void constrict(std::vector<Bead>& spine, Dice& dice);

/// Puts the middle of a spine there.
void center(std::vector<Bead>& spine, float x, float y);
/// Makes a spine as much smaller as it must be to stay within; its proportions stay.
void fit(std::vector<Bead>& spine, float within);
/// How far its furthest edge is from 0, 0.
float reachOf(const std::vector<Bead>& spine);

} // namespace cistern::drawing::film
