#include "drawing/plane_layout.h"

#include "drawing/course_words.h"
#include "drawing/fit.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

namespace {

constexpr double leakFloor = .6, lowLeakFloor = .3;   // room below health for its dot and its words
constexpr double leastPlot = .42;                     // of the box, in both directions
constexpr double plainWidth = 560, plainHeight = 420; // a box whose letters have their plain size

struct Letters {
    Type tick, work, leak, corner, entry, note, label;
    explicit Letters(double scale)
        : tick{11.5 * scale, Weight::regular, theme::muted, false, true},
          work{12.5 * scale, Weight::semibold, theme::workInk},
          leak{12.5 * scale, Weight::semibold, theme::leakInk},
          corner{12.5 * scale, Weight::medium, theme::muted, true},
          entry{13 * scale, Weight::semibold, theme::ink},
          note{11.5 * scale, Weight::regular, theme::muted},
          label{11.5 * scale, Weight::medium, theme::ink, false, true} {}
};

struct Entry {
    PlaneKind kind;
    std::string words, note;
};

std::vector<Entry> entries(const PlaneView& view) {
    const PlaneWords& words = view.words;
    std::vector<Entry> all;
    if (view.truth) all.push_back({PlaneKind::truth, words.truth, view.truth->label});
    if (view.path.size() > 1) all.push_back({PlaneKind::path, words.path, ""});
    if (!view.cloud.empty()) all.push_back({PlaneKind::cloud, words.cloud, words.cloudNote});
    if (view.answer) all.push_back({PlaneKind::answer, words.answer, words.answerNote});
    if (view.ideal) all.push_back({PlaneKind::ideal, words.ideal, words.idealNote});
    std::erase_if(all, [](const Entry& one) { return one.words.empty(); });
    return all;
}

double lowestLeak(const PlaneView& view) {
    double lowest = std::min(1., view.reach);
    const auto see = [&](const PlanePoint& point) { lowest = std::min(lowest, point.leak); };
    std::ranges::for_each(view.path, see);
    std::ranges::for_each(view.cloud, see);
    if (view.truth) see(*view.truth);
    if (view.answer) lowest = std::min(lowest, view.answer->leakLow);
    if (view.ideal) lowest = std::min(lowest, view.ideal->leakLow);
    return lowest;
}

class Placer {
public:
    Placer(const PlaneView& view, const Box& box, double scale)
        : view_(&view),
          letters_(scale),
          gap_(6 * scale),
          box_(box),
          rest_(box),
          entries_(entries(view)) {
        out_.stroke = scale;
        out_.scale.leakLow = lowestLeak(view) < leakFloor ? lowLeakFloor : leakFloor;
        legend();
        leakTitle();
        const double right = measure("120 %", letters_.tick).width / 2;
        rest_.width -= right;
        workTitle();
        plot();
        ticks();
        corners();
        labelPath(out_, view, letters_.label);
    }
    bool fits() const { return fits_; }
    const PlaneLayout& layout() const { return out_; }

private:
    const PlaneView* view_;
    Letters letters_;
    double gap_;
    Box box_, rest_;
    std::vector<Entry> entries_;
    PlaneLayout out_;
    bool fits_ = true;

    void need(bool held) { fits_ = fits_ && held; }

    double markWidth() const { return 4 * gap_; }
    double entryWidth(const Entry& entry) const {
        return markWidth() + gap_ +
               std::max(measure(entry.words, letters_.entry).width,
                        measure(entry.note, letters_.note).width);
    }

    /// One entry; returns its lower end.
    double entry(const Entry& entry, double x, double top, double width) {
        const double left = x + markWidth() + gap_, wide = width - markWidth() - gap_;
        need(holds(entry.words, letters_.entry, wide) && holds(entry.note, letters_.note, wide));
        out_.texts.push_back(
            hung(entry.words, letters_.entry, Align::left, left, top, std::max(wide, 1.)));
        const Box said = extent(out_.texts.back());
        const double line = measure("Ag", letters_.entry).height();
        out_.legend.push_back({{x, top, markWidth(), line}, entry.kind});
        if (entry.note.empty()) return said.bottom();
        out_.texts.push_back(
            hung(entry.note, letters_.note, Align::left, left, said.bottom(), std::max(wide, 1.)));
        return extent(out_.texts.back()).bottom();
    }

    void legend() {
        if (entries_.empty()) return;
        constexpr double greatestShare = .3, leastShape = 1.25;
        double wide = 0;
        for (const Entry& one : entries_) wide = std::max(wide, entryWidth(one) + .5);
        const double room = std::min(wide, greatestShare * box_.width);
        const bool beside = box_.width >= leastShape * box_.height;
        beside ? legendBeside(room) : legendBelow(std::min(wide, box_.width));
    }

    void legendBeside(double width) {
        double top = box_.y + measure("Ag", letters_.leak).height() + gap_;
        for (const Entry& one : entries_)
            top = entry(one, box_.right() - width, top, width) + 2 * gap_;
        need(top - 2 * gap_ <= box_.bottom());
        rest_.width -= width + 3 * gap_;
    }

