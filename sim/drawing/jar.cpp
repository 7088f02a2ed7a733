#include "drawing/jar.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace cistern::drawing {

namespace {

/// A place along a curve and the value there.
struct Knot {
    double at, value;
};

// Half the width over the height, from foot to lip: the form on the potter's wheel.
constexpr std::array profile{Knot{0, .285},    Knot{.05, .305}, Knot{.2, .395},  Knot{.38, .465},
                             Knot{.54, .482},  Knot{.68, .455}, Knot{.8, .385},  Knot{.865, .33},
                             Knot{.905, .314}, Knot{.93, .338}, Knot{.955, .36}, Knot{.98, .36},
                             Knot{1, .344}};

// Teeth of the broken edge over the turn, as shares of the height; front and back meet at the
// sides.
constexpr std::array frontTeeth{
    Knot{-1, .01},    Knot{-.82, .04}, Knot{-.7, -.015}, Knot{-.52, .03}, Knot{-.4, .05},
    Knot{-.25, -.03}, Knot{-.08, .02}, Knot{.06, -.04},  Knot{.2, -.005}, Knot{.3, .045},
    Knot{.47, -.02},  Knot{.6, .03},   Knot{.74, -.03},  Knot{.88, .02},  Knot{1, -.01}};
constexpr std::array backTeeth{Knot{-1, .01},  Knot{-.75, -.02}, Knot{-.5, .035}, Knot{-.3, .0},
                               Knot{-.1, .04}, Knot{.15, -.02},  Knot{.4, .03},   Knot{.7, -.01},
                               Knot{.85, .02}, Knot{1, -.01}};
constexpr double tooth = .05; // the longest of them

constexpr double tilted = .1;
constexpr double pitch = .13;               // from one pore to the next at its closest
constexpr double widest = .43 * pitch;      // radius of a pore at the greatest leak
constexpr double roomAbove = 1.35 * widest; // from a pore to the break
constexpr double greatestLeak = 100;
constexpr double lowestRow = .085, highestRow = .82;
constexpr double pored = .72; // turn up to which the wall has pores
constexpr double rightAngle = std::numbers::pi / 2;
constexpr int fine = 80; // pieces of a drawn curve

template<std::size_t count>
double follow(const std::array<Knot, count>& knots, double at) {
    std::size_t i = 1;
    while (i + 1 < count && knots[i].at < at) ++i;
    const Knot &a = knots[i - 1], &b = knots[i];
    return a.value + (b.value - a.value) * std::clamp((at - a.at) / (b.at - a.at), 0., 1.);
}

/// The profile without corners: a cubic through the knots, its slopes those of the neighbors.
double halfWidth(double up) {
    std::size_t i = 1;
    while (i + 1 < profile.size() && profile[i].at < up) ++i;
    const auto slope = [](std::size_t k) {
        const Knot& a = profile[k == 0 ? 0 : k - 1];
        const Knot& b = profile[std::min(k + 1, profile.size() - 1)];
        return (b.value - a.value) / (b.at - a.at);
    };
    const Knot &a = profile[i - 1], &b = profile[i];
    const double step = b.at - a.at, s = std::clamp((up - a.at) / step, 0., 1.);
    const double s2 = s * s, s3 = s2 * s;
    return (2 * s3 - 3 * s2 + 1) * a.value + (s3 - 2 * s2 + s) * step * slope(i - 1) +
           (3 * s2 - 2 * s3) * b.value + (s3 - s2) * step * slope(i);
}

/// The height below which a share of the wall's area lies.
double heightOfArea(double share) {
    double whole = 0;
    for (int i = 0; i < fine; ++i) whole += halfWidth((i + .5) / fine);
    double below = 0;
    for (int i = 0; i < fine; ++i) {
        const double strip = halfWidth((i + .5) / fine) / whole;
        if (below + strip >= share) return (i + (share - below) / strip) / fine;
        below += strip;
    }
    return 1;
}

struct Site {
    double up, turn;
    double key; ///< height of an even edge at which the broken one runs through its middle
};

/// Where the wall has pores, in rows that stand between one another, in the order in which a rising
/// edge meets them.
std::vector<Site> sites() {
    std::vector<Site> found;
    const int rows = static_cast<int>((highestRow - lowestRow) / pitch) + 1;
    for (int row = 0; row < rows; ++row) {
        const double up = lowestRow + (highestRow - lowestRow) * row / (rows - 1);
        const double arc = 2 * pored * rightAngle * halfWidth(up);
        const int count = std::max(2, static_cast<int>(arc / pitch));
        const double shift = row % 2 == 0 ? -.25 : .25;
        for (int i = 0; i < count; ++i) {
            const double turn = pored * (2 * (i + .5 + shift) / count - 1);
            found.push_back({up, turn, up - follow(frontTeeth, turn)});
        }
    }
    std::ranges::stable_sort(found, {}, &Site::key);
    return found;
}

/// How high the wall stands: its area is the share of work, and it always holds that share of the
/// pores with room around the highest.
double wallHeight(double work, const std::vector<Site>& all) {
    if (work <= 0) return 0;
    const double count = work * static_cast<double>(all.size());
    const auto whole = std::clamp<std::size_t>(static_cast<std::size_t>(count), 1, all.size());
    const std::size_t next = std::min(whole + 1, all.size());
    const double lower = all[whole - 1].key, upper = all[next - 1].key;
    const double held = lower +
                        (upper - lower) * std::clamp(count - static_cast<double>(whole), 0., 1.) +
                        roomAbove;
    return std::max(held, heightOfArea(work) * (1 + 1.2 * tooth));
}

} // namespace

