// Red cells in rows (rouleaux) and in clusters (agglutination). They do not move once laid down.
#include "drawing/film/draft.h"
#include "drawing/film/forms.h"

namespace cistern::drawing::film {

namespace {

enum Stream : std::uint32_t { rows = 50, clusters = 51 };

// All by eye, but that rows run to 3 to 20 cells (common practice).
constexpr int fewestInRow = 3, mostInRow = 14, usualInRow = 8;
constexpr double longRows = .3;
constexpr int fewestInCluster = 6, mostInCluster = 34;
constexpr double heapedRows = .3; // share of red cells, more in the thick body
constexpr double mostGrouped = .95;
constexpr int tries = 14;

/// Cells that stack like coins.
bool stacks(const Cell& cell) {
    switch (cell.kind) {
    case FilmCell::spherocyte:
    case FilmCell::acanthocyte:
    case FilmCell::schistocyte:
    case FilmCell::keratocyte:
        return false;
    default:
        return true;
    }
}

/// Whole number whose mean is this.
std::size_t wholeOf(double mean, Dice& dice) {
    return static_cast<std::size_t>(std::max(0., mean) + static_cast<double>(dice.share()));
}

/// Size of the next group out of so many left, 0 if they stay single. On the mean none are lost.
int nextSize(std::size_t left, int fewest, int wanted, Dice& dice) {
    const int all = static_cast<int>(left);
    if (all >= fewest) return std::min(all, wanted);
    return dice.happens(static_cast<double>(all) / fewest) ? fewest : 0;
}

} // namespace

std::size_t Patch::layGroups(std::vector<Cell>& reds) {
    const double heaped = lab::heaping(slide_, blood_ / covered_);
    const double flat = lab::flattening(slide_, blood_ / covered_);
    const double clustered = slide_.agglutinated;
    const double inRows =
        std::min(slide_.rouleaux * (1 - flat) + heapedRows * heaped, mostGrouped * (1 - clustered));
    if (clustered <= 0 && inRows <= 0) return 0;
    std::size_t laid = 0;
    if (clustered > 0) laid = layClusters(reds, laid, clustered);
    const auto from = reds.begin() + static_cast<std::ptrdiff_t>(laid);
    std::stable_partition(from, reds.end(), stacks);
    return layRows(reds, laid, std::max(inRows, slide_.rouleaux * (1 - flat)));
}

std::size_t Patch::layRows(std::vector<Cell>& reds, std::size_t next, double share) {
    Dice chance = dice(rows);
    const auto from = reds.begin() + static_cast<std::ptrdiff_t>(next);
    const auto fitting = next + static_cast<std::size_t>(std::count_if(from, reds.end(), stacks));
    std::size_t left = wholeOf(static_cast<double>(reds.size()) * share, chance);
    left = std::min(left, fitting - next);
    while (left > 0) {
        const int most = chance.happens(longRows) ? mostInRow : usualInRow;
        const int size = nextSize(left, fewestInRow, chance.whole(fewestInRow, most), chance);
        const auto count = static_cast<std::size_t>(size);
        if (size == 0 || next + count > fitting) break;
        layRow(&reds[next], size, chance);
        next += count;
        left -= std::min(left, count);
    }
    return next;
}

std::size_t Patch::layClusters(std::vector<Cell>& reds, std::size_t next, double share) {
    Dice chance = dice(clusters);
    std::size_t left = wholeOf(static_cast<double>(reds.size()) * share, chance);
    while (left > 0) {
        const int wanted = chance.whole(fewestInCluster, mostInCluster);
        const int size = nextSize(left, fewestInCluster, wanted, chance);
        const auto count = static_cast<std::size_t>(size);
        if (size == 0 || next + count > reds.size()) break;
        layCluster(&reds[next], size, chance);
        next += count;
        left -= std::min(left, count);
    }
    return next;
}

void Patch::layRow(Cell* first, int count, Dice& chance) {
    float along = chance.angle(), x = 0, y = 0;
    const float turn = chance.between(-.14F, .14F); // [rad] a cell
    const float squash = chance.between(.60F, .82F);
    const auto group = static_cast<std::uint32_t>(first->seed >> 32) | 1U;
    for (Cell* cell = first; cell < first + count; ++cell) {
        Dice own(cell->seed, 111);
        cell->marks |= lab::mark::inRouleau;
        cell->group = group;
        cell->squash = squash * own.between(.94F, 1.05F);
        cell->angle = along + pi / 2 + own.between(-.12F, .12F);
        cell->x = x + .12F * own.normal();
        cell->y = y + .12F * own.normal();
        cell->pallor *= .55F;
        cell->dye *= .84F;
        cell->z = .25F * own.normal();
        const float step = 2 * cell->radius * squash * own.between(.50F, .66F);
        along += turn + .05F * own.normal();
        x += step * std::cos(along);
        y += step * std::sin(along);
    }
    putDown(first, count, chance);
}

void Patch::layCluster(Cell* first, int count, Dice& chance) {
    const float usual = slide_.kind == body::Kind::dog ? 3.5F : 2.9F; // radius [um]
    const auto group = static_cast<std::uint32_t>(first->seed >> 32) | 1U;
    const auto nearest = [&](const Cell* end, float x, float y) {
        float least = 1e9F;
        for (const Cell* other = first; other < end; ++other)
            least = std::min(least, std::hypot(other->x - x, other->y - y));
        return least;
    };
    for (Cell* cell = first; cell < first + count; ++cell) {
        Dice own(cell->seed, 111);
        cell->x = cell->y = 0;
        constexpr int sides = 40;
        for (int i = 0; i < sides && cell > first; ++i) { // beside one that hangs there already
            const Cell& other = first[own.whole(0, static_cast<int>(cell - first) - 1)];
            const float angle = own.angle(), off = usual * own.between(1.3F, 1.75F);
            cell->x = other.x + off * std::cos(angle);
            cell->y = other.y + off * std::sin(angle);
            if (nearest(cell, cell->x, cell->y) > usual * 1.26F) break;
        }
        cell->marks |= lab::mark::agglutinated;
        cell->group = group;
        cell->pallor *= .4F;
        cell->dye *= .88F;
        cell->squash = own.between(.82F, 1);
        cell->z = .6F * own.normal();
    }
    putDown(first, count, chance);
}

void Patch::putDown(Cell* first, int count, Dice& chance) {
    float low[2] = {first->x, first->y}, high[2] = {first->x, first->y};
    for (const Cell* cell = first; cell < first + count; ++cell) {
        low[0] = std::min(low[0], cell->x);
        low[1] = std::min(low[1], cell->y);
        high[0] = std::max(high[0], cell->x);
        high[1] = std::max(high[1], cell->y);
    }
    const float half[2] = {(high[0] - low[0]) / 2, (high[1] - low[1]) / 2};
    const float reach = .8F * std::hypot(half[0], half[1]) + 2;
    // Moves a middle so that no cell lies further out than the overhang.
    const auto held = [&](float at, double from, int axis) {
        constexpr double slack = .05; // [um] of rounding
        const double room = overhang - slack - static_cast<double>(half[axis]);
        return static_cast<float>(
            std::clamp(static_cast<double>(at), from - room, from + patchSide + room));
    };
    Spot at = thickest_;
    for (int i = 0; i < tries; ++i) {
        at = spot(chance).value_or(thickest_);
        at.x = held(at.x, left_, 0);
        at.y = held(at.y, top_, 1);
        const bool crossing = std::any_of(groups_.begin(), groups_.end(), [&](const Taken& other) {
            return std::hypot(other.x - at.x, other.y - at.y) < other.radius + reach;
        });
        const bool heaped = lab::heaping(slide_, at.thickness) > .3;
        if (clear(at.x, at.y, reach) && (!crossing || heaped)) break;
    }
    groups_.push_back({at.x, at.y, reach});
    for (Cell* cell = first; cell < first + count; ++cell) {
        cell->x += at.x - (low[0] + high[0]) / 2;
        cell->y += at.y - (low[1] + high[1]) / 2;
        double t = thicknessAt(cell->x, cell->y);
        if (t <= 0) { // beyond the film: it lies singly within
            t = thickest_.thickness;
            cell->x = thickest_.x;
            cell->y = thickest_.y;
            cell->marks &=
                static_cast<std::uint16_t>(~(lab::mark::inRouleau | lab::mark::agglutinated));
            cell->group = 0;
        }
        settleIn(*cell, slide_, t);
        cells_->push_back(*cell);
    }
}

} // namespace cistern::drawing::film
