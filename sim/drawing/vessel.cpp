#include "drawing/vessel.h"

#include "drawing/brushwork.h"
#include "drawing/jar.h"
#include "drawing/theme.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace cistern::drawing {

using namespace brushwork;

namespace {

/// Outline of stone and things on it.
double pen(const VesselPlaces& at) {
    return std::max(1., .12 * at.thickness);
}

/// A piece of the wall that lies on the slab: a corner cut from the jar.
void shard(Group& group, Point at, double size, double lean) {
    const Path path = Path()
                          .move({at.x - size, at.y})
                          .line({at.x - (.7 - lean) * size, at.y - .62 * size})
                          .line({at.x + (.1 + lean) * size, at.y - (.95 - lean) * size})
                          .line({at.x + .62 * size, at.y - .5 * size})
                          .line({at.x + .95 * size, at.y})
                          .close();
    const Path side = Path()
                          .move({at.x + (.1 + lean) * size, at.y - (.95 - lean) * size})
                          .line({at.x + .62 * size, at.y - .5 * size})
                          .line({at.x + .95 * size, at.y})
                          .line({at.x + .3 * size, at.y})
                          .close();
    fill(group, path, theme::clay);
    fill(group, side, mixed(theme::clay, theme::panel, .45));
    stroke(group, path, theme::clayDark, std::max(1., .09 * size));
}

/// More of them the more is gone, on both sides of the foot.
void shards(Group& group, const VesselView& view, const VesselPlaces& at) {
    struct Place {
        double away, size,
            lean; ///< from the foot to the end of the slab; over the wall's thickness
    };
    constexpr std::array lying{Place{.32, .95, .1}, Place{-.3, .8, -.1}, Place{-.62, 1.1, .2},
                               Place{.68, .7, 0},   Place{.2, .6, -.2},  Place{-.16, .55, .1},
                               Place{.5, .6, .15},  Place{-.8, .6, -.1}};
    const double gone = 1 - std::clamp(view.work, 0., 1.);
    const auto count = static_cast<std::size_t>(std::ceil(gone * double{lying.size()} - 1e-9));
    const double foot = Jar::tilt() + .3; // half width at the foot and a little room
    const double near = foot * at.height * .8, far = at.slab.width / 2 - at.thickness;
    for (std::size_t i = 0; i < count; ++i) {
        const auto& [away, size, lean] = lying[i];
        const double x = std::copysign(near + std::abs(away) * (far - near), away);
        const double y = at.slab.y - (i % 3 == 0 ? .1 : .45) * at.thickness;
        shard(group, {at.foot.x + x, y}, 1.2 * size * at.thickness, lean);
    }
}

/// The slab that carries the jar and the posts that carry the slab.
void slab(Group& group, const VesselPlaces& at) {
    const Box& front = at.slab;
    const double post = .62 * at.thickness;
    for (const double x : {at.trough.x - at.thickness, at.trough.right() + at.thickness - post}) {
        const Box box{x, front.bottom(), post, at.trough.y - front.bottom()};
        fill(group, rectangle(box), theme::stone);
        fill(group, rectangle({x + .6 * post, box.y, .4 * post, box.height}),
             faded(theme::stoneDark, .6));
        stroke(group, rectangle(box), theme::stoneDark, pen(at));
    }
    const double rise = 2 * (front.y - at.foot.y), inset = .8 * rise;
    const Path top = Path()
                         .move({front.x + inset, front.y - rise})
                         .line({front.right() - inset, front.y - rise})
                         .line({front.right(), front.y})
                         .line({front.x, front.y})
                         .close();
    fill(group, top, mixed(theme::stone, theme::panel, .45));
    stroke(group, top, theme::stoneDark, pen(at));
    fill(group, rectangle(front), theme::stone);
    fill(group, rectangle({front.x, front.y + .6 * front.height, front.width, .4 * front.height}),
         faded(theme::stoneDark, .35));
    stroke(group, rectangle(front), theme::stoneDark, pen(at));
}

/// The shadow the jar throws on the slab.
void shadow(Group& group, const VesselPlaces& at) {
    Jar foot(at.foot, at.height, 0, 0);
    const double half = 1.14 * foot.footing(), deep = Jar::tilt() * half;
    const Point middle{at.foot.x + .08 * half, at.foot.y + .3 * deep};
    Path path;
    constexpr int corners = 36;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * i / corners;
        const Point to{middle.x + half * std::cos(angle), middle.y + deep * std::sin(angle)};
        i == 0 ? path.move(to) : path.line(to);
    }
    fill(group, path.close(), faded(theme::stoneDark, .6));
}

/// The surface from left to right: two waves that come round when the phase does.
std::vector<Point> surface(const VesselPlaces& at, double phase, double height) {
    constexpr int pieces = 96;
    constexpr double turn = 2 * std::numbers::pi;
    std::vector<Point> points;
    for (int i = 0; i <= pieces; ++i) {
        const double along = i / double{pieces};
        const double wave = .7 * std::sin(turn * (2 * along - phase)) +
                            .3 * std::sin(turn * (5 * along + 2 * phase));
        points.push_back({at.water.x + along * at.water.width, at.water.y - height * wave});
    }
    return points;
}

Path filledBelow(const VesselPlaces& at, std::vector<Point> points) {
    points.push_back({at.water.right(), at.water.bottom()});
    points.push_back({at.water.x, at.water.bottom()});
    return polyline(points).close();
}

