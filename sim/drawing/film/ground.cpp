#include "drawing/film/paint.h"

#include <array>
#include <cmath>

namespace cistern::drawing::film {

namespace {

constexpr int step = 8; // pixels between places looked at; in between it runs straight

/// Amount of dried plasma at a place, 0 beyond the film. By eye: fainter where the film is thin,
/// streaked along the push.
float plasma(const Slide& slide, double x, double y, std::uint32_t seed) {
    const auto t = static_cast<float>(lab::thickness(slide, x, y));
    if (t <= 0) return 0;
    constexpr float least = .012F, perUm = .006F, most = .05F;
    const float streak =
        layered(static_cast<float>(x) * .03F, static_cast<float>(y) * .08F, seed, 3);
    return std::min(most, least + perUm * t) * (.4F + 1.1F * streak);
}

int divided(long long a, int b) {
    return static_cast<int>(a >= 0 ? a / b : -((-a + b - 1) / b));
}

} // namespace

void paintGround(const Slide& slide, const Light& light, Density& to) {
    // Places by whole pixels of the film, so that two rectangles have them in common.
    const long long left = std::llround(to.left * to.scale), top = std::llround(to.top * to.scale);
    const int fromX = divided(left, step), fromY = divided(top, step);
    const int wide = divided(left + to.width, step) - fromX + 2;
    const int high = divided(top + to.height, step) - fromY + 2;
    const auto seed = static_cast<std::uint32_t>(slide.seed) + 99;
    std::vector<float> amounts;
    amounts.reserve(static_cast<std::size_t>(wide) * static_cast<std::size_t>(high));
    for (int j = 0; j < high; ++j)
        for (int i = 0; i < wide; ++i)
            amounts.push_back(
                plasma(slide, (fromX + i) * step / to.scale, (fromY + j) * step / to.scale, seed));

    std::array<float, 3> tint{};
    light.mixture.add({.azure = .65F, .protein = .6F, .gray = .13F}, tint.data());
    const int offX = static_cast<int>(left - static_cast<long long>(fromX) * step);
    const int offY = static_cast<int>(top - static_cast<long long>(fromY) * step);
    for (int y = 0; y < to.height; ++y) {
        const auto part = static_cast<float>((y + offY) % step) / step;
        const float* upper = amounts.data() + static_cast<std::ptrdiff_t>((y + offY) / step) * wide;
        const float* lower = upper + wide;
        float* pixel = to.row(y);
        for (int x = 0; x < to.width; ++x, pixel += 3) {
            const int i = (x + offX) / step;
            const auto along = static_cast<float>((x + offX) % step) / step;
            const float amount = blend(blend(upper[i], upper[i + 1], along),
                                       blend(lower[i], lower[i + 1], along), part);
            for (std::size_t k = 0; k < 3; ++k) pixel[k] += amount * tint[k];
        }
    }
}

} // namespace cistern::drawing::film
