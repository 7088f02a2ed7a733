#include "desk/desk.h"

#include "base/fault.h"
#include "base/text.h"
#include "desk/frame.h"
#include "report/text.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

namespace {

constexpr double leastWidth = 640, leastHeight = 400;
constexpr double mostScale = 3;                         // of letters that a drawing can hold
constexpr double grownWidth = 1600, grownHeight = 1000; // [px]: larger windows, larger letters
constexpr double around = 1.6;                          // of a page [em]
constexpr double lineScroll = 48;                       // [px] a notch of the wheel, an arrow
constexpr double textStep = 0.1, projectorScale = 1.4;
constexpr int large = 10; // steps with Shift

std::string upper(const std::string& text) {
    if (text.size() != 1 || text[0] < 'a' || text[0] > 'z') return text;
    return {static_cast<char>(text[0] - 'a' + 'A')};
}

bool inside(const Box& box, Point at) {
    return at.x >= box.x && at.x <= box.right() && at.y >= box.y && at.y <= box.bottom();
}

/// Where the character before the caret begins.
std::size_t before(const std::string& text, std::size_t caret) {
    if (caret == 0) return 0;
    std::size_t at = caret - 1;
    while (at > 0 && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) --at;
    return at;
}

} // namespace

Desk::Desk(const Outside& outside, double width, double height)
    : session_(outside),
      width_(std::max(width, leastWidth)),
      height_(std::max(height, leastHeight)) {}

Page& Desk::page() {
    auto& page = pages_.at(static_cast<std::size_t>(session_.page()));
    if (page) return *page;
    using Make = std::unique_ptr<Page> (*)(Session&);
    constexpr std::array<Make, pageCount> make{shelfPage,   bedsidePage, benchPage,
                                               reportPage,  filmPage,    readingPage,
                                               cutawayPage, counterPage, classPage};
    page = make.at(static_cast<std::size_t>(session_.page()))(session_);
    return *page;
}

/// What goes wrong is said; the desk stands as it stood.
template<class Deed>
void Desk::doing(const Deed& deed) {
    try {
        deed();
    } catch (const std::exception& error) {
        session_.say(error.what());
    }
    changed();
}

void Desk::handle(const Event& event) {
    std::visit([&](const auto& one) { on(one); }, event);
    if (session_.page() != shown_) {
        shown_ = session_.page();
        writing_.reset();
        held_.clear();
        card_ = 0;
        focus_ = "rail." + std::string(name(shown_));
    }
}

void Desk::pass(double seconds) {
    if (page().pass(seconds)) changed();
    if (session_.compareIfReady()) changed();
}

