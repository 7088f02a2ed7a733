#include "drawing/film/nucleus.h"

#include "drawing/film/lobes.h"
#include "drawing/film/ribbon.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

namespace mark = lab::mark;
using lab::FilmCell;

// Sizes below hold for cells of a usual radius and grow with it. Chosen by eye beside the facts of
// Harvey, Reagan, and Stockham and Scott, from memory.
constexpr float usualGranulocyte = 6.5F, usualMonocyte = 8.6F; // [um]

Nucleus segmented(const Cell& cell, Dice& dice) {
    const float size = cell.radius / usualGranulocyte;
    Lobes form;
    const float chance = dice.share();
    form.count = chance < .36F ? 3 : chance < .82F ? 4 : 5; // 36, 46, 18 %
    if (cell.has(mark::hypersegmented)) form.count = dice.happens(.65) ? 6 : 7;
    if (cell.has(mark::doubtful)) form.count = dice.happens(.25) ? 2 : 3;
    constexpr float fold[] = {0, 0, 1.42F, 1.24F, 1.08F, .97F, .86F, .79F}; // fewer are larger
    form.leastHalf = 1.5F * size * fold[form.count];
    form.mostHalf = 1.96F * size * fold[form.count];
    form.leastStretch = .2F;
    form.mostStretch = form.count > 5 ? .9F : 1.7F;
    form.leastNeck = .12F;
    form.mostNeck = .26F;
    if (cell.has(mark::doubtful)) {
        form.leastNeck = .34F;
        form.mostNeck = .49F;
        form.leastStretch = 1; // little waist between long parts
        form.gap = 0;
    }
    form.within = cell.radius - .8F;
    Nucleus nucleus;
    nucleus.spine = lobed(dice, form);
    nucleus.lobes = form.count;
    if (cell.has(mark::drumstick)) nucleus.stick = drumstick(dice, nucleus.spine, cell.radius);
    return nucleus;
}

/// How bands bend.
struct Bend {
    float leastRadius, mostRadius; ///< [um]
    float leastSpan, mostSpan;     ///< [rad]
    float width;                   ///< fold of usual
    bool twice;
};
constexpr Bend bends[] = {{2.7F, 3.2F, 3.5F, 4.4F, 1, false},     // horseshoe
                          {2.3F, 2.7F, 3.6F, 4.2F, .95F, true},   // S
                          {3, 3.6F, 2.8F, 3.3F, 1.08F, false},    // open U
                          {2.9F, 3.2F, 4.1F, 4.6F, .86F, false}}; // curled up
constexpr Bend ring{3.15F, 3.35F, 6.1F, 6.2F, .9F, false};        // toxic marrow lets these go

Nucleus band(const Cell& cell, Dice& dice) {
    const bool ringed = cell.has(mark::toxic) && dice.happens(.12);
    const Bend& bend = ringed ? ring : bends[dice.whole(0, 3)];
    const Ribbon form{dice.between(bend.leastRadius, bend.mostRadius),
                      dice.between(bend.leastSpan, bend.mostSpan),
                      dice.between(1.45F, 1.72F) * bend.width,
                      .04F,
                      bend.twice,
                      15};
    Nucleus nucleus;
    nucleus.spine = ribbon(dice, form.times(cell.radius / usualGranulocyte));
    center(nucleus.spine, 0, 0);
    if (cell.has(mark::doubtful)) constrict(nucleus.spine, dice);
    fit(nucleus.spine, cell.radius - .7F);
    return nucleus;
}

Nucleus metamyelocyte(const Cell& cell, Dice& dice) {
    const float size = cell.radius / usualGranulocyte;
    Nucleus nucleus;
    const Ribbon form{dice.between(1.9F, 2.4F), dice.between(1.5F, 2), dice.between(2.25F, 2.6F),
                      .03F};
    nucleus.spine = ribbon(dice, form.times(size));
    const float angle = dice.angle();
    center(nucleus.spine, .5F * std::cos(angle), .5F * std::sin(angle));
    fit(nucleus.spine, cell.radius - .6F);
    return nucleus;
}

struct Round {
    float share;   ///< of the cell's radius
    float aside;   ///< 0 in the middle, 1 at the edge
    double hollow; ///< how many have a shallow hollow
};

/// A round nucleus set to one side.
Nucleus rounded(const Cell& cell, Dice& dice, const Round& form) {
    const float half = cell.radius * form.share, angle = dice.angle();
    const float off = (cell.radius - half) * form.aside, c = std::cos(angle), s = std::sin(angle);
    const float oval = dice.between(0, .10F) * half, lean = dice.angle();
    const float ox = oval * std::cos(lean), oy = oval * std::sin(lean);
    Nucleus nucleus;
    nucleus.spine = {{off * c - ox, off * s - oy, half - oval},
                     {off * c + ox, off * s + oy, half - oval}};
    if (dice.happens(form.hollow)) {
        const float where = angle + pi + dice.between(-.9F, .9F), wide = half * .55F;
        const float depth = half * dice.between(.07F, .20F), from = half + wide - depth;
        nucleus.notch = {off * c + from * std::cos(where), off * s + from * std::sin(where), wide};
    }
    return nucleus;
}

