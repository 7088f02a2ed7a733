#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Bilirubin: exchangeable, and bound to albumin for good.
struct BilirubinParameters {
    double production, space, unconjugated, conjugated, backFlow, reserve, renalThreshold,
        renalClearance, deltaRate, deltaHalfLife, hemeLag;
};

template<class T>
struct BileConstants {
    /// exchange: share of what the pool holds beyond free uptake that is conjugated in plasma
    T hemeInflow, uptakeLevel, exchange, excretionMost, excretionHalf, renalClearance,
        renalThreshold, renalAdaptation, binding, deltaTime;
    T emptying; ///< conjugated level below which exchange runs dry, rounded [umol/L]
};

template<class T>
struct BileRates {
    T delta, heme;
};

template<class T>
struct BileState {
    T bilirubin, delta, heme; ///< [umol/L], fold
};

void eachParameter(BilirubinParameters& p, const Visit& visit);
void setBile(const Species& s, Constants<double>& c);
void restBile(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