const Screen& Desk::screen() {
    if (!stale_) return screen_;
    stale_ = false;
    ++version_;
    const Settings& settings = session_.settings();
    // On a large window letters grow with it, as if it stood further away.
    const double window = std::max(1., std::min(width_ / grownWidth, height_ / grownHeight));
    Setting setting{width_,   height_, std::min(settings.textScale * window, mostScale),
                    focus_,   under_,  held_,
                    writing_, {}};
    if (settings.projector) {
        setting.textScale = std::min(setting.textScale * projectorScale,
                                     std::min(mostTextScale * window, mostScale));
        setting.only = card_;
    }
    Sheet frame(setting);
    const double em = frame.letters().em;
    Screen next;
    Foot says{std::string(report::caution), session_.said(), ""};
    const double top = rail(frame, session_);
    const double bottom = height_ - footHeight(setting, says); // a hint takes no room of its own
    frame.drawRings();
    const std::size_t onRail = frame.controls().size();
    next.room = {0, top, width_, std::max(bottom - top, 4 * em)};

    Sheet sheet(setting);
    Flow flow(sheet, around * em, top + 1.1 * em, width_ - 2 * around * em, bottom - .4 * em);
    if (help_) {
        help(flow, page());
        flow.gap(1);
    }
    page().build(flow);
    sheet.drawRings();
    cards_ = std::max<std::size_t>(sheet.cardsAsked(), 1);
    if (card_ >= cards_) card_ = cards_ - 1;

    next.furthest = std::max(0., flow.y() + .4 * em - bottom);
    next.scrolled = std::clamp(scrolls_[session_.page()], 0., next.furthest);
    scrolls_[session_.page()] = next.scrolled;

    drawing::Picture& picture = next.picture;
    picture.width = width_;
    picture.height = height_;
    picture.title = "Cistern: " + std::string(name(session_.page()));
    picture.marks.push_back({drawing::Shape{drawing::rectangle({0, 0, width_, height_}),
                                            drawing::theme::paper, std::nullopt}});
    drawing::Group content{"page", {0, -next.scrolled}, {}, std::move(sheet.marks())};
    drawing::Group seen{"", {}, drawing::rectangle(next.room), {}};
    seen.marks.push_back({std::move(content)});
    picture.marks.push_back({std::move(seen)});
    if (next.furthest > 0) {
        const double share = next.room.height / (next.room.height + next.furthest);
        const double high = std::max(2 * em, share * next.room.height);
        const double y = next.room.y + (next.room.height - high) * next.scrolled / next.furthest;
        picture.marks.push_back(
            {drawing::Shape{drawing::rounded({width_ - 9, y + 2, 6, high - 4}, 3),
                            drawing::theme::stoneDark, std::nullopt}});
    }

    next.controls = std::move(frame.controls());
    for (Control& one : sheet.controls()) {
        one.area.y -= next.scrolled;
        if (one.drag)
            one.drag = [drag = one.drag, down = next.scrolled](Point at, Grip grip) {
                drag({at.x, at.y + down}, grip);
            };
        next.controls.push_back(std::move(one));
    }
    // The page comes before the rail: who turned to it wants to work it.
    std::rotate(next.controls.begin(), next.controls.begin() + static_cast<std::ptrdiff_t>(onRail),
                next.controls.end());
    const auto hinted =
        std::find_if(next.controls.begin(), next.controls.end(), [&](const Control& one) {
            return one.id == (under_.empty() ? focus_ : under_);
        });
    says.hint = hinted == next.controls.end() || help_ ? "? tells the keys" : hinted->says;
    foot(frame, says);
    picture.marks.push_back({drawing::Group{"frame", {}, {}, std::move(frame.marks())}});
    for (Dripping& one : sheet.dripping()) {
        one.seen = next.room;
        next.dripping.push_back(std::move(one));
        drawing::VesselPlaces& at = next.dripping.back().places;
        for (drawing::Pore& pore : at.pores) {
            pore.mouth.y -= next.scrolled;
            pore.fall.y -= next.scrolled;
        }
        for (Box* box : {&at.jar, &at.slab, &at.trough, &at.water, &at.bore})
            box->y -= next.scrolled;
        at.mouth.y -= next.scrolled;
        at.splash.y -= next.scrolled;
    }
    screen_ = std::move(next);
    return screen_;
}

std::optional<Microscope> Desk::microscope() {
    const Screen& screen = this->screen();
    const Microscope* one = page().microscope();
    if (!one) return std::nullopt;
    Microscope seen = *one;
    seen.box.y -= screen.scrolled;
    seen.within = screen.room;
    return seen;
}

const Control* Desk::find(const std::string& id) {
    const auto& all = screen().controls;
    const auto at =
        std::find_if(all.begin(), all.end(), [&](const Control& one) { return one.id == id; });
    return at == all.end() ? nullptr : &*at;
}

bool Desk::setFocus(const std::string& id) {
    if (!find(id)) return false;
    focus_ = id;
    changed();
    intoView();
    return true;
}

void Desk::intoView() {
    const Control* one = find(focus_);
    if (!one || focus_.starts_with("rail.")) return;
    const Box room = screen().room;
    const double edge = 12;
    if (one->area.y < room.y + edge)
        scroll(one->area.y - room.y - edge);
    else if (one->area.bottom() > room.bottom() - edge)
        scroll(std::min(one->area.bottom() - room.bottom() + edge, one->area.y - room.y - edge));
}

void Desk::scroll(double by) {
    double& to = scrolls_[session_.page()];
    to = std::clamp(to + by, 0., screen().furthest);
    changed();
}

