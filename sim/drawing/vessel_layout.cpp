#include "base/text.h"
#include "drawing/fit.h"
#include "drawing/jar.h"
#include "drawing/theme.h"
#include "drawing/vessel.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

namespace {

// Shares of the greatest jar's height.
constexpr double greatestJar = 1.08, slabShare = .1, fallShare = .17, troughShare = .46,
                 wallShare = .042, troughWidth = 1.62, narrowestTrough = 1.16, waveShare = .011;
constexpr double figureShare =
    greatestJar + slabShare + fallShare + troughShare + wallShare; // height of all of it
constexpr double plainWidth = 320, plainHeight = 430; // a box whose letters have their plain size
constexpr double leastJar = .5;                       // of the jar without any words
constexpr double greatestWork = 1.2, leastSize = .3, greatestLeak = 100;

struct Letters {
    Type name, caption, reading, level, mark, measure;
    explicit Letters(double scale)
        : name{16 * scale, Weight::bold, theme::ink},
          caption{12 * scale, Weight::regular, theme::muted},
          reading{18 * scale, Weight::bold, theme::ink, false, true},
          level{12 * scale, Weight::medium, theme::ink},
          mark{11.5 * scale, Weight::medium, theme::ink},
          measure{12.5 * scale, Weight::semibold, theme::ink, false, true} {}
};

class Placer {
public:
    Placer(const VesselView& view, const Box& box, double letters)
        : view_(&view), letters_(letters), gap_(6 * letters) {
        const double edge = .015 * std::min(box.width, box.height);
        area_ = {box.x + edge, box.y + edge, box.width - 2 * edge, box.height - 2 * edge};
        const double free = std::min(area_.width / 1.3, area_.height / figureShare);
        heads();
        footer();
        sides();
        figure(free);
        jar();
        trough();
        reading();
        bars();
    }
    bool fits() const { return fits_; }
    const VesselPlaces& places() const { return out_; }

private:
    const VesselView* view_;
    Letters letters_;
    double gap_;
    Box area_; ///< what is left for the figure
    VesselPlaces out_;
    bool fits_ = true;
    double unit_ = 1;  ///< height of the greatest jar
    double side_ = 0;  ///< room beside the trough
    double outer_ = 0; ///< width of the trough with its walls
    double fall_ = 0;
    bool markWords_ = false, twoRows_ = false;
    std::vector<Text> readingLines_;
    double readingHeight_ = 0;

    void need(bool held) { fits_ = fits_ && held; }

    double place(std::string_view words, const Type& type, double top) {
        out_.texts.push_back(hung(words, type, Align::center, area_.middle().x, top, area_.width));
        need(holds(words, type, area_.width));
        return extent(out_.texts.back()).bottom();
    }

    void heads() {
        double top = area_.y;
        if (!view_->name.empty()) top = place(view_->name, letters_.name, top);
        if (!view_->caption.empty()) top = place(view_->caption, letters_.caption, top + gap_ / 3);
        if (top > area_.y) top += gap_;
        area_ = {area_.x, top, area_.width, area_.bottom() - top};
    }

    std::string workWords() const { return base::rounded(100 * view_->work, 1) + " %"; }
    std::string leakWords() const { return "\xC3\x97 " + base::significant(view_->leak, 2); }

    /// Room for a word, its bar and its number; the number's is steady while it moves.
    double barWidth() const { return 8 * gap_; }
    double numberWidth() const {
        const auto wide = [&](const std::string& words) {
            return measure(words, letters_.measure).width;
        };
        return std::max(
            {wide("120 %"), wide("\xC3\x97 100"), wide(workWords()), wide(leakWords())});
    }
    double wordWidth(const std::string& word) const {
        return measure(word, letters_.measure).width;
    }
    double rowWidth(const std::string& word) const {
        return wordWidth(word) + barWidth() + numberWidth() + 2 * gap_;
    }
    double rowHeight() const { return measure("Ag", letters_.measure).height() + .5 * gap_; }

    void footer() {
        if (!view_->measures) return;
        const double both = rowWidth(view_->words.work) + rowWidth(view_->words.leak) + 3 * gap_;
        twoRows_ = both > area_.width;
        need(std::max(rowWidth(view_->words.work), rowWidth(view_->words.leak)) <= area_.width);
        area_.height -= (twoRows_ ? 2 : 1) * rowHeight() + gap_;
    }

