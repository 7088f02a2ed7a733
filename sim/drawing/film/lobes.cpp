#include "drawing/film/lobes.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

struct Lobe {
    float x = 0, y = 0, half = 1, stretch = 0;
    Bead ends[2];
};

/// Lobes along a winding walk, each a step from the one before.
std::vector<Lobe> walked(Dice& dice, const Lobes& form, float size) {
    std::vector<Lobe> lobes;
    float heading = dice.angle(), turn = dice.happens(.5) ? 1.F : -1.F, x = 0, y = 0;
    for (int i = 0; i < form.count; ++i) {
        Lobe lobe;
        lobe.half = size * dice.between(form.leastHalf, form.mostHalf);
        lobe.stretch = size * dice.between(form.leastStretch, form.mostStretch);
        lobe.x = x;
        lobe.y = y;
        lobes.push_back(lobe);
        if (dice.happens(.18)) turn = -turn;
        heading += turn * dice.between(.55F, 1.25F);
        const float step = 2 * lobe.half + lobe.stretch + dice.between(.1F, .7F);
        x += step * std::cos(heading);
        y += step * std::sin(heading);
    }
    return lobes;
}

/// Moves two lobes apart if they are too close, and neighbors together if too far.
void settlePair(Lobe& a, Lobe& b, bool neighbors, float gap) {
    const float dx = b.x - a.x, dy = b.y - a.y, distance = std::hypot(dx, dy) + 1e-4F;
    const float wanted = a.half + b.half + .55F * (a.stretch + b.stretch) + gap;
    const float slack = .3F; // [um] by which a neck may be longer
    float move = 0;
    if (distance < wanted)
        move = .25F * (wanted - distance);
    else if (neighbors && distance > wanted + slack)
        move = .2F * (wanted + slack - distance);
    a.x -= move * dx / distance;
    a.y -= move * dy / distance;
    b.x += move * dx / distance;
    b.y += move * dy / distance;
}

void holdWithin(Lobe& lobe, float within) {
    const float off = std::hypot(lobe.x, lobe.y);
    const float over = off + lobe.half + .5F * lobe.stretch - within;
    if (over <= 0) return;
    const float share = 1 - .5F * over / (off + 1e-4F);
    lobe.x *= share;
    lobe.y *= share;
}

void settle(std::vector<Lobe>& lobes, const Lobes& form) {
    float x = 0, y = 0;
    for (const Lobe& lobe : lobes) {
        x += lobe.x / static_cast<float>(lobes.size());
        y += lobe.y / static_cast<float>(lobes.size());
    }
    for (Lobe& lobe : lobes) {
        lobe.x -= x;
        lobe.y -= y;
    }
    constexpr int rounds = 60;
    for (int round = 0; round < rounds; ++round)
        for (std::size_t i = 0; i < lobes.size(); ++i) {
            for (std::size_t j = i + 1; j < lobes.size(); ++j)
                settlePair(lobes[i], lobes[j], j == i + 1, form.gap);
            holdWithin(lobes[i], form.within);
        }
}

/// Each lobe leans along the way from its neighbor before to the one after, more or less.
void lean(std::vector<Lobe>& lobes, Dice& dice) {
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        Lobe& lobe = lobes[i];
        const Lobe& before = lobes[i > 0 ? i - 1 : i];
        const Lobe& after = lobes[std::min(i + 1, lobes.size() - 1)];
        const float angle =
            std::atan2(after.y - before.y, after.x - before.x) + dice.between(-.5F, .5F);
        const float dx = .5F * lobe.stretch * std::cos(angle);
        const float dy = .5F * lobe.stretch * std::sin(angle);
        lobe.ends[0] = {lobe.x - dx, lobe.y - dy, lobe.half * dice.between(.84F, 1)};
        lobe.ends[1] = {lobe.x + dx, lobe.y + dy, lobe.half * dice.between(.84F, 1)};
    }
}

