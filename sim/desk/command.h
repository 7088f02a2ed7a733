#pragma once
#include "desk/desk.h"

#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

namespace cistern::desk {

/// What the command touches besides files.
struct Surroundings {
    Outside outside;
    std::ostream& out;
    std::ostream& err;
    bool display = false; ///< a window can be shown
    /// Says where settings and lessons are kept; a script, which begins the same each time, does
    /// not ask.
    std::function<void(Outside& outside)> keep;
    /// Shows the desk in a window, for so many frames if above 0; `flood`: with the most drops.
    std::function<void(Desk& desk, int frames, bool flood)> window;
};

/// Does what a command line asks. Exit codes as of the other program: 0 done, 1 could not, 2 wrong
/// input or usage, with one sentence on `err`.
int runDesk(const std::vector<std::string>& arguments, Surroundings& around);

} // namespace cistern::desk
