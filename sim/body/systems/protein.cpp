#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

void eachParameter(ProteinParameters& p, const Visit& visit) {
    const Section protein("protein", visit);
    protein("albumin", "g/L", p.albumin, 5, 80);
    protein("albumin half-life", "h", p.albuminHalfLife, 24, 1000);
    protein("plasma share of albumin", "1", p.plasmaShare, 0.1, 0.9);
    protein("exchange of albumin", "1/h", p.exchange, 0.01, 2);
    protein("reserve of synthesis", "1", p.reserve, 1, 10);
    protein("demand gain", "1", p.demandGain, 0, 5);
    protein("albumin lost to inflammation", "1", p.albuminOfInflammation, 0, 0.95);
    protein("escape in inflammation", "1", p.escapeOfInflammation, 0, 5);
    protein("globulin", "g/L", p.globulin, 5, 120);
    protein("globulin half-life", "h", p.globulinHalfLife, 24, 1000);
    protein("plasma share of globulin", "1", p.globulinPlasmaShare, 0.1, 0.9);
    protein("exchange of globulin", "1/h", p.globulinExchange, 0.01, 2);
    protein("globulin in lasting inflammation", "1", p.globulinOfInflammation, 0, 5);
    protein("globulin lost by kidney", "1", p.globulinLostByKidney, 0, 1);
    protein("globulin lost by gut", "1", p.globulinLostByGut, 0, 1);
}

void eachParameter(AcutePhaseParameters& p, const Visit& visit) {
    const Section phase("acute phase", visit);
    phase("CRP", "mg/L", p.crp, 0.05, 50);
    phase("CRP gain", "1", p.crpGain, 0, 2000);
    phase("CRP half-life", "h", p.crpHalfLife, 1, 200);
    phase("SAA", "mg/L", p.saa, 0.05, 50);
    phase("SAA gain", "1", p.saaGain, 0, 5000);
    phase("SAA half-life", "h", p.saaHalfLife, 1, 200);
    phase("fibrinogen", "g/L", p.fibrinogen, 0.5, 10);
    phase("fibrinogen gain", "1", p.fibrinogenGain, 0, 10);
    phase("fibrinogen half-life", "h", p.fibrinogenHalfLife, 5, 500);
}

void eachParameter(ClottingParameters& p, const Visit& visit) {
    const Section clotting("clotting", visit);
    clotting("factor VII half-life", "h", p.factor7HalfLife, 1, 48);
    clotting("half-life of the other factors", "h", p.factorsHalfLife, 4, 200);
    clotting("PT", "s", p.pt, 2, 30);
    clotting("PT per lack of factor", "1", p.ptGain, 0, 2);
    clotting("aPTT", "s", p.aptt, 2, 60);
    clotting("aPTT per lack of factor", "1", p.apttGain, 0, 2);
}

namespace {

/// A protein in plasma and tissue, broken down alike in both; it escapes by its level.
struct TwoPools {
    double made, returning, exchangeTime, broken;
};
TwoPools twoPools(const char* protein, double level, double plasma, double halfLife, double share,
                  double exchange) {
    TwoPools two{};
    two.broken = std::log(2.0) / halfLife;
    two.returning = exchange * share / (1 - share) - two.broken;
    if (!(two.returning > 0))
        throw std::invalid_argument(std::string(protein) +
                                    " leaves the tissues slower than it is broken down");
    two.made = two.broken * plasma * level / share;
    two.exchangeTime = 1 / (exchange + two.returning + two.broken);
    return two;
}

} // namespace

void setProtein(const Species& s, Constants<double>& c) {
    const auto& p = s.protein;
    auto& k = c.protein;
    const double plasma = c.water.plasma;
    const TwoPools a =
        twoPools("albumin", p.albumin, plasma, p.albuminHalfLife, p.plasmaShare, p.exchange);
    k.made = a.made;
    k.returning = a.returning;
    k.escape = p.exchange;
    k.time = 1 / a.broken;
    k.exchangeTime = a.exchangeTime;
    k.level = p.albumin;
    k.perLevel = 1 / p.albumin;
    k.demandGain = p.demandGain;
    k.reserve = p.reserve;
    k.ofInflammation = p.albuminOfInflammation;
    k.escapeOfInflammation = p.escapeOfInflammation;
    const TwoPools g = twoPools("globulin", p.globulin, plasma, p.globulinHalfLife,
                                p.globulinPlasmaShare, p.globulinExchange);
    k.globulinMade = g.made;
    k.globulinReturning = g.returning;
    k.globulinEscape = p.globulinExchange;
    k.globulinTime = 1 / g.broken;
    k.globulinExchangeTime = g.exchangeTime;
    k.globulinLevel = p.globulin;
    k.globulinOfInflammation = p.globulinOfInflammation;
    k.globulinLostByKidney = p.globulinLostByKidney;
    k.globulinLostByGut = p.globulinLostByGut;
    const auto& acute = s.acutePhase;
    k.crp = acute.crp;
    k.crpGain = acute.crpGain;
    k.saa = acute.saa;
    k.saaGain = acute.saaGain;
    k.fibrinogen = acute.fibrinogen;
    k.fibrinogenGain = acute.fibrinogenGain;
    const auto& t = s.clotting;
    k.pt = t.pt;
    k.ptGain = t.ptGain;
    k.aptt = t.aptt;
    k.apttGain = t.apttGain;
    const double ln2 = std::log(2.0);
    c.rate.protein = {a.broken,
                      1 / a.exchangeTime,
                      g.broken,
                      1 / g.exchangeTime,
                      ln2 / acute.crpHalfLife,
                      ln2 / acute.saaHalfLife,
                      ln2 / acute.fibrinogenHalfLife,
                      ln2 / t.factor7HalfLife,
                      ln2 / t.factorsHalfLife};
}

void restProtein(const Species& s, const Constants<double>& c, double, State<double>& y) {
    auto& p = y.protein;
    p.albuminPlasma = s.protein.albumin * c.water.plasma;
    p.albumin = p.albuminPlasma / s.protein.plasmaShare;
    p.globulinPlasma = s.protein.globulin * c.water.plasma;
    p.globulin = p.globulinPlasma / s.protein.globulinPlasmaShare;
    p.crp = s.acutePhase.crp;
    p.saa = s.acutePhase.saa;
    p.fibrinogen = s.acutePhase.fibrinogen;
    p.factor7 = 1;
    p.factors = 1;
}

} // namespace cistern::body
