#include "drawing/film/paint.h"
#include "drawing/film/red_shape.h"

#include <vector>

namespace cistern::drawing::film {

namespace {

/// Streams of chance for each part.
enum Part : std::uint32_t { single = 32, threads, mass, texture };

/// A fine point that an active platelet puts out: from within to its tip.
struct Thread {
    float x = 1, y = 0;     ///< unit direction
    float from = 0, to = 0; ///< [um]
    float root = .3F;       ///< half-width where it leaves [um]
};

struct Single {
    float radius = 1.3F, squash = 1;
    Few<Spot, 72> grains;
    Few<Thread, 5> threads;
    std::uint32_t texture = 0;
    float reach = 0;
};

void addGrains(const Cell& cell, Single& shape) {
    Dice dice(cell.seed, single);
    shape.squash = dice.between(.64F, 1);
    // 8 to 13 where a platelet is as large as most; they keep to the middle.
    constexpr float usual = 2.2F; // [um2] radius squared
    const float per = static_cast<float>(dice.whole(8, 13));
    const int count = 3 + static_cast<int>(per * cell.radius * cell.radius / usual);
    for (int i = 0; i < count; ++i) {
        const float angle = dice.angle(), out = .68F * cell.radius * std::sqrt(dice.share());
        shape.grains.add({out * std::cos(angle), out * std::sin(angle) * shape.squash,
                          dice.between(.26F, .50F), dice.between(.35F, .75F)});
    }
}

void addThreads(const Cell& cell, Single& shape) {
    Dice dice(cell.seed, threads);
    constexpr double active = .30; // of cats' platelets grow points; from memory
    if (cell.animal != body::Kind::cat || !dice.happens(active)) return;
    const int count = dice.whole(1, 4);
    for (int i = 0; i < count; ++i) {
        const float angle = dice.angle(), length = dice.between(.45F, 1.5F); // [um] beyond the body
        shape.threads.add({std::cos(angle), std::sin(angle), .4F * cell.radius,
                           cell.radius * .85F + length, dice.between(.26F, .42F)});
    }
}

Single singleShape(const Cell& cell) {
    Single shape;
    shape.radius = cell.radius;
    shape.texture = static_cast<std::uint32_t>(seedOf(cell.seed, 0, 0, texture));
    addGrains(cell, shape);
    addThreads(cell, shape);
    shape.reach = 1.32F * cell.radius + .6F;
    for (const Thread& thread : shape.threads) shape.reach = std::max(shape.reach, thread.to + .3F);
    return shape;
}

float outsideOf(const Thread& thread, float x, float y) {
    const float along = std::clamp(x * thread.x + y * thread.y, thread.from, thread.to);
    const float tip = (along - thread.from) / (thread.to - thread.from);
    return lengthOf(x - along * thread.x, y - along * thread.y) -
           blend(thread.root, .07F, std::sqrt(tip));
}

/// Pale fuzzy body, red-purple grains in its middle.
bool shadeSingle(const Single& shape, float detail, float x, float y, Dyes& dyes) {
    const float q = lengthOf(x, y / shape.squash);
    const float bumpy = 1.7F / shape.radius;
    float outside =
        q - shape.radius + .52F * shape.radius * (noise(x * bumpy, y * bumpy, shape.texture) - .5F);
    if (detail > 0)
        outside += detail * (.34F * (noise(x * 2.1F, y * 2.1F, shape.texture + 1) - .5F) +
                             .20F * (noise(x * 4.6F, y * 4.6F, shape.texture + 2) - .5F));
    for (const Thread& thread : shape.threads)
        outside = roundedLeast(outside, outsideOf(thread, x, y), .3F);
    const float cover = ramp(.26F, -.30F, outside);
    if (cover <= 0) return false;
    const float inner = ramp(shape.radius * .95F, shape.radius * .25F, q);
    dyes.azure = (.165F + .05F * inner) * cover;
    dyes.protein = .075F * cover;
    dyes.gray = detail * .035F * ridge(outside + .06F, .3F);
    float grains = 0;
    for (const Spot& grain : shape.grains) {
        const float dx = x - grain.x, dy = y - grain.y, d = dx * dx + dy * dy;
        const float r = grain.radius * grain.radius;
        if (d >= r) continue;
        const float v = 1 - d / r;
        grains += grain.depth * v * v;
    }
    constexpr float most = 1.05F, mean = .36F; // of grains, and all through where too small to see
    grains = blend(mean * inner * 1.3F, std::min(grains, most), detail);
    dyes.azurophil = (.62F * grains + .10F * inner) * cover;
    dyes.chromatin = (.10F * grains + .03F) * cover;
    return true;
}

/// One of the platelets that a clump is packed from.
struct Packed {
    float x = 0, y = 0, radius = 0; ///< [um]
    float depth = 0;                ///< of grains; 0: no platelet here
};

/// A clump: a square grid of places for platelets, of which those within some joined lobes are
/// taken. Neighbors overlap, so that all of them are one mass.
struct Mass {
    float step = 1.9F; ///< between platelets [um]
    int side = 0;      ///< places a row
    std::vector<Packed> places;
    Few<Spot, 8> lobes;
    std::uint32_t texture = 0;

