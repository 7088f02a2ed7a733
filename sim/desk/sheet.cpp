#include "desk/sheet.h"

#include <algorithm>
#include <numeric>

namespace cistern::desk {

using drawing::Shape;
using drawing::Stroke;
using drawing::Weight;
namespace theme = drawing::theme;

namespace {

constexpr double cardRadius = 8, cardInset = 1.25; // [px], [em]
constexpr double ringWidth = 4, ringGap = 2;       // [px]

} // namespace

Letters::Letters(double textScale)
    : scale(textScale),
      em(15 * scale),
      title{24 * scale, Weight::bold, theme::ink},
      heading{18 * scale, Weight::bold, theme::ink},
      text{15 * scale, Weight::regular, theme::ink},
      strong{15 * scale, Weight::semibold, theme::ink},
      small{13 * scale, Weight::regular, theme::muted},
      number{15 * scale, Weight::semibold, theme::ink, false, true} {}

std::size_t Sheet::add(const Shape& shape) {
    marks_.push_back({shape});
    return marks_.size() - 1;
}

std::size_t Sheet::add(const drawing::Text& text) {
    marks_.push_back({text});
    return marks_.size() - 1;
}

std::size_t Sheet::add(const drawing::Group& group) {
    marks_.push_back({group});
    return marks_.size() - 1;
}

void Sheet::replace(std::size_t mark, const Shape& shape) {
    marks_.at(mark).is = shape;
}

void Sheet::add(Control control) {
    controls_.push_back(std::move(control));
}

std::size_t Sheet::openCard(double x, double top, double width) {
    cards_.push_back({add(Shape{}), {x, top, width, 0}});
    return cards_.size() - 1;
}

void Sheet::closeCard(std::size_t card, double bottom) {
    Card& one = cards_.at(card);
    one.box.height = bottom - one.box.y;
    replace(one.mark,
            Shape{drawing::rounded(one.box, cardRadius), theme::panel, Stroke{theme::line, 1, {}}});
}

void Sheet::drawRings() {
    for (; ringed_ < controls_.size(); ++ringed_) {
        const Control& one = controls_[ringed_];
        const bool focused = one.id == setting_.focus;
        if (!focused && one.id != setting_.under) continue;
        const double gap = focused ? ringGap : ringGap - 1;
        const Box around{one.area.x - gap, one.area.y - gap, one.area.width + 2 * gap,
                         one.area.height + 2 * gap};
        add(Shape{drawing::rounded(around, std::min(cardRadius, around.height / 2)), std::nullopt,
                  focused ? Stroke{theme::ink, ringWidth, {}} : Stroke{theme::muted, 1, {}}});
    }
}

double Flow::left(double kept, double least) const {
    return std::max(least, floor_ - y_ - kept);
}

Box Flow::room(double height) {
    const Box box{x_, y_, width_, height};
    y_ += height;
    return box;
}

Box Flow::write(const std::string& text, const drawing::Type& type, drawing::Align align) {
    if (text.empty()) return {x_, y_, 0, 0};
    const double at = align == drawing::Align::left    ? x_
                      : align == drawing::Align::right ? x_ + width_
                                                       : x_ + width_ / 2;
    drawing::Text words = drawing::hung(text, type, align, at, y_, width_);
    const Box box = drawing::extent(words);
    y_ = box.bottom();
    sheet_->add(std::move(words));
    return box;
}

void Flow::card(const std::string& heading, const std::string& subtitle,
                const std::function<void(Flow&)>& inside) {
    if (!sheet_->nextCard()) return;
    const double inset = cardInset * em();
    const std::size_t card = sheet_->openCard(x_, y_, width_);
    Flow within(*sheet_, x_ + inset, y_ + 0.9 * inset, width_ - 2 * inset, floor_ - inset);
    within.heading(heading);
    if (!subtitle.empty()) {
        within.gap(.2);
        within.small(subtitle);
    }
    if (!heading.empty() || !subtitle.empty()) within.gap(.7);
    inside(within);
    y_ = within.y() + inset;
    sheet_->closeCard(card, y_);
}

bool Flow::sideBySide(const std::vector<Column>& columns, double gapEms) const {
    const double all =
        std::accumulate(columns.begin(), columns.end(), 0.0,
                        [](double sum, const Column& one) { return sum + one.share; });
    if (sheet_->setting().only) return false;
    const double free = width_ - gapEms * em() * static_cast<double>(columns.size() - 1);
    return std::all_of(columns.begin(), columns.end(), [&](const Column& one) {
        return free * one.share / all >= one.least * em();
    });
}

void Flow::columns(const std::vector<Column>& columns, double gapEms) {
    const double gap = gapEms * em(), top = y_;
    if (!sideBySide(columns, gapEms)) {
        for (const Column& column : columns) {
            const double from = y_ > top ? y_ + gap : y_;
            // One under another there is no floor to reach for, except for a card alone.
            Flow one(*sheet_, x_, from, width_, sheet_->setting().only ? floor_ : from);
            column.fill(one);
            if (one.y() > from) y_ = one.y();
        }
        return;
    }
    double all = 0;
    for (const Column& one : columns) all += one.share;
    const double free = width_ - gap * static_cast<double>(columns.size() - 1);
    double x = x_, bottom = y_;
    struct End {
        std::size_t card;
        double bottom;
    };
    std::vector<End> ends; // cards that end a column
    for (const Column& column : columns) {
        const std::size_t before = sheet_->cards().size();
        const double width = free * column.share / all;
        Flow one(*sheet_, x, y_, width, floor_);
        column.fill(one);
        x += width + gap;
        bottom = std::max(bottom, one.y());
        for (std::size_t i = before; i < sheet_->cards().size(); ++i)
            if (sheet_->cards()[i].box.bottom() >= one.y() - 1e-6) ends.push_back({i, one.y()});
    }
    // Down to the longest column, but not far beyond the window for the sake of looks.
    const double reach = std::min(bottom, floor_);
    for (const End& end : ends) sheet_->closeCard(end.card, std::max(end.bottom, reach));
    y_ = bottom;
}

} // namespace cistern::desk
