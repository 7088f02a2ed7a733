#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

void eachParameter(BileAcidParameters& p, const Visit& visit) {
    const Section acids("bile acids", visit);
    acids("space", "L/kg", p.space, 0.03, 1);
    acids("fasting", "umol/L", p.fasting, 0.05, 50);
    acids("pool", "umol/kg", p.pool, 5, 1000);
    acids("stored share", "1", p.storedShare, 0.05, 0.95);
    acids("stored share in a meal", "1", p.mealStoredShare, 0.01, 0.95);
    acids("extraction", "1", p.extraction, 0.3, 0.999);
    acids("plasma flow", "L/kg/h", p.plasmaFlow, 0.1, 5);
    acids("portal share", "1", p.portalShare, 0.1, 0.95);
    acids("emptying in a meal", "1/h", p.mealEmptying, 0, 5);
    acids("uptake from gut", "1/h", p.uptake, 0.05, 3);
    acids("loss per pass", "1", p.lossPerPass, 0.001, 0.5);
    acids("renal clearance", "L/kg/h", p.renalClearance, 0, 1);
    acids("meal length", "h", p.mealLength, 0.5, 24);
}

void eachParameter(AmmoniaParameters& p, const Visit& visit) {
    const Section ammonia("ammonia", visit);
    ammonia("level", "umol/L", p.level, 1, 200);
    ammonia("space", "L/kg", p.space, 0.1, 1);
    ammonia("extraction", "1", p.extraction, 0.3, 0.99);
    ammonia("cleared elsewhere", "L/kg/h", p.elsewhere, 0, 5);
    ammonia("of a meal", "1", p.ofMeal, 0, 5);
}

namespace {

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

} // namespace

void setPortal(const Species& s, Constants<double>& c) {
    const auto& a = s.bileAcids;
    auto& p = c.portal;
    p.extraction = -std::log(1 - a.extraction);
    p.flow = a.plasmaFlow;
    p.renal = a.renalClearance;
    p.space = a.space;
    p.uptake = a.uptake;
    p.kept = 1 - a.lossPerPass;
    p.stored = a.storedShare;
    p.storedInMeal = a.mealStoredShare;
    const AcidRest rest = acidRest(s);
    p.made = rest.made;
    p.storeRate = rest.storeRate;
    p.storeMealRate = rest.storeRate + a.mealEmptying;

    const auto& n = s.ammonia;
    p.ammoniaExtraction = -std::log(1 - n.extraction);
    p.ammoniaElsewhere = n.elsewhere;
    p.perAmmoniaSpace = 1 / n.space;
    p.ammoniaOfMeal = n.ofMeal;
    p.ammoniaMade = (a.plasmaFlow * n.extraction + n.elsewhere) * n.level / (1 - n.extraction);
}

void restPortal(const Species& s, const Constants<double>&, double, State<double>& y) {
    const AcidRest rest = acidRest(s);
    y.portal = {rest.store, rest.gut, s.bileAcids.fasting, s.ammonia.level};
}

} // namespace cistern::body
