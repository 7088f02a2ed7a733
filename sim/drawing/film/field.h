#pragma once
#include "drawing/film/density.h"
#include "drawing/film/plan.h"
#include "drawing/painter.h"

#include <map>
#include <utility>
#include <vector>

namespace cistern::drawing::film {

/// A slide under the lens, looked at place by place: keeps the cells of patches it has planned. One
/// thread at a time; two stages of one slide show the same.
class Stage {
public:
    /// Throws std::invalid_argument for a slide that lab::validate() refuses.
    explicit Stage(Slide slide);
    const Slide& slide() const { return slide_; }

    /// What is seen of a rectangle: its left upper corner [um], its size [px]. Solid pixels; where
    /// two rectangles meet, or lie over one another, they agree.
    Pixels seen(double left, double top, int width, int height, const Optics& optics);

    /// Cells whose middle lies in a rectangle [um].
    std::vector<Cell> cells(const Box& within);

private:
    struct Kept {
        std::vector<Cell> cells;
        std::uint64_t asked = 0; ///< when last
    };
    /// Plans what of these is not kept, and calls with each patch's cells, rows first.
    template<class Act>
    void each(const Patches& patches, const Act& act);
    void forget();

    Slide slide_;
    std::uint64_t asked_ = 0;
    std::map<std::pair<int, int>, Kept> patches_;
};

/// Standard deviation of the objective's point spread [px], and how far it is followed [px].
float spreadOf(const Optics& optics);
int spreadReach(float sigma);

/// Turns density into light: point spread of the objective, the lamp's color, the camera's grain.
/// A margin [px], at least as wide as the spread reaches, is cut off all round. Throws
/// std::invalid_argument if it is narrower, or nothing is left.
Pixels developed(const Density& density, const Optics& optics, std::uint64_t seed, int margin);

/// Where the lens of a power stands: 10, 50 or 100; throws std::invalid_argument for others.
Optics opticsOf(int power, float scale, float focus = 0);

} // namespace cistern::drawing::film
