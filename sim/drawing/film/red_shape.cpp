#include "drawing/film/red_shape.h"

namespace cistern::drawing::film {

namespace {

/// A stream of chance for each part, so that a change of one shifts no other.
enum Part : std::uint32_t { outline = 16, form, middle, bodies, holes, nucleus, texture };

// Where no source is named, shares of the radius and counts are chosen by eye.
constexpr float waveSpread[4] = {.022F, .012F, .006F, .006F}; // of outlines, 2 to 5 a turn

void bendOutline(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, outline);
    // Young cells are large and limp, spherocytes taut.
    const float rough = cell.kind == FilmCell::polychromatophil ? 1.7F
                        : cell.kind == FilmCell::spherocyte     ? .35F
                                                                : 1;
    for (std::size_t i = 0; i < 4; ++i) {
        const float height = rough * waveSpread[i] * dice.normal(), turn = dice.angle();
        shape.cosines[i] = height * std::cos(turn);
        shape.sines[i] = height * std::sin(turn);
    }
}

/// Short even points, 13 to 21 around and some seen from above (facts: 10 to 30).
void crenate(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, form);
    const int count = dice.whole(13, 21);
    const float step = 2 * pi / static_cast<float>(count), first = dice.between(.2F, .8F) * step;
    const float height = dice.between(.10F, .16F) * cell.radius;
    shape.radius = .93F * cell.radius; // the body gives what the points hold
    for (int i = 0; i < count; ++i) {
        const float angle = first + step * (static_cast<float>(i) + dice.between(-.10F, .10F));
        shape.points.add({angle, height * dice.between(.78F, 1.15F)});
    }
    const int above = dice.whole(6, 11);
    constexpr float golden = 2.4F; // [rad] strews evenly
    for (int i = 0; i < above; ++i) {
        const float angle = static_cast<float>(i) * golden + dice.between(-.3F, .3F);
        const float out = .76F * cell.radius *
                          std::sqrt((static_cast<float>(i) + .5F) / static_cast<float>(above));
        shape.bumps.add({out * std::cos(angle), out * std::sin(angle), .075F * cell.radius,
                         dice.between(.14F, .30F)});
    }
}

/// Few knobs, uneven in length, width and spacing.
void addKnobs(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, form);
    const int count = dice.whole(4, 8);
    std::array<float, 8> gaps{};
    float all = 0;
    for (int i = 0; i < count; ++i) {
        gaps[static_cast<std::size_t>(i)] = dice.between(.40F, 1.75F);
        all += gaps[static_cast<std::size_t>(i)];
    }
    shape.radius = .92F * cell.radius; // the body gives what the knobs hold
    float angle = dice.angle();
    for (int i = 0; i < count; ++i) {
        angle += gaps[static_cast<std::size_t>(i)] * 2 * pi / all;
        const float lean = angle + dice.between(-.16F, .16F);
        const float from = .62F * cell.radius, to = dice.between(.90F, 1.12F) * cell.radius;
        const float end = dice.between(.09F, .19F) * cell.radius;
        shape.knobs.add({from * std::cos(angle), from * std::sin(angle), to * std::cos(lean),
                         to * std::sin(lean), end * dice.between(1.1F, 1.9F), end});
    }
}

/// A helmet (one cut), a sliver (two) or a triangle (three).
void cutApart(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, form);
    const float angle = dice.angle(), r = cell.radius;
    struct Range {
        float low, high;
    };
    const auto cut = [&](Range turned, Range off, Range bend) { // shares of the radius
        const float at = angle + dice.between(turned.low, turned.high);
        const float away = dice.between(off.low, off.high) * r;
        shape.cuts.add({std::cos(at), std::sin(at), away, dice.between(bend.low, bend.high) / r});
    };
    const int which = dice.whole(0, 2);
    if (which == 0) cut({0, 0}, {-.05F, .25F}, {-.05F, .42F});
    if (which == 1) {
        cut({0, 0}, {.15F, .45F}, {-.05F, .42F});
        cut({1.6F, 2.6F}, {.20F, .50F}, {-.20F, .30F});
    }
    if (which == 2)
        for (int i = 0; i < 3; ++i) {
            const float third = static_cast<float>(i) * 2 * pi / 3;
            cut({third - .28F, third + .28F}, {.30F, .55F}, {-.35F, .40F});
        }
}

/// A bite with a wide mouth; its corners are drawn out to two horns.
void bite(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, form);
    const float r = cell.radius, angle = dice.angle();
    const float out = dice.between(.93F, 1.08F) * r, radius = dice.between(.42F, .56F) * r;
    shape.bites.add({out * std::cos(angle), out * std::sin(angle), radius});
    // Half the mouth, seen from the middle.
    const float half = std::acos((r * r + out * out - radius * radius) / (2 * r * out));
    for (const float side : {-1.F, 1.F}) {
        const float root = angle + side * (half + .20F), tip = angle + side * (half + .02F);
        const float to = dice.between(1.02F, 1.16F) * r;
        shape.knobs.add({.80F * r * std::cos(root), .80F * r * std::sin(root), to * std::cos(tip),
                         to * std::sin(tip), .15F * r, .05F * r});
    }
}

