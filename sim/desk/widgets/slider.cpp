#include "desk/widgets/slider.h"

#include <algorithm>

namespace cistern::desk {

using drawing::Align;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double thickness = .8, handleRadius = .95, endRadius = .65; // [em]

/// Two texts on one line where they fit, else one under the other.
void twoEnds(Flow& flow, const std::string& left, const drawing::Type& leftType,
             const std::string& right, const drawing::Type& rightType) {
    const double top = flow.y();
    const double room = drawing::measure(left, leftType).width +
                        drawing::measure(right, rightType).width + flow.em();
    const Box one = flow.write(left, leftType);
    if (right.empty()) return;
    if (room > flow.width() || left.empty()) {
        flow.write(right, rightType, Align::right);
        return;
    }
    drawing::Text words = drawing::hung(right, rightType, Align::right, flow.x() + flow.width(), 0);
    // On the same baseline.
    words.at.y = top + drawing::measure(left, leftType).ascent;
    flow.room(std::max(0., drawing::extent(words).bottom() - one.bottom()));
    flow.sheet().add(std::move(words));
}

} // namespace

Box slider(Flow& flow, const Slider& one) {
    const double em = flow.em();
    drawing::Type name = flow.letters().strong;
    name.color = one.ink;
    if (!one.name.empty() || !one.value.empty()) {
        twoEnds(flow, one.name, name, one.value, flow.letters().number);
        flow.gap(.45);
    }
    const Box room = flow.room(2 * handleRadius * em);
    const double inset = handleRadius * em;
    const Box track{room.x + inset, room.middle().y - thickness * em / 2, room.width - 2 * inset,
                    thickness * em};
    const double radius = track.height / 2;
    const Box whole{track.x - radius, track.y, track.width + 2 * radius, track.height};
    Sheet& sheet = flow.sheet();
    sheet.add(Shape{drawing::rounded(whole, radius), one.tones.soft, std::nullopt});
    if (one.to > one.from) {
        const double left = track.x + one.from * track.width - (one.from <= 0 ? radius : 0);
        const Box filled{left, track.y, track.x + one.to * track.width - left, track.height};
        sheet.add(Shape{drawing::rounded(filled, std::min(radius, filled.width / 2)),
                        one.tones.line, std::nullopt});
    }
    for (const double tick : one.ticks)
        sheet.add(
            Shape{drawing::polyline({{track.x + tick * track.width, track.bottom() + .2 * em},
                                     {track.x + tick * track.width, track.bottom() + .5 * em}}),
                  std::nullopt, Stroke{theme::muted, 1, {}}});
    // Ends of a band lie under the chief handle where they meet.
    for (const bool chief : {false, true})
        for (const Handle& handle : one.handles)
            if (handle.chief == chief) {
                const Point at{track.x + std::clamp(handle.share, 0., 1.) * track.width,
                               track.middle().y};
                const double size = (chief ? handleRadius : endRadius) * em - 1.5;
                sheet.add(Shape{chief ? drawing::circle(at, size) : drawing::diamond(at, size),
                                theme::field, Stroke{one.tones.line, 3, {}}});
            }
    for (const Handle& handle : one.handles) {
        const double half = (handle.chief ? handleRadius : endRadius) * em;
        const double x = track.x + std::clamp(handle.share, 0., 1.) * track.width;
        Control control{handle.id,
                        Control::Kind::handle,
                        handle.says,
                        {x - half, track.middle().y - half, 2 * half, 2 * half}};
        control.key = handle.key;
        if (handle.slide)
            control.drag = [slide = handle.slide, track](Point at, Grip grip) {
                slide(std::clamp((at.x - track.x) / track.width, 0., 1.), grip);
            };
        if (handle.step)
            control.step = [step = handle.step](int across, int up) { step(across + up); };
        sheet.add(std::move(control));
    }
    if (!one.least.empty() || !one.most.empty()) {
        flow.gap(.15);
        twoEnds(flow, one.least, flow.letters().small, one.most, flow.letters().small);
    }
    return track;
}

} // namespace cistern::desk
