#pragma once
#include "drawing/theme.h"

namespace cistern::drawing {

/// What a level tells: an organ leaks it, makes it or clears it, or the body holds it in balance
/// (salts, signals, cells).
enum class Meaning { leaks, works, cleared, held };
inline constexpr int meaningCount = 4;

/// Its colors: of lines, and of areas.
struct Tones {
    Color line, soft;
};

constexpr Tones tonesOf(Meaning meaning) {
    switch (meaning) {
    case Meaning::leaks:
        return {theme::leak, theme::leakSoft};
    case Meaning::works:
        return {theme::work, theme::workSoft};
    case Meaning::held:
        return {theme::balance, theme::balanceSoft};
    case Meaning::cleared:
        break;
    }
    return {theme::thought, theme::thoughtSoft};
}

} // namespace cistern::drawing
