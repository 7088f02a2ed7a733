#pragma once
#include "drawing/picture.h"

#include <cmath>

/// Shades between the colors of the theme, for light and dark on one thing.
namespace cistern::drawing {

/// `share` 0 is all `from`, 1 all `to`; as solid as `from`.
inline Color mixed(const Color& from, const Color& to, double share) {
    const auto part = [share](std::uint8_t a, std::uint8_t b) {
        return static_cast<std::uint8_t>(std::lround(a + share * (b - a)));
    };
    return {part(from.red, to.red), part(from.green, to.green), part(from.blue, to.blue),
            from.alpha};
}

inline Color faded(Color color, double alpha) {
    color.alpha = alpha;
    return color;
}

} // namespace cistern::drawing
