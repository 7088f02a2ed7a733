#include "drawing/film/ribbon.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

std::vector<Bead> ribbon(Dice& dice, const Ribbon& form) {
    std::vector<Bead> spine;
    float x = 0, y = 0, heading = dice.angle();
    const auto steps = static_cast<float>(form.beads - 1);
    for (int i = 0; i < form.beads; ++i) {
        spine.push_back({x, y, form.half * (1 + form.uneven * dice.between(-1, 1))});
        const bool back = form.twice && 2 * i > form.beads;
        heading += (back ? -1.F : 1.F) * form.span / steps * dice.between(.85F, 1.15F);
        x += form.radius * form.span / steps * std::cos(heading);
        y += form.radius * form.span / steps * std::sin(heading);
    }
    return spine;
}

void center(std::vector<Bead>& spine, float x, float y) {
    float sumX = 0, sumY = 0, sum = 0;
    for (const Bead& bead : spine) {
        sumX += bead.x * bead.half;
        sumY += bead.y * bead.half;
        sum += bead.half;
    }
    for (Bead& bead : spine) {
        bead.x += x - sumX / sum;
        bead.y += y - sumY / sum;
    }
}

float reachOf(const std::vector<Bead>& spine) {
    float most = 0;
    for (const Bead& bead : spine) most = std::max(most, std::hypot(bead.x, bead.y) + bead.half);
    return most;
}

void fit(std::vector<Bead>& spine, float within) {
    const float share = within / reachOf(spine);
    if (share >= 1) return;
    for (Bead& bead : spine) bead = {bead.x * share, bead.y * share, bead.half * share};
}

void constrict(std::vector<Bead>& spine, Dice& dice) {
    const float neck = dice.between(.34F, .49F); // of the widest: between the rules of 1/3 and 1/2
    const float along = dice.between(.36F, .64F), length = dice.between(.22F, .34F);
    float widest = 0;
    for (const Bead& bead : spine) widest = std::max(widest, bead.half);
    const auto last = static_cast<float>(spine.size() - 1);
    const float at = std::round(along * last);
    for (std::size_t i = 0; i < spine.size(); ++i) {
        const float off = std::fabs(static_cast<float>(i) - at) / last;
        spine[i].half = blend(neck * widest, spine[i].half, ramp(0, length, off));
    }
}

} // namespace cistern::drawing::film
