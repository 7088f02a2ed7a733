#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Albumin, globulins, acute-phase proteins and clotting factors.
struct ProteinParameters {
    double albumin, albuminHalfLife, plasmaShare, exchange, reserve, demandGain;
    double albuminOfInflammation; ///< synthesis lost at the greatest inflammation, share
    double escapeOfInflammation;  ///< rise of escape into tissue, share
    double globulin, globulinHalfLife, globulinPlasmaShare, globulinExchange;
    double globulinOfInflammation; ///< rise of its making in lasting inflammation, share
    double globulinLostByKidney, globulinLostByGut; ///< share of albumin's loss, level for level
};
struct AcutePhaseParameters {
    double crp, crpGain, crpHalfLife;                      ///< [mg/L], fold, [h]
    double saa, saaGain, saaHalfLife;                      ///< [mg/L], fold, [h]
    double fibrinogen, fibrinogenGain, fibrinogenHalfLife; ///< [g/L], fold, [h]
};
struct ClottingParameters {
    double factor7HalfLife, factorsHalfLife; ///< [h]
    double pt, ptGain, aptt, apttGain;       ///< [s], share per unit of 1/factor - 1
};

template<class T>
struct ProteinConstants {
    T made, returning, escape, time, level, perLevel, demandGain, reserve, exchangeTime; // albumin
    T ofInflammation, escapeOfInflammation;
    T globulinMade, globulinReturning, globulinEscape, globulinTime, globulinLevel,
        globulinExchangeTime, globulinOfInflammation, globulinLostByKidney, globulinLostByGut;
    T crp, crpGain, saa, saaGain, fibrinogen, fibrinogenGain;
    T pt, ptGain, aptt, apttGain;
};

template<class T>
struct ProteinRates {
    T albumin, albuminExchange, globulin, globulinExchange;
    T crp, saa, fibrinogen, factor7, factors;
};

template<class T>
struct ProteinState {
    T albumin, albuminPlasma, globulin, globulinPlasma; ///< whole pool and its plasma part [g/kg]
    T crp, saa, fibrinogen;                             ///< [mg/L], [mg/L], [g/L]
    T factor7, factors;                                 ///< shares
};

void eachParameter(ProteinParameters& p, const Visit& visit);
void eachParameter(AcutePhaseParameters& p, const Visit& visit);
void eachParameter(ClottingParameters& p, const Visit& visit);
void setProtein(const Species& s, Constants<double>& c);
void restProtein(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
