#pragma once
#include "drawing/picture.h"

/// The colors of every page. Ground is warm paper, ink is slate; teal is what leaks, ochre what
/// works, plum what needs thought (and what the body should have cleared), moss what it holds in
/// balance. Each of the four has a line color (at least 3:1 on the panel), a soft one for areas,
/// and an ink for words (at least 4.5:1 on panel and paper). tests/drawing/vision.cpp computes
/// these and that the four hold apart for the color-blind.
namespace cistern::drawing::theme {

inline constexpr Color paper = rgb(0xF5EFE3);
inline constexpr Color panel = rgb(0xFCF8F0);
inline constexpr Color field = rgb(0xFFFDF8); ///< the ground of a plot
inline constexpr Color ink = rgb(0x26323B);
inline constexpr Color muted = rgb(0x5C666C);
inline constexpr Color line = rgb(0xD8CDB9);

inline constexpr Color leak = rgb(0x0F8C86), leakSoft = rgb(0xA9D5D6), leakInk = rgb(0x0B6C75);
inline constexpr Color work = rgb(0xB4730F), workSoft = rgb(0xEBD2A0), workInk = rgb(0x8A5508);
inline constexpr Color thought = rgb(0x6E2A62), thoughtSoft = rgb(0xDCC5D7),
                       thoughtInk = rgb(0x6E2A62);

inline constexpr Color balance = rgb(0x364C1F), balanceSoft = rgb(0xCBD3B8),
                       balanceInk = rgb(0x364C1F);

inline constexpr Color clay = rgb(0xC88F63), clayDark = rgb(0xA36A40);
inline constexpr Color stone = rgb(0xB9B4A6), stoneDark = rgb(0x8F8A7C);

} // namespace cistern::drawing::theme
