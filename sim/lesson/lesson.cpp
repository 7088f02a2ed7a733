#include "lesson/lesson.h"

#include "base/text.h"
#include "lab/specimen/choices.h"
#include "lesson/ideal.h"
#include "lesson/organ.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace cistern::lesson {

namespace {

constexpr std::array<std::string_view, 6> stageNames = {"bedside", "plan",    "report",
                                                        "reading", "cutaway", "marks"};

bool has(const std::vector<std::string>& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) != list.end();
}

std::string quoted(const std::string& text) {
    return "\"" + text + "\"";
}

/// "..., perhaps you mean "bile acids"" or nothing.
std::string perhaps(const std::string& name, const std::vector<std::string>& known) {
    const std::string near = base::nearest(name, known);
    return near.empty() ? "" : " (perhaps " + quoted(near) + ")";
}

void checkBand(const Band& band, double least, double most, const std::string& what,
               const std::string& unit) {
    const auto inside = [&](double x) { return x >= least && x <= most; }; // false for NaN
    if (!inside(band.best) || !inside(band.low) || !inside(band.high))
        throw Refusal("The " + what + " must lie between " + base::significant(least, 4) + " and " +
                      base::significant(most, 4) + " " + unit + ".");
    if (!(band.low <= band.best && band.best <= band.high))
        throw Refusal("The best value of the " + what + " must lie inside its own band: low " +
                      base::significant(band.low, 4) + ", best " + base::significant(band.best, 4) +
                      ", high " + base::significant(band.high, 4) + " " + unit + ".");
}

std::vector<body::Analyte> measured(const std::vector<Taken>& taken) {
    std::vector<body::Analyte> out;
    for (const Taken& draw : taken)
        for (const lab::Result& result : draw.report.results)
            if (std::find(out.begin(), out.end(), result.analyte) == out.end())
                out.push_back(result.analyte);
    return out;
}

} // namespace

std::string_view name(Stage stage) {
    return stageNames[static_cast<std::size_t>(stage)];
}

std::optional<Stage> stageNamed(std::string_view name) {
    for (std::size_t i = 0; i < stageNames.size(); ++i)
        if (stageNames[i] == name) return static_cast<Stage>(i);
    return std::nullopt;
}

