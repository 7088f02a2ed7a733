#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Stages of a neutrophil's way through the marrow. Of all chains with positive rates the even one
/// spreads least; it takes 42 behind the last division to spread arrival in blood no more than
/// labelled cells do.
inline constexpr int dividingStages = 3, maturingStages = 15, bandStages = 6, storedStages = 21;

/// Neutrophils, lymphocytes, monocytes, eosinophils. Counts are healthy ones [10*9/L].
struct WhiteCellParameters {
    double neutrophils, bands;         ///< segmented and band cells
    double marginated, bloodHalfLife;  ///< share of those in blood that cling to vessels; [h]
    double dividing, maturing, stored; ///< time in each pool of the marrow [h]
    double stimulationLag;             ///< of the marrow's answer [h]
    double stimulationOfLack;          ///< by blood that holds none, share
    double stimulatedInput, stimulatedOutput;     ///< rise at full stimulation, folds
    double stimulatedDivision, stimulatedTransit; ///< rise of the pace, folds
    double release;                               ///< of the stored per unit of signal [1/h]
    double releaseLag, releaseMost;          ///< [h]; greatest signal, of fresh inflammation's own
    double releaseOfCortisol, releaseOfLack; ///< signal
    double bandsReleased, bandsOfEmptyStore; ///< with the stored cells, share of their release
    double tissueDemand; ///< rise of the loss at the greatest inflammation, folds
    double stayOfCortisol, stayOfInflammation; ///< fall of the loss, share
    double freedByFright, freedByCortisol;     ///< share of the clinging cells
    double earlyClinging;                      ///< of circulating cells in fresh inflammation
    double toxicLag, toxicFromFullStore;       ///< [h]; share toxic at the greatest inflammation
    double lymphocytes, lymphocyteExchange;    ///< [1/h]
    double lymphocytesOfCortisol, lymphocytesOfInflammation, lymphocytesOfFright; ///< share, folds
    double monocytes, monocyteHalfLife, monocyteMaking;                           ///< [h], [h]
    double monocytesOfInflammation, monocytesOfCortisol, monocytesOfFright;       ///< folds
    double eosinophils, eosinophilHalfLife, eosinophilMaking;                     ///< [h], [h]
    double eosinophilsOfParasites, eosinophilsOfCortisol;                         ///< folds, share
};

/// Amounts in 10*9 per kg.
template<class T>
struct WhiteCellConstants {
    T input;                     ///< into division [10*9/kg/h]
    T perNeutrophils, perStored; ///< of healthy blood (both kinds, clinging too), of the store
    T stimulationOfLack, stimulatedInput, stimulatedOutput, stimulatedDivision, stimulatedTransit;
    T release, releaseMost, perReleaseMost, releaseOfCortisol, releaseOfLack;
    T bandsAtRest, bandsReleased, bandsOfEmptyStore; ///< [1/h]; shares of release
    T dividing, maturing, stored, leaving;           ///< pace of one stage, of the blood [1/h]
    T tissueDemand, stayOfCortisol, stayOfInflammation;
    T marginated, freedByFright, freedByCortisol, earlyClinging, toxicFromFullStore;
    T lymphocytes, lymphocyteExchange, lymphocytesOfCortisol, lymphocytesOfInflammation,
        lymphocytesOfFright;
    T monocytes, monocyteLoss, monocytesOfInflammation, monocytesOfCortisol, monocytesOfFright;
    T eosinophils, eosinophilLoss, eosinophilsOfParasites, eosinophilsOfCortisol;
};

template<class T>
struct WhiteCellRates {
    T stimulation, release, toxic, lymphocytes, monocyteMaking, monocytes, eosinophilMaking,
        eosinophils;
};

/// Amounts in 10*9 per kg.
template<class T>
struct WhiteCellState {
    T dividing[dividingStages], maturing[maturingStages], banded[bandStages],
        stored[storedStages]; ///< in marrow
    T bands, segmented;       ///< in blood, clinging ones too
    T toxic;                  ///< of these, with toxic change
    T stimulation, release;   ///< marrow stimulation, release signal
    T toxicMarrow;            ///< share of what leaves the marrow with toxic change
    T lymphocytes, monocyteMaking, monocytes, eosinophilMaking, eosinophils; ///< making: fold
};

void eachParameter(WhiteCellParameters& p, const Visit& visit);
/// Throws std::invalid_argument unless there are fewer bands than segmented cells.
void setWhiteCells(const Species& s, Constants<double>& c);
void restWhiteCells(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
