#include "drawing/control_chart.h"

#include "drawing/axis.h"
#include "drawing/svg.h"
#include "drawing/theme.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace cistern::drawing {

namespace {

// Room in pixels around things.
constexpr double margin = 20, padding = 22, gap = 12;
constexpr double fieldHeight = 220, rowHeight = 26, narrowest = 500;
constexpr double edge = 4; // SD; a control beyond it is drawn at the edge, as an arrow

const Type titleType{24, Weight::semibold, theme::ink};
const Type subtitleType{15, Weight::regular, theme::muted};
const Type legendType{15, Weight::medium, theme::ink};
const Type headingType{15, Weight::semibold, theme::ink};
const Type tickType{14, Weight::regular, theme::muted, false, true};
const Type cautionType{12.5, Weight::regular, theme::muted};

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument("a control chart cannot be drawn: " + sentence);
}

void validate(const ControlChartView& view) {
    if (view.runs.size() < 2) refuse("it needs at least two runs");
    if (view.lines.empty()) refuse("it needs at least one material");
    if (!(view.width >= narrowest && view.width <= 16384)) refuse("it must be 500 to 16,384 wide");
    for (const ControlLine& line : view.lines) {
        if (line.marks.size() != view.runs.size())
            refuse(line.name + " must have one control for each run");
        for (std::size_t i = 0; i < line.marks.size(); ++i)
            if (!std::isfinite(line.marks[i].score))
                refuse(line.name + " in run " + std::to_string(view.runs[i]) +
                       " is not a finite number");
    }
    for (const RuleRow& rule : view.rules)
        if (rule.broken.size() != view.runs.size())
            refuse("rule " + rule.name + " must be told for each run");
}

Color colorOf(ControlState state) {
    switch (state) {
    case ControlState::warning:
        return theme::work;
    case ControlState::rejected:
        return theme::thought;
    case ControlState::inControl:
        break;
    }
    return theme::leak;
}

/// A shape beside the color: circle in control, square for a warning, diamond for a rejected run.
Path marker(ControlState state, Point at, double radius) {
    if (state == ControlState::inControl) return circle(at, radius);
    if (state == ControlState::warning) {
        const double half = 0.89 * radius;
        return rectangle({at.x - half, at.y - half, 2 * half, 2 * half});
    }
    return diamond(at, 1.25 * radius);
}

/// Beyond the edge, pointing outward: `way` -1 is up.
Path arrow(Point tip, double way) {
    constexpr double half = 7, high = 11;
    return Path()
        .move(tip)
        .line({tip.x + half, tip.y - way * high})
        .line({tip.x - half, tip.y - way * high})
        .close();
}

std::string bandWords(int deviations, const ControlWords& words) {
    if (deviations == 0) return words.mean;
    return (deviations > 0 ? "+" : "\xE2\x88\x92") + std::to_string(std::abs(deviations)) + " SD";
}

class Builder {
public:
    explicit Builder(const ControlChartView& view) : view_(view) {
        double names = 0;
        for (const int band : {-3, 0, 3})
            names = std::max(names, measure(bandWords(band, view.words), tickType).width);
        for (const RuleRow& rule : view.rules)
            names = std::max(names, measure(rule.name, headingType).width);
        fieldLeft_ = left_ + names + gap;
        right_ = view.width - margin - padding;
    }

