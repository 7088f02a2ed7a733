#include "drawing/brushwork.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::brushwork {

void fill(Group& to, Path path, Color color) {
    to.marks.emplace_back().is = Shape{std::move(path), color, std::nullopt};
}

void stroke(Group& to, Path path, Color color, double width, std::vector<double> dash) {
    Stroke pen{color, width, std::move(dash)};
    to.marks.emplace_back().is = Shape{std::move(path), std::nullopt, std::move(pen)};
}

void line(Group& to, Point from, Point end, Color color, double width, std::vector<double> dash) {
    stroke(to, Path().move(from).line(end), color, width, std::move(dash));
}

Color faded(Color color, double alpha) {
    color.alpha = alpha;
    return color;
}

namespace {

constexpr double brightest = 255;

std::uint8_t part(double value) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, brightest)));
}

} // namespace

Color mixed(const Color& first, const Color& second, double share) {
    const auto between = [&](std::uint8_t a, std::uint8_t b) { return part(a + share * (b - a)); };
    return {between(first.red, second.red), between(first.green, second.green),
            between(first.blue, second.blue), first.alpha};
}

Color dyed(const Color& color, const Color& dye, double layers) {
    const double most = std::max({dye.red, dye.green, dye.blue, std::uint8_t{1}});
    const auto through = [&](std::uint8_t light, std::uint8_t tint) {
        return part(light * std::pow(tint / most, layers));
    };
    return {through(color.red, dye.red), through(color.green, dye.green),
            through(color.blue, dye.blue)};
}

Color glazed(const Color& first, const Color& second) {
    const auto both = [](std::uint8_t a, std::uint8_t b) { return part(a * b / brightest); };
    return {both(first.red, second.red), both(first.green, second.green),
            both(first.blue, second.blue)};
}

Type sized(Type type, double scale) {
    type.size *= scale;
    return type;
}

double widestWord(std::string_view text, const Type& type) {
    double widest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        widest = std::max(widest, measure(text.substr(0, end), type).width);
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return widest;
}

} // namespace cistern::drawing::brushwork
