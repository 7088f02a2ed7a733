#include "drawing/film/settle.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace cistern::drawing::film {

namespace {

// By eye: how many pairs touch and no more, and how far others lie over one another.
constexpr float apart = .88F;
constexpr float overLeast = .55F, overMore = .35F;    // of touching
constexpr float heapedOver = .95F;                    // so evenly that no bright gaps are left
constexpr float gap = .9F, drawn = .45F, pull = .16F; // chains: within [um], share, strength
constexpr float push = .75F, whitePush = .9F;
constexpr float underWhite = .12F; // share of pairs whose red cell lies partly under the white

bool isLarge(const Cell& cell) {
    return isWhite(cell.kind) || cell.kind == FilmCell::smudge ||
           cell.kind == FilmCell::plateletClump;
}

/// What pushing needs of a red cell or platelet, close together in memory.
struct Small {
    float x, y, radius, thick;
    std::uint64_t seed;
    std::uint32_t index; ///< among all cells
    bool red, free;      ///< free: in no row or cluster, so that it moves
};

/// Red cells and platelets by squares as wide as two of them reach. Squares stand still on the
/// film, so that sums run in the same order whichever region is planned.
class Squares {
public:
    explicit Squares(const std::vector<Cell>& cells) {
        float low[2] = {1e9F, 1e9F}, high[2] = {-1e9F, -1e9F};
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const Cell& cell = cells[i];
            const bool red = lab::isRed(cell.kind);
            if (!red && cell.kind != FilmCell::platelet) continue;
            all_.push_back({cell.x, cell.y, cell.radius, cell.thick, cell.seed,
                            static_cast<std::uint32_t>(i), red, cell.group == 0});
            low[0] = std::min(low[0], cell.x);
            low[1] = std::min(low[1], cell.y);
            high[0] = std::max(high[0], cell.x);
            high[1] = std::max(high[1], cell.y);
        }
        if (all_.empty()) return;
        constexpr int room = 2; // empty squares round about, for cells that move
        fromX_ = squareOf(low[0]) - room;
        fromY_ = squareOf(low[1]) - room;
        wide_ = squareOf(high[0]) + room + 1 - fromX_;
        high_ = squareOf(high[1]) + room + 1 - fromY_;
        moved_.resize(all_.size());
        sort();
    }

    /// Calls with every one in squares within this of a place, and its number here.
    template<class Act>
    void near(float x, float y, float reach, const Act& act) const {
        const int x0 = std::max(0, column(x - reach)), x1 = std::min(wide_ - 1, column(x + reach));
        const int y0 = std::max(0, row(y - reach)), y1 = std::min(high_ - 1, row(y + reach));
        if (x1 < x0) return;
        for (int j = y0; j <= y1; ++j)
            for (std::size_t k = starts_[at(x0, j)]; k < starts_[at(x1, j) + 1]; ++k)
                act(all_[k], k);
    }

    /// Calls once with every two in squares that touch, by their numbers.
    template<class Act>
    void pairs(const Act& act) const {
        for (int j = 0; j + 1 < high_; ++j)
            for (int i = 1; i + 1 < wide_; ++i) {
                const std::size_t square = at(i, j), below = at(i - 1, j + 1);
                for (std::size_t a = starts_[square]; a < starts_[square + 1]; ++a) {
                    for (std::size_t b = a + 1; b < starts_[square + 2]; ++b) act(a, b);
                    for (std::size_t b = starts_[below]; b < starts_[below + 3]; ++b) act(a, b);
                }
            }
    }

    const Small& operator[](std::size_t i) const { return all_[i]; }
    const std::vector<Small>& all() const { return all_; }
    void push(std::size_t i, float x, float y) {
        moved_[i].x += x;
        moved_[i].y += y;
    }

