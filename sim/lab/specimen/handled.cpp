#include "lab/specimen/handled.h"

#include "lab/assay/electrode.h"
#include "lab/specimen/spin.h"
#include "lab/specimen/tube.h"
#include "lab/specimen/wait.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr std::array whites{Analyte::WBC,         Analyte::neutrophils, Analyte::bands,
                            Analyte::lymphocytes, Analyte::monocytes,   Analyte::eosinophils};

/// Blood as it came from the animal, and what is needed of it more than once.
struct Blood {
    const SpecimenLaws& laws;
    const body::Individual& animal;
    const Levels& level;
    const Handling& handling;
    double clean;
    double hematocrit, filling; ///< share; hemoglobin of the cells [g/L]
    double cells;               ///< their volume to that of plasma
    Drawn drawn{};

    const Tube& tube(std::string_view name, const Tube& usual) const {
        const Tube* found = handling.tube(name);
        return found ? *found : usual;
    }
};

void refuse(const Handling& handling) {
    const auto check = [](bool sound) {
        if (!sound)
            throw std::invalid_argument("a specimen's handling needs finite times, none of them "
                                        "negative, and tubes that hold blood");
    };
    const auto amount = [](double x) { return x >= 0 && std::isfinite(x); };
    check(amount(handling.unseparated) && amount(handling.lightFor) && amount(handling.filmAfter));
    check(std::isfinite(handling.temperature) && handling.attempts >= 1);
    for (const Tube& tube : handling.tubes)
        check(amount(tube.clot) && amount(tube.rcf) && amount(tube.minutes) && tube.fill > 0 &&
              std::isfinite(tube.fill) && tube.inversions >= 0);
}

double warmth(const Blood& blood) {
    return quickened(blood.laws.wait, blood.handling.temperature, Handling{}.temperature);
}

/// Hours on the cells, more (or fewer) than a usual tube's.
double longer(const Blood& blood, const Tube& tube) {
    return tube.clot + blood.handling.unseparated - usualTube(tube.name).clot;
}

/// Cells eat glucose and turn it into acid, until they are parted from it.
void eat(const Blood& blood, const Tube& tube, Prepared& out) {
    const WaitLaws& wait = blood.laws.wait;
    const double perHour = blood.laws.of(blood.animal.who.kind).glycolysis;
    const body::WhiteCellParameters& own = blood.animal.own.whiteCells;
    const double ownWhites =
        own.neutrophils + own.bands + own.lymphocytes + own.monocytes + own.eosinophils;
    const double cells =
        (1 - wait.ofWhiteCells) * blood.hematocrit / blood.animal.own.redCells.hematocrit +
        wait.ofWhiteCells * blood.level(Analyte::WBC) / ownWhites;
    double hours = tube.clot + blood.handling.unseparated;
    if (tube.name == "fluoride") hours = std::min(hours, blood.laws.tubes.fluorideLag);
    const auto left = [&](double temperature, double stood) {
        return glucoseLeft(perHour, cells * quickened(wait, temperature, wait.glycolysisAt), stood);
    };
    double share = left(blood.handling.temperature, hours) /
                   left(Handling{}.temperature, usualTube("serum").clot);
    out[Analyte::tCO2].plus -= wait.acid * blood.level(Analyte::glucose) * (1 - share);
    if (tube.name == "fluoride") share *= 1 - blood.laws.tubes.fluorideShift;
    out[Analyte::glucose].times *= share;
}

/// Broken cells give all that they hold, standing ones a little of it each hour.
void spill(const Blood& blood, double freeHemoglobin, double hours, Prepared& out) {
    const CellLaws& cells = blood.laws.cells;
    const WaitLaws& wait = blood.laws.wait;
    const double hemoglobin = blood.filling * blood.cells; // of all cells [g/L of plasma]
    const double salts = freeHemoglobin + wait.saltLeak * hours * hemoglobin;
    const double enzymes = freeHemoglobin + wait.enzymeLeak * hours * hemoglobin;
    const double inside =
        blood.animal.who.potassiumRichCells ? cells.richPotassium : cells.potassium;
    const double mixed = salts / blood.filling; // volume of cells to that of plasma
    out[Analyte::K].times -= mixed;
    out[Analyte::K].plus += mixed * inside;
    out[Analyte::P].plus += salts * cells.phosphate;
    out[Analyte::LDH].plus += enzymes * cells.LDH;
    out[Analyte::AST].plus += enzymes * cells.AST;
}

