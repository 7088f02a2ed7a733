// The bench: what happens to the blood, and how the machine reads it.
#include "base/text.h"
#include "base/units.h"
#include "desk/pages/handling.h"
#include "desk/pages/page.h"
#include "desk/widgets/button.h"
#include "desk/widgets/table.h"
#include "drawing/control_chart.h"
#include "report/text.h"
#include "report/words.h"
#include "view/control.h"
#include "view/trace.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace cistern::desk {

namespace {

constexpr std::array speeds{1., 10., 60.}; // seconds of the machine in one of ours

class Bench : public Page {
public:
    explicit Bench(Session& session) : session_(session), handling_(session) {}

    void build(Flow& flow) override {
        const lesson::Lesson& lesson = session_.lesson();
        settle(lesson);
        flow.columns({{1.95, 36,
                       [&](Flow& left) {
                           specimen(left, lesson);
                           left.gap(1.1);
                           machine(left, lesson);
                       }},
                      {1, 18, [&](Flow& right) {
                           control(right, lesson);
                           right.gap(1.1);
                           faults(right);
                       }}});
    }

    bool pass(double seconds) override {
        if (!running_) return false;
        seconds_ += seconds * speeds.at(speed_);
        if (seconds_ >= whole_) {
            seconds_ = whole_;
            running_ = false;
        }
        return true;
    }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"L", "load the machine, or stop and go on"}, {"R", "go on to the report"}};
    }

