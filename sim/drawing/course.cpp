#include "drawing/course.h"

#include "base/text.h"
#include "drawing/axis.h"
#include "drawing/course_words.h"
#include "drawing/svg.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::drawing {

namespace {

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument("a course cannot be drawn: " + sentence);
}

std::string hourText(double hour) {
    return "hour " + base::significant(hour, 6);
}

void requireFinite(const std::vector<double>& values, const CourseView& view,
                   const std::string& name) {
    if (values.size() != view.hours.size())
        refuse(name + " has " + std::to_string(values.size()) + " values for " +
               std::to_string(view.hours.size()) + " hours");
    for (std::size_t i = 0; i < values.size(); ++i)
        if (!std::isfinite(values[i]) || values[i] < 0)
            refuse(name + " at " + hourText(view.hours[i]) +
                   " is not a finite number of at least 0");
}

void validate(const LevelLine& line, const CourseView& view) {
    requireFinite(line.values, view, line.name);
    if (!std::isfinite(line.healthy) || !(line.healthy > 0 || !view.fold))
        refuse("the healthy value of " + line.name + " must be a finite number above 0");
    for (const Peg& peg : line.pegs) {
        if (!(peg.hour >= view.hours.front() && peg.hour <= view.hours.back()))
            refuse("a measured " + line.name + " lies outside the course");
        if (!std::isfinite(peg.value) || !std::isfinite(peg.halfWidth) || peg.value < 0 ||
            peg.halfWidth < 0)
            refuse("the measured " + line.name + " at " + hourText(peg.hour) +
                   " is not a finite number of at least 0 with a half-width of at least 0");
    }
}

} // namespace

void validate(const CourseView& view) {
    if (view.hours.size() < 2) refuse("it needs at least two hours");
    for (std::size_t i = 0; i < view.hours.size(); ++i)
        if (!std::isfinite(view.hours[i]) || (i > 0 && !(view.hours[i] > view.hours[i - 1])))
            refuse("its hours must be finite and rise from one to the next");
    if (view.levels.empty() && view.work.empty()) refuse("it has no line");
    for (const LevelLine& line : view.levels) validate(line, view);
    for (const WorkLine& line : view.work)
        requireFinite(line.shares, view, "the work of " + line.name);
    for (const HappeningBar& bar : view.happenings)
        if (!std::isfinite(bar.from) || !std::isfinite(bar.to) || bar.to < bar.from)
            refuse("\"" + bar.name + "\" must end no earlier than it starts");
    if (!(view.textScale >= 0.5 && view.textScale <= 3))
        refuse("the text scale must lie between 0.5 and 3");
    if (!(view.width >= 400 && view.height >= 300 && view.width <= 16384 && view.height <= 16384))
        refuse("it must be at least 400 wide and 300 high, at most 16,384");
}

namespace {

/// The shape that repeats the meaning of a color: circle, square, triangle, diamond, of about one
/// area.
Path marker(Meaning meaning, Point at, double radius) {
    if (meaning == Meaning::leaks) return circle(at, radius);
    if (meaning == Meaning::works) {
        const double half = 0.89 * radius;
        return rectangle({at.x - half, at.y - half, 2 * half, 2 * half});
    }
    if (meaning == Meaning::held) {
        const double side = 1.35 * radius; // half of it
        return Path()
            .move({at.x, at.y - 1.56 * radius})
            .line({at.x + side, at.y + 0.78 * radius})
            .line({at.x - side, at.y + 0.78 * radius})
            .close();
    }
    return diamond(at, 1.25 * radius);
}

class Sheet {
public:
    explicit Sheet(const CourseLayout& placed) : placed_(placed) {}

    Picture page() {
        fill(rectangle({0, 0, placed_.width, placed_.height}), theme::paper);
        add(Shape{rounded(placed_.card, 8), theme::panel, Stroke{theme::line, 1, {}}});
        return {placed_.width,       placed_.height,   placed_.title,
                placed_.description, placed_.language, contents()};
    }

    std::vector<Mark> contents() {
        for (const auto& panel : placed_.panels) ground(panel);
        for (const auto& panel : placed_.panels) {
            for (const auto& curve : panel.curves) line(curve);
            for (const auto& curve : panel.curves) pegs(curve);
        }
        for (const auto& key : placed_.legend) legend(key);
        for (const Box& bar : placed_.bars) fill(rounded(bar, 4), theme::line);
        for (const Text& text : placed_.texts) add(text);
        return std::move(marks_);
    }

private:
    const CourseLayout& placed_;
    std::vector<Mark> marks_;

