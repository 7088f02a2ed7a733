#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

namespace {

void eachNeutrophil(WhiteCellParameters& p, const Section& white) {
    white("neutrophils", "10*9/L", p.neutrophils, 0.5, 50);
    white("bands", "10*9/L", p.bands, 0, 5);
    white("marginated share", "1", p.marginated, 0, 0.9);
    white("half-life in blood", "h", p.bloodHalfLife, 3, 24);
    white("time dividing", "h", p.dividing, 10, 200);
    white("time maturing", "h", p.maturing, 20, 200);
    white("time stored", "h", p.stored, 20, 200);
    white("lag of stimulation", "h", p.stimulationLag, 1, 200);
    white("stimulation of lack", "1", p.stimulationOfLack, 0, 1);
    white("input of stimulation", "1", p.stimulatedInput, 0, 20);
    white("output of stimulation", "1", p.stimulatedOutput, 0, 10);
    white("pace of stimulated division", "1", p.stimulatedDivision, 0, 2);
    white("pace of stimulated transit", "1", p.stimulatedTransit, 0, 2);
    white("release of stored cells", "1/h", p.release, 0.001, 0.5);
    white("lag of release", "h", p.releaseLag, 0.3, 24);
    white("most release", "1", p.releaseMost, 1.2, 5);
    white("release of cortisol", "1", p.releaseOfCortisol, 0, 0.2);
    white("release of lack", "1", p.releaseOfLack, 0, 2);
    white("bands released", "1", p.bandsReleased, 0, 1);
    white("bands of an empty store", "1", p.bandsOfEmptyStore, 0, 2);
    white("demand of tissue", "1", p.tissueDemand, 0, 15);
    white("stay of cortisol", "1", p.stayOfCortisol, 0, 0.9);
    white("stay of inflammation", "1", p.stayOfInflammation, 0, 0.9);
    white("freed by fright", "1", p.freedByFright, 0, 1);
    white("freed by cortisol", "1", p.freedByCortisol, 0, 1);
    white("early clinging", "1", p.earlyClinging, 0, 5);
    white("lag of toxic change", "h", p.toxicLag, 1, 200);
    white("toxic change from a full store", "1", p.toxicFromFullStore, 0, 1);
}

void eachOther(WhiteCellParameters& p, const Section& white) {
    white("lymphocytes", "10*9/L", p.lymphocytes, 0.1, 20);
    white("lymphocyte exchange", "1/h", p.lymphocyteExchange, 0.05, 2);
    white("lymphocytes of cortisol", "1", p.lymphocytesOfCortisol, 0, 1);
    white("lymphocytes of inflammation", "1", p.lymphocytesOfInflammation, 0, 5);
    white("lymphocytes of fright", "1", p.lymphocytesOfFright, 0, 10);
    white("monocytes", "10*9/L", p.monocytes, 0.01, 5);
    white("monocyte half-life", "h", p.monocyteHalfLife, 2, 100);
    white("time of monocyte making", "h", p.monocyteMaking, 10, 500);
    white("monocytes of inflammation", "1", p.monocytesOfInflammation, 0, 20);
    white("monocytes of cortisol", "1", p.monocytesOfCortisol, 0, 5);
    white("monocytes of fright", "1", p.monocytesOfFright, 0, 5);
    white("eosinophils", "10*9/L", p.eosinophils, 0.01, 5);
    white("eosinophil half-life", "h", p.eosinophilHalfLife, 1, 50);
    white("time of eosinophil making", "h", p.eosinophilMaking, 10, 1000);
    white("eosinophils of parasites", "1", p.eosinophilsOfParasites, 0, 50);
    white("eosinophils of cortisol", "1", p.eosinophilsOfCortisol, 0, 1);
}

} // namespace

void eachParameter(WhiteCellParameters& p, const Visit& visit) {
    const Section white("white cells", visit);
    eachNeutrophil(p, white);
    eachOther(p, white);
}

