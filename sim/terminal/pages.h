#pragma once
#include "lesson/lesson.h"
#include "terminal/page.h"

#include <string>

namespace cistern::terminal {

// The pages of a lesson, as text. They only show; nothing here asks or decides.

void bedsidePage(Page& page, const lesson::Case& one);
/// The tests of a draw, numbered, each with what it measures or why it is not run.
void drawPage(Page& page, const lesson::Lesson& lesson, std::size_t draw);
void handlingPage(Page& page, const lesson::Lesson& lesson, std::size_t draw);
void reportPage(Page& page, std::ostream& out, const lesson::Lesson& lesson, lab::Units units);
/// The films of the draws taken, area by area.
void filmPage(Page& page, const lesson::Lesson& lesson);
/// One film, area by area.
void filmParts(Page& page, const lab::BloodCount& blood);
/// What the lesson asks, for someone who cannot be asked.
void questionsPage(Page& page, const lesson::Lesson& lesson);
/// What has been answered so far.
void readingPage(Page& page, const lesson::Lesson& lesson);
/// After the commitment: leak and work, truth against answer, and the way there.
void cutawayPage(Page& page, const lesson::Lesson& lesson, lab::Units units);
void marksPage(Page& page, const lesson::Lesson& lesson, lab::Units units);

} // namespace cistern::terminal
