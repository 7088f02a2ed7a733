#include "lab/specimen/handling.h"

#include "lab/specimen/choices.h"

#include <algorithm>

namespace cistern::lab {

const Tube* Handling::tube(std::string_view wanted) const {
    const auto found =
        std::find_if(tubes.begin(), tubes.end(), [&](const Tube& t) { return t.name == wanted; });
    return found == tubes.end() ? nullptr : &*found;
}

Tube usualTube(const std::string& name) {
    Tube tube;
    tube.name = name;
    tube.inversions = name == "serum" ? 5 : name == "citrate" ? 4 : 8; // common practice
    return tube;
}

double rcf(double radius, double speed) {
    constexpr double perCmAndTurns = 1.118e-5; // 4 pi^2 / (3600 * 980.665)
    return perCmAndTurns * radius * speed * speed;
}

std::string_view name(Light light) {
    return lights[static_cast<std::size_t>(light)];
}

std::optional<Light> lightNamed(std::string_view wanted) {
    for (std::size_t i = 0; i < lights.size(); ++i)
        if (lights[i] == wanted) return static_cast<Light>(i);
    return std::nullopt;
}

} // namespace cistern::lab
