#include "drawing/film/texture.h"

namespace cistern::drawing::film {

std::uint64_t seedOf(std::uint64_t seed, std::int32_t x, std::int32_t y, std::uint32_t n) {
    constexpr std::uint32_t place = 0x66696c6d; // a stream of its own
    const auto bits =
        base::philox({static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(y), n, place},
                     {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32)});
    return static_cast<std::uint64_t>(bits[0]) << 32 | bits[1];
}

float layered(float x, float y, std::uint32_t seed, int layers) {
    float weight = .5F, sum = 0, all = 0;
    constexpr std::uint32_t apart = 1013; // seeds of layers
    for (int i = 0; i < layers; ++i) {
        sum += weight * noise(x, y, seed + static_cast<std::uint32_t>(i) * apart);
        all += weight;
        // Twice as fine, turned, so that the grids of two layers never fall together.
        const float nx = x * 1.6F - y * 1.2F, ny = x * 1.2F + y * 1.6F;
        x = nx + 3.1F;
        y = ny + 1.7F;
        weight *= .5F;
    }
    return sum / all;
}

Strewn strewn(float x, float y, std::uint32_t seed) {
    constexpr std::uint32_t other = 0x9E3779B1U;
    const int ix = floored(x), iy = floored(y);
    Strewn found;
    float first = 9, second = 9; // squares
    for (int j = -1; j <= 1; ++j)
        for (int i = -1; i <= 1; ++i) {
            const std::uint32_t bits = hashed(ix + i, iy + j, seed);
            const float px = static_cast<float>(ix + i) + shareOf(bits) - x;
            const float py = static_cast<float>(iy + j) + shareOf(bits * other + 77) - y;
            const float d = px * px + py * py;
            if (d < first) {
                second = first;
                first = d;
                found.which = bits;
            } else if (d < second)
                second = d;
        }
    found.nearest = std::sqrt(first);
    found.second = std::sqrt(second);
    return found;
}

} // namespace cistern::drawing::film
