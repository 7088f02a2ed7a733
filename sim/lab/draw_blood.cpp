// How a draw's blood meets counter, film and capillary.
#include "lab/counter/red_cells.h"
#include "lab/draw.h"
#include "lab/film/making.h"
#include "lab/specimen/tube.h"

#include <algorithm>
#include <cmath>

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

/// A level over the animal's own healthy one; 1 where that is not known.
double over(double level, double own) {
    return own > 0 ? level / own : 1;
}

/// Size and filling of its red cells over those of health, reticulocytes left out: these are larger
/// and hold less for it.
void redCellsOf(FilmBlood& film, const Draw& draw) {
    const body::RedCellParameters& own = draw.animal.own.redCells;
    const Blood& blood = film.blood;
    constexpr double perMillion = 1000; // 10*9 in 10*12; fL of a share over 10*12/L
    const double young =
        blood.red > 0 ? std::clamp(blood.reticulocytes / perMillion / blood.red, 0., 1.) : 0;
    const auto mixed = [&](double ofYoung) { return 1 - young + young * ofYoung; };
    if (!(own.count > 0 && own.hematocrit > 0)) return;
    const double wider = mixed(own.reticulocyteVolume);
    film.volume = over(blood.volume / wider, perMillion * own.hematocrit / own.count);
    film.filling = over(held(draw, Analyte::MCHC) * wider / mixed(own.reticulocyteHemoglobin),
                        own.hemoglobin / own.hematocrit);
}

/// What of the animal and its tube shows on a film.
FilmBlood filmBloodOf(const Draw& draw, const Blood& blood, const FilmLaws& laws) {
    const body::Species& own = draw.animal.own;
    const bool dog = blood.kind == body::Kind::dog;
    FilmBlood film;
    film.blood = blood;
    film.redVariation = draw.bench.counter->sizes(blood.kind).redSpread;
    redCellsOf(film, draw);
    const double each = laws.red.fibrinogenOfGlobulin;
    film.proteinExcess =
        over(held(draw, Analyte::globulin) + each * held(draw, Analyte::fibrinogen),
             own.protein.globulin + each * own.acutePhase.fibrinogen) -
        1;
    film.cholesterol = over(held(draw, Analyte::cholesterol), own.sugar.cholesterol);
    film.lymphocytes = over(held(draw, Analyte::lymphocytes), own.whiteCells.lymphocytes);
    film.platelets = over(blood.platelets, own.platelets.count);
    const double acute = over(held(draw, dog ? Analyte::CRP : Analyte::SAA),
                              dog ? own.acutePhase.crp : own.acutePhase.saa);
    film.acutePhase = std::log10(std::max(1., acute));
    film.liverWork = draw.truth.work(body::Tissue::liver);
    film.urea = held(draw, Analyte::urea);
    film.age = draw.animal.who.age + draw.truth.hour;
    const body::Sex sex = draw.animal.who.sex;
    film.female = sex == body::Sex::female || sex == body::Sex::spayedFemale;
    if (const Tube* edta = draw.specimen.handling.tube("edta"); edta && draw.bench.specimen)
        film.edtaExcess = 1 / edta->fill - 1;
    film.signs = draw.specimen.signs;
    return film;
}

/// The film that was made of the tube. What an animal has for life is the same on each of them.
Slide slideOf(const Draw& draw, const Blood& blood) {
    const FilmLaws& laws = *draw.bench.film;
    base::Chance animal(draw.animal.who.seed, base::Purpose::slide, 1);
    base::Chance day = draw.chance(base::Purpose::slide);
    return made(laws, filmBloodOf(draw, blood, laws), animal, day);
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
    return {pass(counter, blood, tuning, red, white), readFilm(counter, blood, reader, film),
            draw.bench.film ? slideOf(draw, blood) : Slide{}};
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
