#include "drawing/course.h"
#include "drawing/course_panels.h"
#include "drawing/course_words.h"
#include "drawing/fit.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

namespace {

// Room in pixels around things, at any text scale.
constexpr double margin = 20, padding = 22, gap = 10;
constexpr double leader = 34;       // from the end of a curve to the sample before its name
constexpr double sampleLength = 38; // long enough to show the longest dash

/// How small a plot may get on a page and in a box: its width, and the height of a field by the
/// weight of its panel, in pixels and in halves of a number's height.
struct Least {
    double width, field, ofWeight, numbers;
};
constexpr Least onPage{180, 30, 100, 12};
Least inBox(double scale) {
    const double letters = std::min(scale, 1.); // smaller ones make do with smaller fields
    return {90, 16 * letters, 46 * letters, 6};
}

struct Types {
    Type title, subtitle, legend, heading, tick, health, label, value, bar, caution;
    explicit Types(double s)
        : title{24 * s, Weight::semibold, theme::ink},
          subtitle{15 * s, Weight::regular, theme::muted},
          legend{15 * s, Weight::medium, theme::ink},
          heading{15 * s, Weight::semibold, theme::ink},
          tick{14 * s, Weight::regular, theme::muted},
          health{14 * s, Weight::semibold, theme::ink},
          label{16 * s, Weight::semibold, theme::ink},
          value{15 * s, Weight::regular, theme::muted, false, true},
          bar{14 * s, Weight::medium, theme::ink},
          caution{12.5 * s, Weight::regular, theme::muted} {}
};

/// Works from the top of the page to its foot; heights that depend on the letters come first, and
/// the panels share what is left.
class Builder {
public:
    /// A whole page.
    explicit Builder(const CourseView& view)
        : Builder(view, view.textScale, onPage, margin + padding, view.width - margin - padding) {
        out_.title = view.title;
        out_.language = view.language;
        out_.description = words(view);
        out_.width = right_ + padding + margin;
    }

    /// Inside a box, at a scale of its letters.
    Builder(const CourseView& view, const Box& box, double scale)
        : Builder(view, scale, inBox(scale), box.x, box.right()) {}

    CourseLayout build(const Box& box) {
        double top = legend(box.y);
        const double below = foot();
        const double bottom = share(top, below, box.bottom() + padding) - padding;
        for (PanelPlan& panel : panels_) top = place(panel, top);
        timesAndBars(top);
        constexpr double hair = 0.5;
        out_.fit = right_ <= box.right() + hair && bottom <= box.bottom() + hair;
        for (const Text& text : out_.texts) out_.fit = out_.fit && box.contains(extent(text), hair);
        return std::move(out_);
    }

    CourseLayout build() {
        double top = legend(head(margin + padding));
        const double below = foot();
        const double caution = cautionHeight();
        const double cardBottom = share(top, below, view_.height - margin - caution - margin / 2);
        for (PanelPlan& panel : panels_) top = place(panel, top);
        timesAndBars(top);
        out_.card = {margin, margin, out_.width - 2 * margin, cardBottom - margin};
        if (!view_.caution.empty())
            out_.texts.push_back(hung(view_.caution, type_.caution, Align::left, left_,
                                      cardBottom + margin / 2, right_ - left_));
        out_.height = std::max(view_.height, cardBottom + margin / 2 + caution + margin);
        return std::move(out_);
    }

private:
    const CourseView& view_;
    Types type_;
    std::vector<PanelPlan> panels_;
    CourseLayout out_;
    Least least_;
    double left_, right_; // inside the card or box
    double plotLeft_ = 0, plotRight_ = 0, nameLeft_ = 0, nameWidth_ = 0, valueWidth_ = 0;
    std::vector<double> heights_; // of the fields
    Axis time_;

    struct Lane {
        double top = 0, height = 0, end = -INFINITY; ///< end: x of the last thing in it
    };
    struct Happening {
        Box bar; ///< y counts from the top of its lane
        Text name;
        std::size_t lane;
    };
    std::vector<Lane> lanes_;
    std::vector<Happening> happenings_;

    Builder(const CourseView& view, double scale, const Least& least, double left, double right)
        : view_(view),
          type_(scale),
          panels_(levelPanels(view)),
          least_(least),
          left_(left),
          right_(right) {
        if (!view.work.empty()) panels_.push_back(workPanel(view));
        columns();
    }

    double lineHeight(const Type& type) const { return measure("Ag", type).height(); }
    double tickHalf() const { return lineHeight(type_.tick) / 2; }

    /// Adds a text and tells where the next may start.
    double add(Text text, double space) {
        const double bottom = extent(text).bottom();
        out_.texts.push_back(std::move(text));
        return bottom + space;
    }

