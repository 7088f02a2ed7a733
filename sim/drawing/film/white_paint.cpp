#include "drawing/film/white_shape.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

constexpr float haloReach = 1.3F; // [um] beyond the edge, of the bright line round a cell
constexpr float grainSoft = .35F; // [um] beyond a grain's edge, of its ring

/// Seeds of mottles lie apart by these.
enum Mottle : std::uint32_t {
    edgeBroad = 11,
    edgeFine = 12,
    nucleusBroad = 21,
    nucleusFine = 22,
    plasmBroad = 31,
    plasmFine = 32,
    bodyEdge = 41,
    within = 60
};

/// How far outside an oval a place lies, near its edge [um].
float ovalDistance(const Grain& grain, float x, float y) {
    const float px = x - grain.x, py = y - grain.y;
    const float a = (px * grain.c + py * grain.s) / grain.along;
    const float b = (-px * grain.s + py * grain.c) / grain.across;
    return (std::sqrt(a * a + b * b) - 1) * std::min(grain.along, grain.across);
}
float rodDistance(const Grain& grain, float x, float y) {
    const float px = x - grain.x, py = y - grain.y;
    const float a = std::fabs(px * grain.c + py * grain.s) - (grain.along - grain.across);
    const float b = -px * grain.s + py * grain.c;
    const float beyond = std::max(0.F, a);
    return std::sqrt(beyond * beyond + b * b) - grain.across;
}

/// What a place has of grains.
struct Grained {
    float dye = 0;   ///< of the strongest
    float cover = 0; ///< 0..1
    float ring = 0;  ///< along an edge
    float dark = 0;  ///< cover of the few that took far more than the rest
};

/// Share of a cell that grains cover, and their mean dye: what is left of them from afar.
Grained meanOf(const WhiteShape& shape, float radius) {
    float area = 0, dyed = 0;
    for (const Grain& grain : shape.grains) {
        const float own = pi * grain.along * grain.across;
        area += own;
        dyed += own * grain.dye;
    }
    Grained mean;
    if (area <= 0) return mean;
    mean.cover = 1 - std::exp(-area / (.75F * pi * radius * radius)); // some lie on others
    mean.dye = mean.cover * dyed / area;
    return mean;
}

class WhitePainter {
public:
    WhitePainter(const Cell& cell, const WhiteShape& shape, const Light& light)
        : shape_(shape),
          edge_(shape.nucleus),
          grains_(shape.grains, grainSoft),
          holes_(shape.holes, grainSoft),
          mean_(meanOf(shape, cell.radius)),
          detail_(light.detail()),
          textured_(light.detail() * (1 - .55F * cell.thick)),
          soft_(std::max(.55F / light.optics.scale, .12F)),
          grainEdge_(std::max(.45F / light.optics.scale, .10F)),
          radius_(cell.radius),
          spread_(1 - .12F * cell.flat) {}

    bool at(float x, float y, Dyes& dyes) const {
        const float off = std::sqrt(x * x + y * y) + 1e-6F;
        const float d = off - shape_.outline.at(x / off, y / off);
        if (d > haloReach) return false;
        const float edge = d + raggedness(x, y, d);
        const float cover = ramp(soft_, -soft_, edge);
        dyes.gray += detail_ * (.040F * ridge(edge + .08F, .25F) - .022F * ridge(edge - .4F, .4F));
        if (cover <= 0) return true;
        const NucleusEdge::Near near = edge_.at(x, y);
        const float inner = near.distance + strayed(x, y, near.distance);
        const float nuclear = ramp(soft_, -soft_, inner) * cover;
        const float hole = holed(x, y, nuclear, dyes);
        plasm(x, y, edge, inner, cover, nuclear, hole, dyes);
        if (nuclear > 0) nucleus(x, y, inner, near.half, nuclear, hole, dyes);
        dyes.gray -= detail_ * .012F * ridge(inner - .28F, .35F) * cover; // pale line around it
        bodies(x, y, cover - nuclear, dyes);
        if (!grains_.empty()) grains(x, y, cover, nuclear, dyes);
        return true;
    }

private:
    float raggedness(float x, float y, float d) const {
        if (textured_ <= 0 || d < -1.2F) return 0;
        const float broad = noise(x, y, shape_.texture + edgeBroad) - .5F;
        const float fine = noise(3 * x, 3 * y, shape_.texture + edgeFine) - .5F;
        return textured_ * (shape_.raggedEdge * broad + .12F * fine);
    }
    /// The same for the nucleus: only near its edge does it matter.
    float strayed(float x, float y, float d) const {
        if (textured_ <= 0 || std::fabs(d) > 1.4F * shape_.raggedNucleus + soft_) return 0;
        const float broad = noise(.95F * x, .95F * y, shape_.texture + nucleusBroad) - .5F;
        const float fine = noise(2.4F * x, 2.4F * y, shape_.texture + nucleusFine) - .5F;
        return textured_ * shape_.raggedNucleus * (1.7F * broad + .9F * fine);
    }

