#include "desk/microscope.h"

#include "drawing/theme.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

Point Microscope::onSlide(Point at) const {
    return {left() + (at.x - box.x) / scale(), top() + (at.y - box.y) / scale()};
}

Point Microscope::inWindow(Point at) const {
    return {box.x + (at.x - left()) * scale(), box.y + (at.y - top()) * scale()};
}

drawing::film::Optics Microscope::optics() const {
    return drawing::film::opticsOf(power, static_cast<float>(scale()), static_cast<float>(focus));
}

RingLook look(const Ring& ring) {
    if (ring.chosen) return {drawing::theme::paper, drawing::theme::thoughtInk, 5, 2.5};
    return {drawing::theme::paper, drawing::theme::leakInk, 3, 1.2};
}

drawing::Group seenThrough(const Microscope& microscope) {
    const Box& box = microscope.box;
    drawing::Group all{
        "the film under the microscope", {}, drawing::rectangle(microscope.within), {}};
    drawing::film::Stage stage(*microscope.slide);
    const auto pixels = std::make_shared<drawing::Pixels>(
        stage.seen(microscope.left(), microscope.top(), static_cast<int>(std::ceil(box.width)),
                   static_cast<int>(std::ceil(box.height)), microscope.optics()));
    const auto width = static_cast<double>(pixels->width),
               height = static_cast<double>(pixels->height);
    drawing::Group field{"", {}, drawing::rectangle(box), {}};
    field.marks.emplace_back().is =
        drawing::Image{{box.x, box.y, width, height}, pixels, "stained cells"};
    for (const Ring& ring : microscope.rings) {
        const RingLook drawn = look(ring);
        const Point at = microscope.inWindow(ring.middle);
        const double radius = ring.radius * microscope.scale();
        for (const auto& [color, wide] :
             {std::pair{drawn.under, drawn.underWidth}, std::pair{drawn.over, drawn.overWidth}})
            field.marks.emplace_back().is =
                drawing::Shape{drawing::circle(at, radius), {}, drawing::Stroke{color, wide, {}}};
    }
    all.marks.emplace_back().is = std::move(field);
    return all;
}

} // namespace cistern::desk
