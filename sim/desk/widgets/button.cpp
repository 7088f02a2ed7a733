#include "desk/widgets/button.h"

#include <algorithm>

namespace cistern::desk {

using drawing::Align;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

/// Sets boxes side by side, as many to a line as fit.
class Line {
public:
    explicit Line(Flow& flow) : flow_(flow), x_(flow.x()) {}
    Box next(double width, double height, double gap) {
        if (x_ > flow_.x() && x_ + width > flow_.x() + flow_.width()) {
            flow_.room(height_ + gap);
            x_ = flow_.x();
            height_ = 0;
        }
        const Box box{x_, flow_.y(), width, height};
        x_ += width + gap;
        height_ = std::max(height_, height);
        return box;
    }
    void skip(double width) { x_ += width; }
    void end() { flow_.room(height_); }

private:
    Flow& flow_;
    double x_, height_ = 0;
};

std::string shown(const std::string& words, const std::string& key) {
    return key.empty() ? words : words + "  (" + key + ")";
}

/// The dot or tick of a choice, in a square.
void sign(Sheet& sheet, const Box& at, bool on, Choose how) {
    const Point middle = at.middle();
    const double half = at.width / 2;
    const Stroke edge{on ? theme::ink : theme::muted, 1.5, {}};
    if (how == Choose::one) {
        sheet.add(Shape{drawing::circle(middle, half), theme::field, edge});
        if (on) sheet.add(Shape{drawing::circle(middle, half * .55), theme::ink, std::nullopt});
        return;
    }
    sheet.add(Shape{drawing::rounded(at, half * .4), theme::field, edge});
    if (on)
        sheet.add(Shape{drawing::polyline({{middle.x - half * .55, middle.y},
                                           {middle.x - half * .1, middle.y + half * .5},
                                           {middle.x + half * .6, middle.y - half * .55}}),
                        std::nullopt, Stroke{theme::ink, 2, {}}});
}

constexpr double padAcross = .9, padUp = .5, signSize = .95, signGap = .5; // [em]

void addChoice(Flow& flow, const std::string& name, const std::vector<Choice>& list,
               std::size_t index, Choose how, const Box& box) {
    const Choice& one = list[index];
    Control control{one.id, Control::Kind::choice,
                    name + ": " + (one.says.empty() ? one.words : one.says) +
                        (one.on ? ", chosen" : ", not chosen"),
                    box};
    control.on = one.on;
    control.key = one.key;
    control.press = one.press;
    if (how == Choose::one)
        control.step = [list, index](int across, int up) {
            const auto to = static_cast<std::ptrdiff_t>(index) + across - up;
            if (to >= 0 && to < static_cast<std::ptrdiff_t>(list.size()))
                if (const auto& press = list[static_cast<std::size_t>(to)].press) press();
        };
    flow.sheet().add(std::move(control));
}

} // namespace

void buttons(Flow& flow, const std::vector<Button>& list) {
    const double em = flow.em();
    Line line(flow);
    for (const Button& one : list) {
        drawing::Type type = flow.letters().strong;
        const bool now = static_cast<bool>(one.press), chief = one.chief && now;
        if (chief) type.color = theme::panel;
        if (!now) type.color = theme::muted;
        const double most = flow.width() - 2 * padAcross * em;
        drawing::Text words =
            drawing::hung(shown(one.words, one.key), type, Align::left, 0, 0, most);
        const Box size = drawing::extent(words);
        const Box box =
            line.next(size.width + 2 * padAcross * em, size.height + 2 * padUp * em, .6 * em);
        flow.sheet().add(Shape{drawing::rounded(box, std::min(box.height / 2, 1.2 * em)),
                               chief ? theme::ink
                               : now ? theme::field
                                     : theme::panel,
                               Stroke{chief ? theme::ink : theme::muted, 1,
                                      now ? std::vector<double>{} : std::vector<double>{3, 3}}});
        words.at.x += box.x + padAcross * em;
        words.at.y += box.y + padUp * em;
        flow.sheet().add(std::move(words));
        Control control{one.id, Control::Kind::button,
                        (one.says.empty() ? one.words : one.says) + (now ? "" : ", not now"), box};
        control.key = one.key;
        control.press = one.press;
        flow.sheet().add(std::move(control));
    }
    line.end();
}

void choices(Flow& flow, const std::string& name, const std::vector<Choice>& list, Choose how) {
    const double em = flow.em();
    Line line(flow);
    for (std::size_t i = 0; i < list.size(); ++i) {
        const Choice& one = list[i];
        const double before = (padAcross * .6 + signSize + signGap) * em;
        drawing::Type type = one.on ? flow.letters().strong : flow.letters().text;
        drawing::Text words = drawing::hung(shown(one.words, one.key), type, Align::left, 0, 0,
                                            flow.width() - before - padAcross * .6 * em);
        const Box size = drawing::extent(words);
        const Box box = line.next(before + size.width + padAcross * .6 * em,
                                  size.height + 2 * padUp * .7 * em, .5 * em);
        flow.sheet().add(Shape{drawing::rounded(box, .6 * em), one.on ? theme::field : theme::panel,
                               Stroke{one.on ? theme::ink : theme::line, one.on ? 1.5 : 1, {}}});
        const double side = signSize * em;
        sign(flow.sheet(), {box.x + padAcross * .6 * em, box.middle().y - side / 2, side, side},
             one.on, how);
        words.at.x += box.x + before;
        words.at.y += box.y + padUp * .7 * em;
        flow.sheet().add(std::move(words));
        addChoice(flow, name, list, i, how, box);
    }
    line.end();
}

