#pragma once
#include "lesson/film_tally.h"

#include <optional>
#include <string>
#include <vector>

/// Tallies of a film as they are kept on disk beside the lesson.
namespace cistern::desk {

/// What was counted on one film: tallies that were marked, and the one that is open.
struct FilmWork {
    std::vector<lesson::FilmTally> before;
    lesson::FilmTally tally = lesson::FilmTally();
    bool marked = false; ///< the open one
};

/// Tells slides apart: the same for the same slide, on every run.
std::string fingerprint(const lab::Slide& slide);

/// As JSON. Numbers are bound to the slide by its fingerprint.
std::string toText(const FilmWork& work, const lab::Slide& slide);
/// The same read back; nothing for another slide, or for a text that is none.
std::optional<FilmWork> filmWork(const std::string& text, const lab::Slide& slide);

} // namespace cistern::desk
