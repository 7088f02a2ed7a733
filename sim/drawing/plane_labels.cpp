#include "drawing/plane_layout.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cistern::drawing {

namespace {

constexpr double around = 1.5; // of a label's plate, in strokes

bool within(const Box& box, Point point) {
    return point.x > box.x && point.x < box.right() && point.y > box.y && point.y < box.bottom();
}

/// True if a straight line runs through a box (clipping by its four sides).
bool crosses(Point from, Point to, const Box& box) {
    double enter = 0, leave = 1;
    const auto clip = [&](double start, double step, double low, double high) {
        if (step == 0) return start > low && start < high;
        const double a = (low - start) / step, b = (high - start) / step;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
        return enter < leave;
    };
    return clip(from.x, to.x - from.x, box.x, box.right()) &&
           clip(from.y, to.y - from.y, box.y, box.bottom());
}

class Labeler {
public:
    Labeler(PlaneLayout& layout, const PlaneView& view, const Type& type)
        : layout_(layout), view_(view), type_(type), height_(measure("Ag", type).height()) {
        for (const PlanePoint& point : view.path) path_.push_back(onPlot(layout.scale, point));
        for (const Text& text : layout.texts) taken_.push_back(extent(text));
        if (view.truth) dot(onPlot(layout.scale, *view.truth), truthRadius + 1);
        for (std::size_t i = 0; i < path_.size(); ++i)
            if (!view.path[i].label.empty()) dot(path_[i], ringRadius + .5);
    }

    /// Labels of the path: the ends of the story first, then from the latest back.
    void place() {
        if (path_.empty()) return;
        label(path_.size() - 1);
        if (path_.size() > 1) label(0);
        for (std::size_t i = path_.size() - 1; i-- > 1;) label(i);
    }

    /// From its corner toward the middle of the plot, line by line and then step by step across its
    /// half, until nothing is in its way.
    void corner(const std::string& words, bool left, bool upper) {
        if (words.empty()) return;
        constexpr double in = 6;
        constexpr int down = 5, across = 8; // tries
        const Box& plot = layout_.scale.plot;
        const double width = measure(words, type_).width, off = in * layout_.stroke;
        Box box{left ? plot.x + off : plot.right() - off - width,
                upper ? plot.y + off / 2 : plot.bottom() - off / 2 - height_, width, height_};
        const Box wanted = box;
        const auto good = [&] {
            const double middle = plot.middle().x;
            return free(box) && (left ? box.right() <= middle : box.x >= middle);
        };
        for (int i = 0; i < down * across && !good(); ++i) {
            box.y = wanted.y + (upper ? 1 : -1) * (i % down) * height_;
            box.x = wanted.x + (left ? 1 : -1) * (i / down) * width / 4;
        }
        if (!good()) box = wanted;
        const double pad = around * layout_.stroke;
        layout_.blanks.push_back({box.x - pad, box.y, box.width + 2 * pad, box.height});
        layout_.texts.push_back(hung(words, type_, Align::left, box.x, box.y));
    }

private:
    PlaneLayout& layout_;
    const PlaneView& view_;
    const Type& type_;
    double height_;
    std::vector<Point> path_;
    std::vector<Box> taken_;

    void dot(Point at, double radius) {
        const double r = radius * layout_.stroke;
        taken_.push_back({at.x - r, at.y - r, 2 * r, 2 * r});
    }

    bool onFrame(const std::optional<PlaneBox>& frame, const Box& box) const {
        if (!frame) return false;
        const Box edge = onPlot(layout_.scale, *frame);
        const std::array corners{Point{edge.x, edge.y}, Point{edge.right(), edge.y},
                                 Point{edge.right(), edge.bottom()}, Point{edge.x, edge.bottom()}};
        for (std::size_t i = 0; i < corners.size(); ++i)
            if (crosses(corners[i], corners[(i + 1) % corners.size()], box)) return true;
        return false;
    }

    bool free(const Box& box) const {
        if (!layout_.scale.plot.contains(box)) return false;
        for (const Box& other : taken_)
            if (box.overlaps(other)) return false;
        if (onFrame(view_.answer, box) || onFrame(view_.ideal, box)) return false;
        for (std::size_t i = 1; i < path_.size(); ++i)
            if (crosses(path_[i - 1], path_[i], box)) return false;
        return std::none_of(path_.begin(), path_.end(),
                            [&](Point point) { return within(box, point); });
    }

    void label(std::size_t i) {
        const std::string& words = view_.path[i].label;
        if (words.empty()) return;
        const double width = measure(words, type_).width, pad = around * layout_.stroke;
        struct Way {
            double x, y;
        };
        constexpr std::array ways{Way{1, -1}, Way{0, -1}, Way{1, 0}, Way{-1, -1},
                                  Way{-1, 0}, Way{0, 1},  Way{1, 1}, Way{-1, 1}};
        for (const double far : {ringRadius + 2.5, ringRadius + 8.}) {
            const double reach = far * layout_.stroke;
            for (const Way& way : ways) {
                const Point middle{path_[i].x + way.x * (reach + width / 2),
                                   path_[i].y + way.y * (reach + height_ / 2)};
                const Box plate{middle.x - width / 2 - pad, middle.y - height_ / 2, width + 2 * pad,
                                height_};
                if (!free(plate)) continue;
                layout_.plates.push_back(plate);
                layout_.texts.push_back(hung(words, type_, Align::center, middle.x, plate.y));
                taken_.push_back(plate);
                return;
            }
        }
    }
};

} // namespace

void labelCorners(PlaneLayout& layout, const PlaneView& view, const Type& type) {
    Labeler labeler(layout, view, type);
    labeler.corner(view.words.hurtLoud, true, true);
    labeler.corner(view.words.soundLoud, false, true);
    labeler.corner(view.words.spentQuiet, true, false);
    labeler.corner(view.words.soundQuiet, false, false);
}

void labelPath(PlaneLayout& layout, const PlaneView& view, const Type& type) {
    Labeler(layout, view, type).place();
}

} // namespace cistern::drawing
