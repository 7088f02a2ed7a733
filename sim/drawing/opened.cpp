#include "drawing/opened.h"

#include "drawing/theme.h"

namespace cistern::drawing {

namespace {

constexpr double width = 1280, height = 640, margin = 24, gap = 20, inset = 20, radius = 8;
constexpr double titleSize = 24, textSize = 14, headingSize = 18;
constexpr double vessels = 0.54; ///< share of the width

class Sheet {
public:
    explicit Sheet(const OpenedView& view) : view_(view) {
        all_.width = width;
        all_.height = height;
        all_.title = view.title;
        all_.description = words(view.here) + " " + words(view.healthy) + " " + words(view.plane);
        all_.language = view.language;
    }

    Picture draw() {
        add(Shape{rectangle({0, 0, width, height}), theme::paper, std::nullopt});
        double top = write(view_.title, {titleSize, Weight::bold, theme::ink}, margin, 18);
        top = write(view_.subtitle, {textSize, Weight::regular, theme::muted}, margin, top + 2);
        const Type small{textSize, Weight::regular, theme::muted};
        const Text caution = hung(view_.caution, small, Align::left, margin, 0);
        const double foot = height - extent(caution).height - 14;
        write(view_.caution, small, margin, foot);
        const Box room{margin, top + 12, width - 2 * margin, foot - top - 24};
        const Box left{room.x, room.y, vessels * (room.width - gap), room.height};
        const Box right{left.right() + gap, room.y, room.right() - left.right() - gap, room.height};
        panel(left);
        panel(right);
        const double half = (left.width - 3 * inset) / 2, high = left.height - 2 * inset;
        add(vessel(view_.here, {left.x + inset, left.y + inset, half, high}));
        add(vessel(view_.healthy, {left.x + 2 * inset + half, left.y + inset, half, high}));
        double under = write(view_.planeTitle, {headingSize, Weight::bold, theme::ink},
                             right.x + inset, right.y + inset);
        under = write(view_.planeSubtitle, small, right.x + inset, under + 2);
        add(plane(view_.plane, {right.x + inset, under + 8, right.width - 2 * inset,
                                right.bottom() - inset - under - 8}));
        return std::move(all_);
    }

private:
    const OpenedView& view_;
    Picture all_;

    template<class One>
    void add(One one) {
        all_.marks.emplace_back().is = std::move(one);
    }
    void panel(const Box& box) {
        add(Shape{rounded(box, radius), theme::panel, Stroke{theme::line, 1, {}}});
    }
    /// Gives the bottom of what was written.
    double write(const std::string& what, const Type& type, double x, double top) {
        Text text = hung(what, type, Align::left, x, top);
        const double bottom = extent(text).bottom();
        add(std::move(text));
        return bottom;
    }
};

} // namespace

Picture picture(const OpenedView& view) {
    return Sheet(view).draw();
}

} // namespace cistern::drawing
