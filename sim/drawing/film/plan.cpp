#include "drawing/film/plan.h"

#include "drawing/film/settle.h"

namespace cistern::drawing::film {

std::vector<std::vector<Cell>> planEach(const Slide& slide, const Patches& patches) {
    const int wide = patches.endX - patches.fromX, high = patches.endY - patches.fromY;
    if (wide <= 0 || high <= 0) return {};
    const lab::Gathering gathering(slide);
    std::vector<Cell> cells;
    for (int y = patches.fromY - 1; y <= patches.endY; ++y)
        for (int x = patches.fromX - 1; x <= patches.endX; ++x)
            Patch(slide, gathering, x, y).strew(cells);

    // A cell belongs to the patch in which it first came to lie, whichever drew it.
    std::vector<int> owners(cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const auto patch = [](float v) {
            return static_cast<int>(std::floor(static_cast<double>(v) / patchSide));
        };
        const int x = patch(cells[i].x) - patches.fromX, y = patch(cells[i].y) - patches.fromY;
        owners[i] = x < 0 || y < 0 || x >= wide || y >= high ? -1 : y * wide + x;
    }
    settle(cells, slide);
    std::vector<std::vector<Cell>> each(static_cast<std::size_t>(wide) *
                                        static_cast<std::size_t>(high));
    for (std::size_t i = 0; i < cells.size(); ++i)
        if (owners[i] >= 0) each[static_cast<std::size_t>(owners[i])].push_back(cells[i]);
    return each;
}

std::vector<Cell> plan(const Slide& slide, const Patches& patches) {
    std::vector<Cell> all;
    for (const std::vector<Cell>& some : planEach(slide, patches))
        all.insert(all.end(), some.begin(), some.end());
    return all;
}

} // namespace cistern::drawing::film
