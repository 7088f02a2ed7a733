#include "drawing/film/density.h"

#include <cmath>

namespace cistern::drawing::film {

namespace {

// Optical density per unit in red, green and blue. Chosen by eye on a light of F6F2EF.
constexpr std::array<std::array<float, 3>, 7> unit{{{.115F, .425F, .450F}, // salmon
                                                    {.92F, 1.58F, .66F},   // purple
                                                    {1.00F, .62F, .16F},   // blue
                                                    {.07F, .70F, .95F},    // orange
                                                    {.20F, .90F, .50F},    // pink
                                                    {.55F, 1.10F, .38F},   // magenta
                                                    {1, 1, 1}}};

/// One pass of a running mean of 2r + 1 along rows, or along columns.
void meanAlong(std::vector<float>& planes, std::vector<float>& into, int width, int height, int r,
               bool rows) {
    const int lines = rows ? height : width, length = rows ? width : height;
    const std::size_t step = rows ? 3 : static_cast<std::size_t>(3) * width;
    const std::size_t line = rows ? static_cast<std::size_t>(3) * width : 3;
    const float share = 1.F / static_cast<float>(2 * r + 1);
    for (int i = 0; i < lines; ++i)
        for (std::size_t k = 0; k < 3; ++k) {
            const float* from = planes.data() + i * line + k;
            float* to = into.data() + i * line + k;
            const auto at = [&](int j) {
                return j < 0 || j >= length ? 0.F : from[static_cast<std::size_t>(j) * step];
            };
            float sum = 0;
            for (int j = -r; j <= r; ++j) sum += at(j);
            for (int j = 0; j < length; ++j) {
                to[static_cast<std::size_t>(j) * step] = sum * share;
                sum += at(j + r + 1) - at(j - r);
            }
        }
    planes.swap(into);
}

} // namespace

Density::Density(int wide, int high, double x, double y, double pixels)
    : width(wide),
      height(high),
      left(x),
      top(y),
      scale(pixels),
      planes(static_cast<std::size_t>(3) * wide * high, 0.F) {}

Mixture::Mixture(const lab::Stain& stain) : of(unit) {
    const auto red = static_cast<float>(stain.red), blue = static_cast<float>(stain.blue),
               nuclear = static_cast<float>(stain.nuclear);
    const float strength[7] = {red, nuclear * blend(1, blue, .5F), blue, red, red, nuclear, 1};
    for (std::size_t i = 0; i < of.size(); ++i)
        for (std::size_t k = 0; k < 3; ++k) of[i][k] *= strength[i];
    of[0][0] = unit[0][0] * blend(1, red, .5F);
    // After an alkaline rinse hemoglobin takes blue too: grayish, mauve.
    const float tint = std::max(0.F, blue - 1) * .10F;
    of[0][0] += tint;
    of[0][1] += tint * .3F;
}

float Light::blur(float z) const {
    // Depth of field and how fast it blurs beyond, by the objective: oil, high dry, low.
    const float off = std::fabs(z - optics.focus);
    const float depth = optics.aperture > 1 ? .45F : optics.aperture > .6F ? 1.F : 6.F;
    const float slope = optics.aperture > 1 ? .42F : optics.aperture > .6F ? .25F : .1F;
    return slope * std::max(0.F, off - depth);
}

void addBlurred(Density& to, Density& part, float sigma) {
    // Three running means come near a normal spread (Kovesi 2010: widths by the variance).
    const float ideal = std::sqrt(4 * sigma * sigma + 1);
    int low = static_cast<int>(ideal);
    if (low % 2 == 0) --low;
    low = std::max(low, 1);
    const auto wl = static_cast<float>(low);
    const int lows = static_cast<int>(
        std::lround((12 * sigma * sigma - 3 * wl * wl - 12 * wl - 9) / (-4 * wl - 4)));
    std::vector<float> other(part.planes.size());
    for (int pass = 0; pass < 3; ++pass) {
        const int r = ((pass < lows ? low : low + 2) - 1) / 2;
        if (r < 1) continue;
        meanAlong(part.planes, other, part.width, part.height, r, true);
        meanAlong(part.planes, other, part.width, part.height, r, false);
    }
    const int dx = static_cast<int>(std::lround((part.left - to.left) * to.scale));
    const int dy = static_cast<int>(std::lround((part.top - to.top) * to.scale));
    const int x0 = std::max(0, -dx), x1 = std::min(part.width, to.width - dx);
    for (int y = std::max(0, -dy); y < std::min(part.height, to.height - dy); ++y) {
        const float* from = part.row(y);
        float* into = to.row(y + dy) + static_cast<std::ptrdiff_t>(3) * dx;
        for (int i = 3 * x0; i < 3 * x1; ++i) into[i] += from[i];
    }
}

} // namespace cistern::drawing::film
