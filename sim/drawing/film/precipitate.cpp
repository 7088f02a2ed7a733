#include "drawing/film/paint.h"
#include "drawing/film/red_shape.h"

namespace cistern::drawing::film {

namespace {

/// Streams of chance.
enum Part : std::uint32_t { shards = 48 };

/// One hard grain of dried stain: four-sided, uneven, with corners.
struct Shard {
    float x = 0, y = 0;
    float c = 1, s = 0;              ///< turned
    float length = .2F, width = .2F; ///< half of each [um]
    float skew = 0;                  ///< leans its sides
    float depth = 1;
};

constexpr std::size_t most = 140; // shards in a cluster
using Cluster = Few<Shard, most>;

/// Grains 0.2 to 1 um across (facts), in a loose cluster; some in strings, as a drying edge
/// leaves them.
Cluster clusterOf(const Cell& cell) {
    Dice dice(cell.seed, shards);
    Cluster cluster;
    const int count = 6 + static_cast<int>(1.5F * cell.radius * cell.radius);
    float x = 0, y = 0;
    for (int i = 0; i < count; ++i) {
        if (i == 0 || !dice.happens(.45)) { // a new place, denser in the middle
            const float angle = dice.angle(), far = dice.share();
            const float out = cell.radius * far * std::sqrt(dice.share());
            x = out * std::cos(angle);
            y = out * std::sin(angle);
        } else { // beside the last
            x += dice.between(-.75F, .75F);
            y += dice.between(-.75F, .75F);
        }
        if (std::hypot(x, y) > cell.radius - .5F) continue;
        const float turn = dice.angle();
        const float length =
            dice.happens(.14) ? dice.between(.30F, .50F) : dice.between(.10F, .26F);
        cluster.add({x, y, std::cos(turn), std::sin(turn), length, length * dice.between(.45F, 1),
                     dice.between(-.5F, .5F), dice.between(.8F, 1.25F)});
    }
    return cluster;
}

float outsideOf(const Shard& shard, float x, float y) {
    const float along = x * shard.c + y * shard.s, across = y * shard.c - x * shard.s;
    return std::max(std::fabs(along + shard.skew * across) - shard.length,
                    std::fabs(across) -
                        shard.width * (1 - .5F * shard.skew * along / shard.length));
}

} // namespace

void paintPrecipitate(const Cell& cell, const Light& light, Density& to) {
    const Cluster cluster = clusterOf(cell);
    constexpr float sharp = .06F; // [um] half-width of an edge
    const float edge = std::max(.5F / light.optics.scale, sharp);
    deposit(to, light, cell.x, cell.y, cell.z, cell.angle, cell.radius + .5F + edge,
            [&](float x, float y, Dyes& dyes) {
                float dense = 0;
                for (const Shard& shard : cluster) {
                    const float dx = x - shard.x, dy = y - shard.y,
                                near = 1.3F * shard.length + edge;
                    if (std::fabs(dx) > near || std::fabs(dy) > near) continue;
                    const float cover = ramp(edge, -edge, outsideOf(shard, dx, dy));
                    // Of shards smaller than a pixel less is seen than its soft edge says.
                    const float area = shard.length * shard.width;
                    dense += shard.depth * cover * area / (area + .15F * edge * edge);
                }
                if (dense <= 0) return false;
                dense = std::min(dense, 1.6F);
                dyes.chromatin = 1.05F * dense;
                dyes.gray = .45F * dense; // nearly black
                return true;
            });
}

} // namespace cistern::drawing::film
