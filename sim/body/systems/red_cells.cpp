#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

namespace {

constexpr double ironOfHemoglobin = 3.4; // mg/g, by the formula of hemoglobin

} // namespace

void eachParameter(RedCellParameters& p, const Visit& visit) {
    const Section red("red cells", visit);
    red("blood volume", "L/kg", p.bloodVolume, 0.02, 0.2);
    red("hematocrit", "1", p.hematocrit, 0.05, 0.8);
    red("count", "10*12/L", p.count, 0.5, 20);
    red("hemoglobin", "g/L", p.hemoglobin, 20, 300);
    red("refill half-time", "h", p.refillHalf, 0.5, 100);
    red("share in the spleen", "1", p.spleenShare, 0, 0.5);
    red("lag of the spleen", "h", p.contractionLag, 0.07, 5);
    red("contraction by bleeding", "1", p.contractionOfBleeding, 0, 100);
    red("life", "h", p.life, 500, 10000);
    red("output most", "1", p.outputMost, 1.1, 20);
    red("steepness of output", "1", p.steepness, 0.05, 3);
    red("hematocrit per decade", "1", p.hematocritPerDecade, 0.02, 1);
    red("lag of erythropoietin", "h", p.erythropoietinLag, 1, 100);
    red("erythropoietin of the kidney", "1", p.erythropoietinOfKidney, 0, 1.3);
    red("marrow time", "h", p.marrowTime, 10, 500);
    red("reticulocytes in marrow", "h", p.marrowReticulocyteTime, 2, 200);
    red("reticulocytes in blood", "h", p.reticulocyteLife, 2, 200);
    red("young cells", "h", p.youngLife, 2, 500);
    red("longer stay of reticulocytes", "1", p.longerStay, 0, 3);
    red("share released as aggregates", "1", p.aggregateShare, 0.05, 1);
    red("volume of reticulocytes", "1", p.reticulocyteVolume, 0.5, 3);
    red("volume of reticulocytes per decade", "1", p.volumeOfDrive, 0, 2);
    red("volume of young cells", "1", p.youngVolume, 0.5, 3);
    red("hemoglobin of reticulocytes", "1", p.reticulocyteHemoglobin, 0.3, 2);
    red("hemoglobin of young cells", "1", p.youngHemoglobin, 0.3, 2);
    red("iron store", "mg/kg", p.ironStore, 0.5, 100);
    red("store at half supply", "1", p.halfSupply, 0.005, 1);
    red("iron absorption", "mg/kg/h", p.ironAbsorption, 1e-5, 0.1);
    red("iron absorption most", "1", p.ironAbsorptionMost, 1, 50);
    red("volume lost without iron", "1", p.volumeOfLack, 0, 0.8);
    red("hemoglobin lost without iron", "1", p.hemoglobinOfLack, 0, 0.8);
    red("erythropoietin in inflammation", "1", p.erythropoietinOfInflammation, 0, 3);
    red("iron held in inflammation", "1", p.ironHeld, 0, 0.9);
    red("loss in inflammation", "1/h", p.lossOfInflammation, 0, 0.01);
    red("loss in uremia", "1/h", p.lossOfUremia, 0, 0.01);
}

void setRedCells(const Species& s, Constants<double>& c) {
    const auto& p = s.redCells;
    auto& r = c.redCells;
    r.bloodVolume = p.bloodVolume;
    r.perBloodVolume = 1 / p.bloodVolume;
    r.hematocrit = p.hematocrit;
    r.perHematocritDecade = 1 / p.hematocritPerDecade;
    r.spleenShare = p.spleenShare;
    r.contractionOfBleeding = p.contractionOfBleeding * p.contractionLag;
    const double cells = p.count * p.bloodVolume / (1 - p.spleenShare);
    r.output = cells / p.life;
    r.perOutput = 1 / r.output;
    r.outputMost = p.outputMost;
    r.steepness = p.steepness * std::log(10.0);
    r.erythropoietinOfInflammation = p.erythropoietinOfInflammation;
    r.erythropoietinOfKidney = p.erythropoietinOfKidney;
    r.marrowStageTime = p.marrowTime / 3;
    r.marrowReticulocyteTime = p.marrowReticulocyteTime;
    r.reticulocyteLife = p.reticulocyteLife;
    r.youngLife = p.youngLife;
    const double fresh =
        p.aggregateShare * p.reticulocyteLife; // mean stay of all that are released
    const double old = p.life - p.youngLife - fresh;
    if (!(old > 0)) throw std::invalid_argument("red cells live shorter than they are young");
    r.ageingTime = old / 2;
    r.life = p.life;
    r.longerStay = p.longerStay;
    r.aggregateShare = p.aggregateShare;
    // The mature cell follows from the mean of all, so that the healthy film is exact.
    r.volume = p.hematocrit / p.count * p.life /
               (fresh * p.reticulocyteVolume + p.youngLife * p.youngVolume + old);
    r.hemoglobin = p.hemoglobin / p.count * p.life /
                   (fresh * p.reticulocyteHemoglobin + p.youngLife * p.youngHemoglobin + old);
    r.reticulocyteVolume = p.reticulocyteVolume;
    r.volumeOfDrive = p.volumeOfDrive;
    r.youngVolume = p.youngVolume;
    r.reticulocyteHemoglobin = p.reticulocyteHemoglobin;
    r.youngHemoglobin = p.youngHemoglobin;
    r.volumeOfLack = p.volumeOfLack;
    r.hemoglobinOfLack = p.hemoglobinOfLack;
    r.ironOfCells = ironOfHemoglobin * r.hemoglobin / p.ironStore;
    r.absorption = p.ironAbsorption / p.ironStore;
    r.ironTime = 1 / (r.ironOfCells * r.output + r.absorption);
    r.absorptionMost = p.ironAbsorptionMost;
    r.halfSupply = p.halfSupply;
    r.ironHeld = p.ironHeld;
    r.lossOfInflammation = p.lossOfInflammation;
    r.lossOfUremia = p.lossOfUremia;
    r.perHemoglobin = 1 / r.hemoglobin;
    r.perCirculating = 1 / (p.hemoglobin * p.bloodVolume);
    c.rate.redCells = {std::log(2.0) / p.refillHalf,
                       1 / p.contractionLag,
                       1 / p.erythropoietinLag,
                       1 / r.marrowStageTime,
                       1 / p.marrowReticulocyteTime,
                       1 / (p.marrowTime + p.marrowReticulocyteTime),
                       1 / p.reticulocyteLife,
                       1 / p.youngLife,
                       1 / r.ageingTime,
                       1 / r.ironTime};
}

void restRedCells(const Species& s, const Constants<double>& c, double, State<double>& y) {
    const auto& p = s.redCells;
    const auto& r = c.redCells;
    y.redCells = {};
    y.redCells.plasma = p.bloodVolume * (1 - p.hematocrit);
    for (double& stage : y.redCells.marrow) stage = r.output * r.marrowStageTime;
    y.redCells.marrowReticulocytes = r.output * r.marrowReticulocyteTime;
    y.redCells.reticulocytes = r.output * r.aggregateShare * r.reticulocyteLife;
    y.redCells.young = r.output * r.youngLife;
    for (double& stage : y.redCells.ageing) stage = r.output * r.ageingTime;
    y.redCells.iron = 1;
}

} // namespace cistern::body