void water(Group& group, const VesselView& view, const VesselPlaces& at) {
    const Box& inside = at.trough;
    fill(group, rectangle(inside), faded(theme::stone, .22));
    if (at.water.height <= 0) return;
    const auto back = surface(at, view.phase + .37, .8 * at.wave);
    fill(group, filledBelow(at, back), mixed(theme::leakSoft, theme::leak, .3));
    const auto front = surface(at, view.phase, at.wave);
    fill(group, filledBelow(at, front), theme::leakSoft);
    stroke(group, polyline(front), theme::leak, std::max(1.5, .16 * at.thickness));
}

/// Stone around the water, cut open toward us, with the spout through its right wall.
void stone(Group& group, const VesselPlaces& at) {
    const Box& in = at.trough;
    const double t = at.thickness;
    const Path cut = Path()
                         .move({in.x - t, in.y})
                         .line({in.x, in.y})
                         .line({in.x, in.bottom()})
                         .line({in.right(), in.bottom()})
                         .line({in.right(), in.y})
                         .line({in.right() + t, in.y})
                         .line({in.right() + t, in.bottom() + t})
                         .line({in.x - t, in.bottom() + t})
                         .close();
    const double lip = std::max(2., .35 * t);
    const Box pipe{in.right() + .5 * t, at.bore.y - lip, at.bore.width - .5 * t,
                   at.bore.height + 2 * lip};
    fill(group, rectangle(pipe), theme::stone);
    stroke(group, rectangle(pipe), theme::stoneDark, pen(at));
    fill(group, cut, theme::stone);
    fill(group, rectangle({in.x - t, in.bottom() + .55 * t, in.width + 2 * t, .45 * t}),
         faded(theme::stoneDark, .35));
    stroke(group, cut, theme::stoneDark, pen(at));
    if (at.bore.height <= 0) return;
    fill(group, rectangle(at.bore), mixed(theme::stoneDark, theme::ink, .45));
}

/// Water in the spout and the stream from its mouth.
void outflow(Group& group, const VesselPlaces& at) {
    const double deep = std::min(at.bore.height, at.water.bottom() - at.bore.y);
    const double head = at.bore.bottom() - std::max(at.bore.y, at.water.y);
    if (at.bore.height <= 0 || head <= 0) return;
    const double high = std::min(deep, head);
    fill(group, rectangle({at.bore.x, at.bore.bottom() - high, at.bore.width, high}),
         theme::leakSoft);
    const double x = at.mouth.x, top = at.bore.bottom() - high, low = at.splash.y;
    const double throwing = at.splash.x - x;
    const Path stream = Path()
                            .move({x, top})
                            .curve({x + .7 * throwing, top}, {x + throwing, top + .4 * (low - top)},
                                   {x + throwing, low})
                            .line({x + throwing - .6 * high, low})
                            .curve({x + throwing - .7 * high, at.bore.bottom() + .2 * high},
                                   {x + .3 * throwing, at.bore.bottom()}, {x, at.bore.bottom()})
                            .close();
    fill(group, stream, theme::leakSoft);
    stroke(group, Path(stream), theme::leak, pen(at));
}

void notch(Group& group, const VesselPlaces& at) {
    if (!at.mark) return;
    const double y = *at.mark, t = at.thickness;
    const double half = .45 * t;
    fill(group,
         Path()
             .move({at.trough.x, y - half})
             .line({at.trough.x - .8 * t, y})
             .line({at.trough.x, y + half})
             .close(),
         theme::ink);
    if (at.markEnd > at.trough.x + t)
        stroke(group, polyline({{at.trough.x, y}, {at.markEnd, y}}), theme::ink,
               std::max(1.2, .12 * t), {std::max(3., .4 * t), std::max(2., .3 * t)});
}

void bar(Group& group, const VesselBar& bar) {
    const Box& track = bar.track;
    const double round = track.height / 2;
    fill(group, rounded(track, round), bar.leak ? theme::leakSoft : theme::workSoft);
    Group filled{"", {}, rounded(track, round), {}};
    fill(filled, rectangle({track.x, track.y, bar.share * track.width, track.height}),
         bar.leak ? theme::leak : theme::work);
    group.marks.push_back({std::move(filled)});
}

} // namespace

Path dropOutline(const Drop& drop) {
    const double r = drop.size, x = drop.x, y = drop.y;
    return Path()
        .move({x, y - 2.1 * r})
        .curve({x + .3 * r, y - 1.3 * r}, {x + r, y - .75 * r}, {x + r, y})
        .curve({x + r, y + .56 * r}, {x + .56 * r, y + r}, {x, y + r})
        .curve({x - .56 * r, y + r}, {x - r, y + .56 * r}, {x - r, y})
        .curve({x - r, y - .75 * r}, {x - .3 * r, y - 1.3 * r}, {x, y - 2.1 * r})
        .close();
}

Group vessel(const VesselView& view, const Box& box) {
    const VesselPlaces at = places(view, box);
    Group group;
    group.name = view.name;
    slab(group, at);
    shadow(group, at);
    group.marks.push_back({Jar(at.foot, at.height, view.work, view.leak).group()});
    shards(group, view, at);
    water(group, view, at);
    for (const Drop& drop : view.drops) {
        fill(group, dropOutline(drop), theme::leak);
        stroke(group, dropOutline(drop), theme::panel, std::max(.6, .12 * drop.size));
    }
    stone(group, at);
    outflow(group, at);
    notch(group, at);
    if (at.plate.height > 0)
        fill(group, rounded(at.plate, at.plate.height / 4), faded(theme::panel, .9));
    for (const VesselBar& one : at.bars) bar(group, one);
    for (const Text& text : at.texts) group.marks.push_back({text});
    return group;
}

} // namespace cistern::drawing
