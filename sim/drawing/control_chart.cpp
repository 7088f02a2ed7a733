#include "drawing/control_chart.h"

#include "drawing/axis.h"
#include "drawing/fit.h"
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
constexpr double rim = 2;  // that the last controls may stand over their field
constexpr double edge = 4; // SD; a control beyond it is drawn at the edge, as an arrow

/// Letters and room at a scale.
struct Types {
    Type title, subtitle, legend, heading, tick, caution;
    explicit Types(double s)
        : title{24 * s, Weight::semibold, theme::ink},
          subtitle{15 * s, Weight::regular, theme::muted},
          legend{15 * s, Weight::medium, theme::ink},
          heading{15 * s, Weight::semibold, theme::ink},
          tick{14 * s, Weight::regular, theme::muted, false, true},
          caution{12.5 * s, Weight::regular, theme::muted} {}
};

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument("a control chart cannot be drawn: " + sentence);
}

} // namespace

void validate(const ControlChartView& view) {
    if (view.runs.size() < 2) refuse("it needs at least two runs");
    if (view.lines.empty()) refuse("it needs at least one material");
    if (!(view.textScale >= 0.5 && view.textScale <= 3))
        refuse("the text scale must lie between 0.5 and 3");
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

namespace {

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
Path arrow(Point tip, double way, double half = 7) {
    const double high = 11. / 7 * half;
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
    /// A whole page.
    explicit Builder(const ControlChartView& view)
        : Builder(view, view.textScale, margin + padding, view.width - margin - padding) {
        rowHeight_ = std::max(rowHeight, lineHeight(type_.heading) + 2);
    }

    /// Inside a box that ends at its right and bottom, at a scale of its letters.
    Builder(const ControlChartView& view, const Box& box, double scale, bool explained)
        : Builder(view, scale, box.x, box.right() - rim) {
        numbersEnd_ = right_;
        gap_ = std::min(gap, gap * scale);
        rowHeight_ = lineHeight(type_.heading) + 2;
        arrow_ = std::clamp(columnWidth() / 2, 2., arrow_);
        explained_ = explained;
        place(box);
    }

    /// True if all that stands in the box fits it.
    bool fits() const { return fits_; }

    Group group(const std::string& name) {
        Group group{name, {}, {}, std::move(marks_)};
        for (Text& text : texts_) group.marks.push_back({std::move(text)});
        return group;
    }

    Picture draw() {
        const double bottom = charts(legend(head(margin + padding))) + padding;
        const Text caution =
            hung(view_.caution, type_.caution, Align::left, left_, bottom + gap, right_ - left_);
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
    Types type_;
    std::vector<Mark> marks_;
    std::vector<Text> texts_; ///< over everything else
    double left_, right_, fieldLeft_ = 0;
    double gap_ = gap, fieldHeight_ = fieldHeight, rowHeight_ = rowHeight;
    double arrow_ = 7;        ///< half of its width
    double numbersEnd_ = 1e9; ///< no number of a run stands further right
    bool explained_ = true;   ///< whether it says what each rule speaks for
    bool fits_ = true;

    Builder(const ControlChartView& view, double scale, double left, double right)
        : view_(view), type_(scale), left_(left), right_(right) {
        double names = 0;
        for (const int band : {-3, 0, 3})
            names = std::max(names, measure(bandWords(band, view.words), type_.tick).width);
        for (const RuleRow& rule : view.rules)
            names = std::max(names, measure(rule.name, type_.heading).width);
        fieldLeft_ = left_ + names + gap;
    }

    static double lineHeight(const Type& type) { return measure("Ag", type).height(); }

    /// The fields share the height that all else leaves. Draws twice: to see what that is, and then
    /// for good.
    void place(const Box& box) {
        constexpr double flattest = 56; // of a field, at letters of usual size
        fieldHeight_ = 0;
        const double rest = charts(legend(box.y)) - box.y;
        marks_.clear();
        texts_.clear();
        const double least = 4 * lineHeight(type_.tick);
        fieldHeight_ = (box.height - rest) / static_cast<double>(view_.lines.size());
        fits_ = fieldHeight_ >= std::max(least, flattest * type_.tick.size / 14) &&
                right_ - fieldLeft_ >= 0.4 * box.width;
        fieldHeight_ = std::max(fieldHeight_, least);
        charts(legend(box.y));
        for (const Text& text : texts_) fits_ = fits_ && box.contains(extent(text), 0.5);
    }

    double charts(double top) {
        for (const ControlLine& line : view_.lines) top = panel(line, top);
        top = runNumbers(top - gap_);
        return rules(top + gap_);
    }

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
            top = below(hung(view_.title, type_.title, Align::left, left_, top, right_ - left_), 4);
        if (!view_.subtitle.empty())
            top =
                below(hung(view_.subtitle, type_.subtitle, Align::left, left_, top, right_ - left_),
                      gap_);
        return top;
    }

    /// Entries one after another, in as many rows as they need.
    double legend(double top) {
        const double height = std::max(lineHeight(type_.legend), 13.); // the marks keep their size
        double x = left_;
        const auto entry = [&](const auto& draw, const std::string& words) {
            constexpr double mark = 10, between = 24;
            const double width = mark + 6 + measure(words, type_.legend).width;
            if (x > left_ && x + width > right_) {
                x = left_ + rim;
                top += height;
            }
            draw(Point{x + mark / 2, top + height / 2});
            add(hung(words, type_.legend, Align::left, x + mark + 6, top));
            x += width + between;
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
        return top + height + gap_;
    }

    bool anyBeyond() const {
        for (const ControlLine& line : view_.lines)
            for (const ControlMark& mark : line.marks)
                if (std::abs(mark.score) > edge) return true;
        return false;
    }

    double panel(const ControlLine& line, double top) {
        const double right = right_;
        Text name = hung(line.name, type_.heading, Align::left, left_, top, right - left_);
        const double both = extent(name).width + gap_ + measure(line.target, type_.subtitle).width;
        if (both > right - left_) top = extent(name).bottom(); // one under the other
        add(std::move(name));
        top = below(hung(line.target, type_.subtitle, Align::right, right, top, right - left_), 6);
        const Box field{fieldLeft_, top, right_ - fieldLeft_, fieldHeight_};
        const Axis axis{-edge, edge, field.bottom(), -fieldHeight_, false};
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
                                   ? arrow(points[i], mark.score > 0 ? -1 : 1, arrow_)
                                   : marker(mark.state, points[i], radius);
            group.marks.push_back(
                {Shape{shape, colorOf(mark.state), Stroke{theme::field, 1.2, {}}}});
        }
        marks_.push_back({std::move(group)});
        return field.bottom() + 2 * gap_;
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
        const double half = measure("+1", type_.tick).height() / 2;
        const bool roomy = std::abs(axis.length) >= 4 * edge * half; // for each SD's words
        for (int deviations = -3; deviations <= 3; ++deviations) {
            const double y = axis.position(deviations);
            const bool mean = deviations == 0;
            stroke({{field.x, y}, {field.right(), y}},
                   {mean ? theme::stoneDark : theme::line, mean ? 1.6 : 1., {}});
            if (!roomy && deviations % 2 != 0) continue;
            add(hung(bandWords(deviations, view_.words), type_.tick, Align::right, field.x - 8,
                     y - half));
        }
        marks_.push_back({Shape{rectangle(field), std::nullopt, Stroke{theme::line, 1, {}}}});
    }

    /// As many as leave room from one to the next: every run, every second, fifth, tenth ...
    double runNumbers(double top) {
        const double room = measure(std::to_string(view_.runs.back()), type_.tick).width + 10;
        std::uint64_t every = 1;
        for (const std::uint64_t step :
             {1u, 2u, 5u, 10u, 20u, 50u, 100u, 200u, 500u, 1000u, 10000u}) {
            every = step;
            if (static_cast<double>(step) * columnWidth() >= room) break;
        }
        add(hung(view_.words.run, type_.tick, Align::right, fieldLeft_ - 8, top));
        double bottom = top;
        for (std::size_t i = 0; i < view_.runs.size(); ++i)
            if (view_.runs[i] % every == 0) {
                Text number =
                    hung(std::to_string(view_.runs[i]), type_.tick, Align::center, xOf(i), top);
                number.at.x -= std::max(0., extent(number).right() - numbersEnd_);
                bottom = below(std::move(number), 0);
            }
        return bottom;
    }

    double rules(double top) {
        if (view_.rules.empty())
            return below(hung(view_.words.none, type_.heading, Align::left, left_, top), 0);
        top = below(hung(view_.words.rules, type_.heading, Align::left, left_, top), 6);
        const double half = measure("1-2s", type_.heading).height() / 2;
        for (const RuleRow& rule : view_.rules) {
            const Box row{fieldLeft_, top, right_ - fieldLeft_, rowHeight_};
            fill(rectangle(row), theme::field);
            marks_.push_back({Shape{rectangle(row), std::nullopt, Stroke{theme::line, 1, {}}}});
            add(hung(rule.name, type_.heading, Align::right, fieldLeft_ - 8,
                     row.middle().y - half));
            const ControlState state =
                rule.warning ? ControlState::warning : ControlState::rejected;
            const double radius = std::min(5., 0.4 * columnWidth());
            for (std::size_t i = 0; i < rule.broken.size(); ++i)
                if (rule.broken[i])
                    fill(marker(state, {xOf(i), row.middle().y}, radius), colorOf(state));
            top = row.bottom();
        }
        if (!explained_) return top;
        top += gap_;
        for (const RuleRow& rule : view_.rules)
            top = below(hung(rule.name + ": " + rule.words, type_.subtitle, Align::left, left_, top,
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

namespace {

/// A chart in its box at one scale of its letters.
struct Tried {
    Group group;
    bool whole;
    bool fits() const { return whole; }
};

Tried tried(const ControlChartView& view, const Box& box, double scale, bool explained) {
    Builder builder(view, box, scale, explained);
    const bool whole = builder.fits();
    return {builder.group(view.title), whole};
}

} // namespace

Group controlChart(const ControlChartView& view, const Box& box) {
    validate(view);
    Tried whole = tried(view, box, view.textScale, true);
    if (!whole.fits())
        whole =
            fitted(view.textScale, [&](double scale) { return tried(view, box, scale, false); });
    return std::move(whole.group);
}

} // namespace cistern::drawing
