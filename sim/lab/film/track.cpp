#include "lab/film/track.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double margin = 1500;    // kept from the sides of the film, where large cells lie [um]
constexpr int longest = 10;        // fields from one side of the wall to the other
constexpr int along = 2;           // steps along the film from one side to the next
constexpr std::size_t most = 2000; // fields: more than any reader looks at

} // namespace

std::vector<FilmField> track(const Slide& slide, FilmArea area, double width, double height) {
    if (!(width > 0 && height > 0 && std::isfinite(width) && std::isfinite(height)))
        throw std::invalid_argument("a field of a film has a width and a height");
    const Reach within = reach(slide, area);
    const int columns = std::max(1, static_cast<int>(std::floor(within.length() / width)));
    const int rows = std::clamp(static_cast<int>((filmWidth - 2 * margin) / height), 1, longest);
    const double left = columns > 1 || within.length() >= width
                            ? within.from
                            : std::clamp(within.from + within.length() / 2 - width / 2, 0.,
                                         std::max(0., filmLength - width));
    const double top = filmWidth / 2 - rows * height / 2;
    std::vector<FilmField> fields;
    const auto put = [&](int column, int row) {
        const FilmField one{left + column * width, top + row * height, width, height};
        // The tip of the film wavers: a field may lie on bare glass.
        if (thickness(slide, one.left + width / 2, one.top + height / 2) > 0) fields.push_back(one);
    };
    bool up = true;
    for (int column = 0; column < columns && fields.size() < most; up = !up) {
        for (int step = 0; step < rows; ++step) put(column, up ? rows - 1 - step : step);
        for (int step = 0; step < along && ++column < columns; ++step)
            if (step + 1 < along) put(column, up ? 0 : rows - 1);
    }
    return fields;
}

} // namespace cistern::lab
