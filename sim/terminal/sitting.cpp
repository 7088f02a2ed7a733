#include "terminal/sitting.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/specimen/choices.h"
#include "lesson/organ.h"
#include "report/trace.h"
#include "report/words.h"
#include "terminal/beside.h"
#include "terminal/input.h"
#include "terminal/pages.h"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace cistern::terminal {

using lesson::Stage;

bool Sitting::complete(const std::map<std::string, double>& points) {
    constexpr double slack = 1e-6; // typed by hand
    double sum = 0;
    for (const auto& [name, share] : points) sum += share;
    return std::abs(sum - 100) <= slack;
}

Sitting::Sitting(World& world, Page& page, lesson::Lesson& lesson, lab::Units& units,
                 std::function<void()> save)
    : world_(world),
      lesson_(lesson),
      units_(units),
      save_(std::move(save)),
      page_(page),
      prompt_(world) {
    addSteps();
    prompt_.sides({{"r", "shows the report again", [this] { showReport(); }},
                   {"t", "shows what the photometer saw", [this] { showTrace(); }},
                   {"f", "tells what is seen on the blood film", [this] { showFilm(); }},
                   {"u", "switches units", [this] {
                        units_ =
                            units_ == lab::Units::si ? lab::Units::conventional : lab::Units::si;
                        showReport();
                    }}});
}

void Sitting::addSteps() {
    const auto never = [] { return false; };
    steps_.push_back({Stage::bedside, [this] { bedside(); }, never});
    for (std::size_t d = 0; d < lesson_.subject().draws.size(); ++d)
        steps_.push_back({Stage::plan, [this, d] { tests(d); }, never});
    steps_.push_back({Stage::report, [this] { report(); }, never});
    const auto answer = [this](body::Tissue organ) {
        const auto at = lesson_.answers().organs.find(organ);
        return at == lesson_.answers().organs.end() ? lesson::OrganAnswer{} : at->second;
    };
    for (const body::Tissue organ : lesson_.subject().organs) {
        if (lesson::organOf(organ).leaks)
            steps_.push_back({Stage::reading, [this, organ] { leak(organ); },
                              [=] { return answer(organ).leak.has_value(); }});
        steps_.push_back({Stage::reading, [this, organ] { workShare(organ); },
                          [=] { return answer(organ).work.has_value(); }});
    }
    if (!lesson_.subject().explanations.empty())
        steps_.push_back({Stage::reading, [this] { points(); },
                          [this] { return complete(lesson_.answers().points); }});
    if (!lesson_.subject().next.empty())
        steps_.push_back({Stage::reading, [this] { next(); },
                          [this] { return lesson_.answers().next.has_value(); }});
    steps_.push_back({Stage::reading, [this] { distrust(); }, never});
    steps_.push_back({Stage::reading, [this] { review(); }, never});
}

std::size_t Sitting::resumed() const {
    std::size_t step = 0;
    while (step + 1 < steps_.size() && steps_[step].stage != lesson_.stage()) ++step;
    if (lesson_.stage() == Stage::reading)
        while (step + 1 < steps_.size() && steps_[step].answered()) ++step;
    return step;
}

void Sitting::work() {
    at_ = lesson_.committed() ? steps_.size() : resumed();
    if (at_ > 0 && at_ < steps_.size())
        page_.paragraph("Going on with " + lesson_.subject().title +
                        "; b goes back, r shows the "
                        "report.");
    while (at_ < steps_.size()) {
        try {
            if (lesson_.stage() != steps_[at_].stage) lesson_.apply(lesson::Go{steps_[at_].stage});
            if (lesson_.stage() == Stage::reading) reader_.begin(lesson_);
            steps_[at_].ask();
            save_();
            ++at_;
        } catch (const StepBack&) {
            if (at_ == 0)
                prompt_.object("This is the first page.");
            else
                --at_;
        } catch (const lesson::Refusal& refusal) {
            prompt_.object(refusal.what());
            if (lesson_.taken().empty()) at_ = 1; // the first draw
        }
    }
    close();
}

/// Answers that change nothing are left out of the record.
void Sitting::unlessSame(bool same, const lesson::Action& action) {
    if (!same) lesson_.apply(action);
}

void Sitting::showReport() {
    if (lesson_.stage() < Stage::report)
        prompt_.object(std::string("Units are ") +
                       (units_ == lab::Units::si ? "SI" : "conventional") +
                       " from here on. The report comes after the draws.");
    else
        reportPage(page_, world_.out, lesson_, units_);
}

void Sitting::showFilm() {
    if (lesson_.stage() < Stage::report)
        prompt_.object("No film was made yet.");
    else
        filmPage(page_, lesson_);
}

void Sitting::showTrace() {
    if (lesson_.stage() < Stage::report) {
        prompt_.object("Nothing was measured yet.");
        return;
    }
    const std::string said = prompt_.ask("  Trace of which result", "none",
                                         "A result as the report names it, such as ALT.");
    if (said == "none") return;
    const auto analyte = body::analyteNamed(said);
    if (!analyte) {
        prompt_.object("No result is called \"" + said + "\".");
        return;
    }
    for (const lesson::Taken& draw : lesson_.taken())
        world_.out << report::traceChart(draw.report, *analyte, lesson_.knowledge().bench);
}

