#include "lab/film/slide.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

constexpr double mm = 1000; // [um]

// Thickness of a usual film of healthy dog's blood along its middle, chosen so that fields hold
// what oil fields of a monolayer hold (derived from field volumes of 1/20,000 to 1/15,000 uL), and
// elsewhere by eye.
struct Knot {
    double x; ///< from the tip [um]
    double t; ///< blood's volume over area [um]
};
constexpr std::array<Knot, 12> wedge{{{0, 0.35},
                                      {0.75 * mm, 0.70},
                                      {1.5 * mm, 1.02},
                                      {2.3 * mm, 1.27},
                                      {3.2 * mm, 1.50},
                                      {4.3 * mm, 1.70},
                                      {6 * mm, 1.92},
                                      {8 * mm, 2.5},
                                      {11 * mm, 3.9},
                                      {14 * mm, 5.3},
                                      {18 * mm, 6.1},
                                      {30 * mm, 6.6}}};

// Unevenness, chosen by eye.
constexpr double frayed = 300;        // how far the tip stands back at most [um]
constexpr double frayedTo = 2.5 * mm; // from the tip; further in it is straight
constexpr double side = 1 * mm;       // over which the film thins out to its sides
constexpr double sideLeast = 0.25;    // of the thickness is left at its very side
constexpr double sideFrayed = 120;    // [um]
constexpr double uneven = 0.05;       // share of the thickness, either way

// Crowding at which areas meet. About half of the cells touch in the middle of the monolayer
// (common practice); chosen by eye on drawn fields.
constexpr double leastSingle = 0.27, mostSingle = 0.60;
constexpr double allFlat = 0.15;                    // crowding at which cells are wholly flattened
constexpr double firstHeaped = 0.64, heaped = 1.28; // crowding
constexpr double firstThick = 4, thick = 7;         // [um]: plasma does it without red cells too

// Blood with hardly any red cells is judged as if it had this share of a healthy count, or its
// whole film would be called feathered edge. Chosen by eye.
constexpr double leastJudged = 0.4;
constexpr double healthyDog = 7.0, healthyCat = 8.5; // [10*12/L], common practice

constexpr double edgeLeast = 200, monolayerLeast = 300; // [um]

double smooth(double share) {
    const double s = std::clamp(share, 0., 1.);
    return s * s * (3 - 2 * s);
}

/// Slope at a knot that keeps the wedge rising (Fritsch and Butland 1984: harmonic mean).
constexpr double slopeAt(std::size_t i) {
    const auto secant = [](std::size_t k) {
        return (wedge[k + 1].t - wedge[k].t) / (wedge[k + 1].x - wedge[k].x);
    };
    if (i == 0) return secant(0);
    if (i + 1 == wedge.size()) return secant(i - 1);
    const double a = secant(i - 1), b = secant(i);
    return 2 * a * b / (a + b);
}

constexpr std::array<double, wedge.size()> slopes = [] {
    std::array<double, wedge.size()> all{};
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = slopeAt(i);
    return all;
}();

/// Thickness of a usual film [um] at a distance from its tip.
double usual(double x) {
    if (x <= 0) return x < 0 ? 0 : wedge.front().t;
    if (x >= wedge.back().x) return wedge.back().t;
    std::size_t i = 0;
    while (x > wedge[i + 1].x) ++i;
    const double h = wedge[i + 1].x - wedge[i].x, s = (x - wedge[i].x) / h, r = 1 - s;
    return wedge[i].t * r * r * (1 + 2 * s) + wedge[i + 1].t * s * s * (3 - 2 * s) +
           h * s * r * (slopes[i] * r - slopes[i + 1] * s);
}

std::uint32_t bits(std::int32_t x, std::int32_t y, std::uint32_t seed) {
    std::uint32_t h = static_cast<std::uint32_t>(x) * 0x8da6b343U ^
                      static_cast<std::uint32_t>(y) * 0xd8163841U ^ seed;
    h = (h ^ h >> 15) * 0x2c1b3c6dU;
    h = (h ^ h >> 12) * 0x297a2d39U;
    return h ^ h >> 15;
}

/// Smooth noise between 0 and 1, its mean a half, one bump a unit.
double bumps(double x, double y, std::uint32_t seed) {
    const double fx = std::floor(x), fy = std::floor(y);
    const auto ix = static_cast<std::int32_t>(fx), iy = static_cast<std::int32_t>(fy);
    const double tx = smooth(x - fx), ty = smooth(y - fy);
    const auto at = [&](int i, int j) { return bits(ix + i, iy + j, seed) * 0x1p-32; };
    const double upper = at(0, 0) + (at(1, 0) - at(0, 0)) * tx;
    const double lower = at(0, 1) + (at(1, 1) - at(0, 1)) * tx;
    return upper + (lower - upper) * ty;
}

