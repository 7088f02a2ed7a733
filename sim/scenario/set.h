#pragma once
#include "base/file.h"

#include <string>
#include <vector>

namespace cistern::scenario {

/// One case of a set.
struct SetCase {
    std::string name;  ///< bare: "the_biscuit_thief"
    std::string path;  ///< of its file
    double weight = 1; ///< in the mark of the whole, > 0
    int minutes = 0;   ///< time limit; 0: the case's own
};

/// Cases that belong together: a class hour, a quiz. Plain data.
struct Set {
    std::string file, name, title;
    std::string opening; ///< read out before the first case
    int minutes = 0;     ///< for all of it; 0: no limit
    int seats = 1;       ///< learners, each with an animal of its own
    std::vector<SetCase> cases;
};

/// The key that a set begins with, and no case has.
inline constexpr const char* setKey = "cistern set";

/// True if this text is that of a set, sound or not, and not of a case: its first key says so.
bool isSet(const std::string& file, const std::string& text);

/// Reads a set. Its cases are looked for beside it, in the folder above it, and then in `shelves`.
/// Throws InputError with every fault of the file; the cases' own files are not read.
Set readSet(const base::Files& files, const std::string& path,
            const std::vector<std::string>& shelves);

} // namespace cistern::scenario