    Picture draw() {
        double top = head(margin + padding);
        for (const ControlLine& line : view_.lines) top = panel(line, top);
        top = runNumbers(top - gap);
        const double bottom = rules(top + gap) + padding;
        const Text caution =
            hung(view_.caution, cautionType, Align::left, left_, bottom + gap, right_ - left_);
        add(caution);
        Picture picture;
        picture.width = view_.width;
        picture.height = extent(caution).bottom() + margin;
        picture.title = view_.title;
        picture.description = view_.description;
        picture.language = view_.language;
        const auto ground = [&](Path path, Color fill, std::optional<Stroke> stroke) {
            picture.marks.push_back({Shape{std::move(path), fill, std::move(stroke)}});
        };
        ground(rectangle({0, 0, picture.width, picture.height}), theme::paper, {});
        ground(rounded({margin, margin, picture.width - 2 * margin, bottom - margin}, 8),
               theme::panel, Stroke{theme::line, 1, {}});
        for (const Mark& mark : marks_) picture.marks.push_back(mark);
        for (const Text& text : texts_) picture.marks.push_back({text});
        return picture;
    }

private:
    const ControlChartView& view_;
    std::vector<Mark> marks_;
    std::vector<Text> texts_; ///< over everything else
    double left_ = margin + padding, right_ = 0, fieldLeft_ = 0;

    void add(Text text) { texts_.push_back(std::move(text)); }
    void fill(Path path, Color color) {
        marks_.push_back({Shape{std::move(path), color, std::nullopt}});
    }
    void stroke(const std::vector<Point>& points, Stroke stroke) {
        marks_.push_back({Shape{polyline(points), std::nullopt, std::move(stroke)}});
    }
    double below(Text text, double space) {
        const double bottom = extent(text).bottom();
        add(std::move(text));
        return bottom + space;
    }

    double columnWidth() const {
        return (right_ - fieldLeft_) / static_cast<double>(view_.runs.size());
    }
    double xOf(std::size_t run) const {
        return fieldLeft_ + columnWidth() * (static_cast<double>(run) + 0.5);
    }

    double head(double top) {
        if (!view_.title.empty())
            top = below(hung(view_.title, titleType, Align::left, left_, top, right_ - left_), 4);
        if (!view_.subtitle.empty())
            top = below(hung(view_.subtitle, subtitleType, Align::left, left_, top, right_ - left_),
                        gap);
        const double height = measure("Ag", legendType).height();
        double x = left_;
        const auto entry = [&](const auto& draw, const std::string& words) {
            constexpr double mark = 10, between = 24;
            draw(Point{x + mark / 2, top + height / 2});
            add(hung(words, legendType, Align::left, x + mark + 6, top));
            x += mark + 6 + measure(words, legendType).width + between;
        };
        for (const auto& [state, words] :
             {std::pair{ControlState::inControl, view_.words.inControl},
              {ControlState::warning, view_.words.warning},
              {ControlState::rejected, view_.words.rejected}})
            entry([&, state = state](Point at) { fill(marker(state, at, 5), colorOf(state)); },
                  words);
        if (anyBeyond())
            entry(
                [&](Point at) {
                    fill(arrow({at.x, at.y - 6}, -1), theme::muted);
                },
                view_.words.beyond);
        return top + height + gap;
    }

    bool anyBeyond() const {
        for (const ControlLine& line : view_.lines)
            for (const ControlMark& mark : line.marks)
                if (std::abs(mark.score) > edge) return true;
        return false;
    }

