#pragma once
#include "desk/desk.h"

#include <cstddef>
#include <vector>

namespace cistern::desk {

/// What a run of the window measured.
struct FrameTimes {
    double firstPage = 0;       ///< from the start of showWindow() until the first page is seen [s]
    std::vector<double> frames; ///< time to make each frame [s]
    std::vector<double> pages;  ///< to draw each page anew [s]
    std::size_t drops = 0;      ///< the most in one frame
    long tilesMissing = 0;      ///< of a slide, wanted in a frame and not there, summed over frames
    double tileSeconds = 0;     ///< to draw one of them [s]
};

/// Shows the desk in a window until it is closed, or for so many frames if `frames` is above 0.
/// `flood`: as many drops as are ever drawn, whatever the page says, for timing. The one place that
/// knows SFML. Throws std::runtime_error if no window can be opened. A display must be there: ask
/// hasDisplay() first.
FrameTimes showWindow(Desk& desk, int frames = 0, bool flood = false);

/// True if the environment names a display.
bool hasDisplay();

} // namespace cistern::desk
