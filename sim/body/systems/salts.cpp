#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

void eachParameter(SaltParameters& p, const Visit& visit) {
    const Section salts("salts", visit);
    salts("potassium", "mmol/L", p.potassium, 1, 10);
    salts("potassium intake", "mmol/kg/h", p.potassiumIntake, 0.001, 1);
    salts("potassium space", "L/kg", p.potassiumSpace, 0.1, 3);
    salts("filtration at half potassium", "1", p.potassiumHalf, 0.001, 1);
    salts("potassium excreted without aldosterone", "1", p.potassiumFloor, 0.05, 1);
    salts("phosphate", "mmol/L", p.phosphate, 0.2, 5);
    salts("phosphate space", "L/kg", p.phosphateSpace, 0.05, 2);
    salts("phosphate excreted", "1", p.phosphateExcreted, 0.01, 0.9);
    salts("phosphate excreted most", "1", p.phosphateMost, 0.1, 1);
    salts("lag of phosphate excretion", "h", p.phosphateLag, 1, 500);
    salts("phosphate of thyroxine", "1", p.phosphateOfThyroxine, 0, 1);
    salts("phosphate held without aldosterone", "1", p.phosphateOfAldosterone, 0, 2);
    salts("total CO2", "mmol/L", p.tco2, 5, 40);
    salts("chloride", "mmol/L", p.chloride, 80, 140);
    salts("uremic acid", "mmol/L", p.uremicAcid, 0, 10);
    salts("lactate", "mmol/L", p.lactate, 0, 40);
    salts("ketones", "mmol/L", p.ketones, 0, 40);
    salts("total CO2 held by aldosterone", "mmol/L", p.tco2OfAldosterone, 0, 15);
    salts("calcium", "mmol/L", p.calcium, 1, 5);
    salts("calcium on albumin", "1", p.calciumBound, 0, 0.8);
    salts("calcium of phosphate", "1", p.calciumOfPhosphate, 0, 1);
    salts("calcium of aldosterone", "mmol/L", p.calciumOfAldosterone, 0, 2);
    salts("magnesium", "mmol/L", p.magnesium, 0.2, 3);
    salts("magnesium of creatinine", "1", p.magnesiumOfCreatinine, 0, 1);
    salts("sodium of glucose", "1", p.sodiumOfGlucose, 0, 1);
}

void setSalts(const Species& s, Constants<double>& c) {
    const auto& p = s.salts;
    auto& k = c.salts;
    k.potassiumIntake = p.potassiumIntake;
    k.potassiumLevel = p.potassium;
    k.potassiumAmount = p.potassium * p.potassiumSpace;
    k.perPotassium = 1 / k.potassiumAmount;
    k.potassiumHalf = p.potassiumHalf;
    k.potassiumFloor = p.potassiumFloor;
    k.phosphateAmount = p.phosphate * p.phosphateSpace;
    k.phosphate = p.phosphate;
    k.perPhosphate = 1 / k.phosphateAmount;
    k.phosphateExcreted = p.phosphateExcreted;
    k.phosphateIntake = p.phosphate * p.phosphateExcreted * s.kidney.filtration;
    k.phosphateMost = p.phosphateMost;
    k.phosphateBalance = p.phosphateMost / p.phosphateExcreted - 1;
    k.phosphateOfThyroxine = p.phosphateOfThyroxine;
    k.phosphateOfAldosterone = p.phosphateOfAldosterone;
    k.tco2 = p.tco2;
    k.gap = s.water.sodium + p.potassium - p.tco2 - p.chloride;
    k.uremicAcid = p.uremicAcid;
    k.lactate = p.lactate;
    k.ketones = p.ketones;
    k.tco2OfAldosterone = p.tco2OfAldosterone;
    k.calcium = p.calcium;
    k.calciumBound = p.calciumBound;
    k.calciumOfPhosphate = p.calciumOfPhosphate / p.calcium; // by the slope of its onset
    k.calciumOfAldosterone = p.calciumOfAldosterone;
    k.magnesium = p.magnesium;
    k.magnesiumOfCreatinine = p.magnesiumOfCreatinine;
    k.sodiumOfGlucose = p.sodiumOfGlucose;
    k.perCreatinine = 1 / s.kidney.creatinine;
    if (!(k.phosphateBalance > 0))
        throw std::invalid_argument("phosphate is excreted at its most in health already");
    c.rate.salts = {1 / p.phosphateLag};
}

void restSalts(const Species& s, const Constants<double>& c, double, State<double>& y) {
    y.salts = {c.salts.potassiumAmount, c.salts.phosphateAmount, s.salts.phosphateExcreted};
}

} // namespace cistern::body