    double head(double top) {
        const double width = right_ - left_;
        if (!view_.title.empty())
            top = add(hung(view_.title, type_.title, Align::left, left_, top, width), 4);
        if (!view_.subtitle.empty())
            top = add(hung(view_.subtitle, type_.subtitle, Align::left, left_, top, width), gap);
        return top;
    }

    double legend(double top) {
        std::vector<std::pair<std::optional<Meaning>, std::string>> entries;
        for (int kind = 0; kind < meaningCount; ++kind) {
            const auto meaning = static_cast<Meaning>(kind);
            const bool shown = std::any_of(panels_.begin(), panels_.end(), [&](const auto& panel) {
                return std::any_of(panel.traces.begin(), panel.traces.end(),
                                   [&](const Trace& trace) { return trace.meaning == meaning; });
            });
            if (shown) entries.push_back({meaning, meaningWords(view_.words, meaning)});
        }
        if (std::any_of(view_.levels.begin(), view_.levels.end(),
                        [](const LevelLine& line) { return !line.pegs.empty(); }))
            entries.push_back({std::nullopt, view_.words.measured});
        constexpr double high = 20; // of the marks
        const double line = std::max(high, lineHeight(type_.legend));
        double x = left_, row = 0;
        for (const auto& [meaning, words] : entries) {
            const double mark = meaning ? 34 : 14;
            const double room = right_ - left_ - mark - gap;
            Text text = hung(words, type_.legend, Align::left, 0, 0, room);
            const Box box = extent(text);
            if (x > left_ && x + mark + gap + box.width > right_) {
                x = left_;
                top += row + 4;
                row = 0;
            }
            text.at.x = x + mark + gap;
            text.at.y += top + (line - lineHeight(type_.legend)) / 2;
            out_.legend.push_back({{x, top + (line - high) / 2, mark, high}, meaning});
            x += mark + gap + box.width + 28;
            row = std::max(row, line + box.height - lineHeight(type_.legend));
            out_.texts.push_back(std::move(text));
        }
        return top + row + gap;
    }

    /// Where the plot stands between the numbers on its left and the names on its right.
    void columns() {
        double tick = 0, name = 0;
        for (PanelPlan& panel : panels_) {
            Axis fine = panel.axis; // the densest ticks that could come: a bound for their width
            fine.length = 1e6;
            for (const Tick& one : levelTicks(fine, 0, panel.words))
                tick = std::max(tick, measure(one.words, type_.health).width);
            for (const Trace& trace : panel.traces) {
                name = std::max(name, measure(trace.name, type_.label).width);
                valueWidth_ = std::max(valueWidth_, measure(trace.end, type_.value).width);
            }
        }
        const double most = 0.42 * (right_ - left_) - leader - sampleLength - 2 * gap - valueWidth_;
        nameWidth_ = std::min(std::ceil(name) + 1, std::max(most, 4 * type_.label.size));
        plotLeft_ = left_ + tick + gap;
        const double column = leader + sampleLength + gap + nameWidth_ + gap + valueWidth_;
        right_ =
            std::max(right_, plotLeft_ + least_.width + column); // large letters widen the page
        nameLeft_ = right_ - valueWidth_ - gap - nameWidth_;
        plotRight_ = nameLeft_ - gap - sampleLength - leader;
        time_ = {view_.hours.front(), view_.hours.back(), plotLeft_, plotRight_ - plotLeft_, false};
        for (PanelPlan& panel : panels_) {
            double names = 0;
            for (const Trace& trace : panel.traces) names += labelHeight(trace);
            panel.least = std::max({names, least_.field + least_.ofWeight * panel.weight,
                                    (2 + least_.numbers * panel.weight) * tickHalf()});
        }
    }

    double labelHeight(const Trace& trace) const {
        return extent(hung(trace.name, type_.label, Align::left, 0, 0, nameWidth_)).height + 4;
    }

    /// Height of the time labels and the bars below the panels.
    double foot() {
        sortIntoLanes();
        double height = tickHalf() + 6 + lineHeight(type_.tick);
        if (happenings_.empty()) return height;
        height += gap + lineHeight(type_.heading) + 6;
        for (Lane& lane : lanes_) {
            lane.top = height;
            height += lane.height + 5;
        }
        return height;
    }

    /// Below a heading there is room for the upper half of a number at the top of its axis.
    double headingHeight(const std::string& words, double right) const {
        return extent(hung(words, type_.heading, Align::left, left_, 0, right - left_)).height +
               tickHalf() + 1;
    }

    /// The first heading shares its row with the head of the column of last values.
    double headingRight(std::size_t panel) const {
        return panel > 0 ? right_ : right_ - measure(view_.words.last, type_.tick).width - 2 * gap;
    }

