// What is going on: 100 points over a list of explanations.
#include "desk/pages/reading_points.h"

#include "base/text.h"
#include "base/units.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "desk/widgets/slider.h"
#include "report/words.h"

#include <cmath>

namespace cistern::desk {

using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double all = 100;
constexpr double fieldWidth = 3.4, lockWidth = 1.5, gap = .5; // [em]

/// A padlock; an open one has its bow lifted on one side.
void padlock(Sheet& sheet, const Box& at, bool closed) {
    const double u = at.width / 10;
    const Point middle = at.middle();
    const drawing::Color ink = closed ? theme::ink : theme::muted;
    const double foot = middle.y - .2 * u, top = middle.y - (closed ? 4.2 : 5) * u;
    const double half = 2.1 * u, turn = 1.25 * u; // the bow
    drawing::Path bow;
    bow.move({middle.x - half, foot})
        .line({middle.x - half, top + 2 * u})
        .curve({middle.x - half, top + 2 * u - 2 * turn}, {middle.x + half, top + 2 * u - 2 * turn},
               {middle.x + half, top + 2 * u});
    if (closed) bow.line({middle.x + half, foot});
    sheet.add(Shape{bow, std::nullopt, Stroke{ink, 1.3 * u, {}}});
    const Box body{middle.x - 3.4 * u, foot, 6.8 * u, 5 * u};
    sheet.add(
        Shape{drawing::rounded(body, u), closed ? ink : theme::field, Stroke{ink, 1.1 * u, {}}});
}

} // namespace

std::string shownPoints(double points) {
    const std::string text = base::rounded(points, .1);
    return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

void PointsCard::forget() {
    locked_.clear();
    pull_.reset();
    draft_.reset();
}

std::vector<Share> PointsCard::kept() const {
    const auto& points = session_.lesson().answers().points;
    std::vector<Share> out;
    for (const std::string& one : list_)
        out.push_back({points.contains(one) ? points.at(one) : 0, locked_.contains(one)});
    return out;
}

void PointsCard::answer(const std::vector<Share>& shares) {
    lesson::SetPoints to;
    double sum = 0;
    for (std::size_t i = 0; i < list_.size(); ++i) {
        to.points[list_[i]] = shares[i].points;
        sum += shares[i].points;
    }
    if (std::abs(sum - all) > lesson::pointsSlack)
        session_.say("Locked explanations keep what they have: unlock another one first.");
    else if (to.points != session_.lesson().answers().points)
        session_.act(to, lesson::Stage::reading);
}

void PointsCard::pull(std::size_t index, double share, Grip grip) {
    if (grip == Grip::taken) {
        pull_ = Pull{kept(), share};
        return;
    }
    if (!pull_) return;
    const double by = std::round(all * (share - pull_->from));
    draft_ = by == 0 ? pull_->start
                     : given(pull_->start, index, std::round(pull_->start[index].points) + by);
    if (grip != Grip::let) return;
    if (by != 0) answer(*draft_);
    draft_.reset();
    pull_.reset();
}

void PointsCard::write(std::size_t index, const std::string& text) {
    const auto quantity = base::readQuantity(text);
    if (!quantity || !(quantity->unit.empty() || quantity->unit == "%"))
        return session_.say("\"" + text +
                            "\" is not a number of points; write it like 12 or 33.3.");
    if (!(quantity->value >= 0 && quantity->value <= all))
        return session_.say("The number must lie between 0 and 100 points.");
    answer(given(kept(), index, quantity->value));
}

void PointsCard::build(Flow& flow, bool explained) {
    list_ = session_.lesson().questions().explanations;
    if (list_.empty()) return;
    if (flow.sheet().setting().held.empty()) { // turned away in the middle of a pull
        pull_.reset();
        draft_.reset();
    }
    shown_ = draft_ ? *draft_ : kept();
    double sum = 0;
    for (const Share& one : shown_) sum += one.points;
    answered_ = std::abs(sum - all) <= lesson::pointsSlack;
    const std::string help = explained ? " " + std::string(report::pointsHelp) : "";
    flow.card("What is going on", std::string(report::pointsQuestion) + help, [&](Flow& card) {
        for (std::size_t i = 0; i < list_.size(); ++i) row(card, i);
        card.gap(.5);
        buttons(card, {{"points.even", "Even", [this] { answer(even(kept())); }, "", false,
                        "Spread the points evenly over those that are not locked"}});
        card.gap(.4);
        card.small(answered_ ? "100 points are spread; locked ones stay."
                             : "No answer yet: the others share what one leaves.");
    });
}

void PointsCard::row(Flow& card, std::size_t index) {
    const double em = card.em();
    const std::string id = "points." + list_[index];
    const Share& share = shown_[index];
    const std::string value = answered_ ? shownPoints(share.points) : "";
    if (index > 0) card.gap(.4);
    card.text(report::capital(list_[index]));
    const double top = card.y(), right = card.x() + card.width();
    const double lockAt = right - lockWidth * em, fieldAt = lockAt - (gap + fieldWidth) * em;
    Flow left(card.sheet(), card.x(), top, fieldAt - gap * em - card.x(), card.floor());
    Slider one;
    one.tones = tonesOf(drawing::Meaning::cleared); // plum: what needs thought
    one.to = share.points / all;
    const auto step = [this, index](int by) {
        const std::vector<Share> now = kept();
        answer(given(now, index, std::round(now[index].points) + by));
    };
    const std::string state = answered_ ? value + " of 100 points" : "no points given yet";
    const std::string held = share.locked ? ", locked" : "";
    one.handles = {{id, report::capital(list_[index]) + ": " + state + held, share.points / all,
                    true, [this, index](double to, Grip grip) { pull(index, to, grip); }, step}};
    slider(left, one);
    const double height = left.y() - top;
    Sheet& sheet = card.sheet();
    const Box box = field(sheet,
                          {id + ".typed", "Points for " + list_[index], value, "of 100", fieldWidth,
                           [this, index](const std::string& text) { write(index, text); }, step},
                          fieldAt, top);
    lock(sheet, index,
         {lockAt, box.middle().y - lockWidth * em / 2, lockWidth * em, lockWidth * em});
    card.room(std::max(height, box.height));
}

void PointsCard::lock(Sheet& sheet, std::size_t index, const Box& at) {
    const std::string& name = list_[index];
    const bool closed = shown_[index].locked;
    padlock(sheet, at, closed);
    Control control{"points." + name + ".lock", Control::Kind::choice,
                    "Lock " + name + (closed ? ": locked" : ": not locked"), at};
    control.on = closed;
    control.press = [this, name] {
        if (locked_.erase(name) == 0) locked_.insert(name);
    };
    sheet.add(std::move(control));
}

} // namespace cistern::desk
