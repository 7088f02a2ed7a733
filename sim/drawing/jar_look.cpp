#include "drawing/brushwork.h"
#include "drawing/jar.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cistern::drawing {

using namespace brushwork;

namespace {

constexpr double rightAngle = std::numbers::pi / 2;
constexpr int fine = 80; // pieces of a drawn curve

Path ellipse(Point middle, double across, double down) {
    Path path;
    for (int i = 0; i < 24; ++i) {
        const double angle = i * 4 * rightAngle / 24;
        const Point at{middle.x + across * std::cos(angle), middle.y + down * std::sin(angle)};
        i == 0 ? path.move(at) : path.line(at);
    }
    return path.close();
}

} // namespace

/// What is gone: hatched, with a dashed outline.
void Jar::ghost(Group& group) const {
    Group hatch{"", {}, silhouette(-1), {}};
    const double step = std::max(5., .042 * height_);
    const Box box = bounds();
    for (double x = box.x - box.height; x < box.right(); x += step)
        hatch.marks.push_back(
            {Shape{polyline({{x, box.bottom()}, {x + box.height, box.y}}), std::nullopt,
                   Stroke{faded(theme::clayDark, .38), std::max(.7, .0035 * height_), {}}}});
    group.marks.push_back({std::move(hatch)});
    const double dash = std::max(3., .02 * height_);
    group.marks.push_back(
        {Shape{silhouette(-1), std::nullopt,
               Stroke{theme::clayDark, std::max(1., .006 * height_), {dash, .8 * dash}}}});
}

/// Lines of the wheel and the lip.
void Jar::rings(Group& group) const {
    const auto ring = [&](double up, Color color, double width) {
        std::vector<Point> points;
        for (int i = 0; i <= fine; ++i) points.push_back(on(up, 2. * i / fine - 1, 1));
        group.marks.push_back(
            {Shape{polyline(points), std::nullopt, Stroke{color, width * height_, {}}}});
    };
    for (const double up : {.02, .145, .39, .635, .845}) {
        ring(up, faded(theme::clayDark, .5), .005);
        ring(up - .009, faded(theme::panel, .22), .005);
    }
    ring(.915, faded(theme::clayDark, .8), .012);
    ring(.975, faded(theme::panel, .35), .008);
}

/// The trace of what ran from a pore, longer the more it leaks.
void Jar::wet(Group& group, std::size_t pore) const {
    if (leak_ <= 1) return;
    const double length = .05 + .07 * std::log10(leak_), turn = turns_[pore];
    const double low = std::max(0., heights_[pore] - length);
    const double half = .62 * pores_[pore].radius;
    const Point top = pores_[pore].mouth, end = on(low, turn, 1);
    const double third = (end.y - top.y) / 3;
    group.marks.push_back(
        {Shape{Path()
                   .move({top.x - half, top.y})
                   .curve({top.x - half, top.y + 2 * third}, {end.x - half, end.y - third / 2}, end)
                   .curve({end.x + half, end.y - third / 2}, {top.x + half, top.y + 2 * third},
                          {top.x + half, top.y})
                   .close(),
               faded(theme::leak, .55), std::nullopt}});
}

void Jar::holes(Group& group) const {
    const double depth = .36 + .2 * std::log10(std::max(1., leak_)); // 0.36 at 1, 0.76 at 100
    for (std::size_t i = 0; i < pores_.size(); ++i) wet(group, i);
    for (std::size_t i = 0; i < pores_.size(); ++i) {
        const auto& [mouth, radius, fall] = pores_[i];
        const double across = radius * std::cos(turns_[i] * rightAngle);
        group.marks.push_back({Shape{ellipse({mouth.x, mouth.y + .14 * radius}, across, radius),
                                     faded(theme::panel, .35), std::nullopt}});
        group.marks.push_back({Shape{ellipse(mouth, across, radius),
                                     mixed(theme::clayDark, theme::ink, depth), std::nullopt}});
    }
}

void Jar::front(Group& group) const {
    constexpr int steps = 18;
    const Path outline = silhouette(1);
    group.marks.push_back({Shape{outline, theme::clay, std::nullopt}});
    for (int i = 0; i < steps; ++i) { // light from the left: shade grows toward both edges
        group.marks.push_back(
            {Shape{fromTurn(.05 + .05 * i, 1), faded(theme::clayDark, .045), {}}});
        if (i % 2 == 0)
            group.marks.push_back(
                {Shape{fromTurn(-.55 - .025 * i, -1), faded(theme::clayDark, .05), {}}});
    }
    rings(group);
    holes(group);
    group.marks.push_back(
        {Shape{outline, std::nullopt, Stroke{theme::clayDark, std::max(1.2, .009 * height_), {}}}});
}

/// The fresh break shows how thick the wall was.
void Jar::brokenEdge(Group& group) const {
    const std::vector<Point> edge = ragged(1);
    Group cut{"", {}, silhouette(-1), {}};
    cut.marks.push_back({Shape{polyline(edge), std::nullopt,
                               Stroke{theme::clayDark, std::max(2.4, .034 * height_), {}}}});
    cut.marks.push_back(
        {Shape{polyline(edge), std::nullopt,
               Stroke{mixed(theme::clay, theme::panel, .45), std::max(1.2, .022 * height_), {}}}});
    group.marks.push_back({std::move(cut)});
}

/// An empty group, cut at the broken edge of one half if there is one.
Group Jar::half(double side) const {
    Group group;
    if (work_ < 1) group.clip.emplace(under(ragged(side)));
    return group;
}

Group Jar::group() const {
    Group group;
    if (work_ < 1) ghost(group);
    if (work_ <= 0) return group;
    const double outline = std::max(1.2, .009 * height_);
    Group back = half(-1), sound = half(1);
    back.marks.push_back({Shape{silhouette(-1), mixed(theme::clayDark, theme::ink, .35),
                                Stroke{theme::clayDark, outline, {}}}});
    front(sound);
    group.marks.push_back({std::move(back)});
    group.marks.push_back({std::move(sound)});
    if (work_ < 1) brokenEdge(group);
    return group;
}

} // namespace cistern::drawing
