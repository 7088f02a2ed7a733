#pragma once
#include "base/chance.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

/// Small tools of cells' shapes and shades: chance, textures and soft edges. Lengths are um.
namespace cistern::drawing::film {

inline constexpr float pi = 3.14159265F;

/// What chance makes of one cell (or patch): a stream of its own, by its seed.
class Dice {
public:
    explicit Dice(std::uint64_t seed, std::uint32_t item = 0)
        : chance_(seed, base::Purpose::cell, 0, item) {}
    float share() { return static_cast<float>(chance_.uniform()); }
    float between(float low, float high) { return low + (high - low) * share(); }
    int whole(int low, int high) {
        return std::min(high, low + static_cast<int>(share() * static_cast<float>(high - low + 1)));
    }
    float normal() { return static_cast<float>(chance_.normal()); }
    float angle() { return between(0, 2 * pi); }
    bool happens(double chance) { return chance_.uniform() < chance; }
    int poisson(double mean) { return static_cast<int>(chance_.poisson(mean)); }

private:
    base::Chance chance_;
};

/// The seed of the n-th thing of a place, of a seed.
std::uint64_t seedOf(std::uint64_t seed, std::int32_t x, std::int32_t y, std::uint32_t n);

inline float clamped(float x) {
    return x < 0 ? 0 : x > 1 ? 1 : x;
}
inline float blend(float a, float b, float share) {
    return a + (b - a) * share;
}
/// From 0 at a to 1 at b; a may lie above b.
inline float ramp(float a, float b, float x) {
    const float t = clamped((x - a) / (b - a));
    return t * t * (3 - 2 * t);
}
/// A soft line: 1 at 0, 0 from `half` on.
inline float ridge(float distance, float half) {
    const float u = distance / half, v = 1 - u * u;
    return v <= 0 ? 0 : v * v;
}
/// The greater of two distances with a rounded corner, and the lesser.
inline float roundedMost(float a, float b, float corner) {
    const float h = std::max(corner - std::fabs(a - b), 0.F) / corner;
    return std::max(a, b) + h * h * corner * .25F;
}
inline float roundedLeast(float a, float b, float corner) {
    return -roundedMost(-a, -b, corner);
}

/// Bits of a place of a grid.
inline std::uint32_t hashed(int x, int y, std::uint32_t seed) {
    std::uint32_t h = static_cast<std::uint32_t>(x) * 0x85ebca6bU ^
                      static_cast<std::uint32_t>(y) * 0xc2b2ae35U ^ seed;
    h ^= h >> 15;
    h *= 0x2c1b3c6dU;
    h ^= h >> 12;
    h *= 0x297a2d39U;
    h ^= h >> 15;
    return h;
}
inline float shareOf(std::uint32_t bits) {
    return static_cast<float>(bits >> 8) * (1.F / 16777216.F);
}
inline int floored(float x) {
    const int i = static_cast<int>(x);
    return i - (x < static_cast<float>(i));
}

/// Smooth noise between 0 and 1, one bump a unit.
inline float noise(float x, float y, std::uint32_t seed) {
    const int ix = floored(x), iy = floored(y);
    float tx = x - static_cast<float>(ix), ty = y - static_cast<float>(iy);
    tx = tx * tx * (3 - 2 * tx);
    ty = ty * ty * (3 - 2 * ty);
    const float a = shareOf(hashed(ix, iy, seed)), b = shareOf(hashed(ix + 1, iy, seed)),
                c = shareOf(hashed(ix, iy + 1, seed)), d = shareOf(hashed(ix + 1, iy + 1, seed));
    return blend(blend(a, b, tx), blend(c, d, tx), ty);
}

/// Several layers of noise, each finer and fainter; between 0 and 1.
float layered(float x, float y, std::uint32_t seed, int layers);

/// Distance to the nearest and second nearest of points strewn one a unit square.
struct Strewn {
    float nearest = 9, second = 9;
    std::uint32_t which = 0; ///< bits of the nearest
};
Strewn strewn(float x, float y, std::uint32_t seed);

/// A line in dust: noise folded at its middle, 1 along the fold.
inline float folded(float noise) {
    return 1 - std::fabs(2 * noise - 1);
}

} // namespace cistern::drawing::film
