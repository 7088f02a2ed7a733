#include "body/red_sign.h"

namespace cistern::body {

namespace {

constexpr std::array<std::string_view, redSignCount> names{
    "spherocytes",  "agglutinated", "Heinz bodies", "Howell-Jolly bodies", "echinocytes",
    "acanthocytes", "target cells", "schistocytes", "keratocytes"};

} // namespace

std::string_view name(RedSign sign) {
    return names[static_cast<std::size_t>(sign)];
}

const std::array<RedSign, redSignCount>& redSigns() {
    static const std::array<RedSign, redSignCount> all = [] {
        std::array<RedSign, redSignCount> signs{};
        for (std::size_t i = 0; i < redSignCount; ++i) signs[i] = static_cast<RedSign>(i);
        return signs;
    }();
    return all;
}

} // namespace cistern::body
