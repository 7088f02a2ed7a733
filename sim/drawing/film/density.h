#pragma once
#include "drawing/film/texture.h"
#include "lab/film/slide.h"

#include <array>
#include <vector>

/// Dye, not color: every cell adds optical density to three planes, and the light that is left is
/// the picture. Overlap, thickness and tone of the stain come out right in any order of drawing.
namespace cistern::drawing::film {

/// How a field is looked at.
struct Optics {
    float scale = 1000.F / 120; ///< pixels per um
    float aperture = 1.25F;     ///< of the objective: 0.25 (10x), 0.85 (50x), 1.25 (100x, oil)
    float focus = 0;            ///< plane in focus, above the glass [um]
};

/// Amounts of dye at a point, in units whose density density.cpp gives.
struct Dyes {
    float hemoglobin = 0; ///< with eosin
    float chromatin = 0;
    float azure = 0;     ///< RNA blue
    float acidophil = 0; ///< eosinophils' granules
    float protein = 0;   ///< faint pink
    float azurophil = 0; ///< platelets' grains
    float gray = 0;      ///< edges; bright where negative
};

/// Optical density of red, green and blue over a rectangle of film.
struct Density {
    Density(int width, int height, double left, double top, double scale);
    int width, height;         ///< [px]
    double left, top;          ///< of the first pixel's corner [um]
    double scale;              ///< [px/um]
    std::vector<float> planes; ///< three a pixel, rows from the top
    float* row(int y) { return planes.data() + static_cast<std::size_t>(3) * y * width; }
};

/// The three densities of one unit of each dye, as this stain took.
struct Mixture {
    explicit Mixture(const lab::Stain& stain);
    std::array<std::array<float, 3>, 7> of;
    void add(const Dyes& dyes, float* pixel) const {
        const float amounts[7] = {dyes.hemoglobin, dyes.chromatin, dyes.azure, dyes.acidophil,
                                  dyes.protein,    dyes.azurophil, dyes.gray};
        for (int k = 0; k < 3; ++k) {
            float sum = 0;
            for (int i = 0; i < 7; ++i) sum += amounts[i] * of[i][k];
            pixel[k] += sum;
        }
    }
};

/// What painting one field needs all along.
struct Light {
    const Mixture& mixture;
    Optics optics;
    /// How much detail is worth its time at this scale, 0..1.
    float detail() const { return clamped((optics.scale - 1.5F) / 3); }
    /// Spread of what lies this far from the plane in focus [um]; 0 within the depth of field.
    float blur(float z) const;
};

/// A part of a density by itself, blurred and then added: what lies out of focus.
void addBlurred(Density& to, Density& part, float sigma);

/// Adds what `dyesAt(x, y, dyes)` gives about a place, as far as `reach` [um]; x and y are turned
/// by `angle`. `dyesAt` says false where there is nothing.
template<class DyesAt>
void deposit(Density& to, const Light& light, float x, float y, float z, float angle, float reach,
             const DyesAt& dyesAt) {
    constexpr float least = .35F; // [px] of blur that shows
    const auto scale = static_cast<float>(to.scale), sigma = light.blur(z) * scale;
    const bool blurred = sigma > least;
    const float ext = reach + (blurred ? 3 * sigma / scale : 0);
    const auto pixel = [&](float at, double from) {
        return static_cast<int>(std::floor((static_cast<double>(at) - from) * to.scale));
    };
    const int x0 = pixel(x - ext, to.left), x1 = pixel(x + ext, to.left) + 1;
    const int y0 = pixel(y - ext, to.top), y1 = pixel(y + ext, to.top) + 1;
    if (x1 < 0 || y1 < 0 || x0 >= to.width || y0 >= to.height) return;
    const float c = std::cos(angle), s = std::sin(angle);
    const double middleX = x, middleY = y;
    const auto fill = [&](Density& d, int fromX, int toX, int fromY, int toY) {
        for (int py = fromY; py <= toY; ++py) {
            const float wy = static_cast<float>(d.top + (py + .5) / d.scale - middleY);
            float* row = d.row(py);
            for (int px = fromX; px <= toX; ++px) {
                const float wx = static_cast<float>(d.left + (px + .5) / d.scale - middleX);
                if (wx * wx + wy * wy > reach * reach) continue;
                Dyes dyes;
                if (dyesAt(wx * c + wy * s, -wx * s + wy * c, dyes))
                    light.mixture.add(dyes, row + static_cast<std::size_t>(3) * px);
            }
        }
    };
    if (!blurred) {
        fill(to, std::max(0, x0), std::min(to.width - 1, x1), std::max(0, y0),
             std::min(to.height - 1, y1));
        return;
    }
    Density part(x1 - x0 + 1, y1 - y0 + 1, to.left + x0 / to.scale, to.top + y0 / to.scale,
                 to.scale);
    fill(part, 0, part.width - 1, 0, part.height - 1);
    addBlurred(to, part, sigma);
}

} // namespace cistern::drawing::film