void shapeForm(const Cell& cell, RedShape& shape) {
    switch (cell.kind) {
    case FilmCell::echinocyte:
        crenate(cell, shape);
        break;
    case FilmCell::acanthocyte:
        addKnobs(cell, shape);
        break;
    case FilmCell::schistocyte:
        cutApart(cell, shape);
        break;
    case FilmCell::keratocyte:
        bite(cell, shape);
        break;
    default:
        break;
    }
}

/// A pale ring between a spot in the middle and the rim.
void addRing(Dice& dice, Profile& profile) {
    const float from = dice.between(.10F, .20F), end = dice.between(.50F, .60F);
    profile.ringAt = {from, from + dice.between(.16F, .24F), end, end + dice.between(.16F, .24F)};
    profile.ring = dice.between(.44F, .62F);
}

void spread(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, middle);
    Profile& p = shape.profile;
    constexpr float wander = .055F;   // of the pale middle [radii]
    constexpr float flattened = .92F; // of the pallor goes at the feathered edge
    p.middleX = wander * shape.radius * dice.normal();
    p.middleY = wander * shape.radius * dice.normal();
    p.pallor = cell.pallor * (1 - flattened * cell.flat);
    if (cell.kind == FilmCell::hypochromic) {
        p.from = dice.between(.35F, .50F);
        p.to = dice.between(.78F, .86F);
    } else if (cell.pallor >= .35F) { // a pale middle with a border of its own
        p.from = dice.between(.08F, .20F);
        p.to = dice.between(.62F, .76F);
    }
    p.domed = cell.kind == FilmCell::spherocyte;
    constexpr float heaped = .75F; // of a target's ring goes in the thick body
    if (cell.kind == FilmCell::target) addRing(dice, p);
    p.ring *= 1 - heaped * cell.thick;
    constexpr float tintSpread = .007F; // azure; more looks like polychromasia
    shape.tint = tintSpread * dice.normal();
}

/// Howell-Jolly bodies 0.5 to 1 um across, Heinz bodies 0.5 to 1 um in the dog, to 2 um in the cat
/// (Harvey, from memory).
void addBodies(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, bodies);
    const float dotAngle = dice.angle(), dotOut = dice.between(.25F, .62F) * cell.radius;
    const float dotRadius = dice.between(.27F, .46F);
    if (cell.has(lab::mark::howellJolly))
        shape.dots.add({dotOut * std::cos(dotAngle), dotOut * std::sin(dotAngle), dotRadius});
    const float nubAngle = dice.angle();
    const float nubRadius =
        cell.animal == body::Kind::cat ? dice.between(.45F, .80F) : dice.between(.36F, .50F);
    if (!cell.has(lab::mark::heinz)) return;
    // In the dog set in the edge; a cat's juts out, as nothing else about so pale a cell shows it.
    const float out =
        cell.animal == body::Kind::cat ? cell.radius + .25F * nubRadius : cell.radius * .99F;
    shape.nubs.add({out * std::cos(nubAngle), out * std::sin(nubAngle) * cell.squash, nubRadius});
}

/// One large hole, or some small ones.
void addHoles(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, holes);
    const int count = dice.whole(1, 4);
    for (int i = 0; i < count; ++i) {
        const float angle = dice.angle(), out = dice.between(0, .55F) * cell.radius;
        const float radius =
            (count == 1 ? dice.between(.25F, .48F) : dice.between(.11F, .27F)) * cell.radius;
        shape.holes.add({out * std::cos(angle), out * std::sin(angle) * cell.squash, radius});
    }
}

/// The younger the cell (the bluer), the larger and more open its nucleus.
void addNucleus(const Cell& cell, RedShape& shape) {
    Dice dice(cell.seed, nucleus);
    constexpr float young = .20F; // azure of the youngest that circulate
    const float youth = clamped(cell.blue / young), angle = dice.angle();
    const float out = dice.between(.18F, .32F) * cell.radius;
    RedNucleus& n = shape.nucleus;
    n.x = out * std::cos(angle);
    n.y = out * std::sin(angle);
    n.radius = cell.radius * clamped(blend(.40F, .50F, youth) + dice.between(-.025F, .025F));
    n.squash = dice.between(.93F, 1);
    n.age = clamped(1 - youth + dice.between(-.25F, .15F));
}

