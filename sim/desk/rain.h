#pragma once
#include "base/chance.h"
#include "desk/screen.h"

#include <map>

namespace cistern::desk {

/// The moving layer: drops that leave the pores of organs, run down the wall, fall into the trough,
/// and leave by the spout. How many leave is told by the page; where they are follows from when
/// they left, so that a page laid out anew keeps its drops.
class Rain {
public:
    /// Lets time pass [s] over what drips now. Same pages and times, same drops. `flood`: as many
    /// as are ever drawn leave the pores, whatever the page says.
    void pass(const std::vector<Dripping>& dripping, double seconds, bool flood = false);

    struct Falling {
        drawing::Drop drop;
        Box seen; ///< nothing is drawn outside
    };
    /// All drops in the air and on the walls, in pixels of the window.
    std::vector<Falling> drops(const std::vector<Dripping>& dripping) const;

    static constexpr std::size_t most = 3000; ///< in the air at once

private:
    struct Fallen {
        std::size_t pore = 0;
        double age = 0;  ///< since it left [s]
        double size = 1; ///< over the usual drop
        bool spout = false;
    };
    struct Source {
        double due = 0, leaving = 0; ///< parts of a drop that wait
        std::vector<Fallen> drops;
    };
    static bool gone(const Fallen& one, const Dripping& from);
    static Point where(const Fallen& one, const Dripping& from);

    std::map<std::string, Source> sources_;
    base::Chance chance_{1, base::Purpose::moving};
};

} // namespace cistern::desk
