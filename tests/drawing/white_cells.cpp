#include "white_cells.h"

#include <cmath>

namespace cistern::test {

namespace {

/// Mean and spread of what it is told.
class Tally {
public:
    void add(double value) {
        ++count_;
        sum_ += value;
        squares_ += value * value;
    }
    double count() const { return count_; }
    double mean() const { return count_ > 0 ? sum_ / count_ : 0; }
    /// Standard deviation over the mean.
    double spread() const {
        const double m = mean();
        return m > 0 ? std::sqrt(std::max(0.0, squares_ / count_ - m * m)) / m : 0;
    }

private:
    double count_ = 0, sum_ = 0, squares_ = 0;
};

} // namespace

Gray measured(const Cell& cell, float scale) {
    film::Density density = painted(cell, scale);
    const film::Nucleus nucleus = film::nucleusOf(cell);
    const film::NucleusEdge edge(nucleus);
    constexpr double least = .025; // of green density: under half that of the palest cytoplasm
    constexpr float clear = .5F;   // [um] off an edge, so that its softness does not count
    Tally cells, within, plasm;
    std::array<Tally, 3> planes;
    for (int y = 0; y < density.height; ++y)
        for (int x = 0; x < density.width; ++x) {
            const float* pixel = density.row(y) + static_cast<std::ptrdiff_t>(3) * x;
            const auto wx = static_cast<float>(density.left + (x + .5) / density.scale);
            const auto wy = static_cast<float>(density.top + (y + .5) / density.scale);
            // Luminance of what shines through, as a density again (Rec. 709 weights).
            const double light = .2126 * std::exp(-static_cast<double>(pixel[0])) +
                                 .7152 * std::exp(-static_cast<double>(pixel[1])) +
                                 .0722 * std::exp(-static_cast<double>(pixel[2]));
            const double gray = -std::log(light);
            if (static_cast<double>(pixel[1]) > least) cells.add(1);
            const float distance = edge.at(wx, wy).distance;
            if (distance < 0) within.add(gray);
            if (distance > clear && std::hypot(wx, wy) < cell.radius - 3 * clear) {
                plasm.add(gray);
                for (std::size_t k = 0; k < 3; ++k) planes[k].add(static_cast<double>(pixel[k]));
            }
        }
    Gray gray;
    constexpr double circle = 3.14159265358979;
    gray.radius = std::sqrt(cells.count() / circle) / density.scale;
    gray.nucleus = within.count() / cells.count();
    gray.blocks = within.spread();
    gray.plasm = plasm.mean();
    gray.grain = plasm.spread();
    for (std::size_t k = 0; k < 3; ++k) gray.color[k] = planes[k].mean();
    return gray;
}

} // namespace cistern::test
