#pragma once
#include "drawing/film/nucleus.h"

namespace cistern::drawing::film {

/// A nucleus of several lobes one after another. Lengths are um.
struct Lobes {
    int count = 3;
    float leastHalf = 1.5F, mostHalf = 1.9F;      ///< half their width
    float leastStretch = .3F, mostStretch = 1.7F; ///< how much longer than wide
    float leastNeck = .12F, mostNeck = .26F;      ///< between two, as a share of the widest lobe
    float gap = .3F;                              ///< between the edges of two, at least
    float within = 5.5F;                          ///< radius that holds them all
};

/// The spine of such a nucleus. Two lobes never touch but by their neck: those that find no room
/// are made smaller together. Its narrowest width over its widest lies between the two shares.
std::vector<Bead> lobed(Dice& dice, const Lobes& lobes);

/// A drumstick on the first lobe of a spine, pointing where there is room: a knob of 1.3 to 1.6 um
/// on a thread (the second X chromosome; Davidson and Smith 1954, from memory).
std::vector<Bead> drumstick(Dice& dice, const std::vector<Bead>& spine, float cellRadius);

} // namespace cistern::drawing::film