float reachOf(const RedShape& shape) {
    float most = 1;
    for (std::size_t i = 0; i < 4; ++i) most += std::hypot(shape.cosines[i], shape.sines[i]);
    most *= shape.radius * std::max(1.F, shape.squash);
    float points = 0;
    for (const Point& point : shape.points) points = std::max(points, point.height);
    float reach = most + points;
    for (const Knob& knob : shape.knobs)
        reach = std::max(reach, std::hypot(knob.toX, knob.toY) + knob.end);
    for (const Spot& nub : shape.nubs)
        reach = std::max(reach, std::hypot(nub.x, nub.y) + nub.radius);
    return reach + redHalo;
}

/// The outline's radius in a direction, of the radius: waves summed without an angle.
float waves(const RedShape& shape, float c, float s) {
    float sum = 1, cn = c, sn = s;
    for (std::size_t i = 0; i < 4; ++i) {
        const float next = cn * c - sn * s;
        sn = sn * c + cn * s;
        cn = next;
        sum += cn * shape.cosines[i] - sn * shape.sines[i];
    }
    return sum;
}

/// How high the outline stands between points, in a direction: rounded tips, hollow between.
float raised(const RedShape& shape, float x, float y) {
    float angle = std::atan2(y, x);
    if (angle < 0) angle += 2 * pi;
    const auto count = static_cast<float>(shape.points.count);
    const int guess = static_cast<int>((angle - shape.points[0].angle) / (2 * pi) * count + .5F);
    const float half = pi / count;
    float height = 0;
    for (int i = guess - 1; i <= guess + 1; ++i) {
        const int n = static_cast<int>(shape.points.count);
        const Point& point = shape.points[static_cast<std::size_t>((i + n) % n)];
        float off = std::fabs(angle - point.angle);
        off = std::min(off, 2 * pi - off);
        height = std::max(height, point.height * ridge(off, half));
    }
    return height;
}

float outsideOf(const Knob& knob, float x, float y) {
    const float dx = knob.toX - knob.fromX, dy = knob.toY - knob.fromY;
    const float along =
        clamped(((x - knob.fromX) * dx + (y - knob.fromY) * dy) / (dx * dx + dy * dy));
    const float offX = x - knob.fromX - along * dx, offY = y - knob.fromY - along * dy;
    return lengthOf(offX, offY) - blend(knob.neck, knob.end, along);
}

float outsideOf(const Cut& cut, float x, float y) {
    const float across = y * cut.x - x * cut.y;
    return x * cut.x + y * cut.y - cut.off - cut.bend * across * across;
}

float outsideOf(const Dent& dent, float x, float y) {
    if (dent.flat) return x * dent.x + y * dent.y - dent.reach;
    return dent.reach - lengthOf(x - dent.x, y - dent.y);
}

} // namespace

RedShape redShape(const Cell& cell) {
    RedShape shape;
    shape.radius = cell.radius;
    shape.squash = cell.squash;
    shape.grain = static_cast<std::uint32_t>(seedOf(cell.seed, 0, 0, texture));
    bendOutline(cell, shape);
    shapeForm(cell, shape);
    for (int i = 0; i < std::min(cell.dentCount, 5); ++i) shape.dents.add(cell.dents[i]);
    spread(cell, shape);
    addBodies(cell, shape);
    if (cell.has(lab::mark::water)) addHoles(cell, shape);
    if (cell.kind == FilmCell::nucleatedRed) addNucleus(cell, shape);
    shape.reach = reachOf(shape);
    return shape;
}

Seen seen(const RedShape& shape, float x, float y) {
    const float sy = y / shape.squash;
    const float q = lengthOf(x, sy) + 1e-6F;
    const float c = x / q, s = sy / q;
    float rim = shape.radius * waves(shape, c, s);
    // Corners are rounded by so much [um], chosen by eye.
    constexpr float atKnob = .6F, atCut = .2F, atBite = .16F, atRound = .6F, atFlat = .75F;
    const float steep = lengthOf(c, s / shape.squash);
    Seen place;
    place.out = q / rim;
    if (!shape.points.none() && q > .82F * rim) rim += raised(shape, c, s);
    place.outside = (q - rim) / steep;
    if (place.outside > -.45F * shape.radius) // deeper, knobs change nothing that shows
        for (const Knob& knob : shape.knobs)
            place.outside = roundedLeast(place.outside, outsideOf(knob, x, y), atKnob);
    for (const Cut& cut : shape.cuts)
        place.outside = roundedMost(place.outside, outsideOf(cut, x, y), atCut);
    for (const Spot& bite : shape.bites)
        place.outside = roundedMost(place.outside, -bite.outside(x, y), atBite);
    for (const Dent& dent : shape.dents)
        place.outside =
            roundedMost(place.outside, outsideOf(dent, x, y), dent.flat ? atFlat : atRound);
    return place;
}

} // namespace cistern::drawing::film