/// The same in two layers.
double rough(double x, double y, std::uint32_t seed) {
    constexpr double finer = 2.7;
    return (2 * bumps(x, y, seed) + bumps(x * finer, y * finer, seed + 1)) / 3;
}

/// How far a place is from the tip as the film frayed there, `fray` 0 .. 1.
double inward(double x, double fray) {
    return x - frayed * fray * (1 - smooth(x / frayedTo));
}

/// Of a red cell [um], Harvey (from memory).
double healthyRadius(body::Kind kind) {
    return kind == body::Kind::dog ? 3.5 : 2.9;
}

double crowdingOf(double radius, double red, double thickness) {
    constexpr double perUm3 = 1e-3; // cells in 1 um3 of blood of 10*12/L
    constexpr double pi = 3.14159265358979;
    return pi * radius * radius * red * perUm3 * thickness;
}

/// Crowding as areas are judged by it.
double judged(const Slide& slide, double thickness) {
    const double healthy = slide.kind == body::Kind::dog ? healthyDog : healthyCat;
    return std::max(crowding(slide, thickness),
                    crowdingOf(healthyRadius(slide.kind), leastJudged * healthy, thickness));
}

/// Where, from the tip, the film gets this crowded [um].
double whereCrowded(const Slide& slide, double crowded) {
    double low = 0, high = filmLength;
    if (judged(slide, meanThickness(slide, high)) < crowded) return high;
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        (judged(slide, meanThickness(slide, middle)) < crowded ? low : high) = middle;
    }
    return high;
}

} // namespace

double thickness(const Slide& slide, double x, double y) {
    if (!(x >= 0 && x <= filmLength && y >= 0 && y <= filmWidth)) return 0;
    const auto seed = static_cast<std::uint32_t>(slide.seed ^ slide.seed >> 32) * 0x9E3779B1U;
    double t = slide.thickness;
    if (x < frayedTo) {
        constexpr double bay = 900; // [um]
        const double in = inward(x, rough(y / bay, 0.5, seed + 2));
        if (in < 0) return 0;
        t *= usual(in);
    } else
        t *= usual(x);
    const double margin = std::min(y, filmWidth - y);
    if (margin < side + sideFrayed) {
        constexpr double bay = 700; // [um]
        const double in = margin - sideFrayed * rough(x / bay, y < filmWidth / 2 ? 3.5 : 9.5, seed);
        if (in < 0) return 0;
        t *= sideLeast + (1 - sideLeast) * smooth(in / side);
    }
    constexpr double bump = 170; // [um]
    return t * (1 + 2 * uneven * (rough(x / bump, y / bump, seed + 5) - 0.5));
}

double meanThickness(const Slide& slide, double x) {
    if (!(x >= 0 && x <= filmLength)) return 0;
    return slide.thickness * usual(inward(x, 0.5));
}

double crowding(const Slide& slide, double thickness) {
    return crowdingOf(healthyRadius(slide.kind) * slide.redDiameter, slide.red, thickness);
}

double flattening(const Slide& slide, double thickness) {
    return std::clamp((leastSingle - judged(slide, thickness)) / (leastSingle - allFlat), 0., 1.);
}

double heaping(const Slide& slide, double thickness) {
    const double cells = (judged(slide, thickness) - firstHeaped) / (heaped - firstHeaped);
    const double plasma = (thickness - firstThick) / (thick - firstThick);
    return std::clamp(std::max(cells, plasma), 0., 1.);
}

std::string_view name(FilmArea area) {
    switch (area) {
    case FilmArea::edge:
        return "feathered edge";
    case FilmArea::monolayer:
        return "monolayer";
    case FilmArea::body:
        break;
    }
    return "body";
}

std::optional<FilmArea> areaNamed(std::string_view wanted) {
    for (const FilmArea area : {FilmArea::edge, FilmArea::monolayer, FilmArea::body})
        if (wanted == name(area)) return area;
    if (wanted == "edge") return FilmArea::edge;
    return std::nullopt;
}

Reach reach(const Slide& slide, FilmArea area) {
    const double last = filmLength - monolayerLeast;
    const double single = std::clamp(whereCrowded(slide, leastSingle), edgeLeast, last);
    const double close =
        std::clamp(whereCrowded(slide, mostSingle), single + monolayerLeast, filmLength);
    switch (area) {
    case FilmArea::edge:
        return {0, single};
    case FilmArea::monolayer:
        return {single, close};
    case FilmArea::body:
        break;
    }
    return {close, filmLength};
}

FilmArea areaAt(const Slide& slide, double x) {
    const Reach single = reach(slide, FilmArea::monolayer);
    return x < single.from ? FilmArea::edge : x < single.to ? FilmArea::monolayer : FilmArea::body;
}

} // namespace cistern::lab