/// What serum and every plasma have in common.
Prepared parted(const Blood& blood, const Tube& tube) {
    Prepared out;
    const double loose = blood.laws.spin.loose * afloat(blood.laws.spin, tube);
    const double broken = blood.drawn.hemolysis +
                          shaken(blood.laws.mixing, tube) * blood.filling * blood.cells +
                          loose * blood.filling; // opened by the reagents
    eat(blood, tube, out);
    spill(blood, broken, longer(blood, tube), out);
    out[Analyte::ammonia].plus += blood.laws.wait.ammonia * longer(blood, tube) * warmth(blood);
    out.color = {blood.clean + broken, blood.level(Analyte::bilirubin),
                 blood.level(Analyte::triglycerides) +
                     blood.laws.spin.haze * afloat(blood.laws.spin, tube)};
    out.solids =
        solidsIn(blood.animal, blood.level(Analyte::protein), blood.level(Analyte::triglycerides));
    return out;
}

Prepared serumOf(const Blood& blood, const Tube& tube) {
    const SpecimenLaws& laws = blood.laws;
    Prepared out = parted(blood, tube);
    const double left = bilirubinLeft(laws.wait, blood.handling.light, blood.handling.lightFor) /
                        bilirubinLeft(laws.wait, Light::room, Handling{}.lightFor);
    out[Analyte::bilirubin].times *= left;
    out.color.icterus *= left;

    const double perPlatelet = laws.of(blood.animal.who.kind).plateletPotassium;
    const double own = blood.animal.own.platelets.count; // part of the animal's potassium
    if (tube.name == "serum") {
        out.fibrin = fibrinLeft(laws.spin, tube.clot);
        out[Analyte::K].plus += perPlatelet * (blood.level(Analyte::platelets) - own);
    } else { // nothing clotted
        out[Analyte::K].plus -= perPlatelet * own;
        out[Analyte::protein].plus += blood.level(Analyte::fibrinogen);
    }

    const double edta = edtaInSerum(laws.tubes, blood.handling, blood.hematocrit);
    const auto bind = [&](Analyte analyte, double half) {
        out[analyte].times *= unbound(half, laws.tubes.chelation, edta);
    };
    out[Analyte::K].plus += 2 * edta; // it is the salt of two potassium
    bind(Analyte::Ca, laws.tubes.calciumHalf);
    bind(Analyte::Mg, laws.tubes.magnesiumHalf);
    bind(Analyte::ALP, laws.tubes.alpHalf);
    return out;
}

Cells cellsOf(const Blood& blood, const Tube& edta) {
    const MixingLaws& mixing = blood.laws.mixing;
    const WaitLaws& wait = blood.laws.wait;
    const double stood = blood.handling.filmAfter * warmth(blood);
    const double older = std::max(0., stood - Handling{}.filmAfter);
    const double broken =
        blood.drawn.hemolysis / (blood.filling * blood.cells) + shaken(mixing, edta);
    Cells out;
    out.clot = blood.drawn.clot;
    out.redCells = (1 - mixing.redCells * out.clot) * std::max(0., 1 - broken);
    out.whiteCells = 1 - mixing.whiteCells * out.clot;
    out.platelets = (1 - mixing.platelets * out.clot) * std::exp(-wait.plateletLoss * older);
    const double later = -std::expm1(-blood.laws.of(blood.animal.who.kind).clumpsOfTime * older);
    out.clumped = blood.drawn.clumped + (mixing.clumped - blood.drawn.clumped) * later;
    if (out.clumped > 0) out.clumpSize = mixing.clumpSize;
    out.swollen = swollen(wait, older);
    const TubeLaws& tubes = blood.laws.tubes;
    out.shrunkenSpun =
        shrunken(tubes, edtaIn(tubes, edta.fill)) / shrunken(tubes, edtaIn(tubes, 1));
    out.shrunkenCount = 1 - (1 - tubes.swollenBack) * (1 - out.shrunkenSpun);
    out.old = stood;
    return out;
}

