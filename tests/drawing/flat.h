#pragma once
#include "drawing/painter.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

/// The marks of a drawing laid flat, for tests that look at what is drawn.
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

/// What is wrong with where the words stand: outside the box, or over one another; "" if nothing.
inline std::string faults(const Group& group, const Box& box) {
    constexpr double slack = 0.01; // positions are sums of doubles; far below what can be seen
    std::string found;
    const std::vector<Text> texts = all<Text>(group);
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Box one = extent(texts[i]);
        if (!box.contains(one, slack)) found += "'" + texts[i].lines.front() + "' leaves its box; ";
        for (std::size_t k = i + 1; k < texts.size(); ++k)
            if (one.overlaps(extent(texts[k]), slack))
                found +=
                    "'" + texts[i].lines.front() + "' lies over '" + texts[k].lines.front() + "'; ";
    }
    return found;
}

} // namespace cistern::test