    /// Moves all as far as they were pushed, `most` at most, and sorts them anew.
    void move(float most) {
        for (std::size_t i = 0; i < all_.size(); ++i) {
            const float far = std::hypot(moved_[i].x, moved_[i].y);
            const float share = far > most ? most / far : 1;
            all_[i].x += moved_[i].x * share;
            all_[i].y += moved_[i].y * share;
            moved_[i] = {};
        }
        sort();
    }

private:
    struct Move {
        float x = 0, y = 0;
    };
    static int squareOf(float v) {
        return static_cast<int>(std::floor(v / static_cast<float>(touching)));
    }
    int column(float x) const { return squareOf(x) - fromX_; }
    int row(float y) const { return squareOf(y) - fromY_; }
    std::size_t at(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(wide_) +
               static_cast<std::size_t>(column);
    }

    /// By square, within one in the order of all cells.
    void sort() {
        starts_.assign(static_cast<std::size_t>(wide_) * static_cast<std::size_t>(high_) + 1, 0);
        order_.resize(all_.size());
        for (const Small& one : all_) ++starts_[at(column(one.x), row(one.y)) + 1];
        for (std::size_t s = 0; s + 1 < starts_.size(); ++s) starts_[s + 1] += starts_[s];
        std::vector<std::size_t> next(starts_.begin(), starts_.end() - 1);
        for (const Small& one : all_) order_[next[at(column(one.x), row(one.y))]++] = one;
        all_.swap(order_);
        for (std::size_t s = 0; s + 1 < starts_.size(); ++s)
            std::sort(all_.begin() + static_cast<std::ptrdiff_t>(starts_[s]),
                      all_.begin() + static_cast<std::ptrdiff_t>(starts_[s + 1]),
                      [](const Small& a, const Small& b) { return a.index < b.index; });
    }

    int fromX_ = 0, fromY_ = 0, wide_ = 0, high_ = 0;
    std::vector<Small> all_, order_;
    std::vector<Move> moved_;
    std::vector<std::size_t> starts_{0};
};

/// Chance that belongs to a pair, whichever of them asks.
std::uint32_t pairBits(std::uint64_t a, std::uint64_t b) {
    std::uint64_t h = (a ^ b) * 0x9E3779B97F4A7C15ULL;
    h = (h ^ h >> 29) * 0xbf58476d1ce4e5b9ULL;
    return static_cast<std::uint32_t>(h >> 32);
}

/// How far, of their distance, two cells push one another away (or draw together, below 0).
float shoved(const Small& a, const Small& b, float d) {
    const float sum = a.radius + b.radius, heaped = std::max(a.thick, b.thick);
    const std::uint32_t bits = pairBits(a.seed, b.seed);
    const float u = shareOf(bits);
    float share = u < apart ? 1 : overLeast + overMore * shareOf(bits * 0x9E3779B1U);
    share = blend(share, heapedOver, heaped);
    const float want = sum * share;
    if (d < want) return push * (want - d) / d;
    const bool chained = d > sum && u < drawn && a.red && b.red;
    return chained ? -2 * pull * (1 - heaped) * (d - sum) / d : 0;
}

void pushPairs(Squares& cells) {
    constexpr auto reach = static_cast<float>(touching);
    cells.pairs([&](std::size_t i, std::size_t j) {
        const Small &a = cells[i], &b = cells[j];
        const float dx = a.x - b.x, dy = a.y - b.y, square = dx * dx + dy * dy;
        const float far = std::min(reach, a.radius + b.radius + gap);
        if (square >= far * far || !(a.free || b.free)) return;
        if ((!a.free && !b.red) || (!b.free && !a.red)) return; // platelets lie on rows
        const float factor = shoved(a, b, std::sqrt(square) + 1e-3F);
        if (factor == 0) return;
        const float share = a.free && b.free ? .5F : 1; // what lies fast does not yield
        if (a.free) cells.push(i, dx * factor * share, dy * factor * share);
        if (b.free) cells.push(j, -dx * factor * share, -dy * factor * share);
    });
}

