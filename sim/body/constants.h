#pragma once
#include "body/individual.h"

namespace cistern::body {

/// Width over which corners are rounded, between demand and reserve and where insulin runs out, in
/// healthy outputs: no organ stops at an edge. Assumed.
inline constexpr double corner = 0.1;

/// First-order rates of an animal, each the pace of one lag: y' = rate (target - y).
enum class Rate {
    leak,
    cytosol,
    mitochondria,
    ducts,
    necrosisCholestasis,
    adaptation,
    response,
    steroidFast,
    steroidMiddle,
    steroidSlow,
    phenobarbital,
    muscleCytosol,
    lymph,
    boneGrowth,
    ALT,
    AST,
    liverALP,
    steroidALP,
    boneALP,
    GGT,
    CK, // in the order of Pool
    delta,
    heme,
    water,
    refill,
    hyperfiltration,
    stun,
    outflow,
    intake,
    cortisol,
    muscleLoss,
    albumin,
    albuminExchange,
    cholesterol
};
inline constexpr int rateCount = 34;
inline constexpr int rateOfPool(Pool pool) {
    return static_cast<int>(Rate::ALT) + static_cast<int>(pool);
}

/// How one enzyme's plasma level answers: the level that its inflow would hold, as a linear sum.
template<class T>
struct EnzymeGain {
    T living;  ///< per living share of liver, at healthy leak [U/L]
    T leaking; ///< per living share and fold of leak above healthy [U/L]
    T cytosol; ///< per share of dying liver still losing cytosol [U/L]
    T mitochondria;
    T muscle; ///< per flow of the muscle [U/L per share/h]
};

/// What the equations need to know of one animal, worked out once from its species and set points
/// so that the healthy animal is an exact point of rest. T is a double or one double a lane.
template<class T>
struct Constants {
    // liver tissue
    T regrowth, portalGrowth, cytosolTime, mitochondriaTime;
    T obstructionDeath, scarCholestasis, acquiredShunt, necrosisCholestasis;
    T adaptationLeak, obstructionLeak, canalicularLeak, steroidLeak, phenobarbitalLeak;
    T steroidHalfDose, phenobarbitalHalfDose;
    // membrane enzymes
    T alpContent, alpWash, alpSteroid, alpPhenobarbital, steroidAlpContent;
    T ggtContent, ggtWash, ggtSteroid, ggtCanalicular;
    // muscle: share of healthy muscle
    T muscleRegrowth, muscleCytosolTime, muscleShedding, muscleDirect, lymphTime, lymphRate;
    EnzymeGain<T> gain[poolCount];
    T clearance[poolCount]; ///< plasma cleared [L/kg/h]
    T boneLevel;
    // bilirubin
    /// exchange: share of what the pool holds beyond free uptake that is conjugated in plasma
    T hemeInflow, uptakeLevel, exchange, excretionMost, excretionHalf, renalClearance,
        renalThreshold, renalAdaptation, binding, deltaTime;
    // bile acids
    T acidUptake, acidKept, acidExtraction, acidFlow, acidPortal, acidMade, acidRenal, acidSpace,
        storeRate, storeMealRate, stored, storedInMeal;
    // water
    T water, cellSodium, sodium, saltPerLoss, extracellular, plasma, perExtracellular, perPlasma,
        halfIsotonic, refillTime;
    // kidney
    T filtration, hyperfiltration;
    T creatinineMade, uremicFall, ureaMade, perUreaMade, ureaClearance, ureaNeed, ureaLiver,
        fastingUrea;
    T gravityNeed, perNeedSpan, steroidNeed, gravityPlain, gravitySpan, soluteShare;
    // protein
    T albuminMade, albuminExchangeTime, albuminReturn, albuminTime, albuminLevel, perAlbuminLevel,
        demandGain, reserve, globulinAmount;
    // sugar
    T glucose, perGlucose, glucoseOutput, glucoseUptake, insulinFree, insulinGain, insulinMost,
        insulinResistance, glucoseThreshold, perGlucoseSpace, liverMost, kidneyShare;
    T cholesterol, cholesterolSteroid, cholesterolBile, cholesterolInsulin, muscleLoss;
    T rate[rateCount]; ///< [1/h]
};

/// Where an animal stands. Shares are of the healthy adult organ.
template<class T>
struct State {
    T living, scar, dying, dyingMitochondria; // liver
    T leak;                                   // fold above healthy
    T ducts, necrosisCholestasis, adaptation; // cholestasis
    T alpResponse, ggtResponse;
    T steroidFast, steroidMiddle, steroidSlow, phenobarbital;
    T muscle, muscleDying, muscleFluid, growth;
    T enzyme[poolCount];      // [U/L]
    T bilirubin, delta, heme; // [umol/L], fold
    T store, gut, acids;      // [umol/kg], [umol/kg], [umol/L]
    T water, salt, plasma;    // [L/kg], [mmol/kg], [L/kg]
    T nephrons, stunned, hyperfiltration, outflow;
    T creatinine, urea; // in body water [umol/kg], [mmol/kg]
    T intake, muscleMass, cortisol;
    T albumin, albuminPlasma;           // whole pool and its plasma part [g/kg]
    T glucose, perGlucose, cholesterol; // [mmol/L]
};

/// Throws std::invalid_argument, naming the enzyme, if a set point leaves no room for the liver's
/// part.
Constants<double> constants(const Individual& animal);
/// The healthy animal at a given age [h].
State<double> healthy(const Individual& animal, const Constants<double>& c, double age);

} // namespace cistern::body
