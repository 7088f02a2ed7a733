// The report: each result against healthy peers.
#include "base/text.h"
#include "base/units.h"
#include "desk/pages/page.h"
#include "desk/widgets/button.h"
#include "report/text.h"
#include "report/words.h"
#include "view/strips.h"

#include <algorithm>
#include <map>

namespace cistern::desk {

using drawing::Align;
namespace theme = drawing::theme;

namespace {

drawing::Color inkOf(drawing::Meaning meaning) {
    switch (meaning) {
    case drawing::Meaning::leaks:
        return theme::leakInk;
    case drawing::Meaning::works:
        return theme::workInk;
    case drawing::Meaning::cleared:
        return theme::thoughtInk;
    case drawing::Meaning::held:
        break;
    }
    return theme::balanceInk;
}

class Report : public Page {
public:
    explicit Report(Session& session) : session_(session) {}

    void build(Flow& flow) override {
        const lesson::Lesson& lesson = session_.lesson();
        if (seen_ != session_.lessonNumber()) {
            seen_ = session_.lessonNumber();
            at_ = lesson.taken().size();
        }
        at_ = std::min(at_, lesson.taken().size() - 1);
        flow.columns({{2.35, 40, [&](Flow& left) { results(left, lesson); }},
                      {1, 16, [&](Flow& right) { besides(right, lesson); }}});
    }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"U", "conventional or SI units"}, {"R", "go on to the reading"}};
    }

