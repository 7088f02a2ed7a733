#pragma once
#include "body/systems/systems.h"

namespace cistern::body {

struct Individual;

/// Width over which corners are rounded, between demand and reserve and where insulin runs out, in
/// healthy outputs: no organ stops at an edge. Assumed.
inline constexpr double corner = 0.1;

/// First-order rates of an animal [1/h], each the pace of one lag: y' = rate (target - y). The lags
/// of a step have the same shape and names.
template<class T>
struct Rates {
    HormoneRates<T> hormones;
    LiverRates<T> liver;
    MuscleRates<T> muscle;
    DigestionRates<T> digestion;
    WaterRates<T> water;
    KidneyRates<T> kidney;
    RedCellRates<T> redCells;
    EnzymeRates<T> enzymes;
    BileRates<T> bile;
    ProteinRates<T> protein;
    SugarRates<T> sugar;
    SaltRates<T> salts;
    WhiteCellRates<T> whiteCells;
    PlateletRates<T> platelets;
};

/// What the equations need to know of one animal, worked out once from its species and set points
/// so that the healthy animal is an exact point of rest. T is a double or one double a lane.
template<class T>
struct Constants {
    HormoneConstants<T> hormones;
    LiverConstants<T> liver;
    MuscleConstants<T> muscle;
    DigestionConstants<T> digestion;
    WaterConstants<T> water;
    KidneyConstants<T> kidney;
    RedCellConstants<T> redCells;
    EnzymeConstants<T> enzymes;
    BileConstants<T> bile;
    PortalConstants<T> portal;
    ProteinConstants<T> protein;
    SugarConstants<T> sugar;
    SaltConstants<T> salts;
    WhiteCellConstants<T> whiteCells;
    PlateletConstants<T> platelets;
    Rates<T> rate;
};

/// Where an animal stands.
template<class T>
struct State {
    HormoneState<T> hormones;
    LiverState<T> liver;
    MuscleState<T> muscle;
    DigestionState<T> digestion;
    WaterState<T> water;
    KidneyState<T> kidney;
    RedCellState<T> redCells;
    EnzymeState<T> enzymes;
    BileState<T> bile;
    PortalState<T> portal;
    ProteinState<T> protein;
    SugarState<T> sugar;
    SaltState<T> salts;
    WhiteCellState<T> whiteCells;
    PlateletState<T> platelets;
};

/// Throws std::invalid_argument, in one sentence, if the set points contradict one another.
Constants<double> constants(const Individual& animal);
/// The healthy animal at a given age [h].
State<double> healthy(const Individual& animal, const Constants<double>& c, double age);

} // namespace cistern::body
