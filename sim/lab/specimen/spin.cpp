#include "lab/specimen/spin.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

double fibrinLeft(const SpinLaws& laws, double clot) {
    return std::max(0., 1 - clot / laws.fibrinUntil);
}

double afloat(const SpinLaws& laws, const Tube& tube) {
    const auto left = [&](const Tube& one) {
        return std::exp(-one.rcf * one.minutes / laws.settling);
    };
    return std::max(0., left(tube) - left(usualTube(tube.name)));
}

double takenUp(const SpinLaws& laws, double fibrin, base::Chance& probe) {
    return 1 - laws.fibrinLoss * fibrin * probe.uniform();
}

} // namespace cistern::lab
