#pragma once
#include "base/file.h"

#include <iosfwd>
#include <stdexcept>
#include <string>
#include <vector>

namespace cistern::terminal {

/// All that a command touches outside itself, so that a test can stand in for each part.
struct World {
    std::istream& in;
    std::ostream& out; ///< what was asked for
    std::ostream& err; ///< talk: faults, progress, where a file went
    base::Files& files;
    std::vector<std::string> data; ///< where assets/ and scenarios/ may be, for base::dataFolder
    bool interactive = false;      ///< a person sits at both ends: questions may be asked
    bool styled = false;           ///< headings may be set in bold
    bool progress = false;         ///< a person may watch `err`
};

/// Wrong use of the program, one sentence. Exit code 2, as for faults in a file.
class UsageError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Exit codes, the same for every command.
inline constexpr int done = 0, couldNot = 1, wrongInput = 2;

} // namespace cistern::terminal
