#include "drawing/picture.h"

#include "base/text.h"

#include <algorithm>

namespace cistern::drawing {

bool Box::overlaps(const Box& other, double slack) const {
    return std::min(right(), other.right()) - std::max(x, other.x) > slack &&
           std::min(bottom(), other.bottom()) - std::max(y, other.y) > slack;
}

bool Box::contains(const Box& other, double slack) const {
    return other.x >= x - slack && other.y >= y - slack && other.right() <= right() + slack &&
           other.bottom() <= bottom() + slack;
}

Path& Path::move(Point to) {
    parts_.push_back({Step::move, {to}});
    return *this;
}

Path& Path::line(Point to) {
    parts_.push_back({Step::line, {to}});
    return *this;
}

Path& Path::curve(Point control1, Point control2, Point to) {
    parts_.push_back({Step::curve, {control1, control2, to}});
    return *this;
}

Path& Path::close() {
    parts_.push_back({Step::close});
    return *this;
}

Path rectangle(const Box& box) {
    return Path()
        .move({box.x, box.y})
        .line({box.right(), box.y})
        .line({box.right(), box.bottom()})
        .line({box.x, box.bottom()})
        .close();
}

namespace {
/// Share of the radius at which the controls of a cubic stand so that it follows a quarter circle
/// to within 0.03 % of the radius: 4/3 (sqrt 2 - 1).
constexpr double quarter = 0.5522847498;
} // namespace

Path rounded(const Box& box, double radius) {
    const double r = std::min({radius, box.width / 2, box.height / 2});
    const double c = r * (1 - quarter);
    const double left = box.x, right = box.right(), top = box.y, bottom = box.bottom();
    return Path()
        .move({left + r, top})
        .line({right - r, top})
        .curve({right - c, top}, {right, top + c}, {right, top + r})
        .line({right, bottom - r})
        .curve({right, bottom - c}, {right - c, bottom}, {right - r, bottom})
        .line({left + r, bottom})
        .curve({left + c, bottom}, {left, bottom - c}, {left, bottom - r})
        .line({left, top + r})
        .curve({left, top + c}, {left + c, top}, {left + r, top})
        .close();
}

Path diamond(Point middle, double half) {
    return Path()
        .move({middle.x, middle.y - half})
        .line({middle.x + half, middle.y})
        .line({middle.x, middle.y + half})
        .line({middle.x - half, middle.y})
        .close();
}

Path circle(Point middle, double radius) {
    const double r = radius, k = quarter * radius, x = middle.x, y = middle.y;
    return Path()
        .move({x, y - r})
        .curve({x + k, y - r}, {x + r, y - k}, {x + r, y})
        .curve({x + r, y + k}, {x + k, y + r}, {x, y + r})
        .curve({x - k, y + r}, {x - r, y + k}, {x - r, y})
        .curve({x - r, y - k}, {x - k, y - r}, {x, y - r})
        .close();
}

Path polyline(const std::vector<Point>& points) {
    Path path;
    for (const Point& point : points) {
        if (path.parts().empty())
            path.move(point);
        else
            path.line(point);
    }
    return path;
}

std::string printable(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t length = base::characterLength(text);
        const auto first = static_cast<unsigned char>(text[0]);
        const bool control =
            first < 0x20 || first == 0x7F ||
            (first == 0xC2 && length == 2 && static_cast<unsigned char>(text[1]) < 0xA0);
        // U+FFFE and U+FFFF are no characters, and XML refuses them.
        const bool none = length == 0 || text.substr(0, length) == "\xEF\xBF\xBE" ||
                          text.substr(0, length) == "\xEF\xBF\xBF";
        if (none)
            out += "\xEF\xBF\xBD";
        else if (control)
            out += ' ';
        else
            out += text.substr(0, length);
        text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return out;
}

} // namespace cistern::drawing
