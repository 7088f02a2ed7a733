#pragma once
#include "lesson/lesson.h"
#include "terminal/page.h"

#include <string>

namespace cistern::terminal {

// The pages of a lesson, as text. They only show; nothing here asks or decides.

/// "Bramble, dog, spayed female, 9 y, 18 kg, body condition 4 of 9, seed 4711".
std::string signalment(const lesson::Case& one);
/// "ascites (moderate)", "body temperature 38.4 °C"; without a word for absence.
std::string shownFinding(const lesson::Finding& finding);
/// A number without trailing zeros, three significant digits.
std::string shownNumber(double value);
/// "Draw 2, 72 h, jugular vein, fasted 12 h".
std::string shownDraw(const lesson::Draw& draw, std::size_t number);

void bedsidePage(Page& page, const lesson::Case& one);
/// The tests of a draw, numbered, each with what it measures or why it is not run.
void drawPage(Page& page, const lesson::Lesson& lesson, std::size_t draw);
void handlingPage(Page& page, const lesson::Lesson& lesson, std::size_t draw);
void reportPage(Page& page, std::ostream& out, const lesson::Lesson& lesson, lab::Units units);
/// What the lesson asks, for someone who cannot be asked.
void questionsPage(Page& page, const lesson::Lesson& lesson);
/// What has been answered so far.
void readingPage(Page& page, const lesson::Lesson& lesson);
/// After the commitment: leak and work, truth against answer, and the way there.
void cutawayPage(Page& page, const lesson::Lesson& lesson, lab::Units units);
void marksPage(Page& page, const lesson::Lesson& lesson, lab::Units units);

// The questions in words, shared by the pages and the prompt.
std::string leakQuestion(body::Tissue organ, double hour);
std::string workQuestion(body::Tissue organ, double hour);
extern const std::string_view bandWords, pointsQuestion, nextQuestion, distrustQuestion;

} // namespace cistern::terminal