void Desk::press(const Control& control) {
    if (!control.press) return;
    doing([press = control.press] { press(); });
}

void Desk::moveFocus(int by) {
    finishWriting();
    const auto& all = screen().controls;
    if (all.empty()) return;
    const auto at =
        std::find_if(all.begin(), all.end(), [&](const Control& one) { return one.id == focus_; });
    const auto count = static_cast<std::ptrdiff_t>(all.size());
    const std::ptrdiff_t from = at == all.end() ? (by > 0 ? -1 : 0) : at - all.begin();
    focus_ = all[static_cast<std::size_t>((from + by + count) % count)].id;
    session_.say("");
    changed();
    intoView();
}

void Desk::turn(int by) {
    for (int to = static_cast<int>(session_.page()) + by; to >= 0 && to < pageCount; to += by)
        if (session_.closed(static_cast<PageName>(to)).empty()) {
            doing([&] { session_.go(static_cast<PageName>(to)); });
            return;
        }
}

void Desk::scaleText(double by) {
    Settings settings = session_.settings();
    settings.textScale = std::clamp(std::round((settings.textScale + by) / textStep) * textStep,
                                    leastTextScale, mostTextScale);
    doing([&] { session_.set(settings); });
    session_.say("Letters at " + base::rounded(100 * settings.textScale, 1) + " %.");
}

void Desk::beginWriting(const Control& control, std::string text) {
    const std::size_t caret = text.size();
    writing_ = Writing{control.id, std::move(text), caret};
    changed();
}

void Desk::finishWriting() {
    if (!writing_) return;
    const Writing done = *std::exchange(writing_, std::nullopt);
    changed();
    const Control* one = find(done.id);
    if (one && one->write && one->text != done.text)
        doing([write = one->write, &done] { write(done.text); });
}

bool Desk::writeKey(const Keystroke& key) {
    if (!writing_) return false;
    std::string& text = writing_->text;
    std::size_t& caret = writing_->caret;
    switch (key.key) {
    case Key::left:
        caret = before(text, caret);
        break;
    case Key::right:
        caret += base::characterLength(std::string_view(text).substr(caret));
        break;
    case Key::home:
        caret = 0;
        break;
    case Key::end:
        caret = text.size();
        break;
    case Key::back: {
        const std::size_t from = before(text, caret);
        text.erase(from, caret - from);
        caret = from;
        break;
    }
    case Key::erase:
        text.erase(caret, base::characterLength(std::string_view(text).substr(caret)));
        break;
    case Key::space:
        text.insert(caret++, " ");
        break;
    case Key::escape:
        writing_.reset();
        break;
    case Key::enter:
        finishWriting();
        break;
    default:
        return false;
    }
    changed();
    return true;
}

void Desk::on(const Keystroke& key) {
    if (key.key == Key::tab) return moveFocus(key.shift ? -1 : 1);
    if (writeKey(key)) return;
    finishWriting();
    const Control* at = find(focus_);
    const int many = key.shift ? large : 1;
    const auto step = [&](int across, int up) {
        if (!at || !at->step) return false;
        doing([step = at->step, across, up] { step(across, up); });
        // The choice that is chosen now has the focus.
        if (at = find(focus_); at && at->kind == Control::Kind::choice) {
            const std::string group = focus_.substr(0, focus_.rfind('.'));
            for (const Control& one : screen().controls)
                if (one.on && one.id.substr(0, one.id.rfind('.')) == group) focus_ = one.id;
            changed();
        }
        intoView();
        return true;
    };
    switch (key.key) {
    case Key::enter:
    case Key::space:
        if (at && at->kind == Control::Kind::text)
            beginWriting(*at, at->text);
        else if (at)
            press(*at);
        break;
    case Key::left:
        step(-many, 0);
        break;
    case Key::right:
        step(many, 0);
        break;
    case Key::up:
        if (!step(0, many)) scroll(-lineScroll);
        break;
    case Key::down:
        if (!step(0, -many)) scroll(lineScroll);
        break;
    case Key::pageUp:
        key.control ? turn(-1) : scroll(-.9 * screen().room.height);
        break;
    case Key::pageDown:
        key.control ? turn(1) : scroll(.9 * screen().room.height);
        break;
    case Key::home:
        scroll(-screen().furthest);
        break;
    case Key::end:
        scroll(screen().furthest);
        break;
    case Key::escape:
        help_ = false;
        session_.say("");
        changed();
        break;
    default:
        break;
    }
}

