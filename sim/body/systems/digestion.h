#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Exocrine pancreas, gut lining, and fat from a meal.
struct DigestionParameters {
    double acinarLeakLag;     ///< [h]
    double gutLag;            ///< of the lining's work behind what it loses [h]
    double halfWorkLoss;      ///< protein loss at which half its work is gone [g/kg/h]
    double healthyLoss;       ///< protein lost by a healthy gut [g/kg/h]
    double fatOfMeal, fatLag; ///< triglycerides that a long meal would hold [mmol/L]; [h]
};

template<class T>
struct DigestionConstants {
    T perHalfWorkLoss, perHealthyLoss, fatOfMeal;
};

template<class T>
struct DigestionRates {
    T acinarLeak, gut, fat;
};

template<class T>
struct DigestionState {
    T acini, acinarLeak; ///< living share; fold above healthy
    T gut;               ///< share of the lining's work
    T fat;               ///< triglycerides on their way from a meal [mmol/L]
};

void eachParameter(DigestionParameters& p, const Visit& visit);
void setDigestion(const Species& s, Constants<double>& c);
void restDigestion(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
