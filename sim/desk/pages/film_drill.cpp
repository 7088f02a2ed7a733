#include "desk/pages/film_drill.h"

#include "base/text.h"
#include "desk/widgets/button.h"
#include "desk/widgets/table.h"
#include "drawing/film/portrait.h"
#include "report/words.h"

#include <algorithm>

namespace cistern::desk {

using lab::FilmCell;

namespace {

constexpr std::uint64_t firstSeed = 1;
constexpr int side = 560; // of the picture [px]

std::string named(const lesson::DrillCard& card) {
    return std::string(lab::name(card.cell)) + " (" + std::string(body::name(card.kind)) + ")";
}

} // namespace

lesson::FilmDrill& DrillPart::drill() {
    if (!drill_) {
        const std::string& kept = session_.settings().drill;
        drill_ = kept.empty() ? lesson::FilmDrill(firstSeed) : lesson::FilmDrill::read(kept);
    }
    return *drill_;
}

void DrillPart::ask() {
    asked_ = drill().next();
    reply_.reset();
    picture_ = std::make_shared<drawing::Pixels>(
        drawing::film::portrait({asked_->cell, asked_->kind, asked_->seed, asked_->marks}, side));
}

void DrillPart::answer(FilmCell said) {
    if (!asked_ || reply_) return;
    said_ = said;
    reply_ = drill().answer(said);
    keep();
}

void DrillPart::keep() {
    Settings settings = session_.settings();
    settings.drill = drill().text();
    session_.set(settings);
}

void DrillPart::build(Flow& flow) {
    if (!asked_) ask();
    flow.columns({{1.1, 22, [&](Flow& left) { question(left); }}, {1, 20, [&](Flow& right) {
                                                                       answers(right);
                                                                       right.gap(1.1);
                                                                       progress(right);
                                                                   }}});
}

void DrillPart::question(Flow& flow) {
    flow.card("What is the cell in the middle?",
              "a " + std::string(body::name(asked_->kind)) + "'s; the picture is 24 µm across",
              [&](Flow& card) {
                  const double wide = std::min(card.width(), card.left(2 * card.em(), 200));
                  const Box room = card.room(wide);
                  drawing::Group group{"one cell", {}, {}, {}};
                  group.marks.emplace_back().is =
                      drawing::Image{{room.x + (room.width - wide) / 2, room.y, wide, wide},
                                     picture_,
                                     "a cell to be named"};
                  card.sheet().add(group);
              });
}

void DrillPart::answers(Flow& flow) {
    const std::string heading = !reply_ ? "Your answer" : reply_->right ? "Right" : "Not so";
    flow.card(heading, "", [&](Flow& card) {
        if (!reply_) {
            std::vector<Button> list;
            int number = 1;
            for (const FilmCell kind : asked_->choices) {
                list.push_back({"drill." + std::string(lab::name(kind)),
                                std::string(lab::name(kind)), [this, kind] { answer(kind); },
                                std::to_string(number++)});
            }
            buttons(card, list);
            return;
        }
        card.write(report::capital(std::string(lab::name(asked_->cell))) +
                       (reply_->right ? "" : ", not " + std::string(lab::name(said_))),
                   card.letters().strong);
        card.gap(.3);
        card.text(report::shownUnits(reply_->explanation));
        if (!reply_->apart.empty()) {
            card.gap(.4);
            card.text(report::shownUnits(reply_->apart));
        }
        card.gap(.6);
        buttons(card, {{"drill.next", "Next cell", [this] { ask(); }, "N", true}});
    });
}

void DrillPart::progress(Flow& flow) {
    const lesson::DrillProgress now = drill().progress();
    flow.card("How far", "", [&](Flow& card) {
        desk::progress(card,
                       std::to_string(now.known) + " of " + std::to_string(now.cards) +
                           " kinds of cell known, " + std::to_string(now.seen) + " met",
                       now.cards > 0 ? static_cast<double>(now.known) / now.cards : 0);
        card.gap(.4);
        card.small(std::to_string(now.right) + " of " + std::to_string(now.asked) +
                   " answers were right. What was missed comes back soon.");
        if (!now.weakest.empty()) {
            std::vector<std::string> names;
            for (const lesson::DrillCard& one : now.weakest) names.push_back(named(one));
            card.gap(.3);
            card.text("To look at again: " + base::listed(names, "and") + ".");
        }
        card.gap(.5);
        std::vector<Choice> list;
        for (const auto one :
             {lesson::DrillAnimals::dog, lesson::DrillAnimals::cat, lesson::DrillAnimals::both})
            list.push_back({"drill.of." + std::string(lesson::name(one)),
                            std::string(lesson::name(one)), drill().animals() == one, [this, one] {
                                drill().ask(one);
                                keep();
                            }});
        choices(card, "Animals", list);
    });
}

} // namespace cistern::desk
