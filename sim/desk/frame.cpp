#include "desk/frame.h"

#include "desk/widgets/table.h"
#include "report/text.h"

#include <algorithm>

namespace cistern::desk {

using drawing::Align;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double margin = 1.6, padUp = .95; // [em]

/// The foot's words, hung from `top`; gives their bottom. A hint that has no room is left out, so
/// that the page does not move with the focus.
double footWords(Sheet& sheet, const Foot& says, double top) {
    const double em = sheet.letters().em, room = sheet.setting().width - 2 * margin * em;
    const drawing::Type& plain = sheet.letters().small;
    drawing::Type strong = plain;
    strong.weight = drawing::Weight::semibold;
    strong.color = theme::thoughtInk;
    const drawing::Type& type = says.news.empty() ? plain : strong;
    const std::string& right = says.news.empty() ? says.hint : says.news;
    const bool beside = drawing::measure(says.caution, plain).width +
                            drawing::measure(right, type).width + 2 * em <=
                        room;
    Flow flow(sheet, margin * em, top, room, top);
    flow.write(says.caution, plain);
    if (beside && !right.empty())
        sheet.add(drawing::hung(right, type, Align::right, margin * em + room, top));
    else if (!says.news.empty())
        flow.write(says.news, type);
    return flow.y();
}

} // namespace

double rail(Sheet& sheet, Session& session) {
    const Letters& letters = sheet.letters();
    const double em = letters.em, width = sheet.setting().width;
    const std::size_t ground = sheet.add(Shape{});
    const double high = drawing::measure("x", letters.text).height(), gap = 1.5 * em;
    double x = margin * em, y = padUp * em;
    for (int i = 0; i < pageCount; ++i) {
        const auto page = static_cast<PageName>(i);
        const bool here = page == session.page();
        const std::string closed = session.closed(page);
        drawing::Type type = here ? letters.strong : letters.text;
        type.size *= 1.06;
        if (!here) type.color = theme::muted;
        if (!closed.empty()) type.italic = true; // not by color alone
        const double wide = drawing::measure(std::string(name(page)), type).width;
        if (page == PageName::counter) x += gap;
        if (x + wide > width - margin * em) {
            x = margin * em;
            y += high + .9 * em;
        }
        sheet.add(drawing::hung(std::string(name(page)), type, Align::left, x, y));
        if (here)
            sheet.add(Shape{drawing::rounded({x - 2, y + high + .35 * em, wide + 4, .24 * em}, 2),
                            theme::work, std::nullopt});
        Control control{"rail." + std::string(name(page)),
                        Control::Kind::choice,
                        "Page " + std::string(name(page)) +
                            (here             ? ", shown"
                             : closed.empty() ? ""
                                              : ", closed: " + closed),
                        {x - .3 * em, y - .25 * em, wide + .6 * em, high + .5 * em}};
        control.on = here;
        control.press = [&session, page] { session.go(page); };
        sheet.add(std::move(control));
        x += wide + gap;
    }
    double bottom = y + high + .65 * em;
    if (session.hasLesson() && session.page() <= PageName::cutaway) {
        const lesson::Case& one = session.lesson().subject();
        const std::string who = one.patient + ", " + report::signalment(one.who);
        const std::string what = one.title + ", seed " + std::to_string(one.who.seed);
        const double wide = std::max(drawing::measure(who, letters.strong).width,
                                     drawing::measure(what, letters.small).width);
        const double right = width - margin * em;
        const double line = drawing::measure(who, letters.strong).height();
        const bool oneRow = y <= padUp * em;
        if (oneRow && x + wide <= right) {
            const double top = y + high / 2 - line + .1 * em;
            sheet.add(drawing::hung(who, letters.strong, Align::right, right, top));
            sheet.add(drawing::hung(what, letters.small, Align::right, right, top + line));
        } else {
            Flow flow(sheet, margin * em, bottom + .2 * em, width - 2 * margin * em, bottom);
            flow.write(who + ". " + what, letters.small);
            bottom = flow.y();
        }
    }
    bottom += .35 * em;
    sheet.replace(ground, Shape{drawing::rectangle({-1, -1, width + 2, bottom + 1}), theme::panel,
                                Stroke{theme::line, 1, {}}});
    return bottom;
}

double footHeight(const Setting& setting, const Foot& says) {
    Sheet trial(setting);
    return footWords(trial, says, 0) + 1.1 * trial.letters().em;
}

double foot(Sheet& sheet, const Foot& says) {
    const double top = sheet.setting().height - footHeight(sheet.setting(), says);
    footWords(sheet, says, top + .55 * sheet.letters().em);
    return top;
}

void help(Flow& flow, const Page& page) {
    flow.card("Keys", "", [&](Flow& card) {
        std::vector<std::vector<std::string>> rows;
        for (const auto& [key, what] : page.keys()) rows.push_back({key, what});
        for (const auto& [key, what] : std::initializer_list<std::pair<const char*, const char*>>{
                 {"Tab, Shift+Tab", "go to the next thing, or the one before"},
                 {"Enter, Space", "work it"},
                 {"arrows", "move a handle or a choice; with Shift ten steps at once"},
                 {"[ and ]", "turn to the page before, or the next"},
                 {"Page Up, Page Down", "scroll"},
                 {"Z", "take back the last answer or choice"},
                 {"+ and -", "larger or smaller letters"},
                 {"V", "projector: one thing at a time; < and > turn to the others"},
                 {"M", "stop or start motion"},
                 {"F11", "the whole screen, or a window"},
                 {"Escape, ?", "close or open this list"}})
            rows.push_back({key, what});
        table(card, {{"key", 1}, {"what it does", 2.6}}, rows);
    });
}

} // namespace cistern::desk
