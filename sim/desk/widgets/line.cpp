#include "desk/widgets/line.h"

#include "drawing/brushwork.h"

#include <algorithm>

namespace cistern::desk {

using drawing::Align;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double pad = .4, padUp = .3; // [em]

} // namespace

Box field(Sheet& sheet, const Line& one, double x, double top) {
    const Letters& letters = sheet.letters();
    const double em = letters.em;
    const auto& writing = sheet.setting().writing;
    const bool open = writing && writing->id == one.id;
    const std::string& text = open ? writing->text : one.text;
    const double high = drawing::measure("x", letters.number).height();
    const Box box{x, top, one.width * em, high + 2 * padUp * em};
    const Box inside{box.x + pad * em, box.y, box.width - 2 * pad * em, box.height};
    sheet.add(Shape{drawing::rounded(box, .3 * em), theme::field,
                    Stroke{open ? theme::ink : theme::muted, open ? 2. : 1., {}}});
    // A text that is longer than its field shows the part about the caret.
    const double whole = drawing::measure(text, letters.number).width;
    const double before =
        open ? drawing::measure(text.substr(0, writing->caret), letters.number).width : 0;
    const double away =
        std::clamp(before - inside.width * .8, 0., std::max(0., whole - inside.width));
    drawing::Group shown{"", {}, drawing::rectangle(inside), {}};
    if (!text.empty())
        shown.marks.emplace_back().is =
            drawing::hung(text, letters.number, Align::left, inside.x - away, box.y + padUp * em);
    if (open) {
        const double caret = inside.x - away + before;
        drawing::brushwork::stroke(shown,
                                   drawing::polyline({{caret + .5, box.y + padUp * em},
                                                      {caret + .5, box.bottom() - padUp * em}}),
                                   theme::ink, 1.5);
    }
    sheet.add(std::move(shown));
    Control control{one.id, Control::Kind::text,
                    one.name + ": " + one.text + (one.after.empty() ? "" : " " + one.after), box};
    control.text = one.text;
    control.write = one.write;
    if (one.step) control.step = [step = one.step](int, int up) { step(up); };
    sheet.add(std::move(control));
    return box;
}

void line(Flow& flow, const Line& one) {
    const Letters& letters = flow.letters();
    const double em = flow.em();
    const double name = drawing::measure(one.name, letters.text).width;
    double x = flow.x();
    if (!one.name.empty() && name + (one.width + 1) * em > flow.width())
        flow.write(one.name, letters.text);
    else if (!one.name.empty()) {
        flow.sheet().add(
            drawing::hung(one.name, letters.text, Align::left, x, flow.y() + padUp * em));
        x += name + .6 * em;
    }
    const Box box = field(flow.sheet(), one, x, flow.y());
    if (!one.after.empty())
        flow.sheet().add(drawing::hung(one.after, letters.small, Align::left, box.right() + .4 * em,
                                       box.y + padUp * em));
    flow.room(box.height);
}

} // namespace cistern::desk
