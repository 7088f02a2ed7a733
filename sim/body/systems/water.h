#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Body water and the salt that holds it outside the cells.
struct WaterParameters {
    double total, extracellular, sodium, isotonicShare, lag;
    double waterOfAldosterone; ///< water lost for good without aldosterone [L/kg]
    double saltOfAldosterone;  ///< share of extracellular sodium lost for good without it
};

template<class T>
struct WaterConstants {
    T water, cellSodium, salt, saltPerLoss, perExtracellular;
    T plasma; ///< healthy plasma volume [L/kg]
    T sodium, waterOfAldosterone, saltOfAldosterone, refillTime;
};

template<class T>
struct WaterRates {
    T refill;
};

template<class T>
struct WaterState {
    T total, salt; ///< [L/kg], [mmol/kg]
};

void eachParameter(WaterParameters& p, const Visit& visit);
void setWater(const Species& s, Constants<double>& c);
void restWater(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
