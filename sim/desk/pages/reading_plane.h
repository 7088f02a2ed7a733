#pragma once
#include "desk/pages/reading_band.h"
#include "desk/sheet.h"
#include "drawing/plane.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace cistern::desk {

/// Where something stands on both scales, in steps: leak, work.
using Places = std::array<double, 2>;

/// Draws an organ's answer on the plane of leak and work, in the flow. Where only one of the two is
/// answered, its band runs across the whole plane.
drawing::PlaneScale answerPlane(Flow& flow, const lesson::OrganAnswer& answer);

/// Where on both scales a point of the plane lies.
Places placesAt(const drawing::PlaneScale& scale, Point at);

/// A handle of the frame: a corner, which moves one end of each band.
struct PlaneSpot {
    std::string name; ///< "top-left"
    BandPart leak{}, work{};
    Point at; ///< held to the plot
};
/// The four corners, where both bands are answered.
std::vector<PlaneSpot> corners(const drawing::PlaneScale& scale, const lesson::OrganAnswer& answer);
/// The frame that they hold, held to the plot.
Box frameOf(const drawing::PlaneScale& scale, const lesson::OrganAnswer& answer);
/// The most likely of both.
Point likeliest(const drawing::PlaneScale& scale, const lesson::OrganAnswer& answer);

} // namespace cistern::desk
