#pragma once
#include "desk/microscope.h"

#include <compare>
#include <condition_variable>
#include <map>
#include <mutex>
#include <set>
#include <thread>
#include <vector>

namespace cistern::desk {

/// A square of a slide at one scale and focus. A coarse one has a quarter of the pixels each way,
/// and stands in until the sharp one is there.
struct TileName {
    unsigned slide = 0;
    int power = 0;
    int scale = 0; ///< thousandths of a pixel per um
    int focus = 0; ///< hundredths of um
    int x = 0, y = 0;
    bool coarse = false;
    auto operator<=>(const TileName&) const = default;
};
inline constexpr int tileSide = 256, coarser = 4; ///< [px of the window]

struct Tile {
    TileName name;
    drawing::Pixels pixels;
};

/// Where a tile lies in the window [px].
Box placeOf(const TileName& name, const Microscope& microscope);
/// Tiles of what is seen, in rows; with so many rings of neighbors around it.
std::vector<TileName> tilesOf(const Microscope& microscope, int around = 0);

/// Draws tiles of a slide on threads of its own: what is looked at first, coarse before sharp, then
/// what lies around it. What has left the view is no longer drawn.
class Tiles {
public:
    explicit Tiles(int threads = 1);
    ~Tiles();
    Tiles(const Tiles&) = delete;
    Tiles& operator=(const Tiles&) = delete;

    /// What is looked at now. Asks for every tile of it that was not given yet.
    void look(const Microscope& microscope);
    /// At most so many that were drawn since the last call, in the order of asking.
    std::vector<Tile> take(std::size_t most);
    /// Tiles that nobody holds any longer: asked for anew when they are seen again.
    void forget(const TileName& name);
    /// True while something that is looked at is not drawn and given.
    bool behind();
    /// Mean time to draw a sharp tile [s]; 0 before the first.
    double secondsEach();

private:
    void work();

    std::mutex mutex_;
    std::condition_variable wanted_;
    Microscope seen_;
    std::vector<TileName> asked_;        ///< first wanted first; none twice
    std::set<TileName> given_, drawing_; ///< in hands of the window; being drawn
    std::vector<Tile> ready_;
    double spent_ = 0;
    std::size_t sharp_ = 0;
    bool over_ = false;
    std::vector<std::thread> threads_; ///< last: start when all else is there
};

} // namespace cistern::desk
