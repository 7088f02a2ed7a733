#include "drawing/film/white_shape.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

namespace mark = lab::mark;
using lab::FilmCell;

/// What a kind of cell looks like, besides its forms. All amounts were chosen by eye.
struct Look {
    Cytoplasm cytoplasm;
    Chromatin chromatin{};
    float nuclear = 1, raggedNucleus = .2F;
    float uneven = .014F, raggedEdge = .16F;
};

Look lookOf(FilmCell kind) {
    switch (kind) {
    case FilmCell::band:
        return {{.055F, .060F, 0, 0, .05F, .45F, 2.9F}, Chromatin::coarse, .98F, .13F};
    case FilmCell::metamyelocyte:
        return {{.13F, .075F, 0, 0, .05F, .4F, 2.6F}, Chromatin::coarse, .9F, .13F};
    case FilmCell::lymphocyte:
        return {{.40F, .02F, 0, 0, .25F, .25F, 1.6F}, Chromatin::smooth, 1.04F, .07F, .016F, .14F};
    case FilmCell::reactiveLymphocyte:
        return {
            {.62F, .03F, .05F, .02F, .34F, .34F, 1.9F}, Chromatin::open, .96F, .16F, .032F, .4F};
    case FilmCell::monocyte:
        return {
            {.215F, .055F, .012F, .075F, .03F, .5F, 3.6F}, Chromatin::lace, .92F, .3F, .034F, .55F};
    case FilmCell::eosinophil:
        return {{.17F, .03F, 0, 0, 0, .3F, 2.2F}, Chromatin::open, .9F, .14F, .018F};
    case FilmCell::basophil:
        return {{.10F, .05F, .085F, 0, 0, .35F, 2.2F}, Chromatin::coarse, .95F, .2F, .018F};
    default: // segmented
        return {{.026F, .060F, 0, 0, 0, .5F, 2.9F}, Chromatin::clumped, .97F, .2F};
    }
}

/// Haste in the marrow leaves RNA: blue, gray, mottled, and paler chromatin.
void intoxicate(Look& look, float grade) {
    look.cytoplasm.azure += .06F + .22F * grade;
    look.cytoplasm.protein *= .8F;
    look.cytoplasm.chromatin += .03F * grade;
    look.cytoplasm.gray += .035F;
    look.cytoplasm.uneven = .75F;
    look.cytoplasm.perUm = 1.9F;
    look.nuclear *= .95F;
}

/// In the thick body cells dry slowly: drawn in, round, dark, their detail run together.
void contract(Look& look, float thick) {
    const float left = 1 - .6F * thick;
    look.uneven *= left;
    look.raggedEdge *= left;
    look.raggedNucleus *= left;
    look.cytoplasm.uneven *= left;
    const float darker = 1 + .35F * thick;
    for (float* dye : {&look.cytoplasm.azure, &look.cytoplasm.protein, &look.cytoplasm.chromatin,
                       &look.cytoplasm.gray})
        *dye *= darker;
    look.nuclear *= darker;
}

/// Where the Golgi apparatus keeps the blue out of a reactive lymphocyte: in the hollow of its
/// nucleus's side that looks at the wide part of the cell.
Grain haloOf(const Nucleus& nucleus, float radius) {
    const Bead& bead = nucleus.spine.front();
    const float off = std::hypot(bead.x, bead.y) + 1e-3F;
    const float out = bead.half + .35F - off;
    const float half = .42F * radius;
    return {-bead.x / off * out, -bead.y / off * out, half, half, 1, 0, .6F};
}

} // namespace

Outline::Outline(Dice& dice, float radius, float uneven) {
    float all = 0, squares = 0;
    for (int i = 0; i < waves; ++i) {
        const auto n = static_cast<float>(i + 2);
        const float share = uneven * std::clamp(dice.normal(), -2.F, 2.F) / (n < 4 ? 1 : n * .4F);
        const float phase = dice.angle();
        cosines_[static_cast<std::size_t>(i)] = share * std::cos(phase);
        sines_[static_cast<std::size_t>(i)] = share * std::sin(phase);
        all += std::fabs(share);
        squares += share * share;
    }
    constexpr float mostShare = .16F; // of the radius, so that a cell's reach is known
    const float calm = all > mostShare ? mostShare / all : 1;
    for (float& part : cosines_) part *= calm;
    for (float& part : sines_) part *= calm;
    radius_ = radius / std::sqrt(1 + .5F * squares * calm * calm); // waves add to the area
    most_ = radius_ * (1 + all * calm);
}

float Outline::at(float c, float s) const {
    // cos and sin of n times the angle, one from the next: no arc tangent a pixel.
    float cn = c, sn = s, sum = 0;
    for (std::size_t i = 0; i < waves; ++i) {
        const float next = cn * c - sn * s;
        sn = sn * c + cn * s;
        cn = next;
        sum += cn * cosines_[i] - sn * sines_[i];
    }
    return radius_ * (1 + sum);
}

WhiteShape whiteShape(const Cell& cell) {
    constexpr std::uint32_t outlineStream = 6; // of a cell's chances; 1 to 5 are its parts
    Look look = lookOf(cell.kind);
    const bool neutrophil = cell.kind == FilmCell::segmented || cell.kind == FilmCell::band ||
                            cell.kind == FilmCell::metamyelocyte;
    if (neutrophil && cell.has(mark::toxic)) intoxicate(look, clamped(cell.blue));
    contract(look, cell.thick);

    WhiteShape shape;
    shape.nucleus = nucleusOf(cell);
    shape.chromatin = look.chromatin;
    shape.nuclear = look.nuclear;
    shape.raggedNucleus = look.raggedNucleus;
    Dice dice(cell.seed, outlineStream);
    shape.outline = Outline(dice, cell.radius, look.uneven);
    shape.raggedEdge = look.raggedEdge;
    shape.cytoplasm = look.cytoplasm;
    if (cell.kind == FilmCell::reactiveLymphocyte)
        shape.halo = haloOf(shape.nucleus, cell.radius);
    else
        shape.halo.dye = 0;
    const NucleusEdge edge(shape.nucleus);
    shape.kind = granulesOf(cell);
    shape.grains = grains(cell, edge);
    shape.holes = holes(cell, edge);
    shape.bodies = bodies(cell, edge);
    shape.texture = static_cast<std::uint32_t>(seedOf(cell.seed, 0, 0, 0));
    return shape;
}

Shaped shaped(const Cell& cell) {
    Shaped told;
    told.marks = cell.marks;
    if (!lab::isWhite(cell.kind)) return told;
    const Nucleus nucleus = nucleusOf(cell);
    told.lobes = nucleus.lobes;
    told.neck = nucleus.narrowest() / nucleus.widest();
    if (hasHoles(cell)) told.marks |= mark::vacuoles;
    if (hasBodies(cell)) told.marks |= mark::doehle;
    return told;
}

} // namespace cistern::drawing::film
