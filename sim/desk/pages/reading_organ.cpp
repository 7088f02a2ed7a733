// Leak and work of each organ: how they are answered.
#include "desk/pages/reading_organ.h"

#include "base/text.h"
#include "base/units.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "desk/widgets/slider.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

using drawing::PlaneScale;
using drawing::Shape;
using drawing::Stroke;
using lesson::Band;
using lesson::OrganAnswer;
namespace theme = drawing::theme;

namespace {

constexpr double spotSize = .5, fieldWidth = 3.6; // [em]

struct PartName {
    BandPart part;
    std::string_view id, words;
};
constexpr PartName partNames[] = {{BandPart::low, "low", "low"},
                                  {BandPart::best, "best", "most likely"},
                                  {BandPart::high, "high", "high"}};

const PartName& nameOf(BandPart part) {
    return partNames[static_cast<std::size_t>(part)];
}

std::string withUnit(const Measure& measure, double value) {
    return report::shownNumber(value) + " " + std::string(measure.unit);
}

bool complete(const OrganAnswer& answer, bool leaks) {
    return answer.work && (answer.leak || !leaks);
}

/// Both bands by so many steps.
OrganAnswer wholeShifted(const OrganAnswer& start, const Places& from, const Places& to) {
    OrganAnswer out = start;
    for (std::size_t i = 0; i < to.size(); ++i)
        if (auto& band = bandOf(out, bothAsked[i]))
            band = shifted(measureOf(bothAsked[i]), *band, to[i] - from[i]);
    return out;
}

/// Both bands anew, between two places of the plane.
OrganAnswer drawnAnew(const OrganAnswer& start, const Places& from, const Places& to) {
    OrganAnswer out = start;
    if (std::hypot(to[0] - from[0], to[1] - from[1]) < 1) return out;
    for (std::size_t i = 0; i < to.size(); ++i) {
        const Measure& measure = measureOf(bothAsked[i]);
        bandOf(out, bothAsked[i]) = Band{valueAt(measure, (from[i] + to[i]) / 2),
                                         valueAt(measure, std::min(from[i], to[i])),
                                         valueAt(measure, std::max(from[i], to[i]))};
    }
    return out;
}

} // namespace

std::string told(Asked asked, const std::optional<Band>& band) {
    const Measure& measure = measureOf(asked);
    return std::string(measure.title) + ": " +
           (band ? report::shownBand(*band, std::string(measure.unit)) : "no answer yet");
}

void OrganCard::forget() {
    chosen_ = 0;
    pull_.reset();
    draft_.reset();
}

std::string OrganCard::id(Asked asked, BandPart part) const {
    return std::string(body::name(organ_)) + "." + std::string(measureOf(asked).name) + "." +
           std::string(nameOf(part).id);
}

OrganAnswer OrganCard::kept() const {
    const auto& all = session_.lesson().answers().organs;
    return all.contains(organ_) ? all.at(organ_) : OrganAnswer{};
}

/// Does what has changed, as one change.
void OrganCard::answer(const OrganAnswer& to) {
    const OrganAnswer now = kept();
    std::vector<lesson::Action> actions;
    if (to.leak && to.leak != now.leak) actions.push_back(lesson::SetLeak{organ_, *to.leak});
    if (to.work && to.work != now.work) actions.push_back(lesson::SetWork{organ_, *to.work});
    if (!actions.empty()) session_.act(actions, lesson::Stage::reading);
}

void OrganCard::pull(const Places& at, Grip grip, const Change& change) {
    if (grip == Grip::taken) {
        pull_ = Pull{at, kept()};
        return;
    }
    if (!pull_) return;
    draft_ = change(pull_->start, pull_->from, at);
    if (grip != Grip::let) return;
    answer(*draft_);
    draft_.reset();
    pull_.reset();
}

void OrganCard::step(const Places& by, const Change& change) {
    answer(change(kept(), {}, by));
}

void OrganCard::write(Asked asked, BandPart part, const std::string& text) {
    const Measure& measure = measureOf(asked);
    const auto quantity = base::readQuantity(text);
    if (!quantity || (!quantity->unit.empty() && quantity->unit != measure.unit))
        return session_.say("\"" + text + "\" is not a number in " + std::string(measure.unit) +
                            "; write it like 12 or 0.5.");
    if (!(quantity->value >= measure.least && quantity->value <= measure.most))
        return session_.say("The number must lie between " + report::shownNumber(measure.least) +
                            " and " + withUnit(measure, measure.most) + ".");
    OrganAnswer to = kept();
    if (auto& band = bandOf(to, asked)) band = moved(*band, part, quantity->value);
    answer(to);
}

