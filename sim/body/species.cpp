#include "body/species.h"

namespace cistern::body {

namespace {

/// Gathers parameters under one heading of the file.
class Section {
public:
    Section(std::string heading, const std::function<void(const Parameter&)>& visit)
        : heading_(std::move(heading)), visit_(visit) {}
    void operator()(const char* name, const char* unit, double& value, double least, double most,
                    double molarMass = 0) const {
        visit_({heading_ + "." + name, unit, &value, least, most, molarMass});
    }

private:
    std::string heading_;
    const std::function<void(const Parameter&)>& visit_;
};

constexpr double bilirubinMass = 584.66; // g/mol
constexpr double creatinineMass = 113.12;
constexpr double ureaNitrogenMass =
    28.014; // two nitrogens a molecule: urea is written as urea nitrogen
constexpr double glucoseMass = 180.156;
constexpr double cholesterolMass = 386.65;
constexpr double most = 1e6; // no physical bound of its own

void eachLiver(Species& s, const std::function<void(const Parameter&)>& visit) {
    const Section liver("liver", visit);
    liver("mass", "g/kg", s.liver.mass, 5, 100);
    liver("regrowth", "1/h", s.liver.regrowth, 0, 0.1);
    liver("portal share of growth", "1", s.liver.portalShare, 0, 0.9);
    liver("onset of leak", "h", s.liver.leakLag, 0.5, 200);
    liver("dying cytosol half-time", "h", s.liver.dyingCytosol, 0.5, 200);
    liver("dying mitochondria half-time", "h", s.liver.dyingMitochondria, 0.5, 400);
    liver("filling of ducts", "h", s.liver.fillingLag, 0.5, 400);
    liver("adaptation to obstruction", "h", s.liver.adaptationLag, 10, most);
    liver("adaptation of leak", "1", s.liver.adaptationLeak, 0, 1);
    liver("adaptation of renal clearance", "1", s.liver.adaptationRenal, 0, 10);
    liver("cholestasis after necrosis", "1", s.liver.necrosisCholestasis, 0, 50);
    liver("lag of cholestasis after necrosis", "h", s.liver.necrosisCholestasisLag, 5, 2000);
    liver("cholestasis of scar", "1", s.liver.scarCholestasis, 0, 1);
    liver("acquired shunt of scar", "1", s.liver.acquiredShunt, 0, 1);
    liver("death in obstruction", "1/h", s.liver.obstructionDeath, 0, 0.01);
    liver("leak in obstruction", "1", s.liver.obstructionLeak, 0, 100);
    liver("leak in canalicular cholestasis", "1", s.liver.canalicularLeak, 0, 100);
    liver("response of membrane enzymes", "h", s.liver.responseLag, 5, 2000);
    liver("ALP content gain", "1", s.liver.alpContentGain, 0, 100);
    liver("ALP wash-off gain", "1", s.liver.alpWashGain, 0, 100);
    liver("GGT content gain", "1", s.liver.ggtContentGain, 0, 100);
    liver("GGT wash-off gain", "1", s.liver.ggtWashGain, 0, 100);
    liver("GGT answer to canalicular cholestasis", "1", s.liver.ggtCanalicularShare, 0, 1);

    const Section steroid("steroid", visit);
    steroid("half-effect dose", "mg/kg/d", s.steroid.halfDose, 0.01, 100);
    steroid("fast lag", "h", s.steroid.fastLag, 1, 2000);
    steroid("middle lag", "h", s.steroid.middleLag, 1, 2000);
    steroid("slow lag", "h", s.steroid.slowLag, 1, 5000);
    steroid("liver ALP gain", "1", s.steroid.liverAlpGain, 0, 500);
    steroid("steroid ALP gain", "1", s.steroid.steroidAlpGain, 0, 2000);
    steroid("GGT gain", "1", s.steroid.ggtGain, 0, 500);
    steroid("leak gain", "1", s.steroid.leakGain, 0, 50);
    steroid("lag in blood", "h", s.steroid.clearance, 1, 500);
    steroid("fall of urine need", "1", s.steroid.urineNeed, 0, 5);
    steroid("insulin resistance", "1", s.steroid.insulinResistance, 0, 50);
    steroid("cholesterol gain", "1", s.steroid.cholesterol, 0, 10);
    steroid("muscle loss", "1", s.steroid.muscleLoss, 0, 0.9);
    steroid("lag of muscle loss", "h", s.steroid.muscleLag, 1, 5000);

    const Section phenobarbital("phenobarbital", visit);
    phenobarbital("half-effect dose", "mg/kg/d", s.phenobarbital.halfDose, 0.1, 200);
    phenobarbital("lag", "h", s.phenobarbital.lag, 1, 5000);
    phenobarbital("leak gain", "1", s.phenobarbital.leakGain, 0, 100);
    phenobarbital("ALP wash-off gain", "1", s.phenobarbital.alpWashGain, 0, 100);
}

void eachMuscleAndBone(Species& s, const std::function<void(const Parameter&)>& visit) {
    const Section muscle("muscle", visit);
    muscle("mass", "g/kg", s.muscle.mass, 50, 800);
    muscle("regrowth", "1/h", s.muscle.regrowth, 0, 0.1);
    muscle("lymph rate", "1/h", s.muscle.lymphRate, 0.001, 2);
    muscle("recovery", "1", s.muscle.recovery, 0.05, 1);
    muscle("direct share", "1", s.muscle.directShare, 0, 1);
    muscle("dying cytosol half-time", "h", s.muscle.dyingCytosol, 0.2, 100);

    const Section bone("bone", visit);
    bone("growth at one month", "1", s.bone.growthAtOneMonth, 0, 100);
    bone("growth lag", "h", s.bone.growthLag, 100, 50000);
}

void eachPool(Species& s, const std::function<void(const Parameter&)>& visit) {
    for (Pool which : pools()) {
        EnzymePool& p = s.pool[static_cast<std::size_t>(which)];
        const Section pool("pools." + std::string(name(which)), visit);
        pool("set point", "U/L", p.setPoint, 0, 10000);
        pool("half-life", "h", p.halfLife, 0.2, 500);
        pool("volume", "L/kg", p.volume, 0.02, 0.5);
        pool("liver content", "U/g", p.liverContent, 0, 10000);
        pool("muscle content", "U/g", p.muscleContent, 0, 10000);
        pool("mitochondrial share", "1", p.mitochondrialShare, 0, 1);
        pool("cytosol yield", "1", p.cytosolYield, 0, 1);
        pool("mitochondrial yield", "1", p.mitochondrialYield, 0, 1);
    }
}

void eachBile(Species& s, const std::function<void(const Parameter&)>& visit) {
    const Section bilirubin("bilirubin", visit);
    bilirubin("production", "umol/kg/h", s.bilirubin.production, 0.01, 10, bilirubinMass);
    bilirubin("space", "L/kg", s.bilirubin.space, 0.03, 1);
    bilirubin("unconjugated", "umol/L", s.bilirubin.unconjugated, 0.01, 20, bilirubinMass);
    bilirubin("conjugated", "umol/L", s.bilirubin.conjugated, 0.01, 20, bilirubinMass);
    bilirubin("back-flow", "1", s.bilirubin.backFlow, 0, 3);
    bilirubin("reserve of excretion", "1", s.bilirubin.reserve, 1.5, 50);
    bilirubin("renal threshold", "umol/L", s.bilirubin.renalThreshold, 0.1, 500, bilirubinMass);
    bilirubin("renal clearance", "L/kg/h", s.bilirubin.renalClearance, 0, 1);
    bilirubin("binding to albumin", "1/h", s.bilirubin.deltaRate, 0, 1);
    bilirubin("delta half-life", "h", s.bilirubin.deltaHalfLife, 10, 1000);
    bilirubin("heme lag", "h", s.bilirubin.hemeLag, 1, 100);

    const Section acids("bile acids", visit);
    acids("space", "L/kg", s.bileAcids.space, 0.05, 1);
    acids("fasting", "umol/L", s.bileAcids.fasting, 0.05, 50);
    acids("pool", "umol/kg", s.bileAcids.pool, 10, 500);
    acids("stored share", "1", s.bileAcids.storedShare, 0.01, 0.99);
    acids("stored share in a meal", "1", s.bileAcids.mealStoredShare, 0.01, 0.99);
    acids("extraction", "1", s.bileAcids.extraction, 0.3, 0.999);
    acids("plasma flow", "L/kg/h", s.bileAcids.plasmaFlow, 0.1, 5);
    acids("portal share", "1", s.bileAcids.portalShare, 0.1, 0.95);
    acids("emptying in a meal", "1/h", s.bileAcids.mealEmptying, 0, 5);
    acids("uptake from gut", "1/h", s.bileAcids.uptake, 0.05, 3);
    acids("loss per pass", "1", s.bileAcids.lossPerPass, 0.001, 0.5);
    acids("renal clearance", "L/kg/h", s.bileAcids.renalClearance, 0, 1);
    acids("meal length", "h", s.bileAcids.mealLength, 0.5, 24);
}

void eachProteinAndKidney(Species& s, const std::function<void(const Parameter&)>& visit) {
    const Section protein("protein", visit);
    protein("albumin", "g/L", s.protein.albumin, 5, 80);
    protein("albumin half-life", "h", s.protein.albuminHalfLife, 24, 1000);
    protein("plasma share of albumin", "1", s.protein.plasmaShare, 0.1, 0.9);
    protein("exchange of albumin", "1/h", s.protein.exchange, 0.01, 2);
    protein("reserve of synthesis", "1", s.protein.reserve, 1, 10);
    protein("demand gain", "1", s.protein.demandGain, 0, 5);
    protein("globulin", "g/L", s.protein.globulin, 5, 120);
    protein("globulin half-life", "h", s.protein.globulinHalfLife, 24, 1000);

    const Section kidney("kidney", visit);
    kidney("filtration", "L/kg/h", s.kidney.filtration, 0.02, 1);
    kidney("hyperfiltration", "1", s.kidney.hyperfiltration, 0, 3);
    kidney("lag of hyperfiltration", "h", s.kidney.hyperfiltrationLag, 5, 2000);
    kidney("recovery from stun", "h", s.kidney.stunLag, 5, 5000);
    kidney("lag of outflow", "h", s.kidney.outflowLag, 0.5, 100);
    kidney("creatinine", "umol/L", s.kidney.creatinine, 5, 1000, creatinineMass);
    kidney("uremic fall of production", "1", s.kidney.uremicFall, 0, 0.9);
    kidney("urea", "mmol/L", s.kidney.urea, 0.5, 100, ureaNitrogenMass);
    kidney("urea production", "mmol/kg/h", s.kidney.ureaProduction, 0.01, 10, ureaNitrogenMass);
    kidney("urea saved by need", "1", s.kidney.ureaNeed, 0, 2);
    kidney("liver share at half urea", "1", s.kidney.ureaLiverHalf, 0.001, 5);
    kidney("urea made in fasting", "1", s.kidney.fastingUrea, 0.05, 1);
    kidney("lag of intake", "h", s.kidney.intakeLag, 1, 500);
    kidney("urine gravity", "1", s.kidney.urineGravity, 1.001, 1.09);
    kidney("urine gravity most", "1", s.kidney.urineGravityMost, 1.02, 1.12);
    kidney("urine gravity plain", "1", s.kidney.urineGravityPlain, 1.005, 1.015);
    kidney("plasma fall for full need", "1", s.kidney.needSpan, 0.01, 0.5);
    kidney("urea share of solute", "1", s.kidney.soluteShare, 0, 1);

    const Section water("water", visit);
    water("total", "L/kg", s.water.total, 0.3, 0.9);
    water("extracellular", "L/kg", s.water.extracellular, 0.1, 0.5);
    water("plasma", "L/kg", s.water.plasma, 0.02, 0.1);
    water("sodium", "mmol/L", s.water.sodium, 100, 200);
    water("isotonic share of loss", "1", s.water.isotonicShare, 0, 1);
    water("lag of intake", "h", s.water.lag, 0.5, 200);
    water("lag of refill", "h", s.water.refillLag, 0.5, 200);

    const Section sugar("sugar", visit);
    sugar("glucose", "mmol/L", s.sugar.glucose, 1, 20, glucoseMass);
    sugar("hepatic output", "mmol/kg/h", s.sugar.output, 0.05, 5, glucoseMass);
    sugar("space", "L/kg", s.sugar.space, 0.05, 1);
    sugar("renal threshold", "mmol/L", s.sugar.threshold, 5, 40, glucoseMass);
    sugar("uptake without insulin", "1", s.sugar.insulinFree, 0.05, 1);
    sugar("insulin gain", "1", s.sugar.insulinGain, 0, 10);
    sugar("insulin most", "1", s.sugar.insulinMost, 1, 20);
    sugar("liver output most", "1", s.sugar.liverMost, 1, 10);
    sugar("kidney share of output", "1", s.sugar.kidneyShare, 0, 0.5);
    sugar("cholesterol", "mmol/L", s.sugar.cholesterol, 0.5, 20, cholesterolMass);
    sugar("lag of cholesterol", "h", s.sugar.cholesterolLag, 5, 1000);
    sugar("cholesterol in bile block", "1", s.sugar.cholesterolBile, 0, 10);
    sugar("cholesterol without insulin", "1", s.sugar.cholesterolInsulin, 0, 10);
}

} // namespace

void eachParameter(Species& s, const std::function<void(const Parameter&)>& visit) {
    eachLiver(s, visit);
    eachMuscleAndBone(s, visit);
    eachPool(s, visit);
    eachBile(s, visit);
    eachProteinAndKidney(s, visit);
    for (Analyte analyte : analytes()) {
        const Section variation("variation." + std::string(name(analyte)), visit);
        const auto i = static_cast<std::size_t>(analyte);
        variation("between", "1", s.between[i], 0, 1);
        variation("within", "1", s.within[i], 0, 1);
    }
    const Section variation("variation", visit);
    variation("half-lives", "1", s.halfLifeSpread, 0, 1);
}

} // namespace cistern::body