Jar::Jar(Point foot, double height, double work, double leak)
    : foot_(foot),
      height_(height),
      work_(std::clamp(work, 0., 1.)),
      leak_(std::clamp(leak, 0., greatestLeak)) {
    const std::vector<Site> all = sites();
    standing_ = wallHeight(work_, all);
    if (work_ <= 0) return;
    std::vector<Site> sound;
    const double slack = 1e-9; // the edge was laid past the highest of them with just this room
    for (const Site& site : all)
        if (site.key + roomAbove <= standing_ + slack) sound.push_back(site);
    const double crowd =
        work_ * static_cast<double>(all.size()) / static_cast<double>(sound.size());
    const double radius = widest * height_ * std::sqrt(crowd * leak_ / greatestLeak);
    for (const Site& site : sound) {
        const Point below = on(0, site.turn, 1);
        pores_.push_back({on(site.up, site.turn, 1), radius, below});
        heights_.push_back(site.up);
        turns_.push_back(site.turn);
    }
}

double Jar::tilt() {
    return tilted;
}

double Jar::footing() const {
    return halfWidth(0) * height_;
}

Point Jar::on(double up, double turn, double side) const {
    const double half = halfWidth(std::clamp(up, 0., 1.)) * height_;
    const double angle = turn * rightAngle;
    return {foot_.x + half * std::sin(angle),
            foot_.y - up * height_ + side * tilted * half * std::cos(angle)};
}

Box Jar::bounds() const {
    double half = 0;
    for (const Knot& knot : profile) half = std::max(half, knot.value * height_);
    const double top = on(1, 0, -1).y, bottom = on(0, 0, 1).y;
    return {foot_.x - half, top, 2 * half, bottom - top};
}

/// The outline up to the front of the lip (`side` 1) or its back (-1).
Path Jar::silhouette(double side) const {
    std::vector<Point> points;
    for (int i = 0; i <= fine; ++i) points.push_back(on(1 - i / double{fine}, -1, 1));
    for (int i = 1; i < fine; ++i) points.push_back(on(0, 2. * i / fine - 1, 1));
    for (int i = 0; i <= fine; ++i) points.push_back(on(i / double{fine}, 1, 1));
    for (int i = 1; i < fine; ++i) points.push_back(on(1, 1 - 2. * i / fine, side));
    return polyline(points).close();
}

/// The part of the front from a turn to an edge (-1 or 1).
Path Jar::fromTurn(double turn, double edge) const {
    std::vector<Point> points;
    for (int i = 0; i <= fine; ++i) points.push_back(on(i / double{fine}, turn, 1));
    for (int i = 0; i <= fine; ++i) points.push_back(on(1, turn + (edge - turn) * i / fine, 1));
    for (int i = 0; i <= fine; ++i) points.push_back(on(1 - i / double{fine}, edge, 1));
    for (int i = 0; i <= fine; ++i) points.push_back(on(0, edge + (turn - edge) * i / fine, 1));
    return polyline(points).close();
}

/// The broken edge of the front or back half, left to right.
std::vector<Point> Jar::ragged(double side) const {
    std::vector<Point> points;
    const auto add = [&](const auto& teeth) {
        for (int i = -fine; i <= fine; ++i) {
            const double turn = i / double{fine};
            Point at = on(standing_, turn, side);
            at.y -= follow(teeth, turn) * height_;
            points.push_back(at);
        }
    };
    side > 0 ? add(frontTeeth) : add(backTeeth);
    return points;
}

/// What lies below an edge, as far as the jar goes.
Path Jar::under(const std::vector<Point>& edge) const {
    const double floor = foot_.y + height_;
    std::vector<Point> points{{foot_.x - height_, floor}, {foot_.x - height_, edge.front().y}};
    points.insert(points.end(), edge.begin(), edge.end());
    points.push_back({foot_.x + height_, edge.back().y});
    points.push_back({foot_.x + height_, floor});
    return polyline(points).close();
}

} // namespace cistern::drawing