void OrganCard::build(Flow& flow, bool explained) {
    const lesson::Questions ask = session_.lesson().questions();
    if (ask.organs.empty()) return;
    chosen_ = std::min(chosen_, ask.organs.size() - 1);
    organ_ = ask.organs[chosen_];
    kept_ = kept();
    if (flow.sheet().setting().held.empty()) { // turned away in the middle of a pull
        pull_.reset();
        draft_.reset();
    }
    const bool leaks = std::find(ask.leaks.begin(), ask.leaks.end(), organ_) != ask.leaks.end();
    const std::string name(body::name(organ_));
    flow.card(ask.organs.size() > 1 ? "How each organ stands" : report::capital(name), "",
              [&](Flow& card) {
                  if (ask.organs.size() > 1) tabs(card);
                  if (leaks) planeWithHandles(card);
                  if (explained || !complete(kept_, leaks)) {
                      card.gap(.5);
                      card.small(std::string(report::bandWords));
                  }
                  if (leaks) question(card, Asked::leak, explained);
                  question(card, Asked::work, explained);
              });
}

void OrganCard::tabs(Flow& card) {
    const lesson::Lesson& lesson = session_.lesson();
    const lesson::Questions ask = lesson.questions();
    std::vector<Choice> list;
    for (std::size_t i = 0; i < ask.organs.size(); ++i) {
        const body::Tissue one = ask.organs[i];
        const auto at = lesson.answers().organs.find(one);
        const bool done = at != lesson.answers().organs.end() &&
                          complete(at->second, std::find(ask.leaks.begin(), ask.leaks.end(), one) !=
                                                   ask.leaks.end());
        const std::string name(body::name(one));
        list.push_back({"organ." + name, name + (done ? " ✓" : ""), i == chosen_,
                        [this, i] {
                            chosen_ = i;
                            draft_.reset();
                        },
                        "", "", name + (done ? ", answered" : ", not answered yet")});
    }
    choices(card, "Organ", list);
    card.gap(.6);
}

void OrganCard::planeWithHandles(Flow& card) {
    const PlaneScale scale = answerPlane(card, shown());
    Sheet& sheet = card.sheet();
    const double em = card.em();
    const std::string name = std::string(body::name(organ_)) + ".plane";
    const bool both = kept_.leak && kept_.work;
    // Under the handles: where it is pulled, a band is drawn, or the one that is there is moved.
    Control plane{name, Control::Kind::button,
                  (both ? "Both bands. "
                        : "Plane of leak and work: pull across it to draw both "
                          "bands. ") +
                      told(Asked::leak, kept_.leak) + ". " + told(Asked::work, kept_.work),
                  both ? frameOf(scale, shown()) : scale.plot};
    const Change change = both ? Change(wholeShifted) : Change(drawnAnew);
    plane.drag = [this, scale, change](Point at, Grip grip) {
        pull(placesAt(scale, at), grip, change);
    };
    if (both)
        plane.step = [this](int across, int up) {
            step({static_cast<double>(up), static_cast<double>(across)}, wholeShifted);
        };
    else
        plane.press = [this] {
            OrganAnswer wide = kept();
            for (const Asked one : bothAsked)
                if (!bandOf(wide, one)) bandOf(wide, one) = measureOf(one).wide;
            answer(wide);
        };
    sheet.add(std::move(plane));
    if (!shown().leak || !shown().work) {
        if (both) return;
        drawing::Type type = card.letters().small;
        type.weight = drawing::Weight::medium;
        const std::string invitation = "pull across here to draw both bands";
        const double wide = scale.plot.width * .9;
        drawing::Text words =
            drawing::hung(invitation, type, drawing::Align::center, scale.plot.middle().x, 0, wide);
        words.at.y += scale.plot.middle().y - drawing::extent(words).middle().y;
        Box plate = drawing::extent(words);
        plate = {plate.x - .4 * em, plate.y - .2 * em, plate.width + .8 * em,
                 plate.height + .4 * em};
        sheet.add(Shape{drawing::rounded(plate, .4 * em), theme::field, std::nullopt});
        sheet.add(std::move(words));
        return;
    }
    const Point best = likeliest(scale, shown());
    sheet.add(Shape{drawing::circle(best, .34 * em), theme::ink, Stroke{theme::field, 2, {}}});
    for (const PlaneSpot& spot : corners(scale, shown())) {
        sheet.add(Shape{drawing::diamond(spot.at, spotSize * em), theme::field,
                        Stroke{theme::ink, 2, {}}});
        if (!both) continue;
        const double half = 1.3 * spotSize * em;
        const Measure &leak = measureOf(Asked::leak), &work = measureOf(Asked::work);
        Control control{name + "." + spot.name,
                        Control::Kind::handle,
                        "Corner: leak " + std::string(nameOf(spot.leak).words) + " " +
                            withUnit(leak, valueOf(*shown().leak, spot.leak)) + ", work " +
                            std::string(nameOf(spot.work).words) + " " +
                            withUnit(work, valueOf(*shown().work, spot.work)),
                        {spot.at.x - half, spot.at.y - half, 2 * half, 2 * half}};
        const Change ends = [parts = std::array{spot.leak, spot.work}](
                                const OrganAnswer& start, const Places& from, const Places& to) {
            OrganAnswer out = start;
            for (std::size_t i = 0; i < to.size(); ++i)
                if (auto& band = bandOf(out, bothAsked[i]))
                    band = stepped(measureOf(bothAsked[i]), *band, parts[i], to[i] - from[i]);
            return out;
        };
        control.drag = [this, scale, ends](Point at, Grip grip) {
            pull(placesAt(scale, at), grip, ends);
        };
        control.step = [this, ends](int across, int up) {
            step({static_cast<double>(up), static_cast<double>(across)}, ends);
        };
        sheet.add(std::move(control));
    }
}

