#include "terminal/beside.h"

#include <ostream>

namespace cistern::terminal {

namespace {

constexpr std::chrono::milliseconds patience{500}; // before a word about waiting
const std::string waiting = "The ideal reader is still weighing ...";

} // namespace

void compare(World& world, lesson::ReaderBeside& reader, lesson::Lesson& lesson) {
    if (lesson.ideal()) return;
    reader.begin(lesson);
    const bool late = world.progress && !reader.waitFor(patience);
    if (late) world.err << waiting << std::flush;
    reader.compare(lesson);
    if (late) world.err << "\r" << std::string(waiting.size(), ' ') << "\r" << std::flush;
}

} // namespace cistern::terminal
