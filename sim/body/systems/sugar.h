#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Glucose, cholesterol, triglycerides.
struct SugarParameters {
    double glucose, output, space, threshold, insulinFree, insulinGain, insulinMost, liverMost,
        kidneyShare;
    double outputOfFright, insulinOfFright; ///< rise and share lost at the greatest fright
    double demandOfCortisol;                ///< demand lost without cortisol, share
    double cholesterol, cholesterolLag, cholesterolBile, cholesterolInsulin;
    double cholesterolOfKidneyLoss, cholesterolOfGutLoss; ///< per protein loss [kg h/g]
    double triglycerides, triglycerideLag, triglycerideInsulin, triglycerideCortisol;
};

template<class T>
struct SugarConstants {
    T glucose, perGlucose, output, uptake, insulinFree, insulinGain, insulinMost, insulinResistance,
        threshold, thresholdWidth, perSpace, liverMost, kidneyShare;
    T outputOfFright, insulinOfFright, demandOfCortisol;
    T cholesterol, cholesterolSteroid, cholesterolBile, cholesterolInsulin;
    T cholesterolOfKidneyLoss, cholesterolOfGutLoss;
    T triglycerides, triglycerideInsulin, triglycerideCortisol;
};

template<class T>
struct SugarRates {
    T cholesterol, triglycerides;
};

template<class T>
struct SugarState {
    T glucose, cholesterol, triglycerides; ///< [mmol/L]
};

void eachParameter(SugarParameters& p, const Visit& visit);
void setSugar(const Species& s, Constants<double>& c);
void restSugar(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
