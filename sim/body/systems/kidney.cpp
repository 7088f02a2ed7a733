#include "body/constants.h"
#include "body/species.h"

namespace cistern::body {

void eachParameter(KidneyParameters& p, const Visit& visit) {
    const Section kidney("kidney", visit);
    kidney("filtration", "L/kg/h", p.filtration, 0.02, 1);
    kidney("hyperfiltration", "1", p.hyperfiltration, 0, 3);
    kidney("lag of hyperfiltration", "h", p.hyperfiltrationLag, 5, 2000);
    kidney("recovery from stun", "h", p.stunLag, 5, 5000);
    kidney("lag of outflow", "h", p.outflowLag, 0.5, 100);
    kidney("creatinine", "umol/L", p.creatinine, 5, 1000, creatinineMass);
    kidney("uremic fall of production", "1", p.uremicFall, 0, 0.9);
    kidney("urea", "mmol/L", p.urea, 0.5, 100, ureaNitrogenMass);
    kidney("urea production", "mmol/kg/h", p.ureaProduction, 0.01, 10, ureaNitrogenMass);
    kidney("urea saved by need", "1", p.ureaNeed, 0, 2);
    kidney("liver share at half urea", "1", p.ureaLiverHalf, 0.001, 5);
    kidney("urea made in fasting", "1", p.fastingUrea, 0.05, 1);
    kidney("lag of intake", "h", p.intakeLag, 1, 500);
    kidney("SDMA", "umol/L", p.sdma, 0.05, 5, sdmaMass);
    kidney("SDMA without filtration", "1", p.sdmaFloor, 0, 0.9);
    kidney("urine gravity", "1", p.urineGravity, 1.001, 1.09);
    kidney("urine gravity most", "1", p.urineGravityMost, 1.02, 1.12);
    kidney("urine gravity plain", "1", p.urineGravityPlain, 1.005, 1.015);
    kidney("plasma fall for full need", "1", p.needSpan, 0.01, 0.5);
    kidney("urea share of solute", "1", p.soluteShare, 0, 1);
    kidney("concentration held by aldosterone", "1", p.aldosteroneConcentration, 0, 1);
    kidney("half splay of glucose", "mmol/L", p.thresholdWidth, 0.05, 4, glucoseMass);
    kidney("urine protein", "1", p.urineProtein, 0.001, 1);
    kidney("urine protein of cortisol", "1", p.urineProteinOfCortisol, 0, 50);
}

void setKidney(const Species& s, Constants<double>& c) {
    const auto& p = s.kidney;
    auto& k = c.kidney;
    k.filtration = p.filtration;
    k.hyperfiltration = p.hyperfiltration;
    k.creatinineMade = p.filtration * p.creatinine;
    k.uremicFall = p.uremicFall;
    k.ureaMade = p.ureaProduction;
    k.perUreaMade = 1 / p.ureaProduction;
    k.ureaClearance = p.ureaProduction / (p.urea * p.filtration);
    k.ureaNeed = p.ureaNeed;
    k.fastingUrea = p.fastingUrea;
    k.sdmaFloor = p.sdmaFloor * p.sdma;
    k.sdmaMade = (1 - p.sdmaFloor) * p.sdma * p.filtration;
    k.gravityPlain = p.urineGravityPlain - 1;
    k.gravitySpan = p.urineGravityMost - p.urineGravityPlain;
    k.gravityNeed = (p.urineGravity - p.urineGravityPlain) / k.gravitySpan;
    k.perNeedSpan = 1 / p.needSpan;
    k.steroidNeed = s.steroid.urineNeed;
    k.soluteShare = p.soluteShare;
    k.muscleLoss = s.steroid.muscleLoss;
    k.aldosteroneConcentration = p.aldosteroneConcentration;
    k.urineProtein = p.urineProtein;
    k.urineProteinOfCortisol = p.urineProteinOfCortisol;
    k.glucoseThreshold = s.sugar.threshold;
    k.thresholdWidth = p.thresholdWidth;

    auto& rate = c.rate.kidney;
    rate.hyperfiltration = 1 / p.hyperfiltrationLag;
    rate.stun = 1 / p.stunLag;
    rate.outflow = 1 / p.outflowLag;
    rate.intake = 1 / p.intakeLag;
    rate.muscleMass = 1 / s.steroid.muscleLag;
}

void restKidney(const Species& s, const Constants<double>& c, double, State<double>& y) {
    auto& k = y.kidney;
    k = {};
    k.nephrons = 1;
    k.hyperfiltration = 1;
    k.outflow = 1;
    k.creatinine = s.kidney.creatinine * c.water.water;
    k.urea = s.kidney.urea * c.water.water;
    k.sdma = c.kidney.sdmaMade / c.kidney.filtration * c.water.water;
    k.intake = 1;
    k.muscleMass = 1;
}

} // namespace cistern::body