    const Packed* at(int i, int j) const {
        if (i < 0 || j < 0 || i >= side || j >= side) return nullptr;
        const Packed& place = places[static_cast<std::size_t>(j * side + i)];
        return place.depth > 0 ? &place : nullptr;
    }
    float corner() const { return -.5F * static_cast<float>(side) * step; }
};

/// How deep within the lobes [um].
float depthIn(const Few<Spot, 8>& lobes, float x, float y) {
    float depth = -1e3F;
    for (const Spot& lobe : lobes) depth = std::max(depth, -lobe.outside(x, y));
    return depth;
}

void addLobes(const Cell& cell, Dice& dice, Mass& clump) {
    constexpr float least = 2.3F; // [um] for a platelet or two to fit
    const float r = cell.radius, core = std::max(dice.between(.44F, .58F) * r, least);
    clump.lobes.add({0, 0, core});
    const int count = dice.whole(3, 6);
    float angle = dice.angle();
    for (int i = 0; i < count; ++i) {
        angle += dice.between(.5F, 1.9F);
        const float radius = std::max(dice.between(i < 2 ? .34F : .26F, .46F) * r, least);
        // The first two span the whole width; others lie closer.
        const float out = i < 2 ? r - radius : std::min(dice.between(.4F, .75F) * r, r - radius);
        if (i == 1) angle += .6F * pi;
        clump.lobes.add({out * std::cos(angle), out * std::sin(angle), radius});
    }
}

void pack(const Cell& cell, Dice& dice, Mass& clump) {
    const bool cat = cell.animal == body::Kind::cat;
    clump.step = cat ? 2.05F : 1.85F;
    clump.side = 2 * static_cast<int>(cell.radius / clump.step + 1.5F) + 1;
    clump.places.resize(static_cast<std::size_t>(clump.side * clump.side));
    const float lowest = clump.step * .74F, highest = clump.step * (cat ? 1.02F : .90F);
    for (int j = 0; j < clump.side; ++j)
        for (int i = 0; i < clump.side; ++i) {
            Packed& p = clump.places[static_cast<std::size_t>(j * clump.side + i)];
            p.x = clump.corner() + (static_cast<float>(i) + dice.between(.22F, .78F)) * clump.step;
            p.y = clump.corner() + (static_cast<float>(j) + dice.between(.22F, .78F)) * clump.step;
            p.radius = dice.between(lowest, highest);
            p.depth = dice.between(.6F, 1.1F);
            if (depthIn(clump.lobes, p.x, p.y) < .35F * p.radius) p.depth = 0;
        }
}

/// Leaves only what hangs together with the middle.
void keepConnected(Mass& clump) {
    const auto side = static_cast<std::size_t>(clump.side);
    std::vector<char> joined(clump.places.size(), 0);
    std::vector<std::size_t> todo{side / 2 * side + side / 2};
    joined[todo.front()] = 1;
    clump.places[todo.front()].depth = std::max(.8F, clump.places[todo.front()].depth);
    while (!todo.empty()) {
        const std::size_t at = todo.back(), i = at % side, j = at / side;
        todo.pop_back();
        const auto take = [&](bool there, std::size_t next) {
            if (!there || joined[next] || clump.places[next].depth <= 0) return;
            joined[next] = 1;
            todo.push_back(next);
        };
        take(i > 0, at - 1);
        take(i + 1 < side, at + 1);
        take(j > 0, at - side);
        take(j + 1 < side, at + side);
    }
    for (std::size_t k = 0; k < joined.size(); ++k)
        if (!joined[k]) clump.places[k].depth = 0;
}

Mass massShape(const Cell& cell) {
    Mass clump;
    Dice dice(cell.seed, mass);
    clump.texture = static_cast<std::uint32_t>(seedOf(cell.seed, 0, 0, texture));
    addLobes(cell, dice, clump);
    pack(cell, dice, clump);
    keepConnected(clump);
    return clump;
}

/// What the platelets around a place add up to there.
struct Heap {
    float body = 0;              ///< 0 outside, about 1 within one, more where they overlap
    float grainy = 0;            ///< how near the middle of one
    float first = 9, second = 9; ///< distance to the nearest two, of their radius
};

Heap heapAt(const Mass& clump, float x, float y) {
    Heap heap;
    const int i = floored((x - clump.corner()) / clump.step),
              j = floored((y - clump.corner()) / clump.step);
    for (int b = j - 1; b <= j + 1; ++b)
        for (int a = i - 1; a <= i + 1; ++a) {
            const Packed* p = clump.at(a, b);
            if (!p) continue;
            const float d =
                ((x - p->x) * (x - p->x) + (y - p->y) * (y - p->y)) / (p->radius * p->radius);
            if (d < heap.first) {
                heap.second = heap.first;
                heap.first = d;
            } else if (d < heap.second)
                heap.second = d;
            if (d >= 1.7F) continue;
            const float v = 1 - d / 1.7F;
            heap.body += v * v;
            heap.grainy += p->depth * v * v * v;
        }
    heap.first = std::sqrt(heap.first);
    heap.second = std::sqrt(heap.second);
    return heap;
}

/// One grainy mass with a common fuzzy border; platelets within part only by faint lanes.
bool shadeMass(const Mass& clump, float detail, float x, float y, Dyes& dyes) {
    const Heap heap = heapAt(clump, x, y);
    if (heap.body <= 0) return false;
    const std::uint32_t s = clump.texture;
    float rough = 0;
    if (detail > 0)
        rough = detail * (.30F * (noise(x * 1.7F, y * 1.7F, s + 1) - .5F) +
                          .22F * (noise(x * 4.2F, y * 4.2F, s + 2) - .5F));
    const float cover = ramp(.02F, .34F, heap.body + rough * ramp(1.4F, .2F, heap.body));
    if (cover <= 0) return false;
    const float piled = ramp(.2F, 6.F, depthIn(clump.lobes, x, y)); // several lie over one another
    const float lane = 1 - .34F * ridge(heap.second - heap.first, .26F);
    const float middle = std::min(heap.grainy, 1.3F);
    constexpr float mean = .30F; // of grains, where they are too small to see
    float grains = mean;
    if (detail > 0) {
        const Strewn grain = strewn(x * 1.55F, y * 1.55F, s + 5);
        const float share = shareOf(grain.which * 0x85ebca6bU);
        const float size = share < .3F ? .05F : .26F + .44F * share; // some squares hold none
        const float dot = ridge(std::min(grain.nearest / size, 1.F), 1) *
                          (.55F + .75F * shareOf(grain.which * 0x9E3779B1U));
        grains = blend(mean, dot, detail);
    }
    // Some platelets have given their grains off.
    const float left = ramp(.22F, .6F, noise(x * .35F, y * .35F, s + 7));
    grains *= (.10F + 1.2F * middle * middle) * blend(.55F, 1.15F, left);
    dyes.azure = (.15F + .10F * piled) * lane * cover;
    dyes.protein = (.075F + .05F * piled) * lane * cover;
    dyes.azurophil = (.66F * grains * (1 + .35F * piled) + .12F * middle + .12F * piled) * cover;
    dyes.chromatin = (.03F + .14F * grains + .04F * piled) * cover;
    dyes.gray = detail * .03F * ridge(cover - .45F, .4F);
    return true;
}

} // namespace

void paintPlatelet(const Cell& cell, const Light& light, Density& to) {
    const float detail = light.detail();
    if (cell.kind == FilmCell::plateletClump) {
        const Mass clump = massShape(cell);
        const float reach = cell.radius + 1.5F * clump.step;
        deposit(to, light, cell.x, cell.y, cell.z, cell.angle, reach,
                [&](float x, float y, Dyes& dyes) { return shadeMass(clump, detail, x, y, dyes); });
        return;
    }
    const Single shape = singleShape(cell);
    deposit(to, light, cell.x, cell.y, cell.z, cell.angle, shape.reach,
            [&](float x, float y, Dyes& dyes) { return shadeSingle(shape, detail, x, y, dyes); });
}

} // namespace cistern::drawing::film
