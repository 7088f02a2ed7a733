#include "lab/film/slide.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

// That large cells and clumps end at the feathered edge is common practice; how many
// is chosen by eye.
constexpr double widest = 1500; // of the zone into which they are swept [um]
constexpr double bodyAtLeast = 8000, lackingOver = 3000; // [um]
constexpr double mostGathered = 90;                      // fold, of clumps
constexpr double mostLacking = 0.97;                     // share of what an even film would hold

/// 1 at the tip, 0 at the end of the zone.
double near(double x, double zone) {
    const double s = std::clamp(x / zone, 0., 1.);
    return 1 - s * s * (3 - 2 * s);
}

double lacking(double x, double from) {
    return 1 - near(x - from, lackingOver);
}

/// Sum of f(x) thickness(x) dx by midpoints [um2], fine enough that it is off by less than 0.1 %.
template<class Weight>
double blood(const Slide& slide, double from, double to, const Weight& weight) {
    constexpr int parts = 400;
    const double step = (to - from) / parts;
    double sum = 0;
    for (int i = 0; i < parts; ++i) {
        const double x = from + (i + 0.5) * step;
        sum += weight(x) * meanThickness(slide, x) * step;
    }
    return sum;
}

} // namespace

Gathering::Gathering(const Slide& slide)
    : drag_(slide.drag),
      zone_(std::min(widest, reach(slide, FilmArea::edge).to)),
      from_(std::min(reach(slide, FilmArea::body).from, filmLength - bodyAtLeast)) {
    const auto one = [](double) { return 1.; };
    const double all = blood(slide, 0, filmLength, one), zone = blood(slide, 0, zone_, one);
    peak_ = zone / blood(slide, 0, zone_, [&](double x) { return near(x, zone_); });
    held_ = zone / all;
    lost_ = blood(slide, from_, filmLength, [&](double x) { return lacking(x, from_); }) / all;
}

/// How many more of these the zone holds on its mean, fold of an even film, less one.
double Gathering::excess(FilmCell cell) const {
    switch (cell) {
    case FilmCell::monocyte:
    case FilmCell::reactiveLymphocyte:
        return 4 * drag_;
    case FilmCell::segmented:
    case FilmCell::band:
    case FilmCell::metamyelocyte:
    case FilmCell::eosinophil:
    case FilmCell::basophil:
        return 2.4 * drag_;
    case FilmCell::smudge:
        return 2 * drag_;
    case FilmCell::lymphocyte:
        return -0.3 * drag_; // the small ones stay behind
    case FilmCell::plateletClump: {
        const double swept = 1.25 * drag_ * (1 - 0.3 * drag_); // share of all clumps
        return std::min({swept / held_, mostGathered, mostLacking * lost_ / held_});
    }
    default:
        return 0;
    }
}

double Gathering::at(FilmCell cell, double x) const {
    const double more = excess(cell);
    if (more == 0) return 1;
    const double fewer = more * held_ / lost_; // what the zone holds more the body holds less
    return std::max(0., 1 + more * peak_ * near(x, zone_) - fewer * lacking(x, from_));
}

double gathering(const Slide& slide, FilmCell cell, FilmArea area) {
    const Gathering swept(slide);
    const Reach part = reach(slide, area);
    const double even = blood(slide, part.from, part.to, [](double) { return 1.; });
    if (even <= 0) return 1;
    return blood(slide, part.from, part.to, [&](double x) { return swept.at(cell, x); }) / even;
}

} // namespace cistern::lab
