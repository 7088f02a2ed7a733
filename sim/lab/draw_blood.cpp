// How a draw's blood meets counter, film and capillary.
#include "lab/counter/red_cells.h"
#include "lab/draw.h"

#include <algorithm>

namespace cistern::lab {

namespace {

using body::Analyte;

/// What handling did to the cells, as counter and film meet it.
Wear wearOf(const Cells& cells) {
    Wear wear;
    wear.clumped = cells.clumped;
    wear.clumpSize = cells.clumpSize;
    wear.redLost = 1 - cells.redCells;
    wear.whiteLost = 1 - cells.whiteCells;
    wear.plateletsLost = 1 - cells.platelets;
    wear.swelling = cells.swollen * cells.shrunkenCount;
    wear.packing = cells.swollen * cells.shrunkenSpun;
    wear.hours = cells.old;
    return wear;
}

/// What runs through the counter: all cells of the tube, whatever was asked for.
Blood bloodOf(const Draw& draw) {
    Blood blood;
    blood.kind = draw.animal.who.kind;
    blood.red = held(draw, Analyte::RBC);
    blood.volume = held(draw, Analyte::MCV);
    blood.reticulocytes = held(draw, Analyte::reticulocytes);
    for (std::size_t i = 0; i < whiteKindCount; ++i) blood.white[i] = held(draw, whiteKinds[i]);
    blood.toxic = held(draw, Analyte::toxic);
    blood.platelets = held(draw, Analyte::platelets);
    blood.nucleated =
        nucleatedCells(*draw.bench.counter, blood.kind, blood.reticulocytes, whiteCells(blood));
    if (draw.bench.specimen) blood.wear = wearOf(draw.handled.cells);
    return blood;
}

/// The greatest share of a hole that is clogged, as told for any of what it counts.
double clogged(const Draw& draw, std::initializer_list<Analyte> through) {
    double most = 0;
    for (const Analyte one : through)
        most = std::max(most, draw.machine.by(MachineFault::dirtyAperture, one));
    return most;
}

double drift(const Draw& draw, Analyte analyte) {
    return 1 + draw.machine.by(MachineFault::drift, analyte);
}

} // namespace

BloodCount countBlood(const Draw& draw) {
    const Counter& counter = *draw.bench.counter;
    const Blood blood = bloodOf(draw);
    Tuning tuning;
    tuning.red = runOf(draw, Analyte::RBC);
    tuning.size = runOf(draw, Analyte::MCV) * drift(draw, Analyte::MCV);
    tuning.white = runOf(draw, Analyte::WBC);
    tuning.platelets = runOf(draw, Analyte::platelets);
    tuning.reticulocytes = runOf(draw, Analyte::reticulocytes);
    tuning.redClogged =
        clogged(draw, {Analyte::RBC, Analyte::MCV, Analyte::platelets, Analyte::Hct});
    tuning.whiteClogged =
        clogged(draw, {Analyte::WBC, Analyte::neutrophils, Analyte::bands, Analyte::lymphocytes,
                       Analyte::monocytes, Analyte::eosinophils});
    base::Chance red = draw.chance(base::Purpose::counter, 0);
    base::Chance white = draw.chance(base::Purpose::counter, 1);
    base::Chance film = draw.chance(base::Purpose::film);
    const FilmReader reader{runOf(draw, Analyte::bands), runOf(draw, Analyte::toxic)};
    return {pass(counter, blood, tuning, red, white), readFilm(counter, blood, reader, film)};
}

std::optional<double> counted(const Draw& draw, Analyte analyte) {
    if (!draw.bench.counter) return std::nullopt;
    if (analyte == Analyte::PCV) {
        base::Chance tube = draw.chance(base::Purpose::counter, 2);
        const Wear wear = draw.bench.specimen ? wearOf(draw.handled.cells) : Wear{};
        const double packed = held(draw, analyte) * (1 - wear.redLost) * wear.packing;
        return spunVolume(*draw.bench.counter, std::min(packed, 1.), tube) * runOf(draw, analyte);
    }
    if (!draw.blood) return std::nullopt;
    const auto value = draw.blood->value(analyte);
    const bool machine = analyte != Analyte::MCV && analyte != Analyte::toxic; // size: by its gain
    return value && machine ? *value * drift(draw, analyte) : value;
}

} // namespace cistern::lab
