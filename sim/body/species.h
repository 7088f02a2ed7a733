#pragma once
#include "body/names.h"

#include <array>
#include <functional>
#include <string>

namespace cistern::body {

/// One enzyme in one species. All per kg body weight.
struct EnzymePool {
    double setPoint = 0;           ///< healthy plasma level [U/L]
    double halfLife = 0;           ///< in plasma [h]
    double volume = 0;             ///< of distribution [L/kg]
    double liverContent = 0;       ///< [U/g liver]
    double muscleContent = 0;      ///< [U/g muscle]
    double mitochondrialShare = 0; ///< of the liver's content, 0..1; leaves only dying cells
    double cytosolYield =
        0; ///< share of a dying cell's cytosolic content that reaches plasma alive
    double mitochondrialYield = 0;
};

/// Everything that is the same for all animals of a species, in the model's units (see
/// DEVELOPERS.md). The equations that use these are in step/; the values come from
/// assets/species/*.yaml.
struct Species {
    Kind kind = Kind::dog;

    struct {
        double mass, regrowth, portalShare, leakLag, dyingCytosol, dyingMitochondria;
        double adaptationLag, adaptationLeak, adaptationRenal;
        double necrosisCholestasis, necrosisCholestasisLag, scarCholestasis, acquiredShunt;
        double obstructionDeath, obstructionLeak, canalicularLeak, fillingLag, responseLag;
        double alpContentGain, alpWashGain, ggtContentGain, ggtWashGain, ggtCanalicularShare;
    } liver{};
    struct {
        double halfDose, fastLag, middleLag,
            slowLag; ///< steroid effect on the liver [mg/kg/d], [h]
        double liverAlpGain, steroidAlpGain, ggtGain, leakGain;
        double clearance, urineNeed, insulinResistance, cholesterol, muscleLoss, muscleLag;
    } steroid{};
    struct {
        double halfDose, lag, leakGain, alpWashGain;
    } phenobarbital{};
    struct {
        double mass, regrowth, lymphRate, recovery, directShare, dyingCytosol;
    } muscle{};
    struct {
        double growthAtOneMonth, growthLag; ///< bone ALP: 1 + gain exp(-(age - 1 mo)/lag)
    } bone{};
    std::array<EnzymePool, poolCount> pool{};
    struct {
        double production, space, unconjugated, conjugated, backFlow, reserve, renalThreshold,
            renalClearance, deltaRate, deltaHalfLife, hemeLag;
    } bilirubin{};
    struct {
        double space, fasting, pool, storedShare, mealStoredShare, extraction, plasmaFlow,
            portalShare, mealEmptying, uptake, lossPerPass, renalClearance, mealLength;
    } bileAcids{};
    struct {
        double albumin, albuminHalfLife, plasmaShare, exchange, reserve, demandGain, globulin,
            globulinHalfLife;
    } protein{};
    struct {
        double filtration, hyperfiltration, hyperfiltrationLag, stunLag, outflowLag;
        double creatinine, uremicFall, urea, ureaProduction, ureaNeed, ureaLiverHalf, fastingUrea,
            intakeLag;
        double urineGravity, urineGravityMost, urineGravityPlain, needSpan, soluteShare;
    } kidney{};
    struct {
        double total, extracellular, plasma, sodium, isotonicShare, lag, refillLag;
    } water{};
    struct {
        double glucose, output, space, threshold, insulinFree, insulinGain, insulinMost, liverMost,
            kidneyShare;
        double cholesterol, cholesterolLag, cholesterolBile, cholesterolInsulin;
    } sugar{};

    /// Coefficient of variation between healthy animals and within one from day to day, 0..1.
    std::array<double, analyteCount> between{}, within{};
    double halfLifeSpread = 0; ///< coefficient of variation of half-lives between animals
};

/// One parameter of a species as the program knows it: its name in the files, the unit it is held
/// in, where it lives and what is sensible.
struct Parameter {
    std::string name; ///< "liver.mass", "pools.ALT.half-life", "variation.ALT.between"
    std::string unit; ///< unit inside the model, as base::conversion understands it
    double* value;
    double least, most;   ///< outside is refused
    double molarMass = 0; ///< [g/mol] if the file may give it as mass
};

/// Calls `visit` with every parameter of the species, in file order: the one list that the loader,
/// `cistern sources` and the tests read.
void eachParameter(Species& species, const std::function<void(const Parameter&)>& visit);

} // namespace cistern::body
