#pragma once
#include <cstddef>
#include <string>
#include <vector>

namespace cistern::desk {

/// One explanation's share of the 100 points.
struct Share {
    double points = 0;
    bool locked = false; ///< keeps what it has
};

/// Gives one of them so many points, as far as the locked ones leave them; the others give or get
/// in proportion to what they have (evenly if they have none), in whole points where they can. All
/// add up to 100 afterwards; if no other can give or get, all stays as it was.
std::vector<Share> given(std::vector<Share> shares, std::size_t one, double points);

/// What the locked ones leave, in equal parts over the rest.
std::vector<Share> even(std::vector<Share> shares);

} // namespace cistern::desk
