#include "drawing/brushwork.h"
#include "drawing/plane_layout.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

using namespace brushwork;

namespace {

constexpr double cloudRadius = 2.4, cloudAlpha = .26, pathWidth = 2.2, frameWidth = 2.4;
constexpr std::size_t greatestCloud = 600;

class Drawer {
public:
    Drawer(const PlaneView& view, const PlaneLayout& layout)
        : view_(view), at_(layout), s_(layout.stroke) {}

    Group draw() {
        ground();
        wedges();
        Group inside{"", {}, rectangle(at_.scale.plot), {}};
        cloud(inside);
        if (view_.ideal) frame(inside, onPlot(at_.scale, *view_.ideal), PlaneKind::ideal);
        out_.marks.push_back({std::move(inside)});
        // The answer and the story may stand on the edge; they are not cut there.
        if (view_.answer) frame(out_, onPlot(at_.scale, *view_.answer), PlaneKind::answer);
        path();
        for (const Box& plate : at_.plates)
            fill(out_, rounded(plate, 3 * s_), faded(theme::field, .88));
        if (view_.truth) truth(onPlot(at_.scale, *view_.truth), 1);
        for (const PlaneKey& key : at_.legend) legend(key);
        for (const Text& text : at_.texts) out_.marks.push_back({text});
        return std::move(out_);
    }

private:
    const PlaneView& view_;
    const PlaneLayout& at_;
    double s_;
    Group out_;

    /// The healthy organ stands where the two stronger lines cross.
    void ground() {
        const Box& plot = at_.scale.plot;
        fill(out_, rectangle(plot), theme::field);
        for (const double x : at_.workGrid)
            stroke(out_, polyline({{x, plot.y}, {x, plot.bottom()}}), theme::line, .8 * s_);
        for (const double y : at_.leakGrid)
            stroke(out_, polyline({{plot.x, y}, {plot.right(), y}}), theme::line, .8 * s_);
        const Point healthy = at_.scale.at(1, 1);
        stroke(out_, polyline({{healthy.x, plot.y}, {healthy.x, plot.bottom()}}), theme::stoneDark,
               1.1 * s_);
        stroke(out_, polyline({{plot.x, healthy.y}, {plot.right(), healthy.y}}), theme::stoneDark,
               1.1 * s_);
        for (const Box& blank : at_.blanks) fill(out_, rounded(blank, 3 * s_), theme::field);
        stroke(out_, rectangle(plot), theme::stone, s_);
    }

    /// Along each axis, thicker where there is more.
    void wedges() {
        const Box& plot = at_.scale.plot;
        const double thick = 5 * s_, off = 2 * s_;
        fill(out_,
             Path()
                 .move({plot.x, plot.bottom() + off})
                 .line({plot.right(), plot.bottom() + off})
                 .line({plot.right(), plot.bottom() + off + thick})
                 .close(),
             theme::work);
        fill(out_,
             Path()
                 .move({plot.x - off, plot.bottom()})
                 .line({plot.x - off, plot.y})
                 .line({plot.x - off - thick, plot.y})
                 .close(),
             theme::leak);
    }

    void cloud(Group& group) const {
        const std::size_t count = std::min(view_.cloud.size(), greatestCloud);
        for (std::size_t i = 0; i < count; ++i) {
            const PlanePoint& point = view_.cloud[i * view_.cloud.size() / count];
            fill(group, circle(onPlot(at_.scale, point), cloudRadius * s_),
                 faded(theme::thought, cloudAlpha));
        }
    }

    void frame(Group& group, const Box& box, PlaneKind kind) const {
        const double round = 2.5 * s_;
        if (kind == PlaneKind::ideal) {
            fill(group, rounded(box, round), faded(theme::thoughtSoft, .3));
            stroke(group, rounded(box, round), theme::thought, 1.3 * s_);
            return;
        }
        stroke(group, rounded(box, round), faded(theme::field, .9), 2 * frameWidth * s_);
        stroke(group, rounded(box, round), theme::ink, frameWidth * s_, {6 * s_, 4 * s_});
    }

