#include "desk/rain.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

namespace {

constexpr double running = 90;  // [px/s] down a wall
constexpr double gravity = 900; // [px/s2]
constexpr double usual = 3.2;   // [px] radius of a drop of the usual size, in a trough 200 high
constexpr double usualTrough = 200;

double runs(const drawing::Pore& pore) {
    return std::hypot(pore.fall.x - pore.mouth.x, pore.fall.y - pore.mouth.y) / running;
}

} // namespace

Point Rain::where(const Fallen& one, const Dripping& from) {
    const drawing::VesselPlaces& at = from.places;
    if (one.spout) {
        const double far = std::max(at.splash.y - at.mouth.y, 1.);
        const double whole = std::sqrt(2 * far / gravity), t = one.age;
        return {at.mouth.x + (at.splash.x - at.mouth.x) * std::min(t / whole, 1.),
                at.mouth.y + gravity * t * t / 2};
    }
    const drawing::Pore& pore = at.pores[one.pore % at.pores.size()];
    const double wall = runs(pore);
    if (one.age < wall) {
        const double share = one.age / wall;
        return {pore.mouth.x + share * (pore.fall.x - pore.mouth.x),
                pore.mouth.y + share * (pore.fall.y - pore.mouth.y)};
    }
    const double t = one.age - wall;
    return {pore.fall.x, pore.fall.y + gravity * t * t / 2};
}

bool Rain::gone(const Fallen& one, const Dripping& from) {
    if (!one.spout && from.places.pores.empty()) return true;
    const double y = where(one, from).y;
    return y > (one.spout ? from.places.splash.y : from.places.water.y);
}

void Rain::pass(const std::vector<Dripping>& dripping, double seconds, bool flood) {
    std::erase_if(sources_, [&](const auto& source) {
        return std::none_of(dripping.begin(), dripping.end(),
                            [&](const Dripping& one) { return one.id == source.first; });
    });
    for (const Dripping& from : dripping) {
        Source& source = sources_[from.id];
        for (Fallen& one : source.drops) one.age += seconds;
        std::erase_if(source.drops, [&](const Fallen& one) { return gone(one, from); });
        const auto leave = [&](double& due, double rate, bool spout) {
            due += rate * seconds;
            for (; due >= 1; due -= 1) {
                if (source.drops.size() >= most || (!spout && from.places.pores.empty())) continue;
                Fallen one;
                one.spout = spout;
                one.age = chance_.uniform() * seconds; // not all at the turn of a frame
                one.size = .75 + .5 * chance_.uniform();
                if (!spout)
                    one.pore = static_cast<std::size_t>(
                        chance_.uniform() * static_cast<double>(from.places.pores.size()));
                source.drops.push_back(one);
            }
        };
        if (flood) source.due += static_cast<double>(most);
        leave(source.due, from.falling, false);
        leave(source.leaving, from.leaving, true);
    }
}

std::vector<Rain::Falling> Rain::drops(const std::vector<Dripping>& dripping) const {
    std::vector<Falling> out;
    for (const Dripping& from : dripping) {
        const auto source = sources_.find(from.id);
        if (source == sources_.end()) continue;
        const double size =
            usual * std::sqrt(std::max(from.places.trough.height, 40.) / usualTrough);
        for (const Fallen& one : source->second.drops) {
            if (gone(one, from)) continue;
            const Point at = where(one, from);
            out.push_back({{at.x, at.y, size * one.size}, from.seen});
        }
    }
    return out;
}

} // namespace cistern::desk
