#pragma once
#include "drawing/painter.h"

#include <optional>
#include <string>
#include <vector>

/// The plane of leak and work: how much of an organ still functions, across, and how much it leaks,
/// upward. One organ is a point, its story a path, doubt a cloud or a frame.
namespace cistern::drawing {

struct PlanePoint {
    double work = 1;   ///< share of healthy, 0..1.2
    double leak = 1;   ///< fold over healthy, > 0
    std::string label; ///< "-9 mo", "day 2"; may be empty
};

/// From low to high, both ends.
struct PlaneBox {
    double workLow = 0, workHigh = 1, leakLow = 1, leakHigh = 1;
};

/// Every word of the drawing that is not data, for other languages. What has none is left out of
/// the legend.
struct PlaneWords {
    std::string work = "work: share of the organ that still functions";
    std::string leak = "leak: fold over healthy";
    std::string soundQuiet = "sound and quiet", soundLoud = "sound and loud",
                hurtLoud = "hurt and loud", spentQuiet = "spent and quiet";
    std::string truth = "the truth", path = "how it came to this";
    std::string cloud = "the ideal reader", cloudNote = "with all results";
    std::string answer = "your answer", answerNote = "80 % band";
    std::string ideal = "the ideal reader's answer", idealNote = "80 % band";
};

struct PlaneView {
    std::vector<PlanePoint> path;    ///< in order of time
    std::optional<PlanePoint> truth; ///< its label stands in the legend: "today"
    std::vector<PlanePoint> cloud;   ///< more than 600 are thinned evenly
    std::optional<PlaneBox> answer;  ///< the learner's
    std::optional<PlaneBox> ideal;
    double reach = 1;     ///< the leak axis goes down to this leak at least
    double textScale = 1; ///< 0.8..2
    PlaneWords words;
};

/// From work and leak to the plot and back, for drawing, mouse and keys.
struct PlaneScale {
    Box plot;
    double leakLow = .6; ///< at the bottom: a little room below health; 0.3 if the data ask for it
    static constexpr double leakHigh = 100, workHigh = 1.2;

    /// Where they stand; beyond the plot if they are beyond its range. `leak` > 0.
    Point at(double work, double leak) const;
    /// What stands there: the inverse of at().
    PlanePoint inverse(Point at) const;
};

/// Throws std::invalid_argument naming what is not finite, a leak that is not above zero, or a
/// frame whose ends are in the wrong order.
void validate(const PlaneView& view);

/// Throws as validate() does.
PlaneScale planeScale(const PlaneView& view, const Box& box);

/// How much larger letters are in this box than in one of plain size.
double planeLetters(const Box& box);

/// Plot, axes and a legend at the right if the box is wide enough, else below, all inside the box
/// (from about 240 x 240). Letters grow with box and text scale; a box that cannot hold them gets
/// smaller ones. A label of the path that finds no free place is left out. Points beyond the plot
/// are drawn at its edge. Throws as validate() does.
Group plane(const PlaneView& view, const Box& box);

/// What the plane shows, in English sentences, for those who cannot see it.
std::string words(const PlaneView& view);

} // namespace cistern::drawing
