#pragma once
#include "drawing/painter.h"

#include <optional>
#include <string>
#include <vector>

/// The vessel: an organ is an earthenware jar that stands over a stone trough. The part of its wall
/// that still stands is its work, its pores are its leak; what drips through them fills the trough
/// (the blood), whose level is the serum level, and leaves by a spout (the clearance).
namespace cistern::drawing {

/// A drop of what leaks; a moving layer gives them.
struct Drop {
    double x = 0, y = 0; ///< middle of its round part, in the coordinates of the box
    double size = 3;     ///< radius there [px]
};

/// Every word of the drawing that is not data, for other languages.
struct VesselWords {
    std::string work = "work", leak = "leak";
    std::string healthy = "healthy"; ///< beside the notch
};

struct VesselView {
    std::string name, caption;
    double work = 1;        ///< share of the healthy organ that functions, 0..1.2
    double leak = 1;        ///< fold over healthy, 0..100
    double size = 1;        ///< mass of the organ over that of the largest one compared, 0.3..1
    double level = 0;       ///< of the water, share of the trough's height, 0..1
    double mark = -1;       ///< upper limit of the healthy interval, likewise; none if below 0
    double spout = 0;       ///< width of the outlet, 0..1
    std::string reading;    ///< "ALT 96 U/L"
    std::string levelWords; ///< under the reading, smaller: "twice the upper limit"
    bool measures = true;   ///< bars of work and leak under the trough
    std::vector<Drop> drops;
    double phase = 0;     ///< of the waves, 0..1; 1 looks like 0
    double textScale = 1; ///< 0.8..2
    VesselWords words;
};

/// A hole in the wall and where its drops leave: they run down the wall and fall from the slab.
struct Pore {
    Point mouth;
    double radius = 0;
    Point fall;
};

/// A bar of a measure. `share` of the track is filled.
struct VesselBar {
    Box track;
    double share = 0;
    bool leak = false;
};

/// Everything placed, for the drawing itself and for a moving layer over it.
struct VesselPlaces {
    Point foot;        ///< middle of the jar's foot
    double height = 0; ///< foot to lip of the whole jar
    Box jar;           ///< with what is gone of it
    double wall = 0;   ///< y of the sound wall's upper edge, before its teeth
    std::vector<Pore> pores;
    Box slab;                   ///< front of the stone under the jar
    double thickness = 0;       ///< of the trough's walls
    Box trough;                 ///< its inside, from rim to floor
    Box water;                  ///< from the still surface to the floor
    double wave = 0;            ///< the surface moves up and down by this
    std::optional<double> mark; ///< y of the notch
    double markEnd = 0;         ///< x where its line in the water ends
    Box bore;                   ///< the open inside of the spout; no height if it is closed
    Point mouth;                ///< of the spout: water leaves here
    Point splash;               ///< where the stream from it ends
    Box plate;                  ///< behind the reading if it stands above the water; else empty
    std::vector<VesselBar> bars;
    std::vector<Text> texts; ///< all of them
};

/// Throws std::invalid_argument naming a number that is not finite.
void validate(const VesselView& view);

/// Places everything inside the box, from about 180 x 240. Letters grow with box and text scale; a
/// box that cannot hold them gets smaller ones. Values beyond their range are drawn at its nearer
/// end. Jar and trough stand still while work (up to 1), leak, level and spout move. Throws as
/// validate() does.
VesselPlaces places(const VesselView& view, const Box& box);

/// The jar, the trough, the words and the drops given, at rest. Throws as validate() does.
Group vessel(const VesselView& view, const Box& box);

/// The outline of a falling drop, for a moving layer.
Path dropOutline(const Drop& drop);

/// What the vessel shows, in English sentences, for those who cannot see it.
std::string words(const VesselView& view);

} // namespace cistern::drawing