/// Whether a red cell may lie partly under this white one.
bool liesUnder(const Cell& white, const Small& cell) {
    return cell.red && white.kind != FilmCell::plateletClump &&
           shareOf(pairBits(white.seed, cell.seed)) < underWhite;
}

void pushFromLarge(const std::vector<Cell>& large, Squares& cells) {
    constexpr float indented = .15F;            // [um]
    constexpr float under = .55F, heaped = .8F; // of the radius
    for (const Cell& white : large)
        cells.near(white.x, white.y, white.radius + mostRed, [&](const Small& a, std::size_t i) {
            if (!a.free) return;
            const float dx = a.x - white.x, dy = a.y - white.y;
            const float d = std::hypot(dx, dy) + 1e-3F;
            float own = a.radius * (1 - heaped * white.thick);
            if (liesUnder(white, a)) own *= 1 - under;
            const float want = white.radius + own - indented;
            if (d < want)
                cells.push(i, whitePush * dx * (want - d) / d, whitePush * dy * (want - d) / d);
        });
}

/// Adds a dent if there is room for one; `dx` and `dy` lead to the middle of the one that presses.
void dent(Cell& cell, float dx, float dy, bool flat, float reach) {
    if (cell.dentCount >= static_cast<int>(std::size(cell.dents))) return;
    const float per = flat ? std::hypot(dx, dy) : 1;
    const float c = std::cos(cell.angle), s = std::sin(cell.angle);
    cell.dents[cell.dentCount++] = {(dx * c + dy * s) / per, (dy * c - dx * s) / per, reach, flat};
}

void dentByLarge(std::vector<Cell>& cells, const std::vector<Cell>& large, const Squares& squares) {
    constexpr float near = .3F, round = .12F;   // [um]
    constexpr float inside = .6F, heaped = .5F; // of the radius; thick
    for (const Cell& white : large) {
        if (white.kind == FilmCell::plateletClump || white.thick >= heaped) continue;
        const float reach = white.radius + mostRed + near;
        squares.near(white.x, white.y, reach, [&](const Small& small, std::size_t) {
            Cell& red = cells[small.index];
            if (!small.red || red.has(lab::mark::inRouleau) || liesUnder(white, small)) return;
            const float d = std::hypot(white.x - red.x, white.y - red.y);
            if (d < red.radius + white.radius + near && d > white.radius * inside)
                dent(red, white.x - red.x, white.y - red.y, false, white.radius + round);
        });
    }
}

void dentByRed(std::vector<Cell>& cells, const Squares& squares) {
    constexpr auto reach = static_cast<float>(touching);
    constexpr float near = .05F, yields = .10F;   // [um]
    constexpr float pressed = .86F, heaped = .3F; // of touching; thick
    for (const Small& a : squares.all()) {
        Cell& cell = cells[a.index];
        if (!a.red || cell.has(lab::mark::inRouleau) || a.thick > heaped) continue;
        squares.near(a.x, a.y, reach, [&](const Small& b, std::size_t) {
            if (!b.red || b.index == a.index) return;
            const float d = std::hypot(b.x - a.x, b.y - a.y), sum = a.radius + b.radius;
            if (d >= reach || d >= sum + near || d <= sum * pressed) return;
            dent(cell, b.x - a.x, b.y - a.y, true, d * a.radius / sum - yields);
        });
    }
}

} // namespace

void settle(std::vector<Cell>& cells, const Slide& slide) {
    std::vector<Cell> large;
    std::copy_if(cells.begin(), cells.end(), std::back_inserter(large), isLarge);
    Squares squares(cells);
    for (const double most : moves) {
        pushPairs(squares);
        pushFromLarge(large, squares);
        squares.move(static_cast<float>(most));
    }
    for (const Small& small : squares.all())
        if (lab::thickness(slide, small.x, small.y) > 0) { // none is pushed off the film
            cells[small.index].x = small.x;
            cells[small.index].y = small.y;
        }
    dentByLarge(cells, large, squares);
    dentByRed(cells, squares);
}

} // namespace cistern::drawing::film
