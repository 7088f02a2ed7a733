#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// What portal blood carries to the liver: bile acids, ammonia.
struct BileAcidParameters {
    double space, fasting, pool, storedShare, mealStoredShare, extraction, plasmaFlow, portalShare,
        mealEmptying, uptake, lossPerPass, renalClearance, mealLength;
};
struct AmmoniaParameters {
    double level, space, extraction, elsewhere; ///< [umol/L], [L/kg], share, [L/kg/h]
    double ofMeal;                              ///< rise of production in a meal, share
};

template<class T>
struct PortalConstants {
    T uptake, kept, extraction, flow, made, renal, space;
    T storeRate, storeMealRate, stored, storedInMeal;
    T ammoniaMade, ammoniaExtraction, ammoniaElsewhere, perAmmoniaSpace, ammoniaOfMeal;
};

template<class T>
struct PortalState {
    T store, gut, acids; ///< [umol/kg], [umol/kg], [umol/L]
    T ammonia;           ///< [umol/L]
};

void eachParameter(BileAcidParameters& p, const Visit& visit);
void eachParameter(AmmoniaParameters& p, const Visit& visit);
void setPortal(const Species& s, Constants<double>& c);
void restPortal(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
