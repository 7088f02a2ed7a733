#pragma once
#include "base/file.h"
#include "desk/desk.h"
#include "drawing/painter.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

namespace cistern::desk {

/// A desk over what the program ships with; nothing is kept.
struct AtDesk {
    base::Disk disk;
    Desk desk;
    explicit AtDesk(PageName page, double width = 1280, double height = 800, double textScale = 1)
        : desk({&disk, {CISTERN_SOURCE}, "", ""}, width, height) {
        Settings settings = desk.session().settings();
        settings.textScale = textScale;
        desk.session().set(settings);
        desk.session().go(page);
        desk.handle(Resized{width, height});
    }
    const Screen& screen() { return desk.screen(); }
    void press(const std::string& id) {
        const Control* one = desk.find(id);
        if (!one || !one->press) throw std::out_of_range("nothing to press is named " + id);
        desk.setFocus(id);
        desk.handle(Keystroke{Key::enter});
    }
    void type(const std::string& letter) { desk.handle(Typed{letter}); }
    void key(Key key, bool shift = false) { desk.handle(Keystroke{key, shift}); }
    std::string says(const std::string& id) {
        const Control* one = desk.find(id);
        return one ? one->says : "";
    }
    std::string words() { return desk::words(screen()); }
};

/// What is wrong with how a screen is laid out: words beyond the window's sides, words of the page
/// over one another, names that stand twice. A sentence each.
inline std::vector<std::string> faults(const Screen& screen) {
    constexpr double slack = 1; // [px]: boxes of lines touch
    std::vector<std::string> out;
    std::set<std::string> ids;
    for (const Control& one : screen.controls) {
        if (!ids.insert(one.id).second) out.push_back("two controls are named " + one.id);
        if (one.says.empty()) out.push_back("nothing is said of " + one.id);
    }
    struct Words {
        std::string text;
        Box box;
    };
    std::vector<Words> page;
    // The page scrolls under rail and foot, which are drawn last.
    Screen without = screen;
    without.picture.marks.pop_back();
    const std::size_t onPage = texts(without).size();
    for (const drawing::Text& text : texts(screen)) {
        Words one{"", drawing::extent(text)};
        for (const std::string& line : text.lines) one.text += line + " ";
        // A text that is longer than its field is cut to it.
        for (const Control& control : screen.controls)
            if (control.kind == Control::Kind::text && control.text + " " == one.text &&
                control.area.x <= one.box.x && control.area.right() >= one.box.x &&
                control.area.y <= one.box.y && control.area.bottom() >= one.box.y)
                one.box.width = std::min(one.box.width, control.area.right() - one.box.x);
        if (one.box.x < -slack || one.box.right() > screen.picture.width + slack)
            out.push_back("out of the window: " + one.text);
        page.push_back(std::move(one));
    }
    for (std::size_t i = 0; i < page.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const Box &a = page[i].box, &b = page[j].box;
            if ((i < onPage) != (j < onPage)) continue;
            if (a.x + slack < b.right() && b.x + slack < a.right() && a.y + slack < b.bottom() &&
                b.y + slack < a.bottom())
                out.push_back("over one another: " + page[j].text + "/ " + page[i].text);
        }
    return out;
}

} // namespace cistern::desk
