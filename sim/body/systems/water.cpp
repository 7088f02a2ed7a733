#include "body/constants.h"
#include "body/species.h"

namespace cistern::body {

void eachParameter(WaterParameters& p, const Visit& visit) {
    const Section water("water", visit);
    water("total", "L/kg", p.total, 0.3, 0.9);
    water("extracellular", "L/kg", p.extracellular, 0.1, 0.5);
    water("sodium", "mmol/L", p.sodium, 100, 200);
    water("isotonic share of loss", "1", p.isotonicShare, 0.05, 1);
    water("lag of intake", "h", p.lag, 0.5, 200);
    water("water held by aldosterone", "L/kg", p.waterOfAldosterone, 0, 0.15);
    water("salt held by aldosterone", "1", p.saltOfAldosterone, 0, 0.6);
}

void setWater(const Species& s, Constants<double>& c) {
    const auto& p = s.water;
    auto& w = c.water;
    w.water = p.total;
    w.cellSodium = p.sodium * (p.total - p.extracellular);
    w.salt = p.sodium * p.extracellular;
    w.saltPerLoss = p.isotonicShare * p.sodium;
    w.perExtracellular = 1 / p.extracellular;
    w.plasma = s.redCells.bloodVolume * (1 - s.redCells.hematocrit);
    w.sodium = p.sodium;
    w.waterOfAldosterone = p.waterOfAldosterone;
    w.saltOfAldosterone = p.saltOfAldosterone;
    w.refillTime = p.lag;
    c.rate.water = {1 / p.lag};
}

void restWater(const Species&, const Constants<double>& c, double, State<double>& y) {
    y.water = {c.water.water, c.water.salt};
}

} // namespace cistern::body
