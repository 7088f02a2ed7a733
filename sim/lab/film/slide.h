#pragma once
#include "lab/film/cell.h"

#include <array>
#include <cstdint>

namespace cistern::lab {

/// How strongly each part of the stain took, fold of a good one.
struct Stain {
    double red = 1;     ///< of eosin
    double blue = 1;    ///< of azure
    double nuclear = 1; ///< of chromatin
    bool operator==(const Stain&) const = default;
};

/// A stained film of one tube of blood, as it truly is: what lies on the glass, how much of it, and
/// how it was spread, dried and stained. Plain data; the same slide shows the same cells every
/// time.
struct Slide {
    body::Kind kind{};
    std::uint64_t seed = 1;

    // Red cells
    double red = 0;                    ///< [10*12/L]
    double redDiameter = 1;            ///< mean, fold of the healthy
    double redSpread = 0.045;          ///< coefficient of variation of diameters
    double howellJolly = 0, heinz = 0; ///< share of red cells with such a body
    double water = 0;                  ///< share with holes of slow drying
    double rouleaux = 0;               ///< share that lies in rows, in the monolayer
    double agglutinated = 0;           ///< share that hangs in clusters
    double nucleated = 0;              ///< nucleated red cells per 100 white cells

    // White cells
    double white = 0;          ///< [10*9/L]
    double toxic = 0;          ///< share of neutrophils
    double toxicGrade = 0.6;   ///< how far changed these are, 0..1
    double hypersegmented = 0; ///< share of segmented neutrophils
    double drumstick = 0;      ///< likewise: females alone
    double doubtful = 0;       ///< share of bands and of as many segmented that are neither clearly
    double emptyGranules = 0;  ///< share of eosinophils whose granules washed out
    double aged = 0;           ///< by standing, 0..1: vacuoles, swollen nuclei

    // Platelets
    double platelets = 0;      ///< those that lie free [10*9/L]
    double largePlatelets = 0; ///< share of these as wide as red cells
    double clumps = 0;         ///< clumps of platelets [10*9/L]
    double clumpSize = 0;      ///< platelets in one, mean

    // What lies on top
    double precipitate = 0; ///< grains' clusters [1/mm2]

    /// By kind: of red cells, the share of each form (discocytes are the rest, nucleated ones stand
    /// above); of white cells and smudges together, the share of each kind.
    std::array<double, filmCellCount> share{};

    Stain stain{};
    double thickness = 1; ///< of the film, fold of a usual one
    double drag = 0.5;    ///< how far the push swept large cells to the edges, 0..1

    double of(FilmCell cell) const { return share[static_cast<std::size_t>(cell)]; }
    double& of(FilmCell cell) { return share[static_cast<std::size_t>(cell)]; }
    bool operator==(const Slide&) const = default;
};

/// Size of a film [um]: x from the feathered edge towards where the drop was set, y across.
inline constexpr double filmLength = 30000, filmWidth = 18000;

/// Blood that lies on an area there [um], from its volume: a smooth wedge, a little uneven.
/// 0 beyond the film. `y` from 0 to filmWidth.
double thickness(const Slide& slide, double x, double y);
/// The same without its unevenness, down the middle of the film.
double meanThickness(const Slide& slide, double x);

/// Red cells' own area over the area they lie on, at a thickness [um]: 0.46 where they lie singly,
/// about half of them touching.
double crowding(const Slide& slide, double thickness);

/// How far cells are flattened at a thickness, 0 .. 1 where they lie scattered in the thinnest
/// part; how far they lie heaped, 0 .. 1 in the thick body.
double flattening(const Slide& slide, double thickness);
double heaping(const Slide& slide, double thickness);

enum class FilmArea { edge, monolayer, body };
std::string_view name(FilmArea area);                     ///< "feathered edge", "monolayer", "body"
std::optional<FilmArea> areaNamed(std::string_view name); ///< "edge" too

/// The area at a place, by how crowded red cells lie there.
FilmArea areaAt(const Slide& slide, double x);
/// Where an area begins and ends [um]; the monolayer of concentrated blood may be narrow, never
/// empty.
struct Reach {
    double from = 0, to = 0;
    double length() const { return to - from; }
};
Reach reach(const Slide& slide, FilmArea area);

/// What the push of the spreader did to one slide: large cells and clumps are swept to the
/// feathered edge and are lacking in the body; the monolayer is nearly true. Made once, asked
/// often.
class Gathering {
public:
    explicit Gathering(const Slide& slide);
    /// How many more of these lie there than in an even film, fold.
    double at(FilmCell cell, double x) const;

private:
    double excess(FilmCell cell) const;

    double drag_;
    double zone_;     ///< into which they are swept, from the tip [um]
    double from_;     ///< from where on they are lacking [um]
    double peak_ = 1; ///< at the tip, over the zone's mean
    double held_ = 0; ///< by the zone, share of all blood
    double lost_ = 0; ///< likewise, where they are lacking
};
/// The mean of an area.
double gathering(const Slide& slide, FilmCell cell, FilmArea area);

/// Throws std::invalid_argument unless all amounts are finite, not negative and such as blood can
/// hold, and shares are shares.
void validate(const Slide& slide);

} // namespace cistern::lab
