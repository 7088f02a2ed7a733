#pragma once
#include "drawing/brushwork.h"

#include <cmath>
#include <string_view>
#include <utility>

/// Letters as large as asked, or as a box can hold.
namespace cistern::drawing {

/// True if no word is wider than the line it must stand on.
inline bool holds(std::string_view words, const Type& type, double width) {
    return brushwork::widestWord(words, type) <= width;
}

/// What `place(scale)` makes at the scale asked for or, if that has no fits(), at the greatest one
/// found below it that has; at the least scale if none. Halves the range, so it takes few tries.
template<class Place>
auto fitted(double asked, const Place& place) {
    constexpr double smaller = .96;
    const int most = asked > 1 ? 50 : 32; // steps down: to 0.27 of usual letters, or nearly
    auto whole = place(asked);
    if (whole.fits()) return whole;
    auto best = place(asked * std::pow(smaller, most));
    int refused = 0, held = most;
    while (held - refused > 1) {
        const int middle = (held + refused) / 2;
        auto found = place(asked * std::pow(smaller, middle));
        (found.fits() ? held : refused) = middle;
        if (found.fits()) best = std::move(found);
    }
    return best;
}

} // namespace cistern::drawing
