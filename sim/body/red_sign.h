#pragma once
#include <array>
#include <optional>
#include <string_view>

namespace cistern::body {

/// What an illness leaves on red cells for a stained film to show and no level tells: whether cells
/// break because antibodies, oxidants or torn vessels break them is known to the case alone.
enum class RedSign {
    spherocytes,
    agglutinated,
    heinz,
    howellJolly,
    echinocytes,
    acanthocytes,
    targets,
    schistocytes,
    keratocytes
};
inline constexpr std::size_t redSignCount = 9;

/// As files write them: "spherocytes", "agglutinated", "Heinz bodies", ...
std::string_view name(RedSign sign);
const std::array<RedSign, redSignCount>& redSigns();

/// Shares of the red cells, 0..1, by sign.
struct RedSigns {
    std::array<double, redSignCount> share{};
    double of(RedSign sign) const { return share[static_cast<std::size_t>(sign)]; }
    double& of(RedSign sign) { return share[static_cast<std::size_t>(sign)]; }
};

} // namespace cistern::body
