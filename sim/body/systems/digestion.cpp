#include "body/constants.h"
#include "body/species.h"

namespace cistern::body {

void eachParameter(DigestionParameters& p, const Visit& visit) {
    const Section digestion("digestion", visit);
    digestion("onset of acinar leak", "h", p.acinarLeakLag, 0.5, 200);
    digestion("lag of gut work", "h", p.gutLag, 1, 2000);
    digestion("protein loss at half gut work", "g/kg/h", p.halfWorkLoss, 1e-4, 1);
    digestion("protein loss of a healthy gut", "g/kg/h", p.healthyLoss, 1e-5, 0.1);
    digestion("triglycerides of a meal", "mmol/L", p.fatOfMeal, 0, 50);
    digestion("lag of fat", "h", p.fatLag, 0.5, 24);
}

void setDigestion(const Species& s, Constants<double>& c) {
    const auto& p = s.digestion;
    c.digestion = {1 / p.halfWorkLoss, 1 / p.healthyLoss, p.fatOfMeal};
    c.rate.digestion = {1 / p.acinarLeakLag, 1 / p.gutLag, 1 / p.fatLag};
}

void restDigestion(const Species&, const Constants<double>&, double, State<double>& y) {
    y.digestion = {};
    y.digestion.acini = 1;
    y.digestion.gut = 1;
}

} // namespace cistern::body
