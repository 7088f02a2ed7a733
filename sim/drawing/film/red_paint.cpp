#include "drawing/film/paint.h"
#include "drawing/film/red_shape.h"

namespace cistern::drawing::film {

namespace {

/// Shades one red cell, place by place. All strengths are dye in its units, chosen by eye.
class Shading {
public:
    Shading(const Cell& cell, const RedShape& shape, const Light& light);
    bool at(float x, float y, Dyes& dyes) const;

private:
    /// Unevenness of a place, fold.
    struct Grain {
        float even = 1;   ///< of hemoglobin
        float mottle = 1; ///< of a young cell's RNA
    };
    float thickness(const Seen& place, float x, float y) const;
    float coin(float y) const;
    void addBody(const Seen& place, float x, float y, float cover, Dyes& dyes) const;
    Grain grain(float x, float y) const;
    void addEdge(float outside, Dyes& dyes) const;
    void addBumps(float x, float y, float cover, Dyes& dyes) const;
    void addNub(float away, Dyes& dyes) const;
    void addDots(float x, float y, Dyes& dyes) const;
    float checkered(float x, float y) const;
    void addNucleus(float x, float y, Dyes& dyes) const;
    void addHoles(float x, float y, float cover, Dyes& dyes) const;

    const Cell& cell_;
    const RedShape& shape_;
    float detail_;
    float edge_;          ///< half the width of a sharp border [um]
    float rim_;           ///< likewise of the cell's own
    float above_;         ///< how far the plane in focus lies above the cell, -1..1
    float relief_;        ///< strength of the shading of its slopes
    float litX_, litY_;   ///< where that light comes from, in the cell's frame
    float turnX_, turnY_; ///< the film's x, in the cell's frame
};

constexpr float sharp = .13F;    // [um] half-width of an edge
constexpr float grainless = .5F; // mean of a noise, where none is worth its time

Shading::Shading(const Cell& cell, const RedShape& shape, const Light& light)
    : cell_(cell), shape_(shape), detail_(light.detail()) {
    constexpr float lightFrom = -2.2F; // [rad] on the film
    constexpr float soft = .85F;       // [um] wider, of rims in the thick body
    constexpr float depth = .45F;      // [um] within which an edge turns from dark to bright
    edge_ = std::max(.55F / light.optics.scale, sharp);
    rim_ = edge_ + soft * cell.thick;
    above_ = std::clamp((light.optics.focus - cell.z) / depth, -1.F, 1.F);
    const float hollow = shape.profile.pallor > .05F ? shape.profile.pallor : .25F;
    relief_ = .055F * detail_ * hollow * (1 - cell.thick) * (1 - cell.flat);
    litX_ = std::cos(lightFrom - cell.angle) / shape.radius;
    litY_ = std::sin(lightFrom - cell.angle) / shape.radius;
    turnX_ = std::cos(cell.angle);
    turnY_ = std::sin(cell.angle);
}

/// Hemoglobin's way through the cell, fold of its mean rim.
float Shading::thickness(const Seen& place, float x, float y) const {
    const Profile& p = shape_.profile;
    const float inward = -place.outside / (.38F * shape_.radius);
    const float rolled = .80F + .20F * ramp(0, .55F, inward);
    const float mx = (x - p.middleX) / shape_.radius,
                my = (y / shape_.squash - p.middleY) / shape_.radius;
    const float out = std::min(lengthOf(mx, my), 1.F);
    float thick = rolled;
    if (p.domed)
        thick = .86F + .24F * std::sqrt(std::max(0.F, 1 - place.out * place.out));
    else if (p.ring > 0) {
        const float wavered =
            out +
            .10F * ((detail_ > 0 ? noise(x * .9F, y * .9F, shape_.grain + 15) : grainless) - .5F);
        thick *= 1 - p.ring * ramp(p.ringAt[0], p.ringAt[1], wavered) *
                         (1 - ramp(p.ringAt[2], p.ringAt[3], wavered));
    } else
        thick *= 1 - p.pallor * (1 - ramp(p.from, p.to, out));
    // In the thick body cells lie over one another: their rims thin out into the neighbors'.
    // So they do, less, where they hang in clusters.
    constexpr float clustered = .4F;
    const float shared =
        std::max(cell_.thick, cell_.has(lab::mark::agglutinated) ? clustered : 0.F);
    if (shared > 0) thick *= blend(1, .60F + .84F * ramp(0, 1, inward * .5F), shared);
    return thick;
}

/// A coin of a row leans over the one before: the side that lies beneath is thinner, so that
/// overlaps are less dense and each coin shows its upper edge.
float Shading::coin(float y) const {
    constexpr float beneath = .60F; // dye of the lower side
    const float half = shape_.radius * shape_.squash;
    return blend(1.04F, beneath, ramp(-.25F * half, .80F * half, y));
}

Shading::Grain Shading::grain(float x, float y) const {
    if (detail_ <= 0) return {};
    const float coarse = noise(x * 1.1F, y * 1.1F, shape_.grain) - .5F,
                fine = noise(x * 4, y * 4, shape_.grain + 9) - .5F;
    Grain grain;
    grain.even = 1 + detail_ * (.07F * coarse + .05F * fine);
    grain.mottle = 1 + detail_ * (.34F * coarse + .16F * fine);
    if (cell_.thick > 0) { // clouds that lie over all cells alike
        constexpr std::uint32_t clouds = 4711;
        const float wx = cell_.x + x * turnX_ - y * turnY_, wy = cell_.y + x * turnY_ + y * turnX_;
        grain.even += cell_.thick * .34F * (noise(wx * .23F, wy * .23F, clouds) - .5F);
    }
    return grain;
}

/// Light bends at the rim: a dark line within and a bright one without, the other way round when
/// the lens is raised. Both hold as much, so that focus changes no sum.
void Shading::addEdge(float outside, Dyes& dyes) const {
    const float sign = (1 - 1.4F * std::max(0.F, above_)) * detail_ * (1 - .85F * cell_.thick);
    if (sign == 0) return;
    constexpr float within = .042F, without = .026F;
    dyes.gray +=
        sign * (within * ridge(outside + .10F, .24F) - without * ridge(outside - .36F, .36F));
}

void Shading::addBumps(float x, float y, float cover, Dyes& dyes) const {
    if (detail_ <= 0) return;
    for (const Spot& bump : shape_.bumps) {
        const float dx = x - bump.x, dy = y - bump.y, d = dx * dx + dy * dy;
        const float wide = 2.6F * bump.radius; // with its bright ring
        if (d > wide * wide) continue;
        const float off = std::sqrt(d) / bump.radius;
        dyes.hemoglobin += detail_ * bump.depth * 1.6F * ridge(off, 1.8F) * cover;
        dyes.gray -= detail_ * .05F * ridge(off - 1.7F, .9F) * cover;
    }
}

/// A Heinz body: a pale nub with a fine dark outline, half out of the cell.
void Shading::addNub(float away, Dyes& dyes) const {
    if (away > .6F) return;
    const float cover = ramp(edge_, -edge_, away);
    const float pale = std::max(dyes.hemoglobin * .60F, cell_.dye * .80F);
    dyes.hemoglobin = blend(dyes.hemoglobin, pale, cover);
    dyes.gray += detail_ * (.10F * ridge(away, .24F) - .03F * ridge(away - .35F, .3F));
}

/// Share of a pixel that a small round thing covers: less than its soft edge says where that is
/// wider than the thing itself. A smooth edge of half-width e adds 0.1 to 0.2 e2 to radius squared.
float covered(float away, float radius, float edge) {
    const float area = radius * radius;
    return ramp(edge, -edge, away) * area / (area + .15F * edge * edge);
}

void Shading::addDots(float x, float y, Dyes& dyes) const {
    constexpr float dense = 1.2F; // chromatin
    for (const Spot& dot : shape_.dots) {
        const float away = dot.outside(x, y);
        if (away > edge_) continue;
        dyes.chromatin += dense * covered(away, dot.radius, edge_ * .8F);
    }
}

/// Chromatin of a nucleated red cell: dark clumps parted by pale lanes that come and go; the older,
/// the less is pale.
float Shading::checkered(float x, float y) const {
    const std::uint32_t s = shape_.grain;
    const float age = shape_.nucleus.age;
    const float wx = x + .6F * (noise(x * 1.1F, y * 1.1F, s + 7) - .5F),
                wy = y + .6F * (noise(x * 1.1F + 5, y * 1.1F, s + 8) - .5F);
    const Strewn block = strewn(wx * .98F + 3, wy * .98F, s);
    const float lane = 1 - ramp(0, .50F, block.second - block.nearest);
    const float clump = ramp(.32F, .64F, layered(x * 1.35F, y * 1.35F, s + 9, 2));
    const float pale =
        blend(1.05F, .50F, age) * clamped(lane * (.95F - .55F * clump) + .50F * (1 - clump) - .08F);
    const float own = .36F * (shareOf(block.which) - .5F);
    return 1.48F + .10F * age + own - pale;
}

/// A small, sharply round nucleus.
void Shading::addNucleus(float x, float y, Dyes& dyes) const {
    const RedNucleus& n = shape_.nucleus;
    const float dx = x - n.x, dy = (y - n.y) / n.squash;
    const float away = lengthOf(dx, dy) - n.radius;
    if (away > .7F) return;
    const float cover = ramp(edge_ * .8F, -edge_ * .8F, away);
    dyes.gray -= detail_ * .02F * ridge(away - .3F, .25F);
    if (cover <= 0) return;
    constexpr float mean = 1.22F; // chromatin; a lymphocyte has about 1.0
    float dense = mean;
    if (detail_ > 0) {
        dense = blend(mean, checkered(x, y) + .22F * ridge(away + .2F, .35F), detail_);
    }
    dyes.chromatin += dense * cover;
    dyes.hemoglobin *= 1 - .5F * cover;
}

/// Holes of slow drying shine: bright with a dark border in focus, the other way round below.
void Shading::addHoles(float x, float y, float cover, Dyes& dyes) const {
    constexpr float turns = -.75F, quickly = 2.5F; // where between below and above, and how soon
    if (shape_.holes.none()) return;
    const float shine = std::clamp(quickly * (above_ - turns), -.8F, 1.F);
    float away = 9, bare = 9; // from the nearest, moth-eaten or not
    for (const Spot& hole : shape_.holes) bare = std::min(bare, hole.outside(x, y));
    if (bare > 1.2F) return;
    const float eaten =
        detail_ > 0 ? detail_ * (grainless - noise(x * 1.3F, y * 1.3F, shape_.grain + 31)) : 0;
    for (const Spot& hole : shape_.holes) {
        const float most = std::min(.9F, 1.3F * hole.radius); // a small one shall be left
        away = roundedLeast(away, hole.outside(x, y) + most * eaten, .25F);
    }
    const float shown = cover * (1 - .6F * cell_.thick); // less among other cells
    const float within = ramp(edge_, -edge_, away) * shown;
    const float border = ridge(away - .03F, .30F) * shown;
    dyes.hemoglobin *= 1 - .9F * within * std::max(0.F, shine);
    dyes.gray += -.09F * within * shine + .42F * border * shine;
    if (shine < 0) dyes.gray += .34F * within * -shine;
}

void Shading::addBody(const Seen& place, float x, float y, float cover, Dyes& dyes) const {
    const Grain uneven = grain(x, y);
    const float thick = thickness(place, x, y);
    float dye = cell_.dye * thick * uneven.even;
    if (cell_.has(lab::mark::inRouleau)) dye *= coin(y);
    const float slope = ramp(.2F, .6F, place.out) - 1.2F * ramp(.6F, .95F, place.out);
    dye += relief_ * (x * litX_ + y * litY_) * slope;
    dyes.hemoglobin = dye * cover;
    const float youth = cell_.blue * uneven.mottle * blend(1, thick, cell_.thick);
    dyes.azure = (std::max(0.F, shape_.tint) + youth) * cover;
    dyes.protein = (std::max(0.F, -shape_.tint) + .16F * youth) * cover;
    if (place.out < 1) addBumps(x, y, cover, dyes);
}

bool Shading::at(float x, float y, Dyes& dyes) const {
    const Seen place = seen(shape_, x, y);
    float nubAway = redHalo + 1;
    for (const Spot& nub : shape_.nubs) nubAway = nub.outside(x, y);
    if (std::min(place.outside, nubAway) > redHalo) return false;
    const float cover = ramp(rim_, -rim_, place.outside);
    if (cover > 0) addBody(place, x, y, cover, dyes);
    addEdge(place.outside, dyes);
    if (!shape_.nubs.none()) addNub(nubAway, dyes);
    addDots(x, y, dyes);
    if (shape_.nucleus.radius > 0) addNucleus(x, y, dyes);
    if (cover > 0) addHoles(x, y, cover, dyes);
    return true;
}

} // namespace

void paintRed(const Cell& cell, const Light& light, Density& to) {
    const RedShape shape = redShape(cell);
    const Shading shading(cell, shape, light);
    deposit(to, light, cell.x, cell.y, cell.z, cell.angle, shape.reach,
            [&](float x, float y, Dyes& dyes) { return shading.at(x, y, dyes); });
}

} // namespace cistern::drawing::film
