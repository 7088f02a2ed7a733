#include "drawing/film/paint.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

/// A burst nucleus, smeared: a cloud with a denser heart, drawn out to one side in fibers, eaten
/// through by pale gaps. No edge, no cytoplasm. Amounts chosen by eye.
class Smudge {
public:
    Smudge(const Cell& cell, const Light& light)
        : texture_(static_cast<std::uint32_t>(seedOf(cell.seed, 0, 0, 0))),
          radius_(cell.radius),
          textured_(light.detail()),
          dark_(1 + .25F * cell.thick) {
        constexpr std::uint32_t stream = 1; // of a cell's chances
        Dice dice(cell.seed, stream);
        drawn_ = dice.between(.1F, .55F);
        squash_ = dice.between(.68F, .92F);
        basket_ = dice.share();
        heart_ = dice.between(.28F, .42F);
    }

    static constexpr float most = 1.7F; ///< fold of the radius

    /// The smear runs towards greater x; the cell's angle turns it.
    bool at(float x, float y, Dyes& dyes) const {
        const float u = x / radius_, v = y / (radius_ * squash_);
        const float along = ramp(0, 1.2F, u) * drawn_; // how far this place is drawn out
        const float off = std::sqrt(u * u * (1 - .75F * along) + v * v * (1 + .8F * along));
        const float torn = .12F + 1.3F * along;
        if (off - .5F * (.75F + torn) >= 1) return false; // whatever the noise says
        // Bent out of shape by slow noise; towards the smear's end it frays into strands.
        const float bendX = x + 3.2F * (noise(.24F * x, .24F * y, texture_) - .5F);
        const float bendY = y + 3.2F * (noise(.24F * x + 9, .24F * y, texture_ + 1) - .5F);
        const float ragged = layered(.26F * bendX, .26F * bendY, texture_ + 2, 3) - .5F;
        const float strand = noise(.16F * bendX, .75F * bendY, texture_ + 3) - .5F;
        const float depth = off + .75F * ragged + torn * strand;
        const float end = ramp(most, most - .3F, std::sqrt(u * u + v * v)); // of what is looked at
        const float cloud = ramp(1, .55F + .1F * basket_, depth) * end;
        if (cloud <= 0) return false;
        const float heart = ramp(.8F, .1F, depth);
        const float laid = blend(.5F, pattern(bendX, bendY), textured_);
        const float amount = cloud * dark_ * (.13F + heart_ * heart + .27F * laid);
        dyes.chromatin = amount * .84F;
        dyes.protein = cloud * (.09F + .07F * laid);
        dyes.azurophil = .10F * amount;
        return true;
    }

private:
    /// Swollen strands, in a basket cell a net of them with pale gaps; 0..1.
    float pattern(float x, float y) const {
        const float swollen = layered(.34F * x, .62F * y, texture_ + 4, 2);
        const float broad = folded(noise(.42F * x, .5F * y, texture_ + 6));
        const float cross = folded(noise(.8F * x + 3, .9F * y, texture_ + 7));
        const float streaks = ramp(.25F, .75F, swollen);
        const float net = ramp(.25F, .95F, .6F * broad + .4F * cross);
        return blend(streaks, net, .2F + .7F * basket_);
    }

    std::uint32_t texture_;
    float radius_, textured_, dark_;
    float drawn_ = 0, squash_ = 1, basket_ = 0, heart_ = .3F;
};

} // namespace

void paintSmudge(const Cell& cell, const Light& light, Density& to) {
    const Smudge smudge(cell, light);
    deposit(to, light, cell.x, cell.y, cell.z, cell.angle, Smudge::most * cell.radius,
            [&](float x, float y, Dyes& dyes) { return smudge.at(x, y, dyes); });
}

} // namespace cistern::drawing::film