private:
    Session& session_;
    std::map<std::pair<body::Kind, double>, view::Crowd> crowds_;
    std::size_t at_ = 0; ///< of the draws taken
    unsigned seen_ = 0;

    const view::Crowd& crowd(const body::Signalment& who) {
        const auto age = view::ageOfPeers(who);
        const std::pair key{who.kind, age.value_or(0)};
        const auto at = crowds_.find(key);
        if (at != crowds_.end()) return at->second;
        return crowds_.emplace(key, view::Crowd(session_.knowledge(), who.kind, age)).first->second;
    }

    lab::Units units() const { return session_.settings().units; }

    void results(Flow& flow, const lesson::Lesson& lesson) {
        const lesson::Taken& taken = lesson.taken()[at_];
        const view::Crowd& peers = crowd(lesson.subject().who);
        const auto groups = view::groups(taken.report, session_.knowledge().bench);
        const std::string when = report::shownTime(taken.report.specimen.hour);
        flow.card("Results, draw " + std::to_string(taken.draw + 1) + " at " + when,
                  "each against " + std::to_string(view::Crowd::usual) + " " + peers.name() +
                      " measured on the same bench",
                  [&](Flow& card) {
                      head(card, lesson);
                      for (const view::Strips& group : groups) {
                          card.gap(.6);
                          drawing::Type type = card.letters().strong;
                          type.color = inkOf(group.meaning);
                          card.write(report::capital(group.name), type);
                          rule(card);
                          for (const lab::Result* one : group.results)
                              row(card, lesson, *one, peers);
                      }
                      card.gap(.6);
                      outside(card, lesson, taken);
                  });
    }

    void head(Flow& card, const lesson::Lesson& lesson) {
        if (lesson.taken().size() > 1) {
            std::vector<Choice> draws;
            for (std::size_t i = 0; i < lesson.taken().size(); ++i)
                draws.push_back({"draw." + std::to_string(i + 1),
                                 "draw " + std::to_string(lesson.taken()[i].draw + 1), i == at_,
                                 [this, i] { at_ = i; }});
            choices(card, "Draw", draws);
            card.gap(.4);
        }
        const bool si = units() == lab::Units::si;
        buttons(card, {{"units", si ? "Conventional units" : "SI units",
                        [this, si] {
                            Settings next = session_.settings();
                            next.units = si ? lab::Units::conventional : lab::Units::si;
                            session_.set(next);
                        },
                        "U"}});
    }

    static void rule(Flow& card) {
        card.gap(.15);
        card.sheet().add(drawing::Shape{
            drawing::polyline({{card.x(), card.y()}, {card.x() + card.width(), card.y()}}),
            std::nullopt, drawing::Stroke{theme::line, 1, {}}});
        card.gap(.25);
    }

    /// The same analyte in the draw before, if it was measured there.
    const lab::Result* before(const lesson::Lesson& lesson, body::Analyte analyte) const {
        return at_ == 0 ? nullptr : lesson.taken()[at_ - 1].report.find(analyte);
    }

    void row(Flow& card, const lesson::Lesson& lesson, const lab::Result& one,
             const view::Crowd& peers) {
        const lab::Bench& bench = session_.knowledge().bench;
        const lab::Writing& writing = bench.method(one.analyte).writing(units());
        const double em = card.em();
        const Letters& letters = card.letters();
        const bool wide = card.width() >= 46 * em;
        const double top = card.y(), high = drawing::measure("x", letters.number).height();
        // Where each part begins, over the width of the row.
        const double name = 8.2 * em, value = 4.6 * em, unit = 4.4 * em, interval = 6.2 * em,
                     flag = 1.8 * em;
        const double middle = wide ? top + 1.55 * em - high / 2 : top + .2 * em;
        double x = card.x();
        const auto put = [&](const std::string& words, const drawing::Type& type, double width,
                             Align align) {
            drawing::Text text = drawing::hung(words, type, align,
                                               align == Align::right ? x + width - .4 * em : x, 0);
            text.at.y = middle + drawing::measure("x", letters.number).ascent;
            if (!words.empty()) card.sheet().add(text);
            x += width;
        };
        put(report::spoken(body::name(one.analyte)), letters.text, name, Align::left);
        put(lab::printed(one, bench, units()), letters.number, value, Align::right);
        put(base::shown(writing.unit), letters.small, unit, Align::left);
        put(lab::printedInterval(one, bench, units()), letters.small, interval, Align::left);
        put(one.flag == lab::Flag::high  ? "H"
            : one.flag == lab::Flag::low ? "L"
                                         : "",
            letters.strong, flag, Align::left);
        const drawing::StripView strip = shown(lesson, one, peers, letters.scale);
        const std::string standing =
            strip.peers.empty() ? "" : drawing::standing(strip, peers.name());
        const std::string words = notes(standing, one);
        if (wide) {
            const double wordsWidth = 10.5 * em;
            const Box box{x, top, card.x() + card.width() - wordsWidth - em - x, 3 * em};
            if (!strip.peers.empty()) card.sheet().add(drawing::strip(strip, box));
            drawing::Text text = drawing::hung(words, letters.small, Align::left, 0, 0, wordsWidth);
            const double tall = drawing::extent(text).height;
            Flow(card.sheet(), box.right() + em, std::max(top, top + 1.5 * em - tall / 2),
                 wordsWidth, 0)
                .small(words);
            card.room(std::max(3.1 * em, tall + .2 * em));
            return;
        }
        card.room(high + .3 * em);
        if (!strip.peers.empty()) card.sheet().add(drawing::strip(strip, card.room(3 * em)));
        card.small(words);
        card.gap(.4);
    }

    drawing::StripView shown(const lesson::Lesson& lesson, const lab::Result& one,
                             const view::Crowd& peers, double textScale) const {
        if (peers.peers(one.analyte).empty()) return {};
        drawing::StripView strip = view::strip(one, before(lesson, one.analyte), peers,
                                               session_.knowledge().bench, units());
        strip.textScale = textScale;
        return strip;
    }

    static std::string notes(std::string words, const lab::Result& one) {
        for (const std::string& note : one.notes) words += (words.empty() ? "" : "; ") + note;
        return words;
    }

    void outside(Flow& card, const lesson::Lesson& lesson, const lesson::Taken& taken) {
        int counted = 0;
        for (const lab::Result& one : taken.report.results) counted += one.interval.has_value();
        if (counted == 0) return;
        const double chance =
            lab::chanceOfOneOutside(counted, lesson.subject().who.kind, session_.knowledge().bench);
        card.small("One in twenty healthy results falls outside its own brackets. Of healthy "
                   "animals with these " +
                   std::to_string(counted) + " tests, about " + base::rounded(100 * chance, 1) +
                   " in 100 have at least one.");
    }

    void besides(Flow& flow, const lesson::Lesson& lesson) {
        const lab::Report& report = lesson.taken()[at_].report;
        flow.card("How to read a strip", "", [&](Flow& card) {
            card.small("Dots: healthy animals. Brackets: their middle 95 %. Peg: this animal, its "
                       "bar the analyzer's own doubt. Hollow peg under the line: the draw before; "
                       "its band is what could be mere wobble (reference change). A gap in the "
                       "line: beyond it the scale is tighter.");
        });
        flow.gap(1.1);
        flow.card("Before you trust it", "", [&](Flow& card) {
            card.text("Serum: " + lab::hemolysisWord(report.specimen) + " for hemolysis, " +
                      lab::icterusWord(report.specimen) + " for icterus, " +
                      lab::lipemiaWord(report.specimen) + " for lipemia.");
            card.gap(.4);
            for (const std::string& one : report.warnings) card.text("•  " + one);
            if (report.warnings.empty()) card.text("The laboratory remarks nothing else.");
            for (const std::string& one : report.notRun) {
                card.gap(.3);
                card.small("Not run: " + one);
            }
            card.gap(.7);
            buttons(card, {{"reading", "To the reading", [this] { session_.go(PageName::reading); },
                            "R", true},
                           {"film", "The film", [this] { session_.go(PageName::film); }}});
        });
        flow.gap(1.1);
        flow.card("The exam once more", "", [&](Flow& card) {
            for (const lesson::Finding& finding : lesson.subject().exam)
                if (finding.degree != "absent")
                    card.text("•  " + report::capital(report::shownFinding(finding)));
        });
    }
};

} // namespace

std::unique_ptr<Page> reportPage(Session& session) {
    return std::make_unique<Report>(session);
}

} // namespace cistern::desk
