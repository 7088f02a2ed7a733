#include "body/constants.h"
#include "body/species.h"

namespace cistern::body {

void eachParameter(SugarParameters& p, const Visit& visit) {
    const Section sugar("sugar", visit);
    sugar("glucose", "mmol/L", p.glucose, 1, 20, glucoseMass);
    sugar("hepatic output", "mmol/kg/h", p.output, 0.05, 5, glucoseMass);
    sugar("space", "L/kg", p.space, 0.05, 1);
    sugar("renal threshold", "mmol/L", p.threshold, 5, 40, glucoseMass);
    sugar("uptake without insulin", "1", p.insulinFree, 0.05, 1);
    sugar("insulin gain", "1", p.insulinGain, 0, 10);
    sugar("insulin most", "1", p.insulinMost, 1, 20);
    sugar("liver output most", "1", p.liverMost, 1, 10);
    sugar("kidney share of output", "1", p.kidneyShare, 0, 0.5);
    sugar("output in fright", "1", p.outputOfFright, 0, 50);
    sugar("insulin lost in fright", "1", p.insulinOfFright, 0, 1);
    sugar("demand held by cortisol", "1", p.demandOfCortisol, 0, 0.9);
    sugar("cholesterol", "mmol/L", p.cholesterol, 0.5, 20, cholesterolMass);
    sugar("lag of cholesterol", "h", p.cholesterolLag, 5, 1000);
    sugar("cholesterol in bile block", "1", p.cholesterolBile, 0, 10);
    sugar("cholesterol without insulin", "1", p.cholesterolInsulin, 0, 10);
    sugar("cholesterol of kidney loss", "kg.h/g", p.cholesterolOfKidneyLoss, 0, 1000);
    sugar("cholesterol of gut loss", "kg.h/g", p.cholesterolOfGutLoss, 0, 1000);
    sugar("triglycerides", "mmol/L", p.triglycerides, 0.05, 20, triglycerideMass);
    sugar("lag of triglycerides", "h", p.triglycerideLag, 1, 500);
    sugar("triglycerides without insulin", "1", p.triglycerideInsulin, 0, 20);
    sugar("triglycerides of cortisol", "1", p.triglycerideCortisol, 0, 20);
}

void setSugar(const Species& s, Constants<double>& c) {
    const auto& p = s.sugar;
    auto& k = c.sugar;
    k.glucose = p.glucose;
    k.perGlucose = 1 / p.glucose;
    k.uptake = p.output / p.space / p.glucose;
    k.output = p.output / p.space;
    k.perSpace = 1 / p.space;
    k.insulinFree = p.insulinFree;
    k.insulinGain = p.insulinGain;
    k.insulinMost = p.insulinMost;
    k.insulinResistance = s.steroid.insulinResistance;
    k.threshold = p.threshold;
    k.thresholdWidth = s.kidney.thresholdWidth;
    k.liverMost = p.liverMost;
    k.kidneyShare = p.kidneyShare;
    k.outputOfFright = p.outputOfFright;
    k.insulinOfFright = p.insulinOfFright;
    k.demandOfCortisol = p.demandOfCortisol;
    k.cholesterol = p.cholesterol;
    k.cholesterolSteroid = s.steroid.cholesterol;
    k.cholesterolBile = p.cholesterolBile;
    k.cholesterolInsulin = p.cholesterolInsulin;
    k.cholesterolOfKidneyLoss = p.cholesterolOfKidneyLoss;
    k.cholesterolOfGutLoss = p.cholesterolOfGutLoss;
    k.triglycerides = p.triglycerides;
    k.triglycerideInsulin = p.triglycerideInsulin;
    k.triglycerideCortisol = p.triglycerideCortisol;
    c.rate.sugar = {1 / p.cholesterolLag, 1 / p.triglycerideLag};
}

void restSugar(const Species&, const Constants<double>& c, double, State<double>& y) {
    y.sugar = {c.sugar.glucose, c.sugar.cholesterol, c.sugar.triglycerides};
}

} // namespace cistern::body