/// The least distance between the edges of two lobes [um].
float clearance(const std::vector<Lobe>& lobes) {
    float least = 9;
    for (std::size_t i = 0; i < lobes.size(); ++i)
        for (std::size_t j = i + 1; j < lobes.size(); ++j)
            for (const Bead& a : lobes[i].ends)
                for (const Bead& b : lobes[j].ends)
                    least = std::min(least, std::hypot(a.x - b.x, a.y - b.y) - a.half - b.half);
    return least;
}

/// The bridge from one bead to the next: shoulders as round as the lobes, a waist between.
void bridge(std::vector<Bead>& spine, const Bead& from, const Bead& to, float neck, Dice& dice) {
    const float dx = to.x - from.x, dy = to.y - from.y, distance = std::hypot(dx, dy) + 1e-4F;
    const float ux = dx / distance, uy = dy / distance, aside = dice.between(-.15F, .15F);
    constexpr float out = .82F, round = .5F; // a circle's half chord .82 from its middle is .57
    const float first = out * from.half, last = distance - out * to.half;
    if (last > first + .1F)
        spine.push_back(
            {from.x + ux * first, from.y + uy * first, std::max(neck, round * from.half)});
    const float middle = .5F * (from.half + distance - to.half);
    spine.push_back({from.x + ux * middle - uy * aside, from.y + uy * middle + ux * aside, neck});
    if (last > first + .1F)
        spine.push_back({from.x + ux * last, from.y + uy * last, std::max(neck, round * to.half)});
}

std::vector<Bead> joined(Dice& dice, const std::vector<Lobe>& lobes, const Lobes& form) {
    float widest = 0;
    for (const Lobe& lobe : lobes)
        for (const Bead& end : lobe.ends) widest = std::max(widest, end.half);
    std::vector<Bead> spine;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        if (i > 0)
            bridge(spine, lobes[i - 1].ends[1], lobes[i].ends[0],
                   widest * dice.between(form.leastNeck, form.mostNeck), dice);
        spine.push_back(lobes[i].ends[0]);
        spine.push_back(lobes[i].ends[1]);
    }
    return spine;
}

} // namespace

std::vector<Bead> lobed(Dice& dice, const Lobes& form) {
    std::vector<Lobe> best;
    float most = -9, size = 1;
    constexpr int tries = 14;
    for (int i = 0; i < tries; ++i) {
        std::vector<Lobe> lobes = walked(dice, form, size);
        settle(lobes, form);
        lean(lobes, dice);
        const float clear = clearance(lobes);
        if (clear > most) {
            most = clear;
            best = lobes;
        }
        if (clear >= .6F * form.gap) break;
        size *= .98F;
    }
    return joined(dice, best, form);
}

std::vector<Bead> drumstick(Dice& dice, const std::vector<Bead>& spine, float cellRadius) {
    const Bead& lobe = spine.front();
    const float head = dice.between(.66F, .82F), thread = dice.between(.55F, .85F);
    const float start = dice.angle();
    float bestAngle = start, most = -9;
    constexpr int ways = 16;
    for (int i = 0; i < ways; ++i) {
        const float angle = start + 2 * pi * static_cast<float>(i) / ways;
        const float off = lobe.half + thread + head;
        const float x = lobe.x + off * std::cos(angle), y = lobe.y + off * std::sin(angle);
        float room = cellRadius - .4F - head - std::hypot(x, y);
        for (const Bead& bead : spine)
            room = std::min(room, std::hypot(bead.x - x, bead.y - y) - bead.half - head);
        if (room > most) {
            most = room;
            bestAngle = angle;
        }
    }
    const auto at = [&](float off, float half) {
        return Bead{lobe.x + off * std::cos(bestAngle), lobe.y + off * std::sin(bestAngle), half};
    };
    constexpr float threadHalf = .17F;
    return {at(lobe.half - .3F, .4F), at(lobe.half + .12F, threadHalf),
            at(lobe.half + thread, threadHalf), at(lobe.half + thread + head, head),
            at(lobe.half + thread + head + .12F, head)};
}

} // namespace cistern::drawing::film
