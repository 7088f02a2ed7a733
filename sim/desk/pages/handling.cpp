#include "desk/pages/handling.h"

#include "base/text.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "desk/widgets/slider.h"
#include "drawing/tube.h"
#include "lab/specimen/handling_words.h"
#include "report/words.h"
#include "view/tubes.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

namespace theme = drawing::theme;

namespace {

/// What a handle reaches; more can be typed.
struct Reach {
    double least, most, step;
};

Reach reachOf(const lab::Choice& choice) {
    const auto ends = [&](std::string_view with) { return choice.name.ends_with(with); };
    if (ends("fill")) return {10, 120, 5};        // [%]
    if (ends("inversions")) return {0, 16, 1};    // times
    if (ends("clot")) return {0, 120, 1};         // [min]
    if (ends("spin")) return {500, 4000, 50};     // times g
    if (ends("spin minutes")) return {1, 20, 1};  // [min]
    if (ends("attempts")) return {1, 5, 1};       // tries
    if (ends("temperature")) return {-20, 40, 1}; // [degrees Celsius]
    return {0, 240, 5};                           // [min] of waiting
}

/// The part of the work a choice belongs to: "needle", a tube, "wait".
std::string partOf(const lab::Choice& choice, const lab::Handling& handling) {
    for (const lab::Tube& tube : handling.tubes)
        if (choice.name.starts_with(tube.name + " ")) return tube.name;
    const bool needle =
        choice.name == "vein" || choice.name == "attempts" || choice.name == "order";
    return needle ? "needle" : "wait";
}

std::string tubeOf(drawing::Additive additive) {
    switch (additive) {
    case drawing::Additive::edta:
        return "edta";
    case drawing::Additive::heparin:
        return "heparin";
    case drawing::Additive::citrate:
        return "citrate";
    case drawing::Additive::fluoride:
        return "fluoride";
    default:
        return "serum";
    }
}

std::string partName(const std::string& part) {
    if (part == "edta") return "EDTA tube";
    if (part == "needle") return "at the vein";
    if (part == "wait") return "while it waits";
    return part + " tube";
}

} // namespace

void HandlingPart::set(std::size_t draw, const std::string& what, double value) {
    session_.act(lesson::Handle{draw, what, base::rounded(value, 0.1)}, lesson::Stage::plan);
}

void HandlingPart::tubes(Flow& flow, std::size_t draw) {
    const lesson::Lesson& lesson = session_.lesson();
    std::vector<drawing::TubeView> views =
        view::tubes(lesson, draw, spun_ ? view::Moment::spun : view::Moment::drawn);
    if (views.empty()) {
        flow.text("No blood is needed for these tests.");
        return;
    }
    const double em = flow.em();
    const bool fixed = lesson.subject().draws[draw].handedIn || lesson.committed();
    for (drawing::TubeView& one : views) {
        one.textScale = flow.letters().scale;
        if (draft_ && draft_->what == tubeOf(one.additive) + " fill")
            one.fill = std::min(draft_->value / 100, drawing::mostFill);
    }
    const double each = std::min(10 * em, flow.width() / static_cast<double>(views.size()));
    const Box room = flow.room(17 * em);
    const auto boxOf = [&](std::size_t i) {
        return Box{room.x + each * static_cast<double>(i), room.y, std::max(each - .6 * em, 60.),
                   room.height};
    };
    double words = 0;
    for (std::size_t i = 0; i < views.size(); ++i)
        words = std::max(words, boxOf(i).bottom() -
                                    drawing::tubePlaces(views[i], boxOf(i)).glass.bottom());
    for (std::size_t i = 0; i < views.size(); ++i) {
        views[i].wordsHeight = words;
        const drawing::TubePlaces places = drawing::tubePlaces(views[i], boxOf(i));
        flow.sheet().add(drawing::tube(views[i], boxOf(i)));
        if (fixed) continue;
        const std::string what = tubeOf(views[i].additive) + " fill";
        const double now = 100 * views[i].fill;
        const Box edge{places.glass.x - .3 * em, places.liquid.y - .6 * em,
                       places.glass.width + .6 * em, 1.2 * em};
        Control control{"fill." + tubeOf(views[i].additive), Control::Kind::handle,
                        "Blood in the " + partName(tubeOf(views[i].additive)) + ": " +
                            base::rounded(now, 1) + " % of the mark",
                        edge};
        control.drag = [this, draw, what, places](Point at, Grip grip) {
            const double to =
                std::clamp(std::round(20 * places.fillAt(at.y)) * 5, 5., 100 * drawing::mostFill);
            draft_ = Draft{what, to};
            if (grip != Grip::let) return;
            draft_.reset();
            set(draw, what, to);
        };
        control.step = [this, draw, what, now](int across, int up) {
            set(draw, what, std::clamp(std::round(now + 5 * (across + up)), 5., 110.));
        };
        flow.sheet().add(std::move(control));
    }
    flow.gap(.5);
    choices(flow, "Tubes",
            {{"tubes.drawn", "as drawn", !spun_, [this] { spun_ = false; }},
             {"tubes.spun", "after the spin", spun_, [this] { spun_ = true; }}});
}