    double panel(const ControlLine& line, double top) {
        const double right = right_;
        add(hung(line.name, headingType, Align::left, left_, top));
        top = below(hung(line.target, subtitleType, Align::right, right, top), 6);
        const Box field{fieldLeft_, top, right_ - fieldLeft_, fieldHeight};
        const Axis axis{-edge, edge, field.bottom(), -fieldHeight, false};
        ground(field, axis);
        std::vector<Point> points;
        for (std::size_t i = 0; i < line.marks.size(); ++i)
            points.push_back({xOf(i), axis.position(line.marks[i].score)});
        stroke(points, {theme::stoneDark, 1.5, {}});
        Group group{line.name, {}, {}, {}};
        const double radius = std::clamp(0.4 * columnWidth(), 2., 5.);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const ControlMark& mark = line.marks[i];
            const Path shape = std::abs(mark.score) > edge
                                   ? arrow(points[i], mark.score > 0 ? -1 : 1)
                                   : marker(mark.state, points[i], radius);
            group.marks.push_back(
                {Shape{shape, colorOf(mark.state), Stroke{theme::field, 1.2, {}}}});
        }
        marks_.push_back({std::move(group)});
        return field.bottom() + 2 * gap;
    }

    /// The bands: calm to 2 SD, ochre to 3 SD, plum beyond.
    void ground(const Box& field, const Axis& axis) {
        fill(rectangle(field), theme::field);
        const auto band = [&](double from, double to, Color color) {
            color.alpha = 0.45;
            const double upper = axis.position(to), lower = axis.position(from);
            fill(rectangle({field.x, upper, field.width, lower - upper}), color);
        };
        for (const double side : {-1., 1.}) {
            band(std::min(side * 2, side * 3), std::max(side * 2, side * 3), theme::workSoft);
            band(std::min(side * 3, side * edge), std::max(side * 3, side * edge),
                 theme::thoughtSoft);
        }
        const double half = measure("+1", tickType).height() / 2;
        for (int deviations = -3; deviations <= 3; ++deviations) {
            const double y = axis.position(deviations);
            const bool mean = deviations == 0;
            stroke({{field.x, y}, {field.right(), y}},
                   {mean ? theme::stoneDark : theme::line, mean ? 1.6 : 1., {}});
            add(hung(bandWords(deviations, view_.words), tickType, Align::right, field.x - 8,
                     y - half));
        }
        marks_.push_back({Shape{rectangle(field), std::nullopt, Stroke{theme::line, 1, {}}}});
    }

    /// As many as leave room from one to the next: every run, every second, fifth, tenth ...
    double runNumbers(double top) {
        const double room = measure(std::to_string(view_.runs.back()), tickType).width + 10;
        std::uint64_t every = 1;
        for (const std::uint64_t step :
             {1u, 2u, 5u, 10u, 20u, 50u, 100u, 200u, 500u, 1000u, 10000u}) {
            every = step;
            if (static_cast<double>(step) * columnWidth() >= room) break;
        }
        add(hung(view_.words.run, tickType, Align::right, fieldLeft_ - 8, top));
        double bottom = top;
        for (std::size_t i = 0; i < view_.runs.size(); ++i)
            if (view_.runs[i] % every == 0)
                bottom = below(
                    hung(std::to_string(view_.runs[i]), tickType, Align::center, xOf(i), top), 0);
        return bottom;
    }

    double rules(double top) {
        if (view_.rules.empty())
            return below(hung(view_.words.none, headingType, Align::left, left_, top), 0);
        top = below(hung(view_.words.rules, headingType, Align::left, left_, top), 6);
        const double half = measure("1-2s", headingType).height() / 2;
        for (const RuleRow& rule : view_.rules) {
            const Box row{fieldLeft_, top, right_ - fieldLeft_, rowHeight};
            fill(rectangle(row), theme::field);
            marks_.push_back({Shape{rectangle(row), std::nullopt, Stroke{theme::line, 1, {}}}});
            add(hung(rule.name, headingType, Align::right, fieldLeft_ - 8, row.middle().y - half));
            const ControlState state =
                rule.warning ? ControlState::warning : ControlState::rejected;
            const double radius = std::min(5., 0.4 * columnWidth());
            for (std::size_t i = 0; i < rule.broken.size(); ++i)
                if (rule.broken[i])
                    fill(marker(state, {xOf(i), row.middle().y}, radius), colorOf(state));
            top = row.bottom();
        }
        top += gap;
        for (const RuleRow& rule : view_.rules)
            top = below(hung(rule.name + ": " + rule.words, subtitleType, Align::left, left_, top,
                             right_ - left_),
                        4);
        return top;
    }
};

} // namespace

Picture picture(const ControlChartView& view) {
    validate(view);
    return Builder(view).draw();
}

std::string svg(const ControlChartView& view) {
    return svg(picture(view));
}

} // namespace cistern::drawing