    double cautionHeight() const {
        if (view_.caution.empty()) return 0;
        return extent(hung(view_.caution, type_.caution, Align::left, 0, 0, right_ - left_)).height;
    }

    /// Gives the panels their heights; returns the lower edge of the card.
    double share(double top, double below, double cardBottom) {
        double fixed = padding + below;
        for (std::size_t i = 0; i < panels_.size(); ++i)
            fixed += headingHeight(panels_[i].heading, headingRight(i)) + between();
        fixed -= between();
        double room = cardBottom - top - fixed, least = 0;
        for (const PanelPlan& panel : panels_) least += panel.least;
        cardBottom += std::max(0.0, least - room);
        room = std::max(room, least);
        heights_.assign(panels_.size(), 0);
        // Whoever would get less than it needs gets that; the others share the rest anew.
        for (bool settled = false; !settled;) {
            settled = true;
            double rest = room, weight = 0;
            for (std::size_t i = 0; i < panels_.size(); ++i) {
                rest -= heights_[i];
                weight += heights_[i] > 0 ? 0 : panels_[i].weight;
            }
            for (std::size_t i = 0; i < panels_.size() && settled; ++i) {
                if (heights_[i] > 0 || rest * panels_[i].weight / weight >= panels_[i].least)
                    continue;
                heights_[i] = panels_[i].least;
                settled = false;
            }
            if (!settled) continue;
            for (std::size_t i = 0; i < panels_.size(); ++i)
                if (heights_[i] <= 0) heights_[i] = rest * panels_[i].weight / weight;
        }
        return cardBottom;
    }

    double between() const { return gap + tickHalf(); }

    double place(PanelPlan& plan, double top) {
        const std::size_t index = out_.panels.size();
        const double start = top;
        add(hung(plan.heading, type_.heading, Align::left, left_, top, headingRight(index) - left_),
            0);
        top = start + headingHeight(plan.heading, headingRight(index));
        if (index == 0) {
            Text last = hung(view_.words.last, type_.tick, Align::right, right_, start);
            last.at.y = out_.texts.back().at.y;
            out_.texts.push_back(std::move(last));
        }
        CourseLayout::Panel panel;
        panel.field = {plotLeft_, top, plotRight_ - plotLeft_, heights_[index]};
        plan.axis.start = panel.field.bottom();
        plan.axis.length = -panel.field.height;
        if (plan.health) panel.health = plan.axis.position(*plan.health);
        ticks(plan, panel);
        for (const Trace& trace : plan.traces) panel.curves.push_back(curve(plan, trace));
        labels(plan, panel);
        out_.panels.push_back(std::move(panel));
        const bool last = index + 1 == panels_.size();
        return top + heights_[index] + (last ? 0 : between());
    }

    void ticks(const PanelPlan& plan, CourseLayout::Panel& panel) {
        for (const Tick& tick : levelTicks(plan.axis, 1.5 * lineHeight(type_.tick), plan.words)) {
            const bool health =
                plan.health && std::abs(tick.value - *plan.health) < 1e-9 * *plan.health;
            if (!health) panel.grid.push_back(tick.at);
            const Type& type = health ? type_.health : type_.tick;
            out_.texts.push_back(hung(tick.words, type, Align::right, plotLeft_ - gap + 2,
                                      tick.at - lineHeight(type) / 2));
        }
    }

    CourseLayout::Curve curve(const PanelPlan& plan, const Trace& trace) const {
        CourseLayout::Curve curve;
        curve.name = trace.name;
        curve.meaning = trace.meaning;
        curve.dash = trace.dash;
        std::vector<Point> points;
        for (std::size_t i = 0; i < trace.values.size(); ++i)
            points.push_back({time_.position(view_.hours[i]), plan.axis.position(trace.values[i])});
        curve.end = points.back();
        curve.points = thinned(points);
        for (const Peg& peg : trace.pegs) {
            const double low = peg.value - peg.halfWidth, high = peg.value + peg.halfWidth;
            curve.pegs.push_back({{time_.position(peg.hour), plan.axis.position(peg.value)},
                                  plan.axis.position(high),
                                  plan.axis.position(low),
                                  low<plan.axis.low, high> plan.axis.high});
        }
        return curve;
    }

