#pragma once
#include "body/parameter.h"

namespace cistern::body {

/// Skeletal muscle and heart muscle: cells that die and lose what they hold.
struct MuscleParameters {
    double mass, regrowth, lymphRate, recovery, directShare, dyingCytosol;
};
struct HeartParameters {
    double mass;         ///< [g/kg]
    double dyingCytosol; ///< half-time of what dying cells lose [h]
    double recovery;     ///< share that reaches plasma alive
};

template<class T>
struct MuscleConstants {
    T regrowth, cytosolTime, shedding, direct, lymphTime, lymphRate, cytosolRate;
    T heartTime, heartRate, heartShedding; ///< [h], [1/h], share of the heart's content [1/h]
};

template<class T>
struct MuscleRates {
    T cytosol, lymph, heart;
};

/// In shares of the healthy organ.
template<class T>
struct MuscleState {
    T living, dying, fluid;
    T heart, heartDying;
};

void eachParameter(MuscleParameters& p, const Visit& visit);
void eachParameter(HeartParameters& p, const Visit& visit);
void setMuscle(const Species& s, Constants<double>& c);
void restMuscle(const Species& s, const Constants<double>& c, double age, State<double>& y);

} // namespace cistern::body