    void path() {
        if (view_.path.empty()) return;
        std::vector<Point> points;
        for (const PlanePoint& point : view_.path) points.push_back(onPlot(at_.scale, point));
        stroke(out_, polyline(points), faded(theme::field, .85), (pathWidth + 2.6) * s_);
        stroke(out_, polyline(points), theme::ink, pathWidth * s_);
        arrows(points);
        for (std::size_t i = 0; i < points.size(); ++i)
            if (!view_.path[i].label.empty()) ring(points[i]);
    }

    void ring(Point at) {
        out_.marks.push_back(
            {Shape{circle(at, ringRadius * s_), theme::field, Stroke{theme::ink, 1.6 * s_, {}}}});
    }

    /// Heads along the path that say which way time goes, away from the rings.
    void arrows(const std::vector<Point>& points) {
        constexpr double apart = 90, first = 45, clear = 11;
        double next = first * s_;
        for (std::size_t i = 1; i < points.size(); ++i) {
            const Point a = points[i - 1], b = points[i];
            const double length = std::hypot(b.x - a.x, b.y - a.y);
            for (; next <= length; next += apart * s_) {
                const double share = next / length;
                const Point at{a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
                if (farFromRings(points, at, clear * s_))
                    arrow(at, {(b.x - a.x) / length, (b.y - a.y) / length});
            }
            next -= length;
        }
    }

    bool farFromRings(const std::vector<Point>& points, Point at, double clear) const {
        for (std::size_t i = 0; i < points.size(); ++i)
            if (!view_.path[i].label.empty() &&
                std::hypot(points[i].x - at.x, points[i].y - at.y) < clear)
                return false;
        if (!view_.truth) return true;
        const Point truth = onPlot(at_.scale, *view_.truth);
        return std::hypot(truth.x - at.x, truth.y - at.y) >= 1.4 * clear;
    }

    void arrow(Point at, Point way) {
        const double along = 5 * s_, aside = 4.6 * s_;
        fill(out_,
             Path()
                 .move({at.x + along * way.x, at.y + along * way.y})
                 .line({at.x - along * way.x - aside * way.y, at.y - along * way.y + aside * way.x})
                 .line({at.x - .4 * along * way.x, at.y - .4 * along * way.y})
                 .line({at.x - along * way.x + aside * way.y, at.y - along * way.y - aside * way.x})
                 .close(),
             theme::ink);
    }

    void truth(Point at, double size) {
        out_.marks.push_back({Shape{circle(at, size * truthRadius * s_), theme::ink,
                                    Stroke{theme::field, 2 * s_, {}}}});
    }

    void legend(const PlaneKey& key) {
        const Box& box = key.mark;
        const Point middle = box.middle();
        switch (key.kind) {
        case PlaneKind::truth:
            truth(middle, .95);
            return;
        case PlaneKind::path:
            stroke(out_, polyline({{box.x, middle.y}, {box.right(), middle.y}}), theme::ink,
                   pathWidth * s_);
            arrow({box.x + .72 * box.width, middle.y}, {1, 0});
            ring({box.x + .25 * box.width, middle.y});
            return;
        case PlaneKind::cloud:
            for (const Point& off : {Point{-.26, .1},
                                     {-.1, -.22},
                                     {0, .22},
                                     {.08, .0},
                                     {.2, -.2},
                                     {.28, .16},
                                     {-.06, .02},
                                     {.14, .28}})
                fill(out_,
                     circle({middle.x + off.x * box.width, middle.y + off.y * box.height},
                            cloudRadius * s_),
                     faded(theme::thought, .45));
            return;
        case PlaneKind::answer:
        case PlaneKind::ideal: {
            const double high = .74 * box.height;
            frame(out_, {box.x + .08 * box.width, middle.y - high / 2, .84 * box.width, high},
                  key.kind);
            return;
        }
        }
    }
};

} // namespace

Group plane(const PlaneView& view, const Box& box) {
    const PlaneLayout layout = planeLayout(view, box);
    return Drawer(view, layout).draw();
}

} // namespace cistern::drawing