    template<class Kind>
    void add(Kind mark) {
        marks_.push_back({std::move(mark)});
    }
    void fill(Path path, Color color) { add(Shape{std::move(path), color, std::nullopt}); }
    void stroke(const std::vector<Point>& points, Stroke stroke) {
        add(Shape{polyline(points), std::nullopt, std::move(stroke)});
    }

    void ground(const CourseLayout::Panel& panel) {
        const Box& field = panel.field;
        fill(rectangle(field), theme::field);
        for (double y : panel.grid)
            stroke({{field.x, y}, {field.right(), y}}, {theme::line, 1, {}});
        for (double x : placed_.timeGrid)
            stroke({{x, field.y}, {x, field.bottom()}}, {theme::line, 1, {}});
        for (double x : placed_.onsets)
            stroke({{x, field.y}, {x, field.bottom()}}, {theme::stone, 2, {}});
        if (panel.health)
            stroke({{field.x, *panel.health}, {field.right(), *panel.health}},
                   {theme::stoneDark, 1.6, {}});
        for (double x : placed_.minorTimes)
            stroke({{x, field.bottom() - 4}, {x, field.bottom()}}, {theme::stoneDark, 1, {}});
        add(Shape{rectangle(field), std::nullopt, Stroke{theme::line, 1, {}}});
    }

    void line(const CourseLayout::Curve& curve) {
        const Color color = tonesOf(curve.meaning).line;
        const Point sample{curve.sample.x, curve.sample.middle().y};
        Group group{curve.name, {}, {}, {}};
        const auto into = [&](Shape shape) { group.marks.push_back({std::move(shape)}); };
        into({polyline(curve.points), std::nullopt, Stroke{color, 2.6, curve.dash}});
        into({polyline({curve.end, {curve.end.x + 6, curve.end.y}, {sample.x - 6, sample.y}}),
              std::nullopt, Stroke{theme::stoneDark, 1, {}}});
        into({marker(curve.meaning, curve.end, 4), color, std::nullopt});
        into({polyline({sample, {curve.sample.right(), sample.y}}), std::nullopt,
              Stroke{color, 2.6, curve.dash}});
        add(std::move(group));
    }

    void peg(Meaning meaning, const CourseLayout::Curve::Measured& peg, const Color& color) {
        constexpr double half = 6; // of the caps of an error bar
        stroke({{peg.at.x, peg.top}, {peg.at.x, peg.bottom}}, {color, 2, {}});
        for (auto [y, open] : {std::pair{peg.top, peg.above}, std::pair{peg.bottom, peg.below}})
            if (!open) stroke({{peg.at.x - half, y}, {peg.at.x + half, y}}, {color, 2, {}});
        add(Shape{marker(meaning, peg.at, 4.5), theme::field, Stroke{color, 2, {}}});
    }

    void pegs(const CourseLayout::Curve& curve) {
        for (const auto& one : curve.pegs) peg(curve.meaning, one, tonesOf(curve.meaning).line);
    }

    void legend(const CourseLayout::Key& key) {
        const Point middle = key.mark.middle();
        if (!key.meaning) {
            peg(Meaning::leaks, {middle, key.mark.y, key.mark.bottom(), false, false}, theme::ink);
            return;
        }
        const Color color = tonesOf(*key.meaning).line;
        stroke({{key.mark.x, middle.y}, {key.mark.right(), middle.y}}, {color, 2.6, {}});
        fill(marker(*key.meaning, middle, 5), color);
    }
};

} // namespace

Picture picture(const CourseLayout& placed) {
    return Sheet(placed).page();
}

std::string svg(const CourseView& view) {
    return svg(picture(layout(view)));
}

std::string png(const CourseView& view, double scale) {
    return png(picture(layout(view)), scale);
}

Group course(const CourseView& view, const Box& box) {
    return {view.title, {}, {}, Sheet(layout(view, box)).contents()};
}

std::string words(const CourseView& view) {
    return view.description.empty() ? described(view) : view.description;
}

} // namespace cistern::drawing
