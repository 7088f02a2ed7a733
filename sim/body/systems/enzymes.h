#pragma once
#include "body/names.h"
#include "body/parameter.h"

namespace cistern::body {

/// One enzyme in one species. All per kg body weight. (TLI and cTnI, in ug, move alike.)
struct EnzymePool {
    double setPoint = 0;           ///< healthy plasma level [U/L]
    double halfLife = 0;           ///< in plasma [h]
    double volume = 0;             ///< of distribution [L/kg]
    double liverContent = 0;       ///< [U/g liver]
    double muscleContent = 0;      ///< [U/g muscle]
    double heartContent = 0;       ///< [U/g heart muscle]
    double redCellContent = 0;     ///< [U/10*12 cells]
    double mitochondrialShare = 0; ///< of the liver's content, 0..1; leaves only dying cells
    double cytosolYield =
        0; ///< share of a dying cell's cytosolic content that reaches plasma alive
    double mitochondrialYield = 0;
    double pancreaticShare = 0; ///< of the healthy level, from acinar cells
    double acinarGain = 0;      ///< rise of that part per fold of acinar leak
    double otherShare = 0;      ///< of the healthy level, from tissues that the model leaves out
    double renalShare = 0;      ///< of clearance, by filtration
};
struct BoneParameters {
    double growthAtOneMonth, growthLag; ///< bone ALP: 1 + gain exp(-(age - 1 mo)/lag)
    double turnoverOfThyroxine;         ///< rise of it per fold of thyroxine's effect
};

/// How one enzyme's plasma level answers: the level that its inflow would hold, as a linear sum.
template<class T>
struct EnzymeGain {
    T living;  ///< per living share of liver, at healthy leak [U/L]
    T leaking; ///< per living share and fold of leak above healthy [U/L]
    T cytosol; ///< per share of dying liver still losing cytosol [U/L]
    T mitochondria;
    T muscle;     ///< per flow of the muscle [U/L per share/h]
    T heart;      ///< per flow of the heart [U/L per share/h]
    T redCells;   ///< per hemolysis [U/L per 10*12 cells/kg/h]
    T acini;      ///< per living share of acini, at healthy leak [U/L]
    T acinarLeak; ///< per living share and fold of leak above healthy [U/L]
    T other;      ///< [U/L]
    T renal;      ///< share of clearance by filtration
    T inPlasma;   ///< share of the pool that bleeding reaches
    T clearance;  ///< plasma cleared [L/kg/h]
};

template<class T>
struct EnzymeConstants {
    EnzymeGain<T> gain[poolCount];
    T boneLevel, boneOfThyroxine;
    T alpContent, alpWash, alpSteroid, alpPhenobarbital, steroidAlpContent;
    T ggtContent, ggtWash, ggtSteroid;
};

template<class T>
struct EnzymeRates {
    T growth, pool[poolCount];
};

template<class T>
struct EnzymeState {
    T growth;
    T level[poolCount]; ///< at healthy filling of the vessels [U/L]
};

void eachParameter(EnzymePool& p, Pool which, const Visit& visit);
void eachParameter(BoneParameters& p, const Visit& visit);
/// Throws std::invalid_argument, naming the enzyme, if a set point leaves no room for the liver's
/// part.
void setEnzymes(const Species& s, Constants<double>& c);
void restEnzymes(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
