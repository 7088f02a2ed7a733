#pragma once
#include "base/fault.h"
#include "lesson/lesson.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace cistern::lesson {

/// The record of a lesson: format version, case and seed, every action in order, and the marks once
/// committed. Numbers survive to the last bit. The ideal reader's marks are left out: they come
/// from an ensemble, and whoever looks at a record again has them worked out again.
nlohmann::json toJson(const Lesson& lesson);

/// A lesson done again from its record.
struct Replay {
    Lesson lesson;
    bool sameMarks; ///< false if the record holds other marks: another version or a changed file
};

/// Does a recorded lesson again. `file` names the record in faults. Throws InputError (kinds
/// syntax, unknownKey, missingKey, contradiction ...), each fault with its path in the JSON as
/// subject; a record of another case or seed is a contradiction.
Replay replay(const std::string& text, const std::string& file, const Case& subject,
              const Knowledge& knowledge);

/// Answers for a scripted lesson:
///     {"cistern answers": 1,
///      "draws": [1, {"draw": 2, "tests": ["chemistry"]}],      left out: every draw, every test
///      "organs": {"liver": {"leak": {"best": 2, "low": 1, "high": 4},
///                           "work": {"best": "30 %", "low": 10, "high": 50}}},
///      "points": {"nothing wrong": 60, ...}, "next": "...", "distrust": ["ALT"]}
/// Returns the actions of the whole lesson, commitment included, that a fresh lesson accepts.
/// Throws InputError with every fault, each with its path in the JSON as subject.
std::vector<Action> readAnswers(const std::string& text, const std::string& file,
                                const Case& subject, const Knowledge& knowledge);

/// A short example of such answers for a case, as text to be shown to who asks how to answer.
std::string exampleAnswers(const Lesson& lesson);

} // namespace cistern::lesson
