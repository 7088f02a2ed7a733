#pragma once
#include "drawing/axis.h"
#include "drawing/course.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

/// The panels of a course before they are placed on the page.
namespace cistern::drawing {

/// One curve before it is placed: positions on its panel's axis.
struct Trace {
    std::string name, end; ///< `end`: its last value in words
    Meaning meaning = Meaning::leaks;
    std::vector<double> dash;
    std::vector<double> values;
    std::vector<Peg> pegs;
};

struct PanelPlan {
    std::string heading;
    std::vector<Trace> traces;
    Axis axis;
    std::optional<double> health;
    std::function<std::string(double)> words;
    double weight = 1, least = 0; ///< share of the height; least height of the field
};

/// One panel for all levels as fold, or one for each unit.
std::vector<PanelPlan> levelPanels(const CourseView& view);

/// The work of the organs, 0 to 100 % and further if an organ does more.
PanelPlan workPanel(const CourseView& view);

/// Points of a curve without those that would not move it by a quarter of a pixel (Douglas and
/// Peucker 1973). x rises from point to point.
std::vector<Point> thinned(const std::vector<Point>& points);

} // namespace cistern::drawing
