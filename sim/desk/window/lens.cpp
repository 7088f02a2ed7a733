#include "desk/window/lens.h"

#include "base/parallel.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

namespace {

constexpr std::size_t tilesHeld = 400, tilesAFrame = 3;

sf::Color shade(const drawing::Color& color) {
    return {color.red, color.green, color.blue};
}

std::array<int, 5> placeKey(const TileName& name) {
    return {static_cast<int>(name.slide), name.power, name.scale, name.x, name.y};
}

/// Only what lies inside the box is drawn from here on.
void cut(sf::RenderTarget& target, const Box& box) {
    const auto size = target.getSize();
    const auto width = static_cast<float>(size.x), height = static_cast<float>(size.y);
    const sf::FloatRect seen(static_cast<float>(box.x), static_cast<float>(box.y),
                             static_cast<float>(box.width), static_cast<float>(box.height));
    sf::View view(seen);
    view.setViewport(
        {seen.left / width, seen.top / height, seen.width / width, seen.height / height});
    target.setView(view);
}

Box common(const Box& a, const Box& b) {
    const double x = std::max(a.x, b.x), y = std::max(a.y, b.y);
    return {x, y, std::min(a.right(), b.right()) - x, std::min(a.bottom(), b.bottom()) - y};
}

void drawRing(sf::RenderTarget& target, const Microscope& microscope, const Ring& ring) {
    constexpr std::size_t corners = 60;
    const RingLook drawn = look(ring);
    const Point at = microscope.inWindow(ring.middle);
    const auto radius = static_cast<float>(ring.radius * microscope.scale());
    for (const auto& [color, wide] :
         {std::pair{drawn.under, drawn.underWidth}, std::pair{drawn.over, drawn.overWidth}}) {
        const auto half = static_cast<float>(wide / 2);
        sf::CircleShape circle(radius - half, corners);
        circle.setFillColor(sf::Color::Transparent);
        circle.setOutlineColor(shade(color));
        circle.setOutlineThickness(2 * half);
        circle.setOrigin(radius - half, radius - half);
        circle.setPosition(static_cast<float>(at.x), static_cast<float>(at.y));
        target.draw(circle);
    }
}

} // namespace

Lens::Lens() : tiles_(std::max(1, std::min(2, base::threadsHere() - 1))) {}

void Lens::receive() {
    for (Tile& tile : tiles_.take(tilesAFrame)) {
        const auto [at, isNew] = held_.try_emplace(tile.name);
        Held& held = at->second;
        held.texture.create(static_cast<unsigned>(tile.pixels.width),
                            static_cast<unsigned>(tile.pixels.height));
        held.texture.update(tile.pixels.rgba.data());
        held.texture.setSmooth(tile.name.coarse);
        if (isNew) held.age = ages_.insert(ages_.end(), tile.name);
        if (!tile.name.coarse) focus_[placeKey(tile.name)] = tile.name.focus;
    }
    while (held_.size() > tilesHeld) {
        const TileName& oldest = ages_.front();
        const auto last = focus_.find(placeKey(oldest));
        if (last != focus_.end() && last->second == oldest.focus && !oldest.coarse)
            focus_.erase(last);
        tiles_.forget(oldest);
        held_.erase(ages_.front());
        ages_.pop_front();
    }
}

void Lens::used(Held& held) {
    ages_.splice(ages_.end(), ages_, held.age);
}

Lens::Held* Lens::find(TileName name) {
    const auto at = [&](const TileName& one) {
        const auto found = held_.find(one);
        return found == held_.end() ? nullptr : &found->second;
    };
    if (Held* sharp = at(name)) return sharp;
    name.coarse = true;
    if (Held* coarse = at(name)) return coarse;
    const auto before = focus_.find(placeKey(name));
    if (before == focus_.end()) return nullptr;
    name.focus = before->second;
    name.coarse = false;
    return at(name);
}

int Lens::draw(sf::RenderTarget& target, const Microscope& microscope) {
    const Box seen = common(microscope.box, microscope.within);
    if (!microscope.slide || seen.width < 1 || seen.height < 1) return 0;
    receive();
    tiles_.look(microscope);
    const sf::View before = target.getView();
    cut(target, seen);
    sf::RectangleShape glass({static_cast<float>(seen.width), static_cast<float>(seen.height)});
    glass.setPosition(static_cast<float>(seen.x), static_cast<float>(seen.y));
    glass.setFillColor(sf::Color(0xF2, 0xEE, 0xEC)); // light through bare glass
    target.draw(glass);
    int missing = 0;
    for (const TileName& name : tilesOf(microscope)) {
        Held* held = find(name);
        if (!held) {
            ++missing;
            continue;
        }
        used(*held);
        const Box place = placeOf(name, microscope);
        const auto size = held->texture.getSize();
        sf::Sprite sprite(held->texture);
        sprite.setPosition(static_cast<float>(place.x), static_cast<float>(place.y));
        sprite.setScale(static_cast<float>(tileSide) / static_cast<float>(size.x),
                        static_cast<float>(tileSide) / static_cast<float>(size.y));
        target.draw(sprite);
    }
    for (const Ring& ring : microscope.rings) drawRing(target, microscope, ring);
    target.setView(before);
    return missing;
}

} // namespace cistern::desk