    double markWidth() const { return measure(view_->words.healthy, letters_.mark).width; }

    void sides() {
        side_ = .1 * std::min(area_.width, 1.1 * area_.height);
        const double asked = markWidth() + 3 * gap_;
        markWords_ = view_->mark >= 0 && !view_->words.healthy.empty() && asked <= .2 * area_.width;
        if (markWords_) side_ = std::max(side_, asked);
    }

    /// How large the jar can be, and what the trough and the fall get of the height left.
    void figure(double free) {
        const double across = area_.width - 2 * side_;
        unit_ = std::min(across / narrowestTrough, area_.height / figureShare);
        for (int i = 0; i < 3;
             ++i) { // the trough must hold the reading, whose breaks its width decides
            outer_ = std::min(across, troughWidth * unit_);
            readingBlock(outer_ - 2 * wallShare * unit_ - 2 * gap_);
            const double asked = 2 * (readingHeight_ + gap_ + 4 * waveShare * unit_);
            if (readingHeight_ > 0 && asked > troughShare * unit_)
                unit_ = std::min(unit_, (area_.height - asked) / (figureShare - troughShare));
            out_.trough.height = std::max(troughShare * unit_, readingHeight_ > 0 ? asked : 0);
        }
        need(unit_ >= leastJar * free);
        unit_ = std::max(unit_, 1.);
        outer_ = std::min(across, troughWidth * unit_);
        const double spare =
            std::max(0., area_.height - out_.trough.height - (figureShare - troughShare) * unit_);
        fall_ = fallShare * unit_ + std::min(.35 * spare, .2 * unit_);
        out_.trough.height += std::min(.35 * spare, .3 * unit_);
        const double used =
            (greatestJar + slabShare + wallShare) * unit_ + fall_ + out_.trough.height;
        area_.y += std::max(0., area_.height - used) / 2;
        area_.height = std::min(area_.height, used);
    }

    void readingBlock(double width) {
        readingLines_.clear();
        readingHeight_ = 0;
        const auto add = [&](const std::string& words, const Type& type) {
            if (words.empty()) return;
            need(holds(words, type, width));
            readingLines_.push_back(
                hung(words, type, Align::center, area_.middle().x, readingHeight_, width));
            readingHeight_ = extent(readingLines_.back()).bottom();
        };
        add(view_->reading, letters_.reading);
        add(view_->levelWords, letters_.level);
    }

    void jar() {
        const double work = std::clamp(view_->work, 0., greatestWork);
        const double size = std::clamp(view_->size, leastSize, 1.);
        // A jar's area, and with it that of its pores, follows the mass of the organ.
        const double grown = std::sqrt(size * std::max(work, 1.) / greatestWork);
        out_.height = unit_ * grown;
        const double ledge = area_.y + greatestJar * unit_; // front edge of the slab's upper face
        out_.slab = {area_.middle().x - outer_ / 2, ledge, outer_, .55 * slabShare * unit_};
        out_.foot = {area_.middle().x, ledge - .45 * slabShare * unit_};
        const Jar jar(out_.foot, out_.height, work, view_->leak);
        out_.jar = jar.bounds();
        out_.wall = out_.foot.y - std::min(1., jar.standing()) * out_.height;
        out_.pores = jar.pores();
        for (Pore& pore : out_.pores) pore.fall.y = out_.slab.bottom();
    }

    void trough() {
        out_.thickness = wallShare * unit_;
        Box& inside = out_.trough;
        inside = {area_.middle().x - outer_ / 2 + out_.thickness, out_.slab.bottom() + fall_,
                  outer_ - 2 * out_.thickness, inside.height};
        const double depth = std::clamp(view_->level, 0., 1.) * inside.height;
        out_.water = {inside.x, inside.bottom() - depth, inside.width, depth};
        out_.wave = std::min({waveShare * unit_, depth / 3, (inside.height - depth) / 2 + .5});
        if (depth <= 0) out_.wave = 0;
        if (view_->mark >= 0) mark(inside);
        const double wide = std::clamp(view_->spout, 0., 1.) * .14 * inside.height;
        const double axis = inside.bottom() - .13 * inside.height;
        const double reach = out_.thickness + .42 * side_;
        out_.bore = {inside.right(), axis - wide / 2, reach, wide};
        out_.mouth = {out_.bore.right(), axis};
        const double low = inside.bottom() + out_.thickness;
        const double room = area_.middle().x + outer_ / 2 + .96 * side_ - out_.mouth.x;
        out_.splash = {out_.mouth.x + std::min(.55 * (low - axis), room), low};
    }

