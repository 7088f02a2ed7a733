#pragma once
#include "drawing/painter.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

/// What tests look for in the marks of a component.
namespace cistern::test {

using namespace drawing;

inline std::vector<Text> textsOf(const Group& group) {
    std::vector<Text> found;
    for (const Mark& mark : group.marks) {
        if (const auto* text = std::get_if<Text>(&mark.is)) found.push_back(*text);
        if (const auto* inner = std::get_if<Group>(&mark.is))
            for (const Text& text : textsOf(*inner)) found.push_back(text);
    }
    return found;
}

inline std::string joined(const Text& text) {
    std::string all;
    for (const std::string& line : text.lines) all.append(line).append("|");
    return all;
}

/// Positions are sums of doubles of a few hundred; far above their rounding, far below what can be
/// seen.
constexpr double hair = 0.01;

inline void checkWords(const std::vector<Text>& texts, const Box& box) {
    std::string clash, outside;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        if (!box.contains(extent(texts[i]), hair)) outside += joined(texts[i]) + "; ";
        for (std::size_t k = i + 1; k < texts.size(); ++k)
            if (extent(texts[i]).overlaps(extent(texts[k]), hair))
                clash += joined(texts[i]) + " and " + joined(texts[k]) + "; ";
    }
    CHECK(clash == "");
    CHECK(outside == "");
}

/// Pixels with ink outside the box, when the group is drawn alone. Lines may be half a pixel wide
/// over its edge.
inline int inkOutside(const Group& group, const Box& box) {
    constexpr double rim = 40, edge = 1;
    Picture picture{box.right() + rim, box.bottom() + rim, "", "", "en", {{group}}};
    const Pixels image = pixels(picture);
    int count = 0;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            const bool inside = x + 1 > box.x - edge && x < box.right() + edge &&
                                y + 1 > box.y - edge && y < box.bottom() + edge;
            const auto at =
                4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                     static_cast<std::size_t>(x));
            count += !inside && image.rgba[at + 3] > 0;
        }
    return count;
}

/// Contrast of two colors, WCAG 2.2.
inline double contrastOf(const Color& a, const Color& b) {
    const auto light = [](const Color& color) {
        const auto part = [](double c) {
            return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
        };
        return 0.2126 * part(color.red / 255.0) + 0.7152 * part(color.green / 255.0) +
               0.0722 * part(color.blue / 255.0);
    };
    const double x = light(a), y = light(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

} // namespace cistern::test
