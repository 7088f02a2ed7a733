#include "drawing/film/overview.h"

#include "drawing/film/density.h"

#include <cmath>

namespace cistern::drawing::film {

namespace {

// Light of the lamp, as fields are lit.
constexpr float lamp[3] = {246, 242, 239};
// Share of red cells' own density that is left in the mean of a cell with its pale middle.
constexpr float filled = .8F;

} // namespace

Pixels overview(const Slide& slide, int width) {
    const int height = static_cast<int>(std::lround(width * lab::filmWidth / lab::filmLength));
    Pixels out{width, height, {}};
    out.rgba.reserve(4 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const Mixture mixture(slide.stain);
    for (int row = 0; row < height; ++row)
        for (int column = 0; column < width; ++column) {
            const double thick = lab::thickness(slide, (column + .5) * lab::filmLength / width,
                                                (row + .5) * lab::filmWidth / height);
            // Where cells lie side by side, light passes between them; where they are heaped up,
            // nearly none does.
            const auto crowd = static_cast<float>(lab::crowding(slide, thick));
            const float covered = 1 - std::exp(-crowd), heaped = crowd / std::max(covered, 1e-3F);
            float density[3] = {0, 0, 0};
            Dyes dyes;
            dyes.hemoglobin = filled * heaped;
            mixture.add(dyes, density);
            for (int k = 0; k < 3; ++k) {
                const float through = 1 - covered * (1 - std::exp(-density[k]));
                out.rgba.push_back(static_cast<std::uint8_t>(lamp[k] * through + .5F));
            }
            out.rgba.push_back(255);
        }
    return out;
}

} // namespace cistern::drawing::film