private:
    Session& session_;
    HandlingPart handling_;
    std::size_t draw_ = 0;          ///< of the case
    std::string analyte_, charted_; ///< watched; whose chart is shown
    bool loaded_ = false, running_ = false;
    double seconds_ = 0, whole_ = 1; ///< of the reaction watched
    std::size_t speed_ = 1;
    unsigned seen_ = 0;
    std::vector<lab::Handling> handled_; ///< when it was loaded
    std::vector<std::vector<std::string>> tests_;
    std::map<std::pair<std::size_t, body::Analyte>, lab::Chart> charts_;

    /// Another lesson, or blood handled otherwise: nothing is loaded.
    void settle(const lesson::Lesson& lesson) {
        if (seen_ != session_.lessonNumber()) draw_ = 0;
        if (seen_ == session_.lessonNumber() && handled_ == lesson.handling() &&
            tests_ == lesson.chosen())
            return;
        seen_ = session_.lessonNumber();
        handled_ = lesson.handling();
        tests_ = lesson.chosen();
        loaded_ = running_ = false;
        seconds_ = 0;
        charts_.clear();
    }

    const lab::Report* report(const lesson::Lesson& lesson) const {
        for (const lesson::Taken& one : lesson.taken())
            if (one.draw == draw_) return &one.report;
        return nullptr;
    }

    void specimen(Flow& flow, const lesson::Lesson& lesson) {
        const auto& draws = lesson.subject().draws;
        flow.card("The specimen", report::shownDraw(draws[draw_], draw_), [&](Flow& card) {
            if (draws.size() > 1) {
                std::vector<Choice> list;
                for (std::size_t i = 0; i < draws.size(); ++i)
                    list.push_back({"draw." + std::to_string(i + 1),
                                    "draw " + std::to_string(i + 1), i == draw_, [this, i] {
                                        draw_ = i;
                                        loaded_ = running_ = false;
                                        seconds_ = 0;
                                    }});
                choices(card, "Draw", list);
                card.gap(.6);
            }
            card.columns({{1, 15, [&](Flow& left) { handling_.tubes(left, draw_); }},
                          {1.25, 18, [&](Flow& right) { handling_.handles(right, draw_); }}});
        });
    }

    void machine(Flow& flow, const lesson::Lesson& lesson) {
        const lab::Report* report = this->report(lesson);
        const std::vector<const lab::Result*> all =
            report ? view::traced(*report) : std::vector<const lab::Result*>{};
        const lab::Result* watched = nullptr;
        for (const lab::Result* one : all)
            if (!watched || body::name(one->analyte) == analyte_) watched = one;
        const std::string name =
            watched ? report::spoken(body::name(watched->analyte)) : std::string();
        flow.card(watched ? report::capital(name) + ", being read" : "The machine",
                  watched ? session_.knowledge().bench.method(watched->analyte).principle : "",
                  [&](Flow& card) {
                      if (!report)
                          card.text("This draw is left out: choose its tests first.");
                      else if (!watched)
                          card.text("None of these tests is read through a running reaction; "
                                    "their results stand in the report.");
                      if (report && watched) {
                          which(card, all, *watched);
                          reaction(card, *watched);
                      }
                      card.gap(.7);
                      buttons(card, {{"report", "To the report",
                                      [this] { session_.go(PageName::report); }, "R",
                                      loaded_ && !running_}});
                  });
    }

    void which(Flow& card, const std::vector<const lab::Result*>& all, const lab::Result& watched) {
        Picker list{"watch", "reactions", {}, 0, [this, all](std::size_t at) {
                        analyte_ = body::name(all[at]->analyte);
                        seconds_ = 0;
                        running_ = loaded_;
                    }};
        for (std::size_t i = 0; i < all.size(); ++i) {
            list.list.push_back(report::spoken(body::name(all[i]->analyte)));
            if (all[i] == &watched) list.at = i;
        }
        picker(card, list);
        card.gap(.6);
    }

    void reaction(Flow& card, const lab::Result& watched) {
        const lab::Bench& bench = session_.knowledge().bench;
        const lab::Units units = session_.settings().units;
        drawing::TraceView trace = view::trace(watched, bench, units);
        whole_ = trace.seconds.back();
        const bool done = loaded_ && seconds_ >= whole_;
        trace.shownUntil = loaded_ ? seconds_ : 0;
        trace.textScale = card.letters().scale;
        trace.title.clear(); // the card says it, and the numbers stand beside
        trace.subtitle.clear();
        if (!done) {
            trace.line.reset();
            trace.verdict.clear();
        }
        card.columns({{2.1, 20,
                       [&](Flow& left) {
                           const double em = left.em();
                           left.sheet().add(drawing::trace(
                               trace, left.room(std::max(14 * em, left.left(6 * em, 14 * em)))));
                       }},
                      {1, 11, [&](Flow& right) { numbers(right, watched, done); }}});
    }

    void numbers(Flow& flow, const lab::Result& watched, bool done) {
        const lab::Bench& bench = session_.knowledge().bench;
        const lab::Units units = session_.settings().units;
        const lab::Writing& writing = bench.method(watched.analyte).writing(units);
        const std::string unit = base::shown(writing.unit);
        if (const auto rate = view::rate(watched, bench, units); rate && done) {
            flow.small("slope");
            flow.write(base::significant(rate->perMinute, 3) + " A/min", flow.letters().number);
            flow.gap(.3);
            flow.small("times the factor " + base::significant(rate->factor, 4) + " is about");
        }
        if (done) {
            drawing::Type large = flow.letters().title;
            large.color = drawing::theme::leakInk;
            flow.write(lab::printed(watched, bench, units) + " " + unit, large);
            const std::string doubt = lab::printedHalfWidth(watched, bench, units);
            if (!doubt.empty()) flow.small("± " + doubt + " at 95 %");
        }
        flow.gap(.5);
        progress(flow,
                 base::rounded(loaded_ ? seconds_ : 0, 1) + " of " + base::rounded(whole_, 1) +
                     " s",
                 loaded_ ? seconds_ / whole_ : 0);
        flow.gap(.6);
        const std::string word = !loaded_ ? "Load" : running_ ? "Pause" : done ? "Again" : "Go on";
        buttons(flow, {{"load", word,
                        [this, done] {
                            if (!loaded_ || done) seconds_ = 0;
                            running_ = !running_;
                            loaded_ = true;
                        },
                        "L", !done},
                       {"end", "To the end", [this] {
                            loaded_ = true;
                            running_ = false;
                            seconds_ = whole_;
                        }}});
        flow.gap(.4);
        std::vector<Choice> list;
        for (std::size_t i = 0; i < speeds.size(); ++i)
            list.push_back({"speed." + base::rounded(speeds[i], 1),
                            "× " + base::rounded(speeds[i], 1), i == speed_,
                            [this, i] { speed_ = i; }});
        choices(flow, "Speed", list);
    }

    void control(Flow& flow, const lesson::Lesson& lesson) {
        const lab::Report* report = this->report(lesson);
        std::vector<body::Analyte> controlled;
        if (report)
            for (const lab::Result& one : report->results)
                if (lab::controlled(session_.knowledge().bench, one.analyte))
                    controlled.push_back(one.analyte);
        if (controlled.empty()) return;
        body::Analyte which = controlled.front();
        for (const body::Analyte one : controlled)
            if (body::name(one) == charted_) which = one;
        const std::pair at{draw_, which};
        if (!charts_.contains(at))
            charts_.emplace(at,
                            view::chartAt(lesson.subject(), session_.knowledge(), draw_, which));
        const lab::Chart& chart = charts_.at(at);
        flow.card(
            view::title(chart), "invented materials of known value, run by run", [&](Flow& card) {
                drawing::ControlChartView view =
                    view::control(chart, session_.knowledge().bench, session_.settings().units);
                view.textScale = card.letters().scale;
                const double em = card.em();
                card.sheet().add(drawing::controlChart(view, card.room(20 * em)));
                card.gap(.5);
                Picker list{"chart", "charts", {}, 0, [this, controlled](std::size_t at) {
                                charted_ = body::name(controlled[at]);
                            }};
                for (std::size_t i = 0; i < controlled.size(); ++i) {
                    list.list.push_back(report::spoken(body::name(controlled[i])));
                    if (controlled[i] == which) list.at = i;
                }
                picker(card, list);
            });
    }

    static void faults(Flow& flow) {
        flow.card("What could have gone wrong here", "", [](Flow& card) {
            table(card, {{"where", 1}, {"what it does", 3}},
                  {{"needle", "slow draw from a thin vein: clots, hemolysis"},
                   {"tube", "a short EDTA tube shrinks red cells; topped up from another, salts"},
                   {"turns", "not mixed: platelets vanish into small clots"},
                   {"wait", "an hour on the clot: glucose falls, potassium may rise"},
                   {"spin", "too soon: fibrin strands block the probe"},
                   {"light", "bilirubin fades on a sunny sill"}});
            card.gap(.6);
            card.small(std::string(report::bloodCaution));
        });
    }
};

} // namespace

std::unique_ptr<Page> benchPage(Session& session) {
    return std::make_unique<Bench>(session);
}

} // namespace cistern::desk
