#include "body/constants.h"

#include <cmath>
#include <stdexcept>
#include <string>

namespace cistern::body {

namespace {

constexpr double monthHours = 30.4375 * 24;
const double ln2 = std::log(2.0);

/// The pools of a liver enzyme and the drugs, obstruction and death that move them.
void liverConstants(const Species& s, Constants<double>& c) {
    const auto& l = s.liver;
    c.regrowth = l.regrowth;
    c.portalGrowth = l.portalShare;
    c.cytosolTime = l.dyingCytosol / ln2;
    c.mitochondriaTime = l.dyingMitochondria / ln2;
    c.obstructionDeath = l.obstructionDeath;
    c.scarCholestasis = l.scarCholestasis;
    c.acquiredShunt = l.acquiredShunt;
    c.necrosisCholestasis = l.necrosisCholestasis;
    c.adaptationLeak = l.adaptationLeak;
    c.obstructionLeak = l.obstructionLeak;
    c.canalicularLeak = l.canalicularLeak;
    c.steroidLeak = s.steroid.leakGain;
    c.phenobarbitalLeak = s.phenobarbital.leakGain;
    c.steroidHalfDose = s.steroid.halfDose;
    c.phenobarbitalHalfDose = s.phenobarbital.halfDose;
    c.alpContent = l.alpContentGain;
    c.alpWash = l.alpWashGain;
    c.alpSteroid = s.steroid.liverAlpGain;
    c.alpPhenobarbital = s.phenobarbital.alpWashGain;
    c.steroidAlpContent = s.steroid.steroidAlpGain;
    c.ggtContent = l.ggtContentGain;
    c.ggtWash = l.ggtWashGain;
    c.ggtSteroid = s.steroid.ggtGain;
    c.ggtCanalicular = l.ggtCanalicularShare;
}

/// Healthy shedding is no free number: it follows from level, volume, half-life and content. CK
/// comes first and gives the pace of muscle, hence muscle's part of AST and ALT; the rest is the
/// liver's.
void enzymeConstants(const Species& s, Constants<double>& c) {
    const auto poolOf = [&](Pool which) { return s.pool[static_cast<std::size_t>(which)]; };
    const auto outflow = [&](const EnzymePool& p) { return p.volume * ln2 / p.halfLife; }; // L/kg/h
    const auto& m = s.muscle;
    c.muscleRegrowth = m.regrowth;
    c.muscleCytosolTime = m.dyingCytosol / ln2;
    c.muscleDirect = m.directShare;
    c.lymphRate = m.lymphRate;
    c.lymphTime = 1 / m.lymphRate;
    const EnzymePool ck = poolOf(Pool::CK);
    c.muscleShedding = ck.setPoint * outflow(ck) / (m.recovery * m.mass * ck.muscleContent);

    for (Pool which : pools()) {
        const EnzymePool p = poolOf(which);
        EnzymeGain<double>& g = c.gain[static_cast<int>(which)];
        c.clearance[static_cast<int>(which)] = outflow(p);
        const double held = 1 / outflow(p); // level held by an inflow of 1 U/kg/h
        const double organ = s.liver.mass * p.liverContent;
        g.muscle = m.recovery * m.mass * p.muscleContent * held;
        g.living = p.setPoint - g.muscle * c.muscleShedding;
        if (which == Pool::CK || which == Pool::boneALP) g.living = 0;
        if (g.living < 0)
            throw std::invalid_argument("the set point of " + std::string(name(which)) +
                                        " is below what healthy muscle alone sheds");
        g.leaking = (1 - p.mitochondrialShare) * g.living;
        g.cytosol = (1 - p.mitochondrialShare) * p.cytosolYield * organ * held / c.cytosolTime;
        g.mitochondria =
            p.mitochondrialShare * p.mitochondrialYield * organ * held / c.mitochondriaTime;
    }
    c.boneLevel = poolOf(Pool::boneALP).setPoint;
}

void bileConstants(const Species& s, Constants<double>& c) {
    const auto& b = s.bilirubin;
    c.hemeInflow = b.production / b.space;
    c.uptakeLevel = b.unconjugated - b.backFlow * b.conjugated;
    c.exchange = 1 / (1 + b.backFlow);
    c.renalClearance = b.renalClearance / b.space;
    c.renalThreshold = b.renalThreshold;
    c.renalAdaptation = s.liver.adaptationRenal;
    c.binding = b.deltaRate;
    c.deltaTime = b.deltaHalfLife / ln2;
    const double renal =
        c.renalClearance * b.conjugated * b.conjugated / (b.conjugated + b.renalThreshold);
    const double excreted = c.hemeInflow - renal - b.deltaRate * b.conjugated;
    if (!(excreted > 0))
        throw std::invalid_argument("more bilirubin leaves by urine and albumin than is made");
    c.excretionMost = b.reserve * excreted;
    c.excretionHalf = b.conjugated * (b.reserve - 1);

    const auto& a = s.bileAcids;
    c.acidExtraction = -std::log(1 - a.extraction);
    c.acidFlow = a.plasmaFlow;
    c.acidPortal = a.portalShare;
    c.acidRenal = a.renalClearance;
    c.acidSpace = a.space;
    c.acidUptake = a.uptake;
    c.acidKept = 1 - a.lossPerPass;
    c.stored = a.storedShare;
    c.storedInMeal = a.mealStoredShare;
}

/// Fasting rest of the three bile acid pools: portal return that holds the systemic level, and from
/// it what the liver secretes, makes and stores.
struct AcidRest {
    double secreted, gut, store, made, storeRate;
};
AcidRest acidRest(const Species& s) {
    const auto& a = s.bileAcids;
    AcidRest rest{};
    const double portal =
        (a.plasmaFlow * a.extraction + a.renalClearance) * a.fasting / (1 - a.extraction);
    rest.secreted = portal / (1 - a.lossPerPass);
    rest.gut = rest.secreted / a.uptake;
    rest.store = a.pool - rest.gut - a.fasting * a.space;
    rest.made = rest.secreted - a.extraction * (portal + a.plasmaFlow * a.fasting);
    if (!(rest.store > 0) || !(rest.made > 0))
        throw std::invalid_argument("the bile acid pool is too small for its fasting level");
    rest.storeRate = a.storedShare * rest.secreted / rest.store;
    return rest;
}

void waterAndKidneyConstants(const Species& s, Constants<double>& c) {
    const auto& w = s.water;
    c.water = w.total;
    c.cellSodium = w.sodium * (w.total - w.extracellular);
    c.sodium = w.sodium * w.extracellular;
    c.saltPerLoss = w.isotonicShare * w.sodium;
    c.extracellular = w.extracellular;
    c.plasma = w.plasma;
    c.perExtracellular = 1 / w.extracellular;
    c.perPlasma = 1 / w.plasma;
    c.halfIsotonic = w.isotonicShare / 2;
    c.refillTime = w.refillLag;

    const auto& k = s.kidney;
    c.filtration = k.filtration;
    c.hyperfiltration = k.hyperfiltration;
    c.creatinineMade = k.filtration * k.creatinine;
    c.uremicFall = k.uremicFall;
    c.ureaMade = k.ureaProduction;
    c.perUreaMade = 1 / k.ureaProduction;
    c.ureaClearance = k.ureaProduction / (k.urea * k.filtration);
    c.ureaNeed = k.ureaNeed;
    c.ureaLiver = k.ureaLiverHalf;
    c.fastingUrea = k.fastingUrea;
    c.gravityPlain = k.urineGravityPlain - 1;
    c.gravitySpan = k.urineGravityMost - k.urineGravityPlain;
    c.gravityNeed = (k.urineGravity - k.urineGravityPlain) / c.gravitySpan;
    c.perNeedSpan = 1 / k.needSpan;
    c.steroidNeed = s.steroid.urineNeed;
    c.soluteShare = k.soluteShare;
}

void proteinAndSugarConstants(const Species& s, Constants<double>& c) {
    const auto& p = s.protein;
    const double broken = ln2 / p.albuminHalfLife; // in both pools alike
    const double plasmaAmount = s.water.plasma * p.albumin;
    c.albuminReturn = p.exchange * p.plasmaShare / (1 - p.plasmaShare) - broken;
    if (!(c.albuminReturn > 0))
        throw std::invalid_argument("albumin leaves the tissues slower than it is broken down");
    c.albuminMade = broken * plasmaAmount / p.plasmaShare;
    c.albuminTime = 1 / broken;
    c.albuminExchangeTime = 1 / (p.exchange + c.albuminReturn + broken);
    c.albuminLevel = p.albumin;
    c.perAlbuminLevel = 1 / p.albumin;
    c.demandGain = p.demandGain;
    c.reserve = p.reserve;
    c.globulinAmount = s.water.plasma * p.globulin;

    const auto& g = s.sugar;
    c.glucose = g.glucose;
    c.perGlucose = 1 / g.glucose;
    c.glucoseUptake = g.output / g.space / g.glucose;
    c.glucoseOutput = g.output / g.space;
    c.perGlucoseSpace = 1 / g.space;
    c.insulinFree = g.insulinFree;
    c.insulinGain = g.insulinGain;
    c.insulinMost = g.insulinMost;
    c.insulinResistance = s.steroid.insulinResistance;
    c.glucoseThreshold = g.threshold;
    c.liverMost = g.liverMost;
    c.kidneyShare = g.kidneyShare;
    c.cholesterol = g.cholesterol;
    c.cholesterolSteroid = s.steroid.cholesterol;
    c.cholesterolBile = g.cholesterolBile;
    c.cholesterolInsulin = g.cholesterolInsulin;
    c.muscleLoss = s.steroid.muscleLoss;
}

void rates(const Species& s, Constants<double>& c) {
    const auto set = [&](Rate which, double rate) { c.rate[static_cast<int>(which)] = rate; };
    set(Rate::leak, 1 / s.liver.leakLag);
    set(Rate::cytosol, 1 / c.cytosolTime);
    set(Rate::mitochondria, 1 / c.mitochondriaTime);
    set(Rate::ducts, 1 / s.liver.fillingLag);
    set(Rate::necrosisCholestasis, 1 / s.liver.necrosisCholestasisLag);
    set(Rate::adaptation, 1 / s.liver.adaptationLag);
    set(Rate::response, 1 / s.liver.responseLag);
    set(Rate::steroidFast, 1 / s.steroid.fastLag);
    set(Rate::steroidMiddle, 1 / s.steroid.middleLag);
    set(Rate::steroidSlow, 1 / s.steroid.slowLag);
    set(Rate::phenobarbital, 1 / s.phenobarbital.lag);
    set(Rate::muscleCytosol, 1 / c.muscleCytosolTime);
    set(Rate::lymph, c.lymphRate);
    set(Rate::boneGrowth, 1 / s.bone.growthLag);
    for (Pool which : pools())
        c.rate[rateOfPool(which)] = ln2 / s.pool[static_cast<std::size_t>(which)].halfLife;
    set(Rate::delta, 1 / c.deltaTime);
    set(Rate::heme, 1 / s.bilirubin.hemeLag);
    set(Rate::water, 1 / s.water.lag);
    set(Rate::refill, 1 / s.water.refillLag);
    set(Rate::hyperfiltration, 1 / s.kidney.hyperfiltrationLag);
    set(Rate::stun, 1 / s.kidney.stunLag);
    set(Rate::outflow, 1 / s.kidney.outflowLag);
    set(Rate::intake, 1 / s.kidney.intakeLag);
    set(Rate::cortisol, 1 / s.steroid.clearance);
    set(Rate::muscleLoss, 1 / s.steroid.muscleLag);
    set(Rate::albumin, 1 / c.albuminTime);
    set(Rate::albuminExchange, 1 / c.albuminExchangeTime);
    set(Rate::cholesterol, 1 / s.sugar.cholesterolLag);
}

} // namespace

Constants<double> constants(const Individual& animal) {
    const Species& s = animal.own;
    Constants<double> c{};
    liverConstants(s, c);
    enzymeConstants(s, c);
    bileConstants(s, c);
    const AcidRest rest = acidRest(s);
    c.acidMade = rest.made;
    c.storeRate = rest.storeRate;
    c.storeMealRate = rest.storeRate + s.bileAcids.mealEmptying;
    waterAndKidneyConstants(s, c);
    proteinAndSugarConstants(s, c);
    rates(s, c);
    return c;
}

State<double> healthy(const Individual& animal, const Constants<double>& c, double age) {
    const Species& s = animal.own;
    State<double> y{};
    y.living = 1;
    y.muscle = 1;
    y.muscleFluid = (1 - c.muscleDirect) * c.muscleShedding * c.lymphTime;
    y.growth =
        s.bone.growthAtOneMonth * std::exp(-(std::max(age, 0.0) - monthHours) / s.bone.growthLag);
    for (Pool which : pools())
        y.enzyme[static_cast<int>(which)] = s.pool[static_cast<std::size_t>(which)].setPoint;
    y.enzyme[static_cast<int>(Pool::boneALP)] *= 1 + y.growth;
    y.bilirubin = s.bilirubin.unconjugated + s.bilirubin.conjugated;
    y.delta = c.binding * s.bilirubin.conjugated * c.deltaTime;
    y.heme = 1;
    const AcidRest rest = acidRest(s);
    y.store = rest.store;
    y.gut = rest.gut;
    y.acids = s.bileAcids.fasting;
    y.water = c.water;
    y.salt = c.sodium;
    y.plasma = c.plasma;
    y.nephrons = 1;
    y.hyperfiltration = 1;
    y.outflow = 1;
    y.creatinine = s.kidney.creatinine * c.water;
    y.urea = s.kidney.urea * c.water;
    y.intake = 1;
    y.muscleMass = 1;
    y.albuminPlasma = c.albuminLevel * c.plasma;
    y.albumin = y.albuminPlasma / s.protein.plasmaShare;
    y.glucose = c.glucose;
    y.cholesterol = c.cholesterol;
    return y;
}

} // namespace cistern::body