void OrganCard::question(Flow& card, Asked asked, bool explained) {
    const Measure& measure = measureOf(asked);
    const double hour = session_.lesson().questions().hour;
    drawing::Type name = card.letters().strong;
    name.color = measure.ink;
    card.gap(.8);
    card.write(std::string(measure.title), name);
    card.small(asked == Asked::leak ? report::leakQuestion(organ_, hour)
                                    : report::workQuestion(organ_, hour));
    if (explained) {
        card.gap(.3);
        card.small(std::string(asked == Asked::leak ? report::leakHelp : report::workHelp));
    }
    card.gap(.35);
    if (!bandOf(kept_, asked)) {
        // Under the name of the handle that will be there: the focus stays.
        buttons(card, {{id(asked, BandPart::best), "Set a band",
                        [this, asked] {
                            OrganAnswer to = kept();
                            bandOf(to, asked) = measureOf(asked).wide;
                            answer(to);
                        },
                        "", false,
                        "Set a wide band for the " + std::string(measure.name) +
                            ", to be moved from there"}});
        return;
    }
    const Band band = *bandOf(shown(), asked);
    bandSlider(card, asked, band);
    card.gap(.3);
    numbers(card, asked, band);
}

void OrganCard::bandSlider(Flow& card, Asked asked, const Band& band) {
    const Measure& measure = measureOf(asked);
    const auto share = [&](double value) { return position(measure, value) / measure.steps; };
    Slider one;
    one.tones = tonesOf(measure.meaning);
    one.from = share(band.low);
    one.to = share(band.high);
    one.least = report::shownNumber(measure.least);
    one.most = withUnit(measure, measure.most);
    if (measure.ratios)
        for (double tick = measure.least; tick <= 1.001 * measure.most; tick *= 10)
            one.ticks.push_back(share(tick));
    else
        one.ticks = {share(50), share(100)};
    const auto index = static_cast<std::size_t>(asked);
    for (const PartName& part : partNames) {
        const Change change = [asked, index, which = part.part](
                                  const OrganAnswer& start, const Places& from, const Places& to) {
            OrganAnswer out = start;
            if (auto& of = bandOf(out, asked))
                of = stepped(measureOf(asked), *of, which, to[index] - from[index]);
            return out;
        };
        const auto along = [index](double steps) {
            Places at{};
            at[index] = steps;
            return at;
        };
        const double value = valueOf(band, part.part);
        one.handles.push_back({id(asked, part.part),
                               std::string(measure.title) + ", " + std::string(part.words) + ": " +
                                   withUnit(measure, value),
                               share(value), part.part == BandPart::best,
                               [this, change, along, steps = measure.steps](double to, Grip grip) {
                                   pull(along(to * steps), grip, change);
                               },
                               [this, change, along](int by) { step(along(by), change); }});
    }
    slider(card, one);
}

void OrganCard::numbers(Flow& card, Asked asked, const Band& band) {
    const Measure& measure = measureOf(asked);
    const double em = card.em(), gap = .9 * em;
    double x = card.x(), top = card.y(), high = 0;
    for (const PartName& part : partNames) {
        const std::string name(part.words);
        const drawing::Type& small = card.letters().small;
        const double before = drawing::measure(name, small).width + .4 * em;
        if (x > card.x() && x + before + fieldWidth * em > card.x() + card.width()) {
            x = card.x();
            top += high + .3 * em;
        }
        const Box box = field(card.sheet(),
                              {id(asked, part.part) + ".typed",
                               std::string(measure.title) + ", " + name,
                               report::shownNumber(valueOf(band, part.part)),
                               std::string(measure.unit),
                               fieldWidth,
                               [this, asked, which = part.part](const std::string& text) {
                                   write(asked, which, text);
                               },
                               {}},
                              x + before, top);
        drawing::Text words = drawing::hung(name, small, drawing::Align::left, x, 0);
        words.at.y += box.middle().y - drawing::extent(words).middle().y;
        card.sheet().add(std::move(words));
        high = box.height;
        x = box.right() + gap;
    }
    card.room(top + high - card.y());
}

} // namespace cistern::desk