void setWhiteCells(const Species& s, Constants<double>& c) {
    const auto& p = s.whiteCells;
    auto& w = c.whiteCells;
    const double ln2 = std::log(2.0), blood = s.redCells.bloodVolume;
    const double held = blood / (1 - p.marginated); // amount in blood per count
    const double bandShare = p.bands / (p.neutrophils + p.bands);
    if (!(bandShare < 0.5))
        throw std::invalid_argument("healthy blood holds fewer bands than segmented cells");
    w.leaving = ln2 / p.bloodHalfLife;
    w.input = w.leaving * held * (p.neutrophils + p.bands);
    w.perNeutrophils = 1 / (held * (p.neutrophils + p.bands));
    w.dividing = dividingStages / p.dividing;
    w.maturing = (maturingStages + bandStages) / p.maturing;
    w.stored = storedStages / p.stored;
    w.perStored = w.stored / (storedStages * w.leaving * held * p.neutrophils);
    // A stage passes on what neither lingers nor slips out to blood; six in a row let the healthy
    // bands go.
    w.bandsAtRest = w.maturing * (std::pow(1 - bandShare, -1.0 / bandStages) - 1);
    w.stimulationOfLack = p.stimulationOfLack;
    w.stimulatedInput = p.stimulatedInput;
    w.stimulatedOutput = p.stimulatedOutput;
    w.stimulatedDivision = p.stimulatedDivision;
    w.stimulatedTransit = p.stimulatedTransit;
    w.release = p.release;
    w.releaseMost = p.releaseMost;
    w.perReleaseMost = 1 / p.releaseMost;
    w.releaseOfCortisol = p.releaseOfCortisol;
    w.releaseOfLack = p.releaseOfLack;
    w.bandsReleased = p.bandsReleased;
    w.bandsOfEmptyStore = p.bandsOfEmptyStore;
    w.tissueDemand = p.tissueDemand;
    w.stayOfCortisol = p.stayOfCortisol;
    w.stayOfInflammation = p.stayOfInflammation;
    w.marginated = p.marginated;
    w.freedByFright = p.freedByFright;
    w.freedByCortisol = p.freedByCortisol;
    w.earlyClinging = p.earlyClinging;
    w.toxicFromFullStore = p.toxicFromFullStore;
    w.lymphocytes = p.lymphocytes * blood;
    w.lymphocyteExchange = p.lymphocyteExchange;
    w.lymphocytesOfCortisol = p.lymphocytesOfCortisol;
    w.lymphocytesOfInflammation = p.lymphocytesOfInflammation;
    w.lymphocytesOfFright = p.lymphocytesOfFright;
    w.monocytes = p.monocytes * blood;
    w.monocyteLoss = ln2 / p.monocyteHalfLife;
    w.monocytesOfInflammation = p.monocytesOfInflammation;
    w.monocytesOfCortisol = p.monocytesOfCortisol;
    w.monocytesOfFright = p.monocytesOfFright;
    w.eosinophils = p.eosinophils * blood;
    w.eosinophilLoss = ln2 / p.eosinophilHalfLife;
    w.eosinophilsOfParasites = p.eosinophilsOfParasites;
    w.eosinophilsOfCortisol = p.eosinophilsOfCortisol;
    c.rate.whiteCells = {1 / p.stimulationLag,   1 / p.releaseLag,     1 / p.toxicLag,
                         p.lymphocyteExchange,   1 / p.monocyteMaking, w.monocyteLoss,
                         1 / p.eosinophilMaking, w.eosinophilLoss};
}

void restWhiteCells(const Species& s, const Constants<double>& c, double, State<double>& y) {
    const auto& p = s.whiteCells;
    const auto& w = c.whiteCells;
    auto& cells = y.whiteCells;
    cells = {};
    for (double& stage : cells.dividing) stage = w.input / w.dividing;
    for (double& stage : cells.maturing) stage = w.input / w.maturing;
    const double passed = w.maturing / (w.maturing + w.bandsAtRest);
    double banded = w.input / w.maturing;
    for (double& stage : cells.banded) stage = banded *= passed;
    for (double& stage : cells.stored) stage = banded * w.maturing / w.stored;
    const double held = s.redCells.bloodVolume / (1 - p.marginated);
    cells.bands = held * p.bands;
    cells.segmented = held * p.neutrophils;
    cells.lymphocytes = w.lymphocytes;
    cells.monocyteMaking = 1;
    cells.monocytes = w.monocytes;
    cells.eosinophilMaking = 1;
    cells.eosinophils = w.eosinophils;
}

} // namespace cistern::body