Nucleus monocyte(const Cell& cell, Dice& dice) {
    const float size = cell.radius / usualMonocyte;
    const auto bent = [&](const Ribbon& form) { return ribbon(dice, form.times(size)); };
    const auto lobes = [&](int count, float least, float most) {
        Lobes form{count, least * size, most * size, .8F, 2.2F, .62F, .82F};
        form.gap = -.9F;
        form.within = cell.radius - 1.3F;
        return lobed(dice, form);
    };
    Nucleus nucleus;
    const float kind = dice.share();
    if (kind < .3F) // bean
        nucleus.spine = bent({2.9F, dice.between(1.8F, 2.5F), dice.between(3.1F, 3.6F), .08F});
    else if (kind < .52F) // horseshoe
        nucleus.spine = bent({3.5F, dice.between(3.2F, 4), dice.between(2.4F, 2.8F), .15F});
    else if (kind < .72F) // knotted
        nucleus.spine = lobes(3, 2.5F, 3.1F);
    else if (kind < .86F) // folded
        nucleus.spine =
            bent({2.5F, dice.between(3.6F, 4.4F), dice.between(2.5F, 2.9F), .15F, true});
    else // butterfly
        nucleus.spine = lobes(2, 3.1F, 3.7F);
    const float angle = dice.angle();
    center(nucleus.spine, .6F * std::cos(angle), .6F * std::sin(angle));
    fit(nucleus.spine, cell.radius - .9F);
    return nucleus;
}

Nucleus eosinophil(const Cell& cell, Dice& dice) {
    const float size = cell.radius / usualGranulocyte;
    const int count = dice.happens(.78) ? 2 : 3;
    const float fold = count == 2 ? 1.F : .86F;
    Lobes form{count, 1.75F * size * fold, 2.15F * size * fold, .5F, 1.5F, .16F, .34F};
    form.within = cell.radius - 1.3F;
    Nucleus nucleus;
    nucleus.spine = lobed(dice, form);
    nucleus.lobes = count;
    const float angle = dice.angle();
    for (Bead& bead : nucleus.spine) {
        bead.x += .7F * std::cos(angle);
        bead.y += .7F * std::sin(angle);
    }
    return nucleus;
}

/// A long ribbon of broad parts that winds through the cell.
Nucleus basophil(const Cell& cell, Dice& dice) {
    const float size = cell.radius / usualGranulocyte;
    Lobes form{dice.whole(4, 5), 1.15F * size, 1.5F * size, .9F, 2.F, .5F, .72F};
    form.gap = 0;
    form.within = cell.radius - .9F;
    Nucleus nucleus;
    nucleus.spine = lobed(dice, form);
    nucleus.lobes = form.count;
    return nucleus;
}

Nucleus formed(const Cell& cell, Dice& dice) {
    switch (cell.kind) {
    case FilmCell::segmented:
        return segmented(cell, dice);
    case FilmCell::band:
        return band(cell, dice);
    case FilmCell::metamyelocyte:
        return metamyelocyte(cell, dice);
    case FilmCell::lymphocyte: {
        // A larger one has more cytoplasm round a nucleus not much larger.
        const float spare = .05F * ramp(4.9F, 6.2F, cell.radius);
        return rounded(cell, dice, {dice.between(.81F, .875F) - spare, .72F, .45});
    }
    case FilmCell::reactiveLymphocyte:
        return rounded(cell, dice, {dice.between(.58F, .66F), dice.between(.4F, .75F), .6});
    case FilmCell::monocyte:
        return monocyte(cell, dice);
    case FilmCell::eosinophil:
        return eosinophil(cell, dice);
    case FilmCell::basophil:
        return basophil(cell, dice);
    default:
        return {};
    }
}

} // namespace

float Nucleus::widest() const {
    float most = 0;
    for (const Bead& bead : spine) most = std::max(most, bead.half);
    return most;
}

float Nucleus::narrowest() const {
    float least = spine.empty() ? 0 : spine.front().half;
    for (const Bead& bead : spine) least = std::min(least, bead.half);
    return least;
}

float Nucleus::reach() const {
    return std::max(reachOf(spine), reachOf(stick));
}

Nucleus nucleusOf(const Cell& cell) {
    constexpr std::uint32_t stream = 1; // of a cell's chances
    Dice dice(cell.seed, stream);
    Nucleus nucleus = formed(cell, dice);
    // In the thick body cells do not spread: what they hold lies closer together.
    const float together = 1 - .14F * cell.thick;
    for (std::vector<Bead>* part : {&nucleus.spine, &nucleus.stick})
        for (Bead& bead : *part) {
            bead.x *= together;
            bead.y *= together;
        }
    nucleus.notch.half *= 1 - cell.thick;
    return nucleus;
}

NucleusEdge::NucleusEdge(const Nucleus& nucleus) : notch_(nucleus.notch), reach_(nucleus.reach()) {
    link(nucleus.spine);
    link(nucleus.stick);
}

void NucleusEdge::link(const std::vector<Bead>& beads) {
    for (std::size_t i = 0; i + 1 < beads.size(); ++i) {
        const Bead &a = beads[i], &b = beads[i + 1];
        const float dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
        links_.push_back({a.x, a.y, dx, dy, square > 0 ? 1 / square : 0, a.half, b.half - a.half});
    }
}

NucleusEdge::Near NucleusEdge::at(float x, float y) const {
    constexpr float far = 2; // [um] beyond which nobody asks
    Near near;
    if (x * x + y * y > (reach_ + far) * (reach_ + far)) return near;
    for (const Link& link : links_) {
        const float px = x - link.x, py = y - link.y;
        const float t = clamped((px * link.dx + py * link.dy) * link.perSquare);
        const float ex = px - link.dx * t, ey = py - link.dy * t, half = link.half + link.more * t;
        // Compared before the root is drawn: most links are too far off.
        const float square = ex * ex + ey * ey, needed = near.distance + half;
        if (needed <= 0 || square >= needed * needed) continue;
        near = {std::sqrt(square) - half, half};
    }
    if (notch_.half > 0) {
        const float inNotch = notch_.half - std::hypot(x - notch_.x, y - notch_.y);
        near.distance = roundedMost(near.distance, inNotch, 1.1F);
    }
    return near;
}

} // namespace cistern::drawing::film
