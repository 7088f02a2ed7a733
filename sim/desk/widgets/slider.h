#pragma once
#include "desk/sheet.h"
#include "drawing/meaning.h"

#include <vector>

namespace cistern::desk {

/// One handle of a track.
struct Handle {
    std::string id, says; ///< "liver.leak.low"; "Low end: 2 fold"
    double share = 0;     ///< of the track, 0..1
    bool chief = true;    ///< the ends of a band are smaller
    /// To a share of the track, by a pointer; by arrows, so many steps up or down.
    std::function<void(double share, Grip grip)> slide;
    std::function<void(int steps)> step;
    std::string key{}; ///< a letter that brings the focus to it
};

/// A track with handles.
struct Slider {
    std::string name, value; ///< over it, left and right; either may be empty
    drawing::Tones tones{};  ///< of what is filled, and of the rest
    drawing::Color ink{};    ///< of the name
    std::vector<Handle> handles;
    double from = 0, to = 0;   ///< shares between which the track is filled
    std::string least, most;   ///< under its ends; either may be empty
    std::vector<double> ticks; ///< shares
};

/// Draws it in the flow; gives the box of the track, from end to end.
Box slider(Flow& flow, const Slider& one);

} // namespace cistern::desk
