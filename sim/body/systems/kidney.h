#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Nephrons, filtration, what is filtered, and the urine.
struct KidneyParameters {
    double filtration, hyperfiltration, hyperfiltrationLag, stunLag, outflowLag;
    double creatinine, uremicFall, urea, ureaProduction, ureaNeed, ureaLiverHalf, fastingUrea,
        intakeLag;
    double sdma, sdmaFloor; ///< [umol/L]; the part that no filtration removes, share
    double urineGravity, urineGravityMost, urineGravityPlain, needSpan, soluteShare;
    double aldosteroneConcentration; ///< share of concentrating power lost without aldosterone
    double thresholdWidth;           ///< of glucose, half the splay [mmol/L]
    double urineProtein;             ///< ratio of protein to creatinine in urine, by mass
    double urineProteinOfCortisol;   ///< rise of it at the greatest excess, folds
};

template<class T>
struct KidneyConstants {
    T filtration, hyperfiltration;
    T creatinineMade, uremicFall, ureaMade, perUreaMade, ureaClearance, ureaNeed, fastingUrea;
    T sdmaMade, sdmaFloor;
    T gravityNeed, perNeedSpan, steroidNeed, gravityPlain, gravitySpan, soluteShare, muscleLoss;
    T aldosteroneConcentration, urineProtein, urineProteinOfCortisol;
    T glucoseThreshold, thresholdWidth; ///< [mmol/L]
};

template<class T>
struct KidneyRates {
    T hyperfiltration, stun, outflow, intake, muscleMass;
};

template<class T>
struct KidneyState {
    T nephrons, stunned, hyperfiltration, outflow;
    T creatinine, urea, sdma; ///< in body water [umol/kg], [mmol/kg], [umol/kg]
    T intake, muscleMass;
};

void eachParameter(KidneyParameters& p, const Visit& visit);
void setKidney(const Species& s, Constants<double>& c);
void restKidney(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
