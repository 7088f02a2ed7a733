#include "drawing/strip_crowd.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace cistern::drawing {

namespace {

/// Dots in columns that stand between the brackets or outside them, never astride. Where values
/// are round, so that columns stand apart, each may be several dots wide.
class Crowd {
public:
    Crowd(const StripView& view, const StripAxis& axis, const Box& room)
        : view_(view), axis_(axis), room_(room) {}

    void place(StripPlaces& places, double largest) const {
        constexpr double smallest = 1.6, smaller = 0.94, air = 1.15; // pixels, step, gap
        double dot = largest;
        Columns columns = count(dot * air);
        while (dot * smaller >= smallest && columns.rows() * columns.pitch > room_.height) {
            dot *= smaller;
            columns = count(dot * air);
        }
        // Still too many: the rows close up.
        const double row = std::min(columns.pitch, room_.height / std::max(1.0, columns.rows()));
        places.dot = std::min(dot, columns.pitch / air);
        places.dots.resize(view_.peers.size());
        std::map<long, long> placed;
        for (std::size_t i = 0; i < view_.peers.size(); ++i) {
            const long column = columns.of[i], before = placed[column]++;
            const double along = static_cast<double>(columns.first(column) + before % columns.wide);
            const double up = static_cast<double>(before / columns.wide);
            places.dots[i] = {columns.origin + (along + 0.5) * columns.pitch,
                              places.baseline - 1 - places.dot / 2 - up * row};
        }
    }

private:
    struct Columns {
        double origin = 0, pitch = 1;
        long wide = 1;                           ///< dots side by side in each
        long tallest = 0;                        ///< dots in the fullest
        std::optional<long> afterLow, afterHigh; ///< first column past each bracket
        long least = 0, most = 0;                ///< columns that the room has
        std::vector<long> of;                    ///< one for each peer
        double rows() const {
            return std::ceil(static_cast<double>(tallest) / static_cast<double>(wide));
        }
        /// Leftmost dot of a wide column, which keeps to its side of the brackets.
        long first(long column) const {
            long at = std::clamp(column - (wide - 1) / 2, least, std::max(least, most + 1 - wide));
            for (const auto& border : {afterLow, afterHigh})
                if (border)
                    at = column >= *border ? std::max(at, *border) : std::min(at, *border - wide);
            return at;
        }
    };
    const StripView& view_;
    const StripAxis& axis_;
    const Box& room_;

    Columns count(double pitch) const {
        Columns columns;
        columns.pitch = pitch;
        columns.origin = view_.low    ? axis_.position(*view_.low)
                         : view_.high ? axis_.position(*view_.high)
                                      : axis_.crowd.start;
        long inside = 0; // columns between the brackets
        if (view_.low && view_.high) {
            const double between = axis_.position(*view_.high) - columns.origin;
            inside = std::lround(between / pitch);
            if (inside > 0) columns.pitch = between / static_cast<double>(inside);
        }
        if (view_.low) columns.afterLow = 0;
        if (view_.high && (inside > 0 || !view_.low)) columns.afterHigh = inside;
        columns.least = std::lround(std::ceil((room_.x - columns.origin) / columns.pitch));
        columns.most =
            std::lround(std::floor((room_.right() - columns.origin) / columns.pitch)) - 1;
        std::map<long, long> heights;
        for (double peer : view_.peers) {
            columns.of.push_back(columnOf(peer, columns));
            columns.tallest = std::max(columns.tallest, ++heights[columns.of.back()]);
        }
        columns.wide = width(heights, columns, room_.height);
        return columns;
    }

    long columnOf(double peer, const Columns& columns) const {
        long at = std::lround(std::floor((axis_.position(peer) - columns.origin) / columns.pitch));
        if (columns.afterLow)
            at = peer >= *view_.low ? std::max(at, *columns.afterLow)
                                    : std::min(at, *columns.afterLow - 1);
        if (columns.afterHigh)
            at = peer <= *view_.high ? std::min(at, *columns.afterHigh - 1)
                                     : std::max(at, *columns.afterHigh);
        return at;
    }

    /// As wide as it takes to fit under the ceiling, as far as neighbors leave room.
    static long width(const std::map<long, long>& heights, const Columns& columns, double ceiling) {
        constexpr long widest = 24; // dots: beyond this a column is no column
        long room = 2 * widest;
        for (auto at = heights.begin(); at != heights.end(); ++at)
            if (const auto next = std::next(at); next != heights.end())
                room = std::min(room, next->first - at->first);
        const double rows = std::max(1.0, std::floor(ceiling / columns.pitch));
        const long wanted = std::lround(std::ceil(static_cast<double>(columns.tallest) / rows));
        return std::clamp(wanted, 1L, std::max(1L, room / 2));
    }
};

} // namespace

void placeCrowd(const StripView& view, const Box& room, double largest, StripPlaces& places) {
    Crowd(view, places.axis, room).place(places, largest);
}

} // namespace cistern::drawing
