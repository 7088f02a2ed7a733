#include "drawing/film/chromatin.h"

#include "drawing/film/texture.h"

namespace cistern::drawing::film {

namespace {

// Seeds of the layers of one texture lie apart by these. All amounts below were chosen by eye.
constexpr std::uint32_t warpX = 3, warpY = 4, blocks = 5, dust = 6, patches = 7;

struct Place {
    float x, y;
};
/// Moves a place about, so that no pattern shows its grid.
Place warped(float x, float y, float far, float perUm, std::uint32_t seed) {
    return {x + far * (noise(x * perUm, y * perUm, seed + warpX) - .5F),
            y + far * (noise(x * perUm + 7, y * perUm, seed + warpY) - .5F)};
}

float clumped(float x, float y, std::uint32_t seed) {
    const Place p = warped(x, y, .6F, 1.1F, seed);
    const Strewn islands = strewn(p.x * .95F, p.y * .95F, seed);
    const float inside = ramp(.02F, .34F, islands.second - islands.nearest);
    const float dense = ramp(.34F, .64F, layered(p.x * 1.4F, p.y * 1.4F, seed + blocks, 2));
    return .54F + .30F * inside * (.5F + .5F * shareOf(islands.which)) + .46F * dense;
}

float coarse(float x, float y, std::uint32_t seed) {
    const Place p = warped(x, y, .6F, 1, seed);
    const Strewn islands = strewn(p.x * .75F, p.y * .75F, seed);
    const float inside = ramp(0, .5F, islands.second - islands.nearest);
    const float dense = ramp(.32F, .72F, layered(p.x * 1.2F, p.y * 1.2F, seed + blocks, 2));
    return .56F + .16F * inside * (.6F + .4F * shareOf(islands.which)) + .30F * dense;
}

float smooth(float x, float y, std::uint32_t seed) {
    const Place p = warped(x, y, 1.4F, .6F, seed);
    const float dense = ramp(.28F, .70F, layered(p.x * .62F, p.y * .62F, seed + blocks, 2));
    const float fine = noise(p.x * 1.9F, p.y * 1.9F, seed + dust);
    return .89F + .31F * dense + .08F * (fine - .5F);
}

/// Strands that thin out into pale spaces, here broad, there torn.
float lace(float x, float y, std::uint32_t seed) {
    const Place p = warped(x, y, 1.3F, .75F, seed);
    const Strewn spaces = strewn(p.x * .66F, p.y * .66F, seed);
    const float slow = layered(p.x * .7F, p.y * .7F, seed + patches, 2);
    const float gap = (spaces.second - spaces.nearest) * (.2F + 1.6F * (1 - slow));
    const float strand = ramp(.62F, 0, gap);
    const float fine = noise(x * 2.1F, y * 2.1F, seed + dust) - .5F;
    return .32F + .27F * strand + .30F * ramp(.3F, .7F, slow) + .20F * fine;
}

float open(float x, float y, std::uint32_t seed) {
    const float bent = .4F * noise(x, y, seed + warpX);
    const float dense = layered(x * 1.05F + bent, y * 1.05F, seed + blocks, 3);
    return .66F + .42F * ramp(.33F, .66F, dense);
}

} // namespace

float chromatin(Chromatin kind, float x, float y, std::uint32_t seed, float detail) {
    // In the order of the kinds; means of a million places each.
    constexpr float means[] = {.916F, .760F, 1.052F, .635F, .875F};
    const float mean = means[static_cast<std::size_t>(kind)];
    if (detail <= 0) return mean;
    float amount = mean;
    switch (kind) {
    case Chromatin::clumped:
        amount = clumped(x, y, seed);
        break;
    case Chromatin::coarse:
        amount = coarse(x, y, seed);
        break;
    case Chromatin::smooth:
        amount = smooth(x, y, seed);
        break;
    case Chromatin::lace:
        amount = lace(x, y, seed);
        break;
    case Chromatin::open:
        amount = open(x, y, seed);
        break;
    }
    return blend(mean, amount, detail);
}

} // namespace cistern::drawing::film
