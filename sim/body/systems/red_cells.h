#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Red cells from marrow to old age, the iron in them, the spleen that keeps some, and plasma.
struct RedCellParameters {
    double bloodVolume; ///< circulating; what the spleen keeps comes on top [L/kg]
    double hematocrit, count, hemoglobin;      ///< healthy: share, [10*12/L], [g/L]
    double refillHalf;                         ///< half-time of plasma's return [h]
    double spleenShare;                        ///< of all red cells, at rest
    double contractionLag;                     ///< of the spleen [h]
    double contractionOfBleeding;              ///< per share of blood lost
    double life;                               ///< of a red cell [h]
    double outputMost;                         ///< of the marrow, fold
    double steepness;                          ///< of output over erythropoietin, per decade
    double hematocritPerDecade;                ///< fall that calls tenfold erythropoietin, share
    double erythropoietinLag;                  ///< [h]
    double erythropoietinOfKidney;             ///< decades lost with three quarters of the nephrons
    double marrowTime, marrowReticulocyteTime; ///< [h]
    double reticulocyteLife, youngLife;        ///< in blood; of the cells after them [h]
    double longerStay;     ///< of reticulocytes in blood, shorter in marrow, per decade
    double aggregateShare; ///< of released cells that are reticulocytes as counted
    double reticulocyteVolume, volumeOfDrive, youngVolume; ///< over mature; growth per decade
    double reticulocyteHemoglobin, youngHemoglobin;        ///< over mature
    double ironStore;                                      ///< [mg/kg]
    double halfSupply;     ///< share of the store at which half the marrow's iron is lacking, about
    double ironAbsorption; ///< [mg/kg/h]
    double ironAbsorptionMost;                     ///< fold, with an empty store, about
    double volumeOfLack, hemoglobinOfLack;         ///< lost by cells made without iron, share
    double erythropoietinOfInflammation, ironHeld; ///< decades; share of iron kept from marrow
    double lossOfInflammation, lossOfUremia;       ///< of red cells, beyond ageing [1/h]
};

template<class T>
struct RedCellConstants {
    T bloodVolume, perBloodVolume, hematocrit, perHematocritDecade, spleenShare,
        contractionOfBleeding;
    T output;    ///< healthy, of the marrow [10*12/kg/h]
    T perOutput; ///< its inverse
    T outputMost, steepness, erythropoietinOfInflammation, erythropoietinOfKidney;
    T marrowStageTime, marrowReticulocyteTime, reticulocyteLife, youngLife, ageingTime; ///< [h]
    T life, longerStay, aggregateShare;
    T volume, hemoglobin; ///< of mature cells [L/10*12], [g/10*12]
    T reticulocyteVolume, volumeOfDrive, youngVolume, reticulocyteHemoglobin, youngHemoglobin,
        volumeOfLack, hemoglobinOfLack;
    T ironOfCells; ///< share of the store that mature cells hold [kg/10*12]
    T absorption;  ///< at rest, share of the store [1/h]
    T ironTime;    ///< of the store, at rest [h]
    T absorptionMost, halfSupply, ironHeld, lossOfInflammation, lossOfUremia;
    T perHemoglobin;  ///< of a mature cell [10*12/g]
    T perCirculating; ///< inverse of the hemoglobin that circulates at rest [kg/g]
};

template<class T>
struct RedCellRates {
    T refill, contraction, erythropoietin, marrow, marrowReticulocytes, marrowLack, reticulocytes,
        young, ageing, iron;
};

/// Cells are amounts [10*12/kg], those in the spleen included. The lack of a pool is its cells
/// times the share of iron that was lacking when they were made.
template<class T>
struct RedCellState {
    T plasma;         ///< volume that the vessels draw in, at healthy body water [L/kg]
    T contraction;    ///< of the spleen, 1 empties it
    T erythropoietin; ///< decades above healthy
    T marrow[3], marrowReticulocytes, reticulocytes, young, ageing[2];
    T marrowLack; ///< share
    T reticulocyteLack, youngLack, ageingLack[2];
    T iron; ///< store, share of healthy
};

void eachParameter(RedCellParameters& p, const Visit& visit);
/// Throws std::invalid_argument if red cells live shorter than they are young.
void setRedCells(const Species& s, Constants<double>& c);
void restRedCells(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
