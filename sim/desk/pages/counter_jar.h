#pragma once
#include "desk/pages/counter_words.h"
#include "desk/sheet.h"

/// An organ at play as a vessel whose drops fall.
namespace cistern::desk {

/// How high a level stands in the trough, share of its height, 0..1: even up to the most that the
/// healthy have, from there on each doubling takes the same step.
double depth(double level, double most);

struct CounterJar {
    std::string id;        ///< of its drops
    std::string caption;   ///< under its name
    bool measures = false; ///< bars of work and leak
};

/// The vessel of an organ at play.
drawing::VesselView vesselOf(const Telling& telling, const Played& one, const CounterJar& jar);

/// Draws it and lets it drip; gives the height of its trough [px].
double drawJar(Sheet& sheet, const Telling& telling, const Played& one, const CounterJar& jar,
               const Box& box);

} // namespace cistern::desk