void Desk::on(const Typed& typed) {
    const std::string letter = upper(typed.text);
    const bool scales = letter == "+" || letter == "-" || letter == "=";
    if (typed.control) {
        if (letter == "Z") doing([&] { session_.undo(); });
        if (scales) scaleText(letter == "-" ? -textStep : textStep);
        return;
    }
    const Control* at = find(focus_);
    if (writing_) {
        writing_->text.insert(writing_->caret, typed.text);
        writing_->caret += typed.text.size();
        return changed();
    }
    if (at && at->kind == Control::Kind::text && letter != "?")
        return beginWriting(*at, typed.text);
    for (const Control& one : screen().controls)
        if (!one.key.empty() && one.key == letter) {
            focus_ = one.id;
            return press(one);
        }
    Settings settings = session_.settings();
    if (letter == "?")
        help_ = !help_;
    else if (letter == "[")
        return turn(-1);
    else if (letter == "]")
        return turn(1);
    else if (scales)
        return scaleText(letter == "-" ? -textStep : textStep);
    else if (letter == "Z")
        return doing([&] { session_.undo(); });
    else if (letter == "V")
        settings.projector = !settings.projector;
    else if (letter == "M")
        settings.still = !settings.still;
    else if (letter == "<" && card_ > 0)
        --card_;
    else if (letter == ">" && card_ + 1 < cards_)
        ++card_;
    if (letter == "?") scroll(-screen().furthest);
    doing([&] { session_.set(settings); });
}

const Control* Desk::under(Point at) {
    const Control* found = nullptr;
    double nearest = 1e300;
    for (const Control& one : screen().controls) {
        const bool onRail = one.id.starts_with("rail.");
        if (!inside(one.area, at) || (!onRail && !inside(screen().room, at))) continue;
        // Where two overlap, a handle goes before what lies under it, then the nearer.
        const double off = std::hypot(one.area.middle().x - at.x, one.area.middle().y - at.y) +
                           (one.kind == Control::Kind::handle ? 0 : 1e4);
        if (off <= nearest) {
            nearest = off;
            found = &one;
        }
    }
    return found;
}

void Desk::on(const Pointer& pointer) {
    if (!held_.empty()) {
        const Control* one = find(held_);
        const bool let = pointer.what == Pointer::What::let;
        if (one && one->drag) {
            const auto held = [drag = one->drag, &pointer, let] {
                drag(pointer.at, let ? Grip::let : Grip::moved);
            };
            if (one->glides && !let) return held();
            doing(held);
        } else if (let && one && inside(one->area, pointer.at))
            press(*one);
        if (let) held_.clear();
        return changed();
    }
    const Control* one = under(pointer.at);
    const std::string id = one ? one->id : "";
    if (id != under_) {
        under_ = id;
        changed();
        one = find(id);
    }
    if (pointer.what != Pointer::What::pressed) return;
    finishWriting();
    session_.say("");
    changed();
    one = find(id);
    if (!one) return;
    focus_ = id;
    held_ = id;
    if (one->kind == Control::Kind::text) {
        held_.clear();
        return beginWriting(*one, one->text);
    }
    if (one->drag) doing([drag = one->drag, &pointer] { drag(pointer.at, Grip::taken); });
}

void Desk::on(const Wheel& wheel) {
    if (const Control* one = find(under_); one && one->wheel)
        return doing([turn = one->wheel, &wheel] { turn(wheel.notches); });
    scroll(-wheel.notches * lineScroll);
}

void Desk::on(const Resized& size) {
    width_ = std::max(size.width, leastWidth);
    height_ = std::max(size.height, leastHeight);
    changed();
}

} // namespace cistern::desk