    /// In as many columns as there is room for.
    void legendBelow(double width) {
        const auto columns = std::clamp<std::size_t>(
            static_cast<std::size_t>((box_.width + 3 * gap_) / (width + 3 * gap_)), 1,
            entries_.size());
        double top = 0, bottom = 0;
        const std::size_t firstText = out_.texts.size();
        for (std::size_t i = 0; i < entries_.size(); ++i) {
            const std::size_t column = i % columns;
            if (column == 0 && i > 0) top = bottom + gap_;
            const double x = box_.x + static_cast<double>(column) * (width + 3 * gap_);
            bottom = std::max(bottom, entry(entries_[i], x, top, width));
        }
        const double shift = box_.bottom() - bottom;
        for (std::size_t i = firstText; i < out_.texts.size(); ++i) out_.texts[i].at.y += shift;
        for (PlaneKey& key : out_.legend) key.mark.y += shift;
        rest_.height -= bottom + 2 * gap_;
    }

    void leakTitle() {
        need(holds(view_->words.leak, letters_.leak, rest_.width));
        out_.texts.push_back(hung(view_->words.leak, letters_.leak, Align::left, rest_.x, rest_.y,
                                  std::max(rest_.width, 1.)));
        const double bottom = extent(out_.texts.back()).bottom() + gap_;
        rest_.height -= bottom - rest_.y;
        rest_.y = bottom;
    }

    double tickRoom() const {
        return measure("\xC3\x97"
                       "100",
                       letters_.tick)
                   .width +
               2.2 * gap_;
    }

    void workTitle() {
        const double left = rest_.x + tickRoom(), width = std::max(rest_.right() - left, 1.);
        need(holds(view_->words.work, letters_.work, width));
        Text title =
            hung(view_->words.work, letters_.work, Align::center, left + width / 2, 0, width);
        const double height = extent(title).height;
        title.at.y += rest_.bottom() - height;
        out_.texts.push_back(title);
        rest_.height -= height + .5 * gap_;
    }

    void plot() {
        const double below = measure("Ag", letters_.tick).height() + 1.6 * gap_;
        const double left = tickRoom();
        const double upper = measure("Ag", letters_.tick).height() / 2;
        rest_ = {rest_.x + left, rest_.y + upper, std::max(rest_.width - left, 1.),
                 std::max(rest_.height - below - upper, 1.)};
        out_.scale.plot = rest_;
        need(rest_.width >= leastPlot * box_.width && rest_.height >= leastPlot * box_.height);
    }

    void ticks() {
        const Box& plot = out_.scale.plot;
        const double half = measure("Ag", letters_.tick).height() / 2;
        double last = plot.bottom() + 3 * half;
        for (const double leak : {.3, 1., 3., 10., 30., 100.}) {
            if (leak < out_.scale.leakLow) continue;
            const double y = out_.scale.at(0, leak).y;
            out_.leakGrid.push_back(y);
            if (last - y < 2.1 * half) continue;
            last = y;
            out_.texts.push_back(
                hung(foldTick(leak), letters_.tick, Align::right, plot.x - 1.8 * gap_, y - half));
        }
        const double wide = measure("100 %", letters_.tick).width + gap_;
        const int every = plot.width * .25 / PlaneScale::workHigh >= wide ? 25 : 50;
        for (int percent = 0; percent <= 100; percent += 25) {
            const double x = out_.scale.at(percent / 100., 1).x;
            out_.workGrid.push_back(x);
            if (percent % every == 0)
                out_.texts.push_back(hung(std::to_string(percent) + " %", letters_.tick,
                                          Align::center, x, plot.bottom() + 1.4 * gap_));
        }
        need(plot.width * .5 / PlaneScale::workHigh >= wide);
    }

    static std::string foldTick(double leak) {
        std::string words = foldWords(leak);
        if (words.ends_with(".0")) words.resize(words.size() - 2);
        return leak < 1 ? "\xC3\x97"
                          "0.3"
                        : words;
    }

    void corners() {
        const double both = std::max(cornerWidth(view_->words.hurtLoud, view_->words.soundLoud),
                                     cornerWidth(view_->words.spentQuiet, view_->words.soundQuiet));
        need(both <= out_.scale.plot.width);
        labelCorners(out_, *view_, letters_.corner);
    }
    double cornerWidth(const std::string& left, const std::string& right) const {
        return measure(left, letters_.corner).width + measure(right, letters_.corner).width +
               5 * gap_;
    }
};

} // namespace

Point PlaneScale::at(double work, double leak) const {
    return {plot.x + plot.width * work / workHigh,
            plot.bottom() - plot.height * std::log(leak / leakLow) / std::log(leakHigh / leakLow)};
}

PlanePoint PlaneScale::inverse(Point at) const {
    return {workHigh * (at.x - plot.x) / plot.width,
            leakLow * std::pow(leakHigh / leakLow, (plot.bottom() - at.y) / plot.height), ""};
}

Point onPlot(const PlaneScale& scale, const PlanePoint& point) {
    return scale.at(std::clamp(point.work, 0., PlaneScale::workHigh),
                    std::clamp(point.leak, scale.leakLow, PlaneScale::leakHigh));
}

Box onPlot(const PlaneScale& scale, const PlaneBox& box) {
    const Point low = onPlot(scale, PlanePoint{box.workLow, box.leakLow, ""});
    const Point high = onPlot(scale, PlanePoint{box.workHigh, box.leakHigh, ""});
    return {low.x, high.y, high.x - low.x, low.y - high.y};
}

double planeLetters(const Box& box) {
    return std::clamp(std::min(box.width / plainWidth, box.height / plainHeight), .85, 2.);
}

PlaneLayout planeLayout(const PlaneView& view, const Box& box) {
    validate(view);
    return fitted(view.textScale * planeLetters(box),
                  [&](double scale) { return Placer(view, box, scale); })
        .layout();
}

PlaneScale planeScale(const PlaneView& view, const Box& box) {
    return planeLayout(view, box).scale;
}

} // namespace cistern::drawing