void HandlingPart::handles(Flow& flow, std::size_t draw) {
    const lesson::Lesson& lesson = session_.lesson();
    const lab::Handling& handling = lesson.handling()[draw];
    if (lesson.subject().draws[draw].handedIn && !lesson.committed()) {
        const std::vector<std::string> seen = lab::shownByTubes(handling);
        flow.text(seen.empty() ? "It was handed in. Tubes and labels show nothing unusual; what "
                                 "else was done to them nobody wrote down."
                               : "It was handed in. " + report::capital(lab::inOne(seen)) + ".");
        return;
    }
    if (lesson.committed()) {
        const std::vector<std::string> said = lab::said(handling);
        flow.text(said.empty() ? "It was handled as usual."
                               : report::capital(lab::inOne(said)) + ".");
        return;
    }
    const std::vector<lab::Choice> all = lab::choices(handling);
    std::vector<std::string> parts;
    for (const lab::Choice& one : all)
        if (const std::string part = partOf(one, handling);
            std::find(parts.begin(), parts.end(), part) == parts.end())
            parts.push_back(part);
    if (std::find(parts.begin(), parts.end(), part_) == parts.end()) part_ = parts.front();
    std::vector<Choice> tabs;
    for (const std::string& part : parts)
        tabs.push_back(
            {"part." + part, partName(part), part == part_, [this, part] { part_ = part; }});
    choices(flow, "Handled", tabs);
    flow.gap(.7);
    for (const lab::Choice& one : all)
        if (partOf(one, handling) == part_) {
            knob(flow, draw, one);
            flow.gap(.6);
        }
}

void HandlingPart::knob(Flow& flow, std::size_t draw, const lab::Choice& choice) {
    const std::string title = report::capital(choice.name) + ", " + choice.meaning;
    if (!choice.words.empty()) {
        flow.small(title);
        flow.gap(.2);
        std::vector<Choice> list;
        for (const std::string& word : choice.words)
            list.push_back({"knob." + choice.name + "." + word, word, word == choice.now,
                            [this, draw, name = choice.name, word] {
                                session_.act(lesson::Handle{draw, name, word}, lesson::Stage::plan);
                            }});
        choices(flow, choice.name, list);
        return;
    }
    if (!choice.number) {
        flow.small(title + " (" + choice.allowed + ")");
        flow.gap(.2);
        line(flow, {"knob." + choice.name, "", choice.now, "", 18,
                    [this, draw, name = choice.name](const std::string& text) {
                        session_.act(lesson::Handle{draw, name, text}, lesson::Stage::plan);
                    }});
        return;
    }
    const Reach reach = reachOf(choice);
    const double now = draft_ && draft_->what == choice.name ? draft_->value : choice.value;
    const std::string unit =
        choice.number->shown == "Cel" ? "°C" : std::string(choice.number->shown);
    Slider one;
    one.name = title;
    one.value = base::rounded(now, 0.1);
    if (one.value.ends_with(".0")) one.value.resize(one.value.size() - 2);
    if (!unit.empty()) one.value += " " + unit;
    one.ink = theme::ink;
    one.tones = {theme::muted, theme::line};
    Handle handle;
    handle.id = "knob." + choice.name;
    handle.says = title + ": " + one.value + "; allowed " + choice.allowed;
    handle.share = std::clamp((now - reach.least) / (reach.most - reach.least), 0., 1.);
    handle.slide = [this, draw, name = choice.name, reach](double share, Grip grip) {
        const double to =
            std::round((reach.least + share * (reach.most - reach.least)) / reach.step) *
            reach.step;
        draft_ = Draft{name, to};
        if (grip != Grip::let) return;
        draft_.reset();
        set(draw, name, to);
    };
    handle.step = [this, draw, name = choice.name, reach, now](int steps) {
        set(draw, name, std::clamp(now + steps * reach.step, reach.least, reach.most));
    };
    one.to = handle.share;
    one.handles.push_back(std::move(handle));
    slider(flow, one);
}

} // namespace cistern::desk
