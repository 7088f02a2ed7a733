#pragma once
#include "body/individual.h"
#include "body/insult.h"
#include "body/part.h"

#include <vector>

namespace cistern::body {

/// How finely time is cut. Steps are halvings of the longest. After a change of a drive they start
/// short and may grow to a part of the time since; while cells die fast they stay short.
struct Steps {
    double longest = 1;          ///< [h]
    double shortest = 1. / 16;   ///< first step after a change [h]
    double afterGentle = 1. / 2; ///< the same where nothing but gentle drives change [h]
    double afterBleeding =
        1. / 64;                 ///< the same where bleeding changes: the spleen moves in minutes
    double ofTimeSince = 1. / 5; ///< longest step as part of the time since the last change
    double ofDeath = 1. / 8;     ///< largest share of a tissue that may die within a step
    double ofTimeLeft = 0; ///< a first step after a change may be as long as this part of the time
                           ///< until the next look: what is long past need not be drawn finely
};

/// What to simulate: one animal, what happens to it, and when to look. Plain data.
struct Plan {
    Individual animal;
    std::vector<Window> windows;
    double from = 0;           ///< start, healthy [h]
    std::vector<double> looks; ///< hours at which to look, ascending, none before `from`
    Steps steps;
    Parts parts = allParts; ///< what is to be known, see partsFor(); nothing known depends on it
    bool single = false;    ///< at single precision, for ensembles: twice as many side by side, and
                            ///< steps may be up to a day

    /// Throws std::invalid_argument with one sentence if times are out of order or a number is not
    /// finite.
    void validate() const;
};

} // namespace cistern::body