    float holed(float x, float y, float nuclear, Dyes& dyes) const {
        float clear = 0;
        for (const Grain& hole : holes_.at(x, y)) {
            const float px = x - hole.x, py = y - hole.y;
            const float d = std::sqrt(px * px + py * py) - hole.along;
            clear = std::max(clear, hole.dye * ramp(grainEdge_, -grainEdge_, d));
            // Large ones bend light: a thin dark rim.
            const float rim = .05F * ramp(.2F, .4F, hole.along) * hole.dye;
            dyes.gray += detail_ * rim * ridge(d - .08F, .2F) * (1 - nuclear);
        }
        return clear * (1 - .75F * nuclear);
    }

    void plasm(float x, float y, float edge, float away, float cover, float nuclear, float hole,
               Dyes& dyes) const {
        const Cytoplasm& of = shape_.cytoplasm;
        float mottle = 1;
        if (textured_ > 0) {
            const float fine = of.perUm * 1.6F, broad = of.perUm * .45F;
            const float a = noise(x * fine, y * fine, shape_.texture + plasmFine) - .5F;
            const float b = layered(x * broad, y * broad, shape_.texture + plasmBroad, 2) - .5F;
            mottle += textured_ * of.uneven * (.55F * a + .9F * b);
        }
        const float inside = 1 + (edge + .4F * radius_) / radius_ - .4F; // 1 at the edge, .6 within
        float azure = of.azure * mottle * (1 + of.deeper * 1.3F * (inside - .6F));
        if (shape_.halo.dye > 0) {
            const float d = std::hypot(x - shape_.halo.x, y - shape_.halo.y) / shape_.halo.along;
            azure *= 1 - shape_.halo.dye * ramp(1.6F, .3F, d) * ramp(2.2F, .4F, away);
        }
        const float rim = .84F + .16F * ramp(0, 1.6F, -edge);
        const float dye = cover * rim * spread_ * (1 - .82F * hole);
        dyes.azure += azure * dye * (1 - .6F * nuclear);
        dyes.protein += of.protein * (2 - mottle) * dye * (1 - .5F * nuclear);
        dyes.chromatin += of.chromatin * mottle * dye * (1 - nuclear);
        dyes.gray += of.gray * mottle * dye * (1 - nuclear);
    }

    void nucleus(float x, float y, float inner, float half, float nuclear, float hole,
                 Dyes& dyes) const {
        const float dome = clamped(-inner / (.75F * half));
        const float body = .80F + .26F * std::sqrt(dome);
        const float rim = .14F * ridge(inner + .2F, .36F) * detail_;
        const float laid = chromatin(shape_.chromatin, x, y, shape_.texture + within, textured_);
        dyes.chromatin +=
            nuclear * shape_.nuclear * spread_ * (laid * body + rim) * (1 - .18F * hole);
    }

