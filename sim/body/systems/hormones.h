#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Signals that reach the whole body: inflammation, cortisol, aldosterone, thyroxine, adrenaline.
struct HormoneParameters {
    double fastTrace, dailyTrace, chronicTrace; ///< lags of the traces of inflammation [h]
    double illnessCortisol;             ///< stress of fresh inflammation, share of the greatest
    double cortisolLag, halfEffectDose; ///< [h], [mg/kg/d]
    double adrenalReserve;              ///< living share at which half the output is lost, about
    double cortisol;                    ///< at rest [nmol/L]
    double cortisolInStress;            ///< rise at the greatest stress, folds of rest
    double suppressingDose;             ///< given dose that halves own output [mg/kg/d]
    double cortisolPerDose;             ///< rise per own excess, folds of rest per mg/kg/d
    double thyroxine, thyroxineHalfLife, thyroidEffectLag; ///< [nmol/L], [h], [h]
    double liverLeakOfThyroxine; ///< leak of liver cells per fold of effect above healthy
    double frightLag;            ///< [h]
};

template<class T>
struct HormoneConstants {
    T illnessCortisol, halfEffectDose, adrenalReserve, cortisol, cortisolInStress, suppressingDose,
        cortisolPerDose, thyroxine;
};

template<class T>
struct HormoneRates {
    T fast, daily, chronic, cortisol, excess, thyroxine, thyroidEffect, fright;
};

template<class T>
struct HormoneState {
    T fast, daily, chronic; ///< traces of inflammation, share of the greatest usual
    T adrenal;              ///< living share of the cortex
    T stressed, given, own; ///< share of the greatest stress; doses [mg/kg/d]
    T excess;               ///< slow effect of cortisol [mg/kg/d]
    T thyroid, effect;      ///< thyroxine and what tissues feel of it, fold
    T fright;               ///< share of the greatest usual
};

void eachParameter(HormoneParameters& p, const Visit& visit);
void setHormones(const Species& s, Constants<double>& c);
void restHormones(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
