#pragma once
#include "drawing/painter.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

/// What tests look for in the marks of a drawing.
namespace cistern::test {

using namespace cistern::drawing;

/// All of one kind in a group, in the order drawn. The drawings tested move no group.
template<typename Kind>
std::vector<Kind> all(const Group& group) {
    std::vector<Kind> found;
    for (const Mark& mark : group.marks) {
        if (const Kind* one = std::get_if<Kind>(&mark.is)) found.push_back(*one);
        if (const Group* inner = std::get_if<Group>(&mark.is))
            for (const Kind& one : all<Kind>(*inner)) found.push_back(one);
    }
    return found;
}

/// The first group of that name within another, or an empty one.
inline Group named(const Group& group, const std::string& name) {
    for (const Mark& mark : group.marks)
        if (const Group* inner = std::get_if<Group>(&mark.is)) {
            if (inner->name == name) return *inner;
            if (Group deeper = named(*inner, name); !deeper.name.empty()) return deeper;
        }
    return {};
}

/// Box around all points of a path, controls of curves among them, so at least as large as it.
inline Box around(const Path& path) {
    double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
    for (const Path::Part& part : path.parts()) {
        const int points = part.step == Path::Step::close   ? 0
                           : part.step == Path::Step::curve ? 3
                                                            : 1;
        for (int i = 0; i < points; ++i) {
            const Point& at = part.to.at(static_cast<std::size_t>(i));
            left = std::min(left, at.x);
            right = std::max(right, at.x);
            top = std::min(top, at.y);
            bottom = std::max(bottom, at.y);
        }
    }
    return {left, top, right - left, bottom - top};
}

/// Positions are sums of doubles of a few hundred; far above their rounding, far below what can be
/// seen.
constexpr double hair = 0.01;

inline std::string joined(const Text& text) {
    std::string all;
    for (const std::string& line : text.lines) all.append(line).append("|");
    return all;
}

/// What is wrong with where the words stand: outside the box, or over one another; "" if nothing.
inline std::string faults(const std::vector<Text>& texts, const Box& box) {
    std::string found;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Box one = extent(texts[i]);
        if (!box.contains(one, hair)) found += joined(texts[i]) + " leaves its box; ";
        for (std::size_t k = i + 1; k < texts.size(); ++k)
            if (one.overlaps(extent(texts[k]), hair))
                found += joined(texts[i]) + " lies over " + joined(texts[k]) + "; ";
    }
    return found;
}
inline std::string faults(const Group& group, const Box& box) {
    return faults(all<Text>(group), box);
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

/// sRGB to linear light, IEC 61966-2-1.
inline std::array<double, 3> linear(const Color& color) {
    const auto one = [](std::uint8_t part) {
        const double c = part / 255.0;
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return {one(color.red), one(color.green), one(color.blue)};
}

/// WCAG 2.2: (lighter + 0.05) / (darker + 0.05), relative luminance.
inline double contrast(const Color& a, const Color& b) {
    const auto light = [](const Color& color) {
        const auto [red, green, blue] = linear(color);
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const double x = light(a), y = light(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

} // namespace cistern::test
