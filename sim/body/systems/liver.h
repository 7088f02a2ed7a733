#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Liver cells, how much bile flow is lost and where, and the drugs that act on them.
struct LiverParameters {
    double mass, regrowth, portalShare, leakLag, dyingCytosol, dyingMitochondria;
    double adaptationLag, adaptationLeak, adaptationRenal;
    double necrosisCholestasis, necrosisCholestasisLag, scarCholestasis, acquiredShunt;
    double obstructionDeath, obstructionLeak, canalicularLeak, fillingLag, responseLag;
    double alpContentGain, alpWashGain, ggtContentGain, ggtWashGain, ggtCanalicularShare;
};
struct SteroidParameters {
    double halfDose, fastLag, middleLag, slowLag; ///< effect on the liver [mg/kg/d], [h]
    double liverAlpGain, steroidAlpGain, ggtGain, leakGain, slowLeakGain;
    double clearance, urineNeed, insulinResistance, cholesterol, muscleLoss, muscleLag;
};
struct PhenobarbitalParameters {
    double halfDose, lag, leakGain, alpWashGain;
};

template<class T>
struct LiverConstants {
    T regrowth, portalGrowth, portalShare, cytosolTime, mitochondriaTime;
    T obstructionDeath, scarCholestasis, acquiredShunt, necrosisCholestasis, ggtCanalicular;
    T adaptationLeak, obstructionLeak, canalicularLeak, steroidLeak, steroidSlowLeak,
        phenobarbitalLeak, thyroidLeak;
    T steroidHalfDose, phenobarbitalHalfDose;
    T reserve; ///< work at which what it makes with some to spare is half gone, about
};

template<class T>
struct LiverRates {
    T leak, cytosol, mitochondria, ducts, necrosisCholestasis, adaptation, response;
    T steroidFast, steroidMiddle, steroidSlow, phenobarbital;
};

/// Shares of the healthy adult organ; leak as fold above healthy.
template<class T>
struct LiverState {
    T living, scar, dying, dyingMitochondria, leak;
    T ducts, necrosisCholestasis, adaptation, alpResponse, ggtResponse;
    T steroidFast, steroidMiddle, steroidSlow, phenobarbital;
};

void eachParameter(LiverParameters& p, const Visit& visit);
void eachParameter(SteroidParameters& p, const Visit& visit);
void eachParameter(PhenobarbitalParameters& p, const Visit& visit);
void setLiver(const Species& s, Constants<double>& c);
void restLiver(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