    void mark(const Box& inside) {
        out_.mark = inside.bottom() - std::min(view_->mark, 1.) * inside.height;
        out_.markEnd = inside.x + .13 * inside.width;
        if (!markWords_) return;
        const double height = measure(view_->words.healthy, letters_.mark).height();
        const double top = std::clamp(*out_.mark - height / 2, inside.y,
                                      inside.bottom() + out_.thickness - height);
        out_.texts.push_back(hung(view_->words.healthy, letters_.mark, Align::right,
                                  inside.x - out_.thickness - 2 * gap_, top));
    }

    /// On the water if it is deep enough, else above it.
    void reading() {
        if (readingLines_.empty()) return;
        const double around = 2 * out_.wave + gap_ / 2;
        const double air = out_.water.y - out_.trough.y;
        double top =
            out_.water.y + out_.wave + (out_.water.height - out_.wave - readingHeight_) / 2;
        if (out_.water.height < readingHeight_ + around) {
            need(air >= readingHeight_ + around);
            top = out_.water.y - around - readingHeight_;
        }
        double left = out_.trough.right(), right = out_.trough.x;
        for (Text& text : readingLines_) {
            text.at.y += top;
            const Box box = extent(text);
            left = std::min(left, box.x);
            right = std::max(right, box.right());
            out_.texts.push_back(text);
        }
        if (out_.mark && *out_.mark > top - gap_ && *out_.mark < top + readingHeight_ + gap_)
            out_.markEnd = std::min(out_.markEnd, left - gap_);
        if (top < out_.water.y)
            out_.plate = {left - gap_, top, right - left + 2 * gap_, readingHeight_};
    }

    void bars() {
        if (!view_->measures) return;
        double top = out_.splash.y + gap_;
        const double wanted =
            std::max(outer_, rowWidth(view_->words.work) + rowWidth(view_->words.leak) + 3 * gap_);
        const double middle = area_.middle().x;
        if (!twoRows_) {
            const double between = 3 * gap_, half = (wanted - between) / 2;
            bar(view_->words.work, workWords(), view_->work, false,
                {middle - wanted / 2, top, half, 0});
            bar(view_->words.leak, leakWords(), leakShare(), true,
                {middle + between / 2, top, half, 0});
            return;
        }
        const double both = std::max({rowWidth(view_->words.work), rowWidth(view_->words.leak),
                                      std::min(outer_, area_.width)});
        const double word = std::max(wordWidth(view_->words.work), wordWidth(view_->words.leak));
        bar(view_->words.work, workWords(), view_->work, false, {middle - both / 2, top, both, 0},
            word);
        bar(view_->words.leak, leakWords(), leakShare(), true,
            {middle - both / 2, top + rowHeight(), both, 0}, word);
    }

    double leakShare() const {
        return std::log(std::max(view_->leak, 1.)) / std::log(greatestLeak);
    }

    void bar(const std::string& word, const std::string& number, double share, bool leak,
             const Box& row, double room = 0) {
        Type type = letters_.measure;
        type.color = leak ? theme::leakInk : theme::workInk;
        out_.texts.push_back(hung(word, type, Align::left, row.x, row.y));
        const Box said = extent(out_.texts.back());
        const double after = row.right() - numberWidth();
        out_.texts.push_back(hung(number, letters_.measure, Align::left, after, row.y));
        const double start = row.x + std::max(room, said.width) + gap_;
        const double high = .42 * said.height;
        out_.bars.push_back({{start, said.middle().y - high / 2, after - gap_ - start, high},
                             std::clamp(share, 0., 1.),
                             leak});
    }
};

} // namespace

VesselPlaces places(const VesselView& view, const Box& box) {
    validate(view);
    const double asked =
        view.textScale *
        std::clamp(std::min(box.width / plainWidth, box.height / plainHeight), .8, 2.2);
    return fitted(asked, [&](double scale) { return Placer(view, box, scale); }).places();
}

} // namespace cistern::drawing
