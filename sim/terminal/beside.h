#pragma once
#include "lesson/beside.h"
#include "terminal/world.h"

namespace cistern::terminal {

/// Puts the ideal reader's sheet beside the marks. Where that takes its time, whoever watches is
/// told so.
void compare(World& world, lesson::ReaderBeside& reader, lesson::Lesson& lesson);

} // namespace cistern::terminal
