#pragma once
#include "body/individual.h"
#include "body/insult.h"

#include <vector>

namespace cistern::body {

/// How finely time is cut. Wherever a drive changes the first steps are short and then double.
struct Steps {
    double longest = 1.0;     ///< [h]
    double shortest = 0.0625; ///< first step after a change [h]
};

/// What to simulate: one animal, what happens to it, and when to look. Plain data.
struct Plan {
    Individual animal;
    std::vector<Window> windows;
    double from = 0;           ///< start, healthy [h]
    std::vector<double> looks; ///< hours at which to look, ascending, none before `from`
    Steps steps;

    /// Throws std::invalid_argument with one sentence if times are out of order or a number is not
    /// finite.
    void validate() const;
};

} // namespace cistern::body