Prepared bloodOf(const Blood& blood, const Tube& edta, const Cells& cells) {
    Prepared out;
    out.color = parted(blood, edta).color;
    const double size = cells.swollen * cells.shrunkenCount;
    out[Analyte::RBC].times = out[Analyte::reticulocytes].times = cells.redCells;
    out[Analyte::Hb].times = 1 - blood.laws.mixing.redCells * cells.clot; // what is free is read
    out[Analyte::MCV].times = size;
    out[Analyte::Hct].times = cells.redCells * size;
    out[Analyte::MCHC].times = 1 / size;
    out[Analyte::PCV].times = cells.redCells * cells.swollen * cells.shrunkenSpun;
    for (Analyte kind : whites) out[kind].times = cells.whiteCells;
    out[Analyte::platelets].times = cells.platelets * (1 - cells.clumped);
    return out;
}

/// Water that left the cells thins protein; EDTA and free hemoglobin bend light as protein does.
Prepared plasmaOf(const Blood& blood, const Tube& edta, const Cells& cells) {
    Prepared out = parted(blood, edta);
    const TubeLaws& tubes = blood.laws.tubes;
    const double surplus =
        (edtaIn(tubes, edta.fill) - edtaIn(tubes, 1)) / (1 - blood.hematocrit); // [g/L]
    out[Analyte::TP].times = 1 / (1 + blood.cells * (1 - cells.shrunkenSpun));
    out[Analyte::TP].plus = tubes.refraction * surplus + out.color.hemolysis - blood.clean;
    return out;
}

Prepared citrateOf(const Blood& blood, const Tube& citrate) {
    Prepared out = parted(blood, citrate);
    const TubeLaws& tubes = blood.laws.tubes;
    const double plasma = plasmaOfCitrate(tubes, citrate.fill, blood.hematocrit) /
                          plasmaOfCitrate(tubes, 1, blood.hematocrit);
    out[Analyte::fibrinogen].times = plasma;
    out[Analyte::PT].times = std::pow(plasma, -tubes.ptOfDilution);
    out[Analyte::aPTT].times = std::pow(plasma, -tubes.apttOfDilution);
    return out;
}

} // namespace

double solidsIn(const body::Individual& animal, double protein, double triglycerides) {
    constexpr double fatMass = body::triglycerideMass * 1e-3; // [g/mmol]
    const body::Species& own = animal.own;
    const double change =
        solids(protein, fatMass * triglycerides) -
        solids(own.protein.albumin + own.protein.globulin, fatMass * own.sugar.triglycerides);
    return std::clamp(Cup{}.solids + change, 0., 0.5);
}

double Alteration::of(double level) const {
    return std::max(0., level * times + plus);
}

const Prepared& Handled::of(std::string_view specimen) const {
    if (specimen == "serum") return serum;
    if (specimen == "EDTA plasma") return plasma;
    if (specimen == "EDTA blood") return blood;
    if (specimen == "citrate plasma") return citrate;
    if (specimen == "urine") return urine;
    throw std::invalid_argument("no specimen is called \"" + std::string(specimen) + "\"");
}

Handled handled(const SpecimenLaws& laws, const body::Individual& animal, const Levels& level,
                const Handling& handling, double clean, base::Chance& needle) {
    const Tube usual = usualTube("edta");
    const Tube* edta = handling.tube("edta");
    return handled(laws, animal, level, handling, clean,
                   drawn(laws, animal.who.kind, handling, edta ? *edta : usual, needle));
}

Handled handled(const SpecimenLaws& laws, const body::Individual& animal, const Levels& level,
                const Handling& handling, double clean, const Drawn& drawn) {
    refuse(handling);
    const double hematocrit = level(Analyte::Hct);
    Blood blood{laws,
                animal,
                level,
                handling,
                clean,
                hematocrit,
                level(Analyte::MCHC),
                hematocrit / (1 - hematocrit),
                drawn};
    const Tube usualSerum = usualTube("serum"), usualEdta = usualTube("edta"),
               usualCitrate = usualTube("citrate");
    const Tube& edta = blood.tube("edta", usualEdta);

    Handled out;
    const Tube* heparin = handling.tube("serum") ? nullptr : handling.tube("heparin");
    out.serum = serumOf(blood, heparin ? *heparin : blood.tube("serum", usualSerum));
    if (const Tube* fluoride = handling.tube("fluoride")) {
        Prepared other;
        eat(blood, *fluoride, other);
        out.serum[Analyte::glucose] = other[Analyte::glucose];
    }
    out.cells = cellsOf(blood, edta);
    out.blood = bloodOf(blood, edta, out.cells);
    out.plasma = plasmaOf(blood, edta, out.cells);
    out.citrate = citrateOf(blood, blood.tube("citrate", usualCitrate));
    return out;
}

} // namespace cistern::lab
