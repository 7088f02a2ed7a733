#pragma once
#include "drawing/plane.h"
#include "drawing/vessel.h"

#include <string>

/// An organ opened: its vessel beside that of a healthy animal, and where it stands, and came from,
/// in leak and work. Plain data in; a picture out.
namespace cistern::drawing {

struct OpenedView {
    std::string title, subtitle;
    VesselView here, healthy;
    std::string planeTitle = "Leak and work", planeSubtitle;
    PlaneView plane;
    std::string caution = "Invented animal, for teaching. Not for diagnosing or treating. "
                          "A licensed veterinarian decides.";
    std::string language = "en";
};

/// 1280 x 640. Throws std::invalid_argument if a vessel or the plane cannot be drawn.
Picture picture(const OpenedView& view);

} // namespace cistern::drawing
