#include "lab/counter/counter.h"

#include <algorithm>

namespace cistern::lab {

namespace {

void eachOf(Channel& c, const body::Section& visit) {
    visit("aperture", "um", c.aperture, 20, 200);
    visit("dilution", "1", c.dilution, 10, 1e6);
    visit("metered volume", "uL", c.metered, 10, 5000);
    visit("spread of dilutions", "1", c.thinning, 0, 0.1);
    visit("least", "fL", c.least, 0.5, 200);
}

void eachOf(CellSizes& s, const body::Section& visit) {
    visit("spread of red cells", "1", s.redSpread, 0.05, 0.4);
    visit("platelet", "fL", s.platelet, 3, 30);
    visit("spread of platelets", "1", s.plateletSpread, 0.1, 1);
    visit("nucleated from", "10*9/L", s.nucleatedFrom, 0, 1000);
    visit("nucleated share", "1", s.nucleatedShare, 0, 0.5);
}

} // namespace

void eachParameter(Counter& c, const body::Visit& visit) {
    const body::Section red("red cells and platelets", visit), white("white cells", visit);
    eachOf(c.red, red);
    red("most", "fL", c.redMost, 100, 500);
    red("overlap", "1", c.overlap, 0, 1);
    red("pulse noise", "1", c.pulseNoise, 0, 0.2);
    red("gain noise", "1", c.gainNoise, 0, 0.05);
    red("debris", "10*9/L", c.debris, 0, 50);
    red("volume of reticulocytes", "1", c.reticulocyteVolume, 1, 2);
    red("large platelets", "1", c.largePlatelet, 1, 10);
    red("spread of clumps", "1", c.clumpSpread, 0.05, 2);
    red("stained", "1", c.stained, 100, 1e6);
    red("stain noise", "1", c.stainNoise, 0, 0.5);
    eachOf(c.white, white);
    white("sorted", "1", c.sorted, 100, 1e6);
    const body::Section clog("clogged aperture", visit);
    clog("patience", "1", c.patience, 1, 2);
    clog("noise", "1", c.noiseOfClog, 0, 100);
    const body::Section film("film", visit), tube("spun tube", visit);
    film("cells", "1", c.filmCells, 20, 1000);
    film("fields", "1", c.filmFields, 1, 100);
    film("platelets of a field", "10*9/L", c.fieldPlatelets, 1, 100);
    film("density", "1", c.filmDensity, 0, 1);
    film("blood at the edge", "uL", c.edgeBlood, 1e-4, 10);
    tube("packing", "1", c.packingSpread, 0, 0.1);
    tube("setting", "1", c.scaleSpread, 0, 0.05);
    tube("line", "1", c.scaleLine, 0.001, 0.05);
    eachOf(c.dog, {"dog", visit});
    eachOf(c.cat, {"cat", visit});
}

double nucleatedCells(const Counter& counter, body::Kind kind, double reticulocytes,
                      double whiteCells) {
    constexpr double perWhiteCells = 100;
    const CellSizes& sizes = counter.sizes(kind);
    const double excess = std::max(0., reticulocytes - sizes.nucleatedFrom);
    return whiteCells > 0 ? perWhiteCells * sizes.nucleatedShare * excess / whiteCells : 0;
}

} // namespace cistern::lab
