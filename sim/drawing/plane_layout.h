#pragma once
#include "drawing/plane.h"

/// Where things of the plane stand, before they are drawn.
namespace cistern::drawing {

enum class PlaneKind { truth, path, cloud, answer, ideal };

struct PlaneKey { ///< an entry of the legend
    Box mark;
    PlaneKind kind = PlaneKind::truth;
};

struct PlaneLayout {
    PlaneScale scale;
    double stroke = 1; ///< unit of line widths and dots, grows with the letters
    std::vector<double> workGrid, leakGrid; ///< x and y
    std::vector<PlaneKey> legend;
    std::vector<Box> blanks; ///< behind the words of the corners, over the grid
    std::vector<Box> plates; ///< behind the labels of the path, over the cloud and the path
    std::vector<Text> texts; ///< all of them
};

PlaneLayout planeLayout(const PlaneView& view, const Box& box);

/// At the nearest place inside the plot.
Point onPlot(const PlaneScale& scale, const PlanePoint& point);
Box onPlot(const PlaneScale& scale, const PlaneBox& box);

/// Radius of the dot of the truth and of the rings on the path, in strokes.
inline constexpr double truthRadius = 6.5, ringRadius = 3.2;

/// Puts the words of the corners, a little away from them if something stands there. Adds to blanks
/// and texts.
void labelCorners(PlaneLayout& layout, const PlaneView& view, const Type& type);

/// Puts words at the labelled points of the path where they touch nothing else; those that find no
/// place are left out. Adds to plates and texts.
void labelPath(PlaneLayout& layout, const PlaneView& view, const Type& type);

} // namespace cistern::drawing
