#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Stages of a platelet's life: five make labelled platelets vanish along nearly a straight line.
inline constexpr int plateletStages = 5;

struct PlateletParameters {
    double count, life;    ///< healthy [10*9/L]; [h]
    double splenicShare;   ///< of all platelets, at rest
    double ofContraction;  ///< rise of the count when the spleen empties, folds
    double megakaryocytes; ///< time from call to release [h]
    double callLag;        ///< of the call for platelets behind their number [h]
    double callOfLack;     ///< rise of output by a lack beyond what any change calls
    double callOfInflammation, callOfIronLack; ///< rise of output, folds
    double mostOutput;                         ///< fold of healthy
    double usedInInflammation;                 ///< loss at the greatest inflammation [1/h]
};

/// Amounts in 10*9 per kg, those in the spleen too.
template<class T>
struct PlateletConstants {
    T made, perPlatelets; ///< [10*9/kg/h]; of the healthy number
    T circulating, ofContraction;
    T callOfLack, callOfInflammation, callOfIronLack, mostOutput, perMostOutput;
    T ageing; ///< pace of one stage [1/h]
    T usedInInflammation;
    T life; ///< [h]
};

template<class T>
struct PlateletRates {
    T call, megakaryocytes;
};

template<class T>
struct PlateletState {
    T call;                      ///< share of platelets missing, lagged; may be negative
    T megakaryocytes;            ///< platelets that they will give, fold of healthy
    T platelets[plateletStages]; ///< [10*9/kg]
};

void eachParameter(PlateletParameters& p, const Visit& visit);
void setPlatelets(const Species& s, Constants<double>& c);
void restPlatelets(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
