#pragma once
#include "drawing/film/field.h"

#include <memory>
#include <vector>

namespace cistern::desk {

using drawing::Box;
using drawing::Point;

/// A ring about a cell.
struct Ring {
    Point middle;        ///< [um]
    double radius = 0;   ///< [um]
    bool chosen = false; ///< the one that is asked about; else one that was counted
};

/// A slide under the lens while a page rests: it moves without the page being laid out anew.
struct Microscope {
    std::shared_ptr<const lab::Slide> slide;
    unsigned number = 0; ///< another for every slide and every tone of its stain
    int power = 10;      ///< of the objective: 10, 50, 100
    Point middle;        ///< of what is seen [um]
    double width = 1200; ///< of what is seen [um]
    double focus = 0;    ///< above the glass [um]
    Box box;             ///< where it is seen [px of the window]
    Box within;          ///< nothing of it is drawn outside this
    std::vector<Ring> rings;

    double scale() const { return box.width / width; }                           ///< [px/um]
    double left() const { return middle.x - width / 2; }                         ///< [um]
    double top() const { return middle.y - width * box.height / box.width / 2; } ///< [um]
    /// A place of the window on the slide [um], and the other way round.
    Point onSlide(Point at) const;
    Point inWindow(Point at) const;
    drawing::film::Optics optics() const;
};

/// What is seen, all of it drawn at once, with its rings: for a picture of a page.
drawing::Group seenThrough(const Microscope& microscope);

/// How a ring is drawn: a dark line under a bright one, so that it shows on any cell.
struct RingLook {
    drawing::Color under, over;
    double underWidth, overWidth;
};
RingLook look(const Ring& ring);

} // namespace cistern::desk
