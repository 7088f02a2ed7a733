#pragma once
#include "drawing/film/field.h"
#include "lab/counter/blood_count.h"

#include <string>
#include <vector>

/// A stained film in words and counts: what is seen, in the same sentences on every face; never a
/// diagnosis, and never what white cells truly are beyond what the laboratory counted.
namespace cistern::report {

/// What of the red cells was met in the fields of the oil lens of a monolayer.
struct RedLook {
    int fields = 0;
    double cells = 0;                             ///< red cells
    double diameter = 0;                          ///< mean [um]
    double variation = 0;                         ///< of diameters, standard deviation over mean
    std::array<double, lab::filmCellCount> of{};  ///< by kind
    double howellJolly = 0, heinz = 0, water = 0; ///< cells with such
    double inRows = 0, inClusters = 0;            ///< cells that lie in rouleaux, in clusters
    double platelets = 0, largePlatelets = 0;

    double perField(double met) const { return fields > 0 ? met / fields : 0; }
    double share(double met) const { return cells > 0 ? met / cells : 0; } ///< of red cells
    double met(lab::FilmCell cell) const { return of[static_cast<std::size_t>(cell)]; }
};

/// The round field of an oil lens [um]. Optics: field number 20 over 100.
inline constexpr double oilField = 200;

/// Looks through fields of the oil lens in the monolayer.
RedLook lookedAt(drawing::film::Stage& stage, int fields = 10);

/// One row of the laboratory's differential: of 100, with the limits between which the truth lies.
struct TallyRow {
    std::string kind;
    int counted = 0, low = 0, high = 0;
};
std::vector<TallyRow> differential(const lab::Film& film);

/// A part of a film as it is told, its area first.
struct FilmPart {
    std::string title;
    std::vector<std::string> lines;
    std::vector<TallyRow> rows{}; ///< of the white cells alone
};
/// Area by area: feathered edge, monolayer (red cells, white cells, platelets), body, and how it
/// was spread and stained.
std::vector<FilmPart> filmTold(const lab::BloodCount& blood, const RedLook& look);
/// The same from the slide itself.
std::vector<FilmPart> filmTold(const lab::BloodCount& blood);

} // namespace cistern::report
