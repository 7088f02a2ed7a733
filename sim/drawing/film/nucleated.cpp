#include "drawing/film/nucleated.h"

#include "drawing/film/draft.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

constexpr double side = 1000; // of the film, left out: it is uneven there [um]

/// The cell as it lies once cells have made room for one another: red ones move.
std::optional<Cell> settled(Stage& stage, const Cell& strewn) {
    constexpr double reach = 30; // [um]: none moves so far
    const double x = strewn.x, y = strewn.y;
    for (const Cell& cell : stage.cells({x - reach, y - reach, 2 * reach, 2 * reach}))
        if (cell.seed == strewn.seed) return cell;
    return std::nullopt;
}

} // namespace

bool nucleated(FilmCell kind) {
    return lab::isWhite(kind) || kind == FilmCell::nucleatedRed || kind == FilmCell::smudge;
}

std::optional<Cell> nextNucleated(Stage& stage, Point from, const std::set<std::uint64_t>& told) {
    const Slide& slide = stage.slide();
    const lab::Reach reach = lab::reach(slide, lab::areaAt(slide, from.x));
    const lab::Gathering gathering(slide);
    const auto patchAt = [](double at) { return static_cast<int>(std::floor(at / patchSide)); };
    const int left = patchAt(reach.from), right = patchAt(reach.to - 1e-6);
    const int first = std::max(patchAt(from.y), patchAt(side));
    for (int row = first; row <= patchAt(lab::filmWidth - side); ++row) {
        const bool outward = row % 2 == 0;
        const auto ahead = [&](double x) { return outward ? x : -x; };
        const bool begun = row == patchAt(from.y);
        const int start = begun ? std::clamp(patchAt(from.x), left, right) : outward ? left : right;
        for (int x = start; x >= left && x <= right; x += outward ? 1 : -1) {
            std::vector<Cell> cells;
            Patch(slide, gathering, x, row).strew(cells);
            std::erase_if(cells, [&](const Cell& cell) {
                const double at = cell.x;
                return !nucleated(cell.kind) || told.contains(cell.seed) || at < reach.from ||
                       at > reach.to || (begun && ahead(at) <= ahead(from.x) + .5);
            });
            std::sort(cells.begin(), cells.end(),
                      [&](const Cell& a, const Cell& b) { return ahead(a.x) < ahead(b.x); });
            for (const Cell& cell : cells)
                if (const auto found = settled(stage, cell)) return found;
        }
    }
    return std::nullopt;
}

} // namespace cistern::drawing::film
