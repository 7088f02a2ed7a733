#include "body/plan.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

void Plan::validate() const {
    const auto refuse = [](const std::string& why) { throw std::invalid_argument("plan: " + why); };
    if (!std::isfinite(from)) refuse("the start is not a finite hour");
    // Written so that a number that is none fails too.
    if (!(steps.shortest > 0) || !(steps.longest >= steps.shortest) ||
        !std::isfinite(steps.longest))
        refuse("steps must be above zero, the longest no shorter than the shortest");
    double last = from;
    for (double look : looks) {
        if (!(look >= last) || !std::isfinite(look)) refuse("looks must ascend from the start");
        last = look;
    }
    for (const Window& w : windows) {
        if (!(w.to > w.from) || !std::isfinite(w.from) || !std::isfinite(w.to))
            refuse("a window must end after it starts");
        const double least = w.drive == Drive::thyroxine ? -1 : 0;
        if (!std::isfinite(w.value) || w.value < least)
            refuse("the drive '" + std::string(name(w.drive)) + "' must be a number from " +
                   (least < 0 ? "-1" : "zero") + " up");
        if (!addsUp(w.drive) && w.value > 1)
            refuse("the drive '" + std::string(name(w.drive)) + "' is a share, at most 1");
    }
}

} // namespace cistern::body