void Sitting::bedside() {
    bedsidePage(page_, lesson_.subject());
    std::string help = "Read the patient, the history and the exam: they decide what a number "
                       "means. Next you choose the draws and their tests.";
    for (const lesson::Finding& finding : lesson_.subject().exam)
        for (const lesson::FindingKind& kind : lesson_.knowledge().findings)
            if (kind.name == finding.name)
                help += "\n\n" + report::capital(kind.name) + ": " + kind.meaning;
    prompt_.goOn(help);
}

void Sitting::tests(std::size_t draw) {
    const std::vector<std::string>& offered = lesson_.subject().draws[draw].tests;
    drawPage(page_, lesson_, draw);
    if (draw == 0) page_.bloodCaution();
    std::string chosen;
    for (std::size_t t = 0; t < offered.size(); ++t) {
        const auto& now = lesson_.chosen()[draw];
        if (std::find(now.begin(), now.end(), offered[t]) != now.end())
            chosen += (chosen.empty() ? "" : " ") + std::to_string(t + 1);
    }
    for (;;) {
        const std::string said =
            prompt_.ask("Which tests", chosen.empty() ? "none" : chosen,
                        "Numbers parted by blanks, \"all\", or \"none\" to leave this draw out. "
                        "Tests that are not run here cost nothing and tell nothing. \"h\" shows "
                        "how the blood is taken and treated, and lets you do it otherwise.");
        if (said == "h") {
            handling(draw);
            continue;
        }
        try {
            std::vector<std::string> tests;
            if (said != "none" && said != "0")
                for (const std::size_t t : readChoices(said, offered)) tests.push_back(offered[t]);
            unlessSame(tests == lesson_.chosen()[draw], lesson::ChooseTests{draw, tests});
            return;
        } catch (const UsageError& error) {
            prompt_.object(error.what());
        }
    }
}

void Sitting::handling(std::size_t draw) {
    handlingPage(page_, lesson_, draw);
    if (lesson_.subject().draws[draw].handedIn) return;
    for (;;) {
        const std::string said = prompt_.ask(
            "What is done otherwise (\"serum clot 10 min\")", "done",
            "The name of a line and what it shall be instead, as in \"edta inversions 8\" or "
            "\"order citrate, serum, edta\". Each change is made at once; the report shows what it "
            "did.");
        if (said == "done") return;
        std::string name;
        for (const lab::Choice& one : lab::choices(lesson_.handling()[draw]))
            if (said.starts_with(one.name + " ") && one.name.size() > name.size()) name = one.name;
        const std::size_t blank = name.empty() ? said.rfind(' ') : name.size();
        try {
            lesson_.apply(lesson::Handle{draw, said.substr(0, blank),
                                         blank < said.size() ? said.substr(blank + 1) : ""});
            handlingPage(page_, lesson_, draw);
            save_();
        } catch (const lesson::Refusal& refusal) {
            prompt_.object(refusal.what());
        }
    }
}

void Sitting::report() {
    reportPage(page_, world_.out, lesson_, units_);
    prompt_.goOn("The laboratory's results. H and L stand beside results outside the healthy "
                 "middle 95 %; one healthy result in twenty lies outside. u switches units. Next "
                 "you commit to a reading.");
}

void Sitting::review() {
    const std::size_t answers = steps_.size() - 1 - first();
    for (;;) {
        readingPage(page_, lesson_);
        for (const std::string& lack : lesson_.missing()) page_.paragraph(lack);
        page_.blank();
        const std::string text = prompt_.ask(
            "A number changes that answer; \"commit\" stands by them all", "",
            "Once committed nothing can be changed: the animal is opened and the answers are "
            "marked. Until then every answer may still be changed.");
        if (text == "commit" || text == "c") {
            try {
                lesson_.apply(lesson::Commit{});
                return;
            } catch (const lesson::Refusal& refusal) {
                prompt_.object(refusal.what());
            }
            continue;
        }
        const auto number = base::readQuantity(text);
        const double wanted = number && number->unit.empty() ? number->value : 0;
        if (!(wanted >= 1 && wanted <= static_cast<double>(answers) &&
              wanted == std::floor(wanted))) {
            prompt_.object("\"" + text + "\" is neither \"commit\" nor a number from 1 to " +
                           std::to_string(answers) + ".");
            continue;
        }
        try {
            at_ = first() + static_cast<std::size_t>(wanted) - 1;
            steps_[at_].ask();
            save_();
        } catch (const StepBack&) { // the answer stays as it was
        }
        at_ = steps_.size() - 1;
    }
}

void Sitting::close() {
    compare(world_, reader_, lesson_);
    cutawayPage(page_, lesson_, units_);
    try {
        prompt_.goOn("The truth beside your answer. Next come the marks and why.");
    } catch (const StepBack&) { // committed: there is no way back
    }
    marksPage(page_, lesson_, units_);
}

std::string Sitting::place() const {
    return "Question " + std::to_string(at_ - first() + 1) + " of " +
           std::to_string(steps_.size() - 1 - first()) + ": "; // the review is no question
}

/// The first step of the reading.
std::size_t Sitting::first() const {
    const auto asked = [](const Step& step) { return step.stage == Stage::reading; };
    return static_cast<std::size_t>(std::find_if(steps_.begin(), steps_.end(), asked) -
                                    steps_.begin());
}

} // namespace cistern::terminal
