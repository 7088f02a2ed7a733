#pragma once
#include "lesson/action.h"
#include "lesson/case.h"
#include "lesson/marks.h"
#include "reader/posterior.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::lesson {

/// What is asked, as data; the wording belongs to the front end.
struct Questions {
    double hour = 0;                  ///< organs are asked about at this hour: the last draw taken
    std::vector<body::Tissue> organs; ///< work of each
    std::vector<body::Tissue> leaks;  ///< leak of these among them: where it has a meaning
    std::vector<std::string> explanations;
    std::vector<std::string> next;      ///< empty: not asked
    std::vector<body::Analyte> results; ///< measured, each once: which are not to be trusted?
};

/// A draw that was taken and what came back.
struct Taken {
    std::size_t draw = 0; ///< number in Case::draws, from 0
    lab::Report report;
};

/// One lesson: the single state machine that prompt, script and window drive with the same actions.
/// Starts at the bedside with every draw and test chosen. Same case, knowledge and actions: same
/// lesson, to the last bit.
class Lesson {
public:
    /// Both must outlive the lesson. Throws what body::simulate throws.
    Lesson(const Case& subject, const Knowledge& knowledge);

    /// Does an action or throws Refusal and stays as it was. Tests are chosen on the plan page,
    /// doubtful results named on the report or reading page, answers given on the reading page,
    /// commitment made there too. Pages may be turned freely (report and reading need at least one
    /// draw); cutaway and marks open with the commitment.
    void apply(const Action& action);

    const Case& subject() const { return *case_; }
    const Knowledge& knowledge() const { return *knowledge_; }
    const body::Individual& animal() const { return animal_; }
    Stage stage() const { return stage_; }
    bool committed() const { return committed_; }
    bool canUndo() const { return !committed_ && !before_.empty(); }

    /// Tests chosen for each of the case's draws; an empty list means that it is left out.
    const std::vector<std::vector<std::string>>& chosen() const { return state_.chosen; }
    /// How the blood of each of the case's draws is handled.
    const std::vector<lab::Handling>& handling() const { return state_.handling; }
    /// Reports of the draws taken, in the case's order.
    const std::vector<Taken>& taken() const { return taken_; }
    const Answers& answers() const { return state_.answers; }
    Questions questions() const;
    /// What a commitment still lacks, one sentence each; empty when it may be made.
    std::vector<std::string> missing() const;
    /// Everything done so far, in order (refused actions are not in it).
    const std::vector<Action>& actions() const { return actions_; }

    /// After the commitment only (else std::logic_error): what was true, the marks, and how the
    /// animal really stood at each of the case's draws.
    const Truth& truth() const;
    const Marks& marks() const;
    const body::Snapshot& inside(std::size_t draw) const;

    /// Puts the ideal reader's sheet among the marks: what it believes of question(*this), worked
    /// out elsewhere, so that a lesson itself waits for nobody. After the commitment only (else
    /// std::logic_error); changes no answer, no other mark and no record.
    void compare(reader::Posterior posterior);
    /// What the ideal reader believes, once compared; else null.
    const reader::Posterior* ideal() const { return ideal_ ? &*ideal_ : nullptr; }

private:
    struct State {
        std::vector<std::vector<std::string>> chosen;
        std::vector<lab::Handling> handling;
        Answers answers;
    };

    void act(const Go& action);
    void act(const Back& action);
    void act(const Undo& action);
    void act(const ChooseTests& action);
    void act(const Handle& action);
    void act(const SetLeak& action);
    void act(const SetWork& action);
    void act(const SetPoints& action);
    void act(const SetNext& action);
    void act(const SetDistrusted& action);
    void act(const Commit& action);
    void needPage(Stage one, Stage orAlso) const;
    void needDraw(std::size_t draw) const;
    void needOrgan(body::Tissue organ) const;
    void change(State next);
    void measure();

    const Case* case_;
    const Knowledge* knowledge_;
    body::Individual animal_;
    std::vector<body::Snapshot> inside_; // by draw
    State state_;
    std::vector<State> before_; // for undo
    Stage stage_ = Stage::bedside;
    bool committed_ = false;
    std::vector<Taken> taken_;
    std::vector<Action> actions_;
    std::optional<Truth> truth_;
    std::optional<Marks> marks_;
    std::optional<reader::Posterior> ideal_;
};

} // namespace cistern::lesson