std::string pointsText(double points) {
    std::string text = base::rounded(points, 0.01);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

Lesson::Lesson(const Case& subject, const Knowledge& knowledge)
    : case_(&subject),
      knowledge_(&knowledge),
      animal_(patient(subject, knowledge)),
      inside_(atDraws(subject, knowledge)) {
    for (const Draw& draw : subject.draws) {
        state_.chosen.push_back(draw.tests);
        state_.handling.push_back(draw.handling);
    }
    measure();
}

void Lesson::apply(const Action& action) {
    std::visit([this](const auto& one) { act(one); }, action);
    actions_.push_back(action);
}

Questions Lesson::questions() const {
    Questions ask;
    for (const Taken& draw : taken_) ask.hour = draw.report.specimen.hour;
    ask.organs = case_->organs;
    for (const body::Tissue one : case_->organs)
        if (organOf(one).leaks) ask.leaks.push_back(one);
    ask.explanations = case_->explanations;
    ask.next = case_->next;
    ask.results = measured(taken_);
    return ask;
}

std::vector<std::string> Lesson::missing() const {
    std::vector<std::string> lacks;
    if (taken_.empty()) lacks.push_back("No draw is taken: choose at least one on the plan page.");
    for (const body::Tissue tissue : case_->organs) {
        const auto at = state_.answers.organs.find(tissue);
        const OrganAnswer answer = at == state_.answers.organs.end() ? OrganAnswer{} : at->second;
        const std::string who(body::name(tissue));
        if (!answer.leak && organOf(tissue).leaks)
            lacks.push_back("The leak of the " + who + " has no answer yet.");
        if (!answer.work) lacks.push_back("The work of the " + who + " has no answer yet.");
    }
    if (!case_->explanations.empty()) {
        double sum = 0;
        for (const auto& [explanation, points] : state_.answers.points) sum += points;
        if (std::abs(sum - 100) > pointsSlack)
            lacks.push_back("The points over the explanations add up to " + pointsText(sum) +
                            "; they must add up to 100.");
    }
    if (!case_->next.empty() && !state_.answers.next)
        lacks.push_back("The next step is not chosen yet.");
    return lacks;
}

const Truth& Lesson::truth() const {
    if (!committed_) throw std::logic_error("the truth is told after the commitment");
    return *truth_;
}

const Marks& Lesson::marks() const {
    if (!committed_) throw std::logic_error("marks are given after the commitment");
    return *marks_;
}

void Lesson::compare(reader::Posterior posterior) {
    if (!committed_) throw std::logic_error("readings are compared after the commitment");
    marks_->ideal = idealSheet(posterior, *case_, *truth_, measured(taken_));
    ideal_ = std::move(posterior);
}

const body::Snapshot& Lesson::inside(std::size_t draw) const {
    if (!committed_) throw std::logic_error("the animal is opened after the commitment");
    return inside_.at(draw);
}

void Lesson::act(const Go& action) {
    if (action.to >= Stage::cutaway && !committed_)
        throw Refusal("The " + std::string(name(action.to)) +
                      " page opens once you have committed to a reading.");
    if (action.to > Stage::plan && taken_.empty())
        throw Refusal("Nothing was drawn: choose at least one draw and one of its tests first.");
    stage_ = action.to;
}

void Lesson::act(const Back&) {
    if (stage_ == Stage::bedside) throw Refusal("This is the first page.");
    stage_ = static_cast<Stage>(static_cast<int>(stage_) - 1);
}

void Lesson::act(const Undo&) {
    if (committed_) throw Refusal("You have committed to your reading; it stands.");
    if (before_.empty()) throw Refusal("There is nothing to take back.");
    state_ = std::move(before_.back());
    before_.pop_back();
    measure();
    if (taken_.empty()) stage_ = std::min(stage_, Stage::plan);
}

void Lesson::act(const ChooseTests& action) {
    needPage(Stage::plan, Stage::plan);
    needDraw(action.draw);
    const std::vector<std::string>& offered = case_->draws[action.draw].tests;
    for (const std::string& test : action.tests)
        if (!has(offered, test))
            throw Refusal("The test " + quoted(test) + " is not offered at draw " +
                          std::to_string(action.draw + 1) + perhaps(test, offered) +
                          "; offered: " + base::listed(offered, "and") + ".");
    State next = state_;
    next.chosen[action.draw].clear();
    for (const std::string& test : offered) // the case's order, each once
        if (has(action.tests, test)) next.chosen[action.draw].push_back(test);
    change(std::move(next));
}

void Lesson::act(const Handle& action) {
    needPage(Stage::plan, Stage::plan);
    needDraw(action.draw);
    if (case_->draws[action.draw].handedIn)
        throw Refusal("That specimen was handed in; how it was taken and treated cannot be "
                      "changed.");
    State next = state_;
    try {
        next.handling[action.draw] =
            lab::handledOtherwise(next.handling[action.draw], action.what, action.how);
    } catch (const std::invalid_argument& error) {
        throw Refusal(error.what());
    }
    change(std::move(next));
}

void Lesson::act(const SetLeak& action) {
    needPage(Stage::reading, Stage::reading);
    needOrgan(action.organ);
    if (!organOf(action.organ).leaks)
        throw Refusal("A leak of the " + std::string(body::name(action.organ)) +
                      " has no meaning; only the work is asked for.");
    checkBand(action.fold, leastLeak, mostLeak,
              "leak of the " + std::string(body::name(action.organ)), "fold");
    State next = state_;
    next.answers.organs[action.organ].leak = action.fold;
    change(std::move(next));
}

void Lesson::act(const SetWork& action) {
    needPage(Stage::reading, Stage::reading);
    needOrgan(action.organ);
    checkBand(action.percent, leastWork, mostWork,
              "work of the " + std::string(body::name(action.organ)), "%");
    State next = state_;
    next.answers.organs[action.organ].work = action.percent;
    change(std::move(next));
}

void Lesson::act(const SetPoints& action) {
    needPage(Stage::reading, Stage::reading);
    for (const auto& [explanation, points] : action.points) {
        if (!has(case_->explanations, explanation))
            throw Refusal(quoted(explanation) + " is not on the list of explanations" +
                          perhaps(explanation, case_->explanations) + ".");
        if (!(points >= 0 && points <= 100))
            throw Refusal("The points for " + quoted(explanation) + " must lie between 0 and 100.");
    }
    State next = state_;
    next.answers.points = action.points;
    change(std::move(next));
}

void Lesson::act(const SetNext& action) {
    needPage(Stage::reading, Stage::reading);
    if (!has(case_->next, action.next))
        throw Refusal(quoted(action.next) + " is not on the list of next steps" +
                      perhaps(action.next, case_->next) + ".");
    State next = state_;
    next.answers.next = action.next;
    change(std::move(next));
}

void Lesson::act(const SetDistrusted& action) {
    needPage(Stage::report, Stage::reading);
    const std::vector<body::Analyte> results = measured(taken_);
    for (const body::Analyte analyte : action.analytes)
        if (std::find(results.begin(), results.end(), analyte) == results.end())
            throw Refusal("There is no result for " + std::string(body::name(analyte)) +
                          " to distrust.");
    State next = state_;
    next.answers.distrusted.clear();
    for (const body::Analyte analyte : results) // the report's order, each once
        if (std::find(action.analytes.begin(), action.analytes.end(), analyte) !=
            action.analytes.end())
            next.answers.distrusted.push_back(analyte);
    change(std::move(next));
}

void Lesson::act(const Commit&) {
    if (committed_) throw Refusal("You have committed to your reading already; it stands.");
    needPage(Stage::reading, Stage::reading);
    const std::vector<std::string> lacks = missing();
    if (!lacks.empty()) throw Refusal(lacks.front());

    Truth truth = truthOf(*case_, inside_[taken_.back().draw]);
    std::vector<lab::Report> reports;
    for (const Taken& draw : taken_) reports.push_back(draw.report);
    marks_ = lesson::marks(state_.answers, *case_, *knowledge_, truth, reports);
    truth_ = std::move(truth);
    committed_ = true;
    stage_ = Stage::cutaway;
}

void Lesson::needPage(Stage one, Stage orAlso) const {
    if (committed_) throw Refusal("You have committed to your reading; it stands.");
    if (stage_ == one || stage_ == orAlso) return;
    const std::string pages = one == orAlso
                                  ? std::string(name(one))
                                  : std::string(name(one)) + " or " + std::string(name(orAlso));
    throw Refusal("That is done on the " + pages + " page; this is the " +
                  std::string(name(stage_)) + " page.");
}

void Lesson::needDraw(std::size_t draw) const {
    if (draw >= case_->draws.size())
        throw Refusal("There is no draw " + std::to_string(draw + 1) + "; the case offers " +
                      std::to_string(case_->draws.size()) + ".");
}

void Lesson::needOrgan(body::Tissue organ) const {
    if (std::find(case_->organs.begin(), case_->organs.end(), organ) == case_->organs.end())
        throw Refusal("This case does not ask about the " + std::string(body::name(organ)) + ".");
}

void Lesson::change(State next) {
    const bool otherwise = next.chosen != state_.chosen || next.handling != state_.handling;
    before_.push_back(std::move(state_));
    state_ = std::move(next);
    if (!otherwise) return;
    measure();
    // A doubt about a result that is no longer measured has nothing left to doubt.
    const std::vector<body::Analyte> results = measured(taken_);
    std::erase_if(state_.answers.distrusted, [&](body::Analyte analyte) {
        return std::find(results.begin(), results.end(), analyte) == results.end();
    });
}

void Lesson::measure() {
    taken_.clear();
    for (std::size_t draw = 0; draw < case_->draws.size(); ++draw)
        if (!state_.chosen[draw].empty())
            taken_.push_back({draw, report(*case_, *knowledge_, animal_, inside_[draw], draw,
                                           state_.chosen[draw], state_.handling[draw])});
}

} // namespace cistern::lesson
