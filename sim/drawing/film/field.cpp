#include "drawing/film/field.h"

#include "drawing/film/paint.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::drawing::film {

namespace {

constexpr std::size_t mostKept = 400; // patches, about 30 kB each
constexpr double farthest = 45;       // from the patch a cell belongs to, it still shows [um]

int patchAt(double v) {
    return static_cast<int>(std::floor(v / patchSide));
}

/// Patches whose cells may show, or lie, within a rectangle; none beyond the film.
Patches around(const Box& box, double reach) {
    const auto from = [&](double v) { return std::max(0, patchAt(v - reach)); };
    const auto end = [&](double v, double most) { return patchAt(std::min(v + reach, most)) + 1; };
    Patches found{from(box.x), from(box.y), end(box.right(), lab::filmLength),
                  end(box.bottom(), lab::filmWidth)};
    found.endX = std::max(found.endX, found.fromX);
    found.endY = std::max(found.endY, found.fromY);
    return found;
}

/// How far a cell's dye reaches from its middle, with its blur [um].
double shows(const Cell& cell, const Light& light) {
    constexpr double tails = 1.6, edge = 4; // of the radius; [um]
    return static_cast<double>(cell.radius) * tails + edge +
           3 * static_cast<double>(light.blur(cell.z));
}

} // namespace

Stage::Stage(Slide slide) : slide_(slide) {
    lab::validate(slide_);
}

template<class Act>
void Stage::each(const Patches& patches, const Act& act) {
    // Lacking patches are planned in one block, which shares its surroundings.
    ++asked_;
    Patches lacking{patches.endX, patches.endY, patches.fromX, patches.fromY};
    for (int y = patches.fromY; y < patches.endY; ++y)
        for (int x = patches.fromX; x < patches.endX; ++x) {
            const auto found = patches_.find({y, x});
            if (found != patches_.end()) {
                found->second.asked = asked_;
                continue;
            }
            lacking = {std::min(lacking.fromX, x), std::min(lacking.fromY, y),
                       std::max(lacking.endX, x + 1), std::max(lacking.endY, y + 1)};
        }
    if (lacking.fromX < lacking.endX && lacking.fromY < lacking.endY) {
        std::vector<std::vector<Cell>> planned = planEach(slide_, lacking);
        std::size_t next = 0;
        for (int y = lacking.fromY; y < lacking.endY; ++y)
            for (int x = lacking.fromX; x < lacking.endX; ++x)
                patches_[{y, x}] = {std::move(planned[next++]), asked_};
    }
    for (int y = patches.fromY; y < patches.endY; ++y)
        for (int x = patches.fromX; x < patches.endX; ++x) act(patches_.at({y, x}).cells);
    forget();
}

void Stage::forget() {
    if (patches_.size() <= mostKept) return;
    std::vector<std::uint64_t> times;
    for (const auto& [place, kept] : patches_) times.push_back(kept.asked);
    const auto last = times.begin() + static_cast<std::ptrdiff_t>(times.size() - mostKept);
    std::nth_element(times.begin(), last, times.end());
    const std::uint64_t oldest = *last;
    std::erase_if(patches_, [&](const auto& one) { return one.second.asked < oldest; });
}

std::vector<Cell> Stage::cells(const Box& within) {
    std::vector<Cell> found;
    each(around(within, farthest), [&](const std::vector<Cell>& cells) {
        for (const Cell& cell : cells) {
            const double x = cell.x, y = cell.y;
            if (x >= within.x && x < within.right() && y >= within.y && y < within.bottom())
                found.push_back(cell);
        }
    });
    return found;
}

Pixels Stage::seen(double left, double top, int width, int height, const Optics& optics) {
    if (width < 1 || height < 1) throw std::invalid_argument("a field needs a size");
    const double scale = optics.scale;
    const int margin = spreadReach(spreadOf(optics));
    // Whole pixels of the film, so that rectangles agree.
    const double fromX = std::round(left * scale) - margin,
                 fromY = std::round(top * scale) - margin;
    Density density(width + 2 * margin, height + 2 * margin, fromX / scale, fromY / scale, scale);
    const Mixture mixture(slide_.stain);
    const Light light{mixture, optics};
    paintGround(slide_, light, density);
    const Box box{density.left, density.top, density.width / scale, density.height / scale};
    each(around(box, farthest), [&](const std::vector<Cell>& cells) {
        for (const Cell& cell : cells) {
            const double x = cell.x, y = cell.y, reach = shows(cell, light);
            if (x > box.x - reach && x < box.right() + reach && y > box.y - reach &&
                y < box.bottom() + reach)
                paint(cell, light, density);
        }
    });
    return developed(density, optics, slide_.seed, margin);
}

} // namespace cistern::drawing::film
