#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Potassium, phosphate, and what follows of sodium, chloride, bicarbonate, calcium, magnesium.
struct SaltParameters {
    double potassium, potassiumIntake, potassiumSpace; ///< [mmol/L], [mmol/kg/h], [L/kg]
    double potassiumHalf;  ///< filtration at which half its excretion is lost, about, share
    double potassiumFloor; ///< excretion without aldosterone, share
    double phosphate, phosphateSpace;                      ///< [mmol/L], [L/kg]
    double phosphateExcreted, phosphateMost, phosphateLag; ///< fraction of filtered; its most; [h]
    double phosphateOfThyroxine, phosphateOfAldosterone;   ///< what the kidney holds it at
    double tco2, chloride;                                 ///< [mmol/L]
    double uremicAcid, lactate, ketones;                   ///< [mmol/L]
    double tco2OfAldosterone;
    double calcium, calciumBound, calciumOfPhosphate, calciumOfAldosterone; ///< [mmol/L]; share
    double magnesium, magnesiumOfCreatinine;
    double sodiumOfGlucose; ///< fall per rise of glucose, mmol per mmol
};

template<class T>
struct SaltConstants {
    T potassiumIntake, potassiumLevel, potassiumAmount, perPotassium, potassiumHalf, potassiumFloor;
    T phosphateIntake, phosphateAmount, phosphate, perPhosphate, phosphateMost, phosphateBalance,
        phosphateOfThyroxine, phosphateOfAldosterone, phosphateExcreted;
    T tco2, gap, uremicAcid, lactate, ketones, tco2OfAldosterone;
    T calcium, calciumBound, calciumOfPhosphate, calciumOfAldosterone;
    T magnesium, magnesiumOfCreatinine, sodiumOfGlucose;
    T perCreatinine; ///< healthy level [L/umol]
};

template<class T>
struct SaltRates {
    T phosphateExcreted;
};

template<class T>
struct SaltState {
    T potassium, phosphate; ///< [mmol/kg]
    T excreted;             ///< fraction of filtered phosphate that is excreted
};

void eachParameter(SaltParameters& p, const Visit& visit);
void setSalts(const Species& s, Constants<double>& c);
void restSalts(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