    void bodies(float x, float y, float beside, Dyes& dyes) const {
        for (const Grain& body : shape_.bodies) {
            const float px = x - body.x, py = y - body.y;
            constexpr float far = 2; // [um]
            if (px * px + py * py > far * far) continue;
            const float a = (px * body.c + py * body.s) / body.along;
            const float b = (-px * body.s + py * body.c) / body.across;
            const float angular =
                detail_ > 0 ? 1.1F * (noise(1.6F * x, 1.6F * y, shape_.texture + bodyEdge) - .5F)
                            : 0;
            const float m = ramp(1.4F, .6F, std::sqrt(a * a + b * b) + angular) * beside;
            dyes.azure += body.dye * m;
            dyes.gray += .10F * m;
        }
    }

    Grained grained(float x, float y) const {
        Grained found;
        const bool rods = shape_.kind == Granules::rods, round = shape_.kind == Granules::round;
        for (const Grain& grain : grains_.at(x, y)) {
            const float d = rods ? rodDistance(grain, x, y) : ovalDistance(grain, x, y);
            const float cover = ramp(grainEdge_, -grainEdge_, d);
            found.ring = std::max(found.ring, ridge(d, .22F));
            if (cover <= 0) continue;
            const float dome = round ? .72F + .34F * clamped(1 + d / (.9F * grain.along)) : 1;
            found.dye = std::max(found.dye, cover * grain.dye * dome);
            found.cover = std::max(found.cover, cover);
            if (grain.dye > 1.2F) found.dark = std::max(found.dark, cover);
        }
        found.dye = blend(mean_.dye, found.dye, detail_);
        found.cover = blend(mean_.cover, found.cover, detail_);
        found.ring *= detail_;
        found.dark *= detail_;
        return found;
    }

    void grains(float x, float y, float cover, float nuclear, Dyes& dyes) const {
        const Grained g = grained(x, y);
        const float beside = cover * (1 - nuclear), blue = shape_.cytoplasm.azure * cover;
        switch (shape_.kind) {
        case Granules::none:
            return;
        case Granules::round:
            dyes.acidophil += g.dye * (1.25F * beside + .25F * nuclear);
            dyes.azure -= .7F * blue * g.cover * (1 - nuclear);
            dyes.gray += .06F * g.ring * beside * (1 - .4F * g.cover);
            return;
        case Granules::empty: // the ground's blue and pink are gone there
            dyes.azure -= .78F * blue * g.cover * (1 - nuclear);
            dyes.protein -= .6F * shape_.cytoplasm.protein * g.cover * beside;
            dyes.gray += .06F * g.ring * beside;
            return;
        case Granules::rods:
            dyes.acidophil += .95F * g.dye * (cover - .62F * nuclear);
            dyes.protein += .24F * g.dye * beside;
            dyes.azure += (.05F * g.dye - .5F * blue * g.cover) * (1 - nuclear);
            return;
        case Granules::dark:
            dyes.chromatin += g.dye * (.9F * beside + .3F * nuclear);
            return;
        case Granules::lavender: {
            const float on = cover - .72F * nuclear;
            dyes.azure += .42F * g.dye * on;
            dyes.chromatin += .30F * g.dye * on + .35F * g.dark * cover;
            dyes.chromatin -= .30F * g.cover * nuclear * (1 - g.dark); // moth-eaten nucleus
            dyes.gray += .05F * g.ring * on * (1 - g.cover);
            return;
        }
        case Granules::fine:
            dyes.azurophil += .8F * g.dye * beside;
        }
    }

    const WhiteShape& shape_;
    NucleusEdge edge_;
    NearGrains grains_, holes_;
    Grained mean_;
    float detail_, textured_; ///< of lines and grains; of mottles, which the thick body blurs
    float soft_, grainEdge_;  ///< half the width of an edge [um]
    float radius_, spread_;
};

} // namespace

void paintWhite(const Cell& cell, const Light& light, Density& to) {
    const WhiteShape shape = whiteShape(cell);
    const WhitePainter painter(cell, shape, light);
    deposit(to, light, cell.x, cell.y, cell.z, cell.angle, shape.outline.most() + haloReach,
            [&](float x, float y, Dyes& dyes) { return painter.at(x, y, dyes); });
}

} // namespace cistern::drawing::film