    /// Names and last values, pushed apart, each beside a sample of its line.
    void labels(const PanelPlan& plan, CourseLayout::Panel& panel) {
        std::vector<double> wanted, heights;
        for (std::size_t i = 0; i < plan.traces.size(); ++i) {
            wanted.push_back(panel.curves[i].end.y);
            heights.push_back(labelHeight(plan.traces[i]));
        }
        const std::vector<double> middles =
            spread(wanted, heights, panel.field.y, panel.field.bottom());
        const double line = lineHeight(type_.label);
        for (std::size_t i = 0; i < plan.traces.size(); ++i) {
            const double top = middles[i] - heights[i] / 2 + 2;
            panel.curves[i].sample = {nameLeft_ - gap - sampleLength, top + line / 2 - 2,
                                      sampleLength, 4};
            out_.texts.push_back(
                hung(plan.traces[i].name, type_.label, Align::left, nameLeft_, top, nameWidth_));
            Text value = hung(plan.traces[i].end, type_.value, Align::right, right_, top);
            value.at.y = out_.texts.back().at.y; // both on one baseline
            out_.texts.push_back(std::move(value));
        }
    }

    void sortIntoLanes() {
        std::vector<HappeningBar> bars;
        for (const HappeningBar& bar : view_.happenings)
            if (bar.to >= time_.low && bar.from <= time_.high) bars.push_back(bar);
        std::stable_sort(bars.begin(), bars.end(),
                         [](const auto& a, const auto& b) { return a.from < b.from; });
        for (const HappeningBar& bar : bars) {
            Happening one = happening(bar);
            const Box name = extent(one.name);
            const double start = std::min(one.bar.x, name.x);
            auto lane = std::find_if(lanes_.begin(), lanes_.end(),
                                     [&](const Lane& each) { return each.end + gap <= start; });
            if (lane == lanes_.end()) {
                lanes_.emplace_back();
                lane = lanes_.end() - 1;
            }
            lane->end = std::max(one.bar.right(), name.right());
            lane->height = std::max({lane->height, one.bar.bottom(), name.bottom()});
            one.lane = static_cast<std::size_t>(lane - lanes_.begin());
            happenings_.push_back(std::move(one));
            if (bar.from >= time_.low) out_.onsets.push_back(time_.position(bar.from));
        }
    }

    /// A bar with its name inside it, or right of it, or left of it, or under it: the first that
    /// fits.
    Happening happening(const HappeningBar& bar) const {
        constexpr double least = 8; // a moment must be seen too
        const double inset = 8, name = measure(bar.name, type_.bar).width;
        const double high = lineHeight(type_.bar) + 6;
        double x = time_.position(bar.from);
        const double width = std::max(least, time_.position(bar.to) - x);
        x = std::min(x, plotRight_ - width);
        const Box box{x, 0, width, high};
        const auto at = [&](double left) {
            return Happening{box, hung(bar.name, type_.bar, Align::left, left, 3), 0};
        };
        if (name + 2 * inset <= width) return at(x + inset);
        if (box.right() + inset + name <= right_) return at(box.right() + inset);
        if (x - inset - name >= left_) return at(x - inset - name);
        Text under = hung(bar.name, type_.bar, Align::left, left_, high + 2, right_ - left_);
        under.at.x = std::max(left_, std::min(x, right_ - extent(under).width));
        return {box, std::move(under), 0};
    }

    void timesAndBars(double bottom) {
        const Room room = [this](std::string_view words) {
            return measure(words, type_.tick).width + 1.2 * type_.tick.size;
        };
        const std::vector<Tick> ticks = timeTicks(time_, room, view_.words.zero);
        double free = left_;
        for (const Tick& tick : ticks) {
            out_.timeGrid.push_back(tick.at);
            Text text = hung(tick.words, type_.tick, Align::left, 0, bottom + tickHalf() + 6);
            const double width = extent(text).width;
            text.at.x = std::clamp(tick.at - width / 2, left_, std::max(left_, right_ - width));
            if (text.at.x < free) continue; // a label moved in from the edge left no room
            free = text.at.x + width + 2;
            out_.texts.push_back(std::move(text));
        }
        for (const Tick& tick : minorTimeTicks(time_, ticks)) out_.minorTimes.push_back(tick.at);
        if (happenings_.empty()) return;
        const double heading = bottom + tickHalf() + 6 + lineHeight(type_.tick) + gap;
        add(hung(view_.words.happened, type_.heading, Align::left, left_, heading), 0);
        for (Happening& one : happenings_) {
            one.bar.y += bottom + lanes_[one.lane].top;
            one.name.at.y += bottom + lanes_[one.lane].top;
            out_.bars.push_back(one.bar);
            out_.texts.push_back(std::move(one.name));
        }
    }
};

} // namespace

CourseLayout layout(const CourseView& view) {
    validate(view);
    return Builder(view).build();
}

CourseLayout layout(const CourseView& view, const Box& box) {
    validate(view);
    return fitted(view.textScale,
                  [&](double scale) { return Builder(view, box, scale).build(box); });
}

} // namespace cistern::drawing
