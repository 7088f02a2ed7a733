#include "lab/film/slide.h"

#include <cmath>
#include <stdexcept>
#include <string>

namespace cistern::lab {

namespace {

/// Refuses NaN too.
void within(const char* what, double value, double least, double most) {
    if (value >= least && value <= most) return;
    throw std::invalid_argument("a film's " + std::string(what) + " must lie between " +
                                std::to_string(least) + " and " + std::to_string(most) + ", not " +
                                std::to_string(value));
}

void share(const char* what, double value) {
    within(what, value, 0, 1);
}

void checkShares(const Slide& slide) {
    constexpr double rounding = 1e-9;
    double red = 0, white = 0;
    for (std::size_t i = 0; i < filmCellCount; ++i) {
        const auto cell = static_cast<FilmCell>(i);
        share("share of a kind of cell", slide.share[i]);
        if (isWhite(cell) || cell == FilmCell::smudge) white += slide.share[i];
        // Discocytes are the rest, nucleated ones are counted by white cells.
        if (isRed(cell) && cell != FilmCell::discocyte && cell != FilmCell::nucleatedRed)
            red += slide.share[i];
    }
    within("sum of shares of red cells' forms", red, 0, 1 + rounding);
    if (slide.white > 0) within("sum of shares of white cells", white, 1e-6, 1 + 1e-6);
    within("share of red cells in rows and clusters", slide.rouleaux + slide.agglutinated, 0,
           1 + rounding);
    within("share of doubtful and hypersegmented neutrophils", // a cell is one or the other
           slide.doubtful + slide.hypersegmented, 0, 1 + rounding);
}

} // namespace

void validate(const Slide& slide) {
    // The most is what no blood of an animal holds and a field can still be drawn from.
    within("red cells", slide.red, 0, 30);
    within("white cells", slide.white, 0, 1000);
    within("platelets", slide.platelets, 0, 5000);
    within("clumps", slide.clumps, 0, 500);
    within("platelets in a clump", slide.clumpSize, 0, 1000);
    within("nucleated red cells per 100 white cells", slide.nucleated, 0, 2000);
    within("precipitate", slide.precipitate, 0, 20000);

    within("mean diameter of red cells", slide.redDiameter, 0.5, 1.4);
    within("spread of diameters", slide.redSpread, 0, 0.4);
    within("thickness", slide.thickness, 0.2, 3);
    within("red stain", slide.stain.red, 0, 3);
    within("blue stain", slide.stain.blue, 0, 3);
    within("nuclear stain", slide.stain.nuclear, 0, 3);

    share("share of Howell-Jolly bodies", slide.howellJolly);
    share("share of Heinz bodies", slide.heinz);
    share("share of cells with water holes", slide.water);
    share("share of red cells in rows", slide.rouleaux);
    share("share of red cells in clusters", slide.agglutinated);
    share("share of toxic neutrophils", slide.toxic);
    share("grade of toxic change", slide.toxicGrade);
    share("share of hypersegmented neutrophils", slide.hypersegmented);
    share("share of drumsticks", slide.drumstick);
    share("share of doubtful neutrophils", slide.doubtful);
    share("share of empty granules", slide.emptyGranules);
    share("standing", slide.aged);
    share("share of large platelets", slide.largePlatelets);
    share("drag", slide.drag);
    checkShares(slide);
}

} // namespace cistern::lab
