#pragma once
#include "lesson/lesson.h"

#include <string>
#include <vector>

namespace cistern::lesson {

/// A heading and plain sentences under it, unwrapped, UTF-8.
struct Paragraph {
    std::string heading; ///< "The liver", "What the tests could tell" ...
    std::vector<std::string> sentences;
};

/// What the case teaches, built from its own numbers: per organ why the level stands where it does
/// at this leak and this work, how fast it drains, and how the learner's bands lay; then what the
/// results and the exam could tell, what settled it, what the ideal reader made of it (once it was
/// compared), the trap and the debrief. After the commitment
/// only (else std::logic_error).
std::vector<Paragraph> feedback(const Lesson& lesson, lab::Units units);

} // namespace cistern::lesson
