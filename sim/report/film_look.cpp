// What is met in the fields of a film, and its grades.
#include "lab/film/track.h"
#include "report/film.h"

#include <algorithm>
#include <cmath>

namespace cistern::report {

namespace {

using drawing::film::Cell;
using lab::FilmCell;

void meet(RedLook& look, const Cell& cell) {
    ++look.of[static_cast<std::size_t>(cell.kind)];
    if (cell.kind == FilmCell::platelet) {
        ++look.platelets;
        look.largePlatelets += cell.has(lab::mark::large);
    }
    if (!lab::isRed(cell.kind) || cell.kind == FilmCell::nucleatedRed) return;
    ++look.cells;
    look.howellJolly += cell.has(lab::mark::howellJolly);
    look.heinz += cell.has(lab::mark::heinz);
    look.water += cell.has(lab::mark::water);
    look.inRows += cell.has(lab::mark::inRouleau);
    look.inClusters += cell.has(lab::mark::agglutinated);
}

} // namespace

RedLook lookedAt(drawing::film::Stage& stage, int fields) {
    RedLook look;
    const auto places = lab::track(stage.slide(), lab::FilmArea::monolayer, oilField, oilField);
    const int most = static_cast<int>(places.size());
    double sum = 0, squares = 0;
    for (; look.fields < std::min(fields, most); ++look.fields) {
        // evenly along the whole track: ends of the monolayer differ
        const auto at = static_cast<std::size_t>(static_cast<double>(look.fields) * most /
                                                 std::min(fields, most));
        const lab::FilmField& field = places[at];
        const double x = field.left + oilField / 2, y = field.top + oilField / 2;
        for (const Cell& cell : stage.cells({field.left, field.top, field.width, field.height})) {
            const double fromX = static_cast<double>(cell.x) - x,
                         fromY = static_cast<double>(cell.y) - y;
            if (std::hypot(fromX, fromY) > oilField / 2) continue;
            const double before = look.cells;
            meet(look, cell);
            if (!(look.cells > before)) continue;
            const double width = 2 * static_cast<double>(cell.radius);
            sum += width;
            squares += width * width;
        }
    }
    if (look.cells > 0) {
        look.diameter = sum / look.cells;
        look.variation =
            std::sqrt(std::max(0., squares / look.cells - look.diameter * look.diameter)) /
            look.diameter;
    }
    return look;
}

} // namespace cistern::report