void ticks(Flow& flow, const std::string& name, const std::vector<Choice>& list) {
    const double em = flow.em(), before = (signSize + signGap) * em, side = signSize * em;
    Line line(flow);
    for (std::size_t i = 0; i < list.size(); ++i) {
        const Choice& one = list[i];
        drawing::Text words = drawing::hung(shown(one.words, one.key),
                                            one.on ? flow.letters().strong : flow.letters().text,
                                            Align::left, 0, 0, flow.width() - before);
        const Box size = drawing::extent(words);
        const Box box = line.next(before + size.width, size.height + .4 * em, 0);
        line.skip(.9 * em);
        sign(flow.sheet(), {box.x, box.middle().y - side / 2, side, side}, one.on, Choose::any);
        words.at.x += box.x + before;
        words.at.y += box.y + .2 * em;
        flow.sheet().add(std::move(words));
        addChoice(flow, name, list, i, Choose::any, box);
    }
    line.end();
}

void choiceList(Flow& flow, const std::string& name, const std::vector<Choice>& list, Choose how) {
    const double em = flow.em();
    const double before = (signSize + signGap) * em;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const Choice& one = list[i];
        const double top = flow.y();
        const double side = signSize * em;
        Flow words(flow.sheet(), flow.x() + before, top + .2 * em, flow.width() - before, top);
        const drawing::Type type = one.on ? flow.letters().strong : flow.letters().text;
        const Box first = words.write(shown(one.words, one.key), type);
        const double middle = first.y + drawing::measure("x", type).height() / 2;
        if (!one.note.empty()) words.small(one.note);
        const Box box{flow.x() - .3 * em, top, flow.width() + .6 * em, words.y() + .2 * em - top};
        sign(flow.sheet(), {flow.x(), middle - side / 2, side, side}, one.on, how);
        flow.room(box.height);
        addChoice(flow, name, list, i, how, box);
    }
}

void picker(Flow& flow, const Picker& one) {
    if (one.list.empty()) return;
    const double em = flow.em();
    const Letters& letters = flow.letters();
    const std::size_t count = one.list.size();
    const std::string place =
        std::to_string(one.at + 1) + " of " + std::to_string(count) + " " + one.name;
    double widest = 0;
    for (const std::string& words : one.list)
        widest = std::max(widest, drawing::measure(words, letters.strong).width);
    const double arrow = 1.6 * em, high = drawing::measure("x", letters.strong).height();
    const double width = std::min(widest + 2 * arrow + 1.2 * em, flow.width());
    const bool beside = flow.width() > width + drawing::measure(place, letters.small).width + em;
    const Box box{flow.x(), flow.y(), width, high + .7 * em};
    flow.sheet().add(
        Shape{drawing::rounded(box, .6 * em), theme::field, Stroke{theme::muted, 1, {}}});
    flow.sheet().add(drawing::hung(one.list[one.at], letters.strong, Align::center, box.middle().x,
                                   box.y + .35 * em));
    for (const double side : {-1., 1.}) {
        const double x = side < 0 ? box.x + .9 * em : box.right() - .9 * em;
        flow.sheet().add(Shape{drawing::polyline({{x - side * .2 * em, box.middle().y - .35 * em},
                                                  {x + side * .2 * em, box.middle().y},
                                                  {x - side * .2 * em, box.middle().y + .35 * em}}),
                               std::nullopt, Stroke{theme::ink, 2, {}}});
    }
    Control control{one.id, Control::Kind::choice,
                    one.name + ": " + one.list[one.at] + ", " + place, box};
    const auto to = [one, count](std::ptrdiff_t by) {
        const auto all = static_cast<std::ptrdiff_t>(count);
        one.pick(
            static_cast<std::size_t>((static_cast<std::ptrdiff_t>(one.at) + by % all + all) % all));
    };
    control.press = [to] { to(1); };
    control.drag = [to, box](Point at, Grip grip) {
        if (grip == Grip::let) to(at.x < box.x + box.width / 3 ? -1 : 1);
    };
    control.step = [to](int across, int up) { to(across - up); };
    flow.sheet().add(std::move(control));
    flow.room(box.height);
    if (beside)
        flow.sheet().add(drawing::hung(place, letters.small, Align::left, box.right() + .6 * em,
                                       box.y + .45 * em));
    else {
        flow.gap(.15);
        flow.small(place);
    }
}

} // namespace cistern::desk
