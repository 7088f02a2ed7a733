#include "drawing/film/paint.h"

namespace cistern::drawing::film {

namespace {

/// Whether anything of a cell may fall on a density. Nothing is painted further out than this.
bool touches(const Cell& cell, const Light& light, const Density& to) {
    constexpr float wider = 1.6F, halo = 4; // fold of the radius; and [um]
    constexpr float spread = 3;             // blurs reach three times their width
    const double x = cell.x, y = cell.y;
    const double reach =
        static_cast<double>(cell.radius * wider + halo + spread * light.blur(cell.z));
    const double left = x - to.left, top = y - to.top;
    return left + reach > 0 && top + reach > 0 && left - reach < to.width / to.scale &&
           top - reach < to.height / to.scale;
}

} // namespace

void paint(const Cell& cell, const Light& light, Density& to) {
    if (!touches(cell, light, to)) return;
    if (lab::isRed(cell.kind))
        paintRed(cell, light, to);
    else if (lab::isWhite(cell.kind))
        paintWhite(cell, light, to);
    else if (cell.kind == FilmCell::smudge)
        paintSmudge(cell, light, to);
    else if (cell.kind == FilmCell::precipitate)
        paintPrecipitate(cell, light, to);
    else
        paintPlatelet(cell, light, to);
}

} // namespace cistern::drawing::film
