#include "drawing/film/field.h"

#include <bit>
#include <cmath>
#include <stdexcept>

namespace cistern::drawing::film {

namespace {

constexpr float lamp[3] = {246, 242, 239}; // levels of red, green and blue; by eye
constexpr float grain = 1.6F;              // levels at most, either way; hides banding too

/// exp(x) for x at most 80, off by less than a ten thousandth of a level.
inline float fastExp(float x) {
    // 2^whole by the exponent's bits, 2^part by a polynomial on 0..1.
    const float turns = std::max(x * 1.44269504F, -60.F);
    const int whole = static_cast<int>(turns + 1000.F) - 1000;
    const float f = turns - static_cast<float>(whole);
    const float power =
        1 + f * (.6931472F + f * (.2402265F + f * (.0555041F + f * (.0096181F + f * .0013333F))));
    return power * std::bit_cast<float>((whole + 127) << 23);
}

/// Weights of a point spread at 0, 1, 2 ... pixels.
std::vector<float> weightsOf(float sigma) {
    const int reach = spreadReach(sigma);
    std::vector<float> weights(static_cast<std::size_t>(reach) + 1, 1);
    float all = 1;
    for (int i = 1; i <= reach; ++i) {
        const auto d = static_cast<float>(i);
        weights[static_cast<std::size_t>(i)] = std::exp(-d * d / (2 * sigma * sigma));
        all += 2 * weights[static_cast<std::size_t>(i)];
    }
    for (float& w : weights) w /= all;
    return weights;
}

/// One row of the outcome from rows or pixels `stride` apart in `from`, which points at its first.
void spreadRow(const float* from, float* to, int length, std::ptrdiff_t stride,
               const std::vector<float>& weights) {
    const float middle = weights[0];
    for (int i = 0; i < length; ++i) to[i] = middle * from[i];
    for (std::size_t k = 1; k < weights.size(); ++k) {
        const float* before = from - static_cast<std::ptrdiff_t>(k) * stride;
        const float* after = from + static_cast<std::ptrdiff_t>(k) * stride;
        const float weight = weights[k];
        for (int i = 0; i < length; ++i) to[i] += weight * (before[i] + after[i]);
    }
}

std::uint8_t level(float light) {
    return static_cast<std::uint8_t>(std::clamp(light + .5F, 0.F, 255.F));
}

} // namespace

int spreadReach(float sigma) {
    constexpr float least = .3F; // [px] that shows
    constexpr float far = 2.4F;  // standard deviations
    return sigma < least ? 0 : std::max(2, static_cast<int>(std::ceil(far * sigma)));
}

float spreadOf(const Optics& optics) {
    // Of an Airy disc in green light, as a normal spread: 0.21 wavelengths over the aperture.
    constexpr float green = .55F; // [um]
    return .21F * green / optics.aperture * optics.scale;
}

Pixels developed(const Density& density, const Optics& optics, std::uint64_t seed, int margin) {
    const std::vector<float> weights = weightsOf(spreadOf(optics));
    const int reach = static_cast<int>(weights.size()) - 1;
    const int wide = density.width - 2 * margin, high = density.height - 2 * margin;
    if (margin < reach || wide < 1 || high < 1)
        throw std::invalid_argument("a field needs a margin as wide as its point spread");

    const int values = 3 * density.width, inner = 3 * wide;
    const std::ptrdiff_t line = inner;
    // Light behind each row, spread along it; then spread across rows.
    std::vector<float> row(static_cast<std::size_t>(values));
    std::vector<float> along(static_cast<std::size_t>(inner) *
                             static_cast<std::size_t>(density.height));
    for (int y = 0; y < density.height; ++y) {
        const float* od = density.planes.data() + static_cast<std::ptrdiff_t>(y) * values;
        for (int i = 0; i < values; ++i) row[static_cast<std::size_t>(i)] = fastExp(-od[i]);
        spreadRow(row.data() + 3 * static_cast<std::ptrdiff_t>(margin), along.data() + y * line,
                  inner, 3, weights);
    }
    Pixels out{wide, high, {}};
    out.rgba.resize(static_cast<std::size_t>(4) * static_cast<std::size_t>(wide) *
                    static_cast<std::size_t>(high));
    const auto placeOf = [&](double from) {
        return static_cast<int>(std::llround(from * density.scale)) + margin;
    };
    const int left = placeOf(density.left), top = placeOf(density.top);
    const auto salt = static_cast<std::uint32_t>(seed ^ seed >> 32);
    std::uint8_t* pixel = out.rgba.data();
    for (int y = 0; y < high; ++y) {
        spreadRow(along.data() + (y + margin) * line, row.data(), inner, line, weights);
        for (int x = 0; x < wide; ++x, pixel += 4) {
            const std::uint32_t bits = hashed(left + x, top + y, salt);
            const float noise = (shareOf(bits) + shareOf(bits * 0x9E3779B1U) - 1) * grain;
            const float* light = row.data() + static_cast<std::ptrdiff_t>(3) * x;
            for (int k = 0; k < 3; ++k) pixel[k] = level(light[k] * lamp[k] + noise);
            pixel[3] = 255;
        }
    }
    return out;
}

Optics opticsOf(int power, float scale, float focus) {
    switch (power) {
    case 10:
        return {scale, .25F, focus};
    case 50:
        return {scale, .85F, focus};
    case 100:
        return {scale, 1.25F, focus};
    default:
        throw std::invalid_argument("an objective is of 10, 50 or 100");
    }
}

} // namespace cistern::drawing::film
