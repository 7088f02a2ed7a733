// The film: a slide under the lens, its tally, and the drill.
#include "base/text.h"
#include "desk/pages/film_drill.h"
#include "desk/pages/film_fields.h"
#include "desk/pages/film_tally.h"
#include "desk/pages/film_view.h"
#include "desk/pages/film_words.h"
#include "desk/pages/page.h"
#include "desk/widgets/button.h"
#include "report/words.h"

#include <utility>

namespace cistern::desk {

namespace {

class Film : public Page {
public:
    explicit Film(Session& session)
        : session_(session), tally_(session), fields_(session), drill_(session) {}

    void build(Flow& flow) override {
        settle();
        lensSeen_ = false;
        which(flow);
        if (shown_ == Shown::drill) return drill_.build(flow);
        if (!taken_)
            return flow.card("No film", "", [](Flow& card) {
                card.text("No blood count was asked for, so no film was made. The drill needs "
                          "none.");
            });
        if (shown_ == Shown::words) {
            if (told_.empty()) told_ = report::filmTold(*taken_->report.blood);
            return filmInWords(flow, told_);
        }
        const auto next = [this] { this->next(); };
        flow.columns({{1.5, 34,
                       [&](Flow& left) {
                           left.card("", "", [&](Flow& card) {
                               const double below = 12.4 * card.em();
                               view_.build(
                                   card,
                                   [this](const drawing::film::Cell& cell) { tally_.choose(cell); },
                                   card.left(below, 15 * card.em()));
                               lensSeen_ = true;
                               where(card);
                               card.gap(.4);
                               view_.handles(card);
                           });
                       }},
                      {1, 24, [&](Flow& right) {
                           tally_.build(right, next);
                           right.gap(1.1);
                           fields_.build(right, view_);
                       }}});
        tally_.results(flow);
        view_.ring(tally_.rings());
    }

    bool pass(double seconds) override {
        return shown_ == Shown::lens && view_.isOpen() &&
               view_.pass(seconds, session_.settings().still);
    }

    const Microscope* microscope() const override { return lensSeen_ ? &view_.lens() : nullptr; }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"N", "the next nucleated cell along the track"},
                {"1 to 0", "say what the ringed cell is"},
                {"X", "take the last cell back"},
                {"T", "let the film travel under the lens, or stop it"},
                {"W, D", "the film in words; the drill"},
                {"L", "the film itself; arrows move it"},
                {"F", "the focus; arrows or a wheel over the film turn it"}};
    }

private:
    Session& session_;
    FilmView view_;
    TallyPart tally_;
    FieldsPart fields_;
    DrillPart drill_;
    const lesson::Taken* taken_ = nullptr; ///< whose film is looked at
    std::size_t draw_ = 0;
    enum class Shown { lens, words, drill } shown_ = Shown::lens;
    bool lensSeen_ = false;              ///< as last laid out: a projector shows one card alone
    std::vector<report::FilmPart> told_; ///< in words, once asked for
    std::optional<std::pair<unsigned, lab::Slide>> open_; ///< lesson and slide

    /// The draws that have a film.
    std::vector<const lesson::Taken*> films() const {
        std::vector<const lesson::Taken*> out;
        for (const lesson::Taken& one : session_.lesson().taken())
            if (one.report.blood) out.push_back(&one);
        return out;
    }

    /// Another lesson, draw or handling: another slide.
    void settle() {
        taken_ = nullptr;
        for (const lesson::Taken* one : films())
            if (!taken_ || one->draw == draw_) taken_ = one;
        if (!taken_) return;
        const lab::Report& report = taken_->report;
        const std::pair now{session_.lessonNumber(), report.blood->slide};
        tally_.follow(report);
        fields_.follow(report);
        if (open_ == now) return;
        open_ = now;
        told_.clear();
        view_.open(report.blood->slide);
        tally_.open(taken_->draw);
        fields_.open();
    }

    void which(Flow& flow) {
        std::vector<Choice> list;
        for (const lesson::Taken* one : films())
            list.push_back({"film." + std::to_string(one->draw + 1),
                            "film of draw " + std::to_string(one->draw + 1),
                            shown_ == Shown::lens && taken_ == one, [this, draw = one->draw] {
                                draw_ = draw;
                                shown_ = Shown::lens;
                            }});
        if (taken_)
            list.push_back({"words", "told in words", shown_ == Shown::words,
                            [this] { shown_ = Shown::words; }, "", "W"});
        list.push_back({"drill", "drill: one cell after another", shown_ == Shown::drill,
                        [this] { shown_ = Shown::drill; }, "", "D"});
        choices(flow, "Shown", list);
        flow.gap(.7);
    }

    void where(Flow& flow) {
        flow.gap(.3);
        const bool single = view_.where() == lab::FilmArea::monolayer;
        flow.small(report::capital(std::string(lab::name(view_.where()))) + ", " +
                   base::rounded(view_.lens().middle.x / 1000, .1) +
                   " mm from the tip. What is seen is " + base::rounded(view_.lens().width, 1) +
                   " µm wide." + (single ? "" : " Cells are told apart in the monolayer."));
    }

    void next() {
        const auto cell = view_.nextNucleated(tally_.told());
        if (!cell) return session_.say("No nucleated cell is left in this area.");
        tally_.choose(*cell);
        view_.bring(*cell);
    }
};

} // namespace

std::unique_ptr<Page> filmPage(Session& session) {
    return std::make_unique<Film>(session);
}

} // namespace cistern::desk
