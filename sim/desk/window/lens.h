#pragma once
#include "desk/tiles.h"

#include <SFML/Graphics.hpp>

#include <list>
#include <map>
#include <optional>

namespace cistern::desk {

/// Shows a slide in the window: tiles as they come, a few of them in each frame.
class Lens {
public:
    Lens();
    /// Draws what is seen and its rings. Gives how many tiles of it were not there at all.
    int draw(sf::RenderTarget& target, const Microscope& microscope);
    double secondsEach() { return tiles_.secondsEach(); } ///< to draw one tile

private:
    struct Held {
        sf::Texture texture;
        std::list<TileName>::iterator age;
    };
    void receive();
    /// The best there is for a place: sharp, coarse, or of another focus.
    Held* find(TileName name);
    void used(Held& held);

    Tiles tiles_;
    std::map<TileName, Held> held_;
    std::list<TileName> ages_;                ///< last seen last
    std::map<std::array<int, 5>, int> focus_; ///< last focus drawn of a place
};

} // namespace cistern::desk
