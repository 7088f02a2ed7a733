#include "lab/counter/blood.h"

#include <cmath>
#include <numeric>
#include <stdexcept>
#include <string>

namespace cistern::lab {

namespace {

void refuse(const std::string& what) {
    throw std::invalid_argument("blood cannot be counted: " + what);
}
void amount(double value, const char* what) {
    if (!(value >= 0) || !std::isfinite(value)) refuse(std::string(what) + " is no amount");
}
void share(double value, const char* what) {
    if (!(value >= 0 && value <= 1)) refuse(std::string(what) + " is no share");
}

} // namespace

double plateletClumps(const Blood& blood) {
    const Wear& wear = blood.wear;
    if (!(wear.clumped > 0)) return 0;
    return blood.platelets * (1 - wear.plateletsLost) * wear.clumped / wear.clumpSize;
}

double whiteCells(const Blood& blood) {
    return std::accumulate(blood.white.begin(), blood.white.end(), 0.);
}

void validate(const Blood& blood) {
    amount(blood.red, "the number of red cells");
    amount(blood.reticulocytes, "the number of reticulocytes");
    for (const double one : blood.white) amount(one, "the number of white cells");
    amount(blood.platelets, "the number of platelets");
    amount(blood.nucleated, "the number of nucleated red cells");
    share(blood.toxic, "the toxic part of the neutrophils");
    share(blood.large, "the large part of the platelets");
    const Wear& wear = blood.wear;
    share(wear.clumped, "the clumped part of the platelets");
    share(wear.whiteLost, "the part of the white cells in a clot");
    share(wear.plateletsLost, "the part of the platelets in a clot");
    share(wear.redLost, "the part of the red cells in a clot");
    amount(wear.hours, "the time to the film");
    if (wear.clumped > 0 && (!(wear.clumpSize >= 2) || !std::isfinite(wear.clumpSize)))
        refuse("a clump holds two platelets or more");
    for (const double size : {wear.swelling, wear.packing})
        if (!(size > 0) || !std::isfinite(size)) refuse("cells have no size");
    if (blood.red > 0 && !(blood.volume > 0 && std::isfinite(blood.volume)))
        refuse("red cells have no volume");
}

} // namespace cistern::lab
