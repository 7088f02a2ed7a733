#pragma once
#include "lesson/answers.h"

#include <stdexcept>
#include <variant>

namespace cistern::lesson {

/// The pages of a lesson, in order. `cutaway` and `marks` open with the commitment; afterwards
/// every page may still be looked at, and none changes.
enum class Stage { bedside, plan, report, reading, cutaway, marks };
std::string_view name(Stage stage); // "bedside", "plan", ...
std::optional<Stage> stageNamed(std::string_view name);

/// Turn to a page. Page by page or several at once.
struct Go {
    Stage to;
    bool operator==(const Go&) const = default;
};
/// Turn back one page.
struct Back {
    bool operator==(const Back&) const = default;
};
/// Take back the last change (not a turned page).
struct Undo {
    bool operator==(const Undo&) const = default;
};
/// Take a draw of the case with these of its tests; no tests: leave the draw out.
struct ChooseTests {
    std::size_t draw = 0; ///< number in Case::draws, from 0
    std::vector<std::string> tests;
    bool operator==(const ChooseTests&) const = default;
};
/// Do one thing about a draw's blood otherwise: "serum clot", "10 min" (lab/specimen/choices.h).
struct Handle {
    std::size_t draw = 0; ///< as in ChooseTests
    std::string what, how;
    bool operator==(const Handle&) const = default;
};
struct SetLeak {
    body::Tissue organ{};
    Band fold;
    bool operator==(const SetLeak&) const = default;
};
struct SetWork {
    body::Tissue organ{};
    Band percent;
    bool operator==(const SetWork&) const = default;
};
/// All points at once; explanations left out get none.
struct SetPoints {
    std::map<std::string, double> points;
    bool operator==(const SetPoints&) const = default;
};
struct SetNext {
    std::string next;
    bool operator==(const SetNext&) const = default;
};
/// Which results are not to be trusted, all at once.
struct SetDistrusted {
    std::vector<body::Analyte> analytes;
    bool operator==(const SetDistrusted&) const = default;
};
/// Stand by the reading. From here on nothing changes.
struct Commit {
    bool operator==(const Commit&) const = default;
};

/// Everything a learner can do in a lesson, as plain data.
using Action = std::variant<Go, Back, Undo, ChooseTests, Handle, SetLeak, SetWork, SetPoints,
                            SetNext, SetDistrusted, Commit>;

/// An action that cannot be done now. what() is one sentence for the learner; the lesson stands as
/// it stood.
class Refusal : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

} // namespace cistern::lesson
