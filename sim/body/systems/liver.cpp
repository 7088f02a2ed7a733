#include "body/constants.h"
#include "body/species.h"

#include <cmath>

namespace cistern::body {

void eachParameter(LiverParameters& p, const Visit& visit) {
    const Section liver("liver", visit);
    liver("mass", "g/kg", p.mass, 5, 100);
    liver("regrowth", "1/h", p.regrowth, 0, 0.1);
    liver("portal share of growth", "1", p.portalShare, 0, 0.9);
    liver("onset of leak", "h", p.leakLag, 0.5, 200);
    liver("dying cytosol half-time", "h", p.dyingCytosol, 0.5, 200);
    liver("dying mitochondria half-time", "h", p.dyingMitochondria, 0.5, 400);
    liver("filling of ducts", "h", p.fillingLag, 0.5, 400);
    liver("adaptation to obstruction", "h", p.adaptationLag, 10, unbounded);
    liver("adaptation of leak", "1", p.adaptationLeak, 0, 1);
    liver("adaptation of renal clearance", "1", p.adaptationRenal, 0, 10);
    liver("cholestasis after necrosis", "1", p.necrosisCholestasis, 0, 50);
    liver("lag of cholestasis after necrosis", "h", p.necrosisCholestasisLag, 5, 2000);
    liver("cholestasis of scar", "1", p.scarCholestasis, 0, 1);
    liver("acquired shunt of scar", "1", p.acquiredShunt, 0, 1);
    liver("death in obstruction", "1/h", p.obstructionDeath, 0, 0.01);
    liver("leak in obstruction", "1", p.obstructionLeak, 0, 100);
    liver("leak in canalicular cholestasis", "1", p.canalicularLeak, 0, 100);
    liver("response of membrane enzymes", "h", p.responseLag, 5, 2000);
    liver("ALP content gain", "1", p.alpContentGain, 0, 100);
    liver("ALP wash-off gain", "1", p.alpWashGain, 0, 100);
    liver("GGT content gain", "1", p.ggtContentGain, 0, 100);
    liver("GGT wash-off gain", "1", p.ggtWashGain, 0, 100);
    liver("GGT answer to canalicular cholestasis", "1", p.ggtCanalicularShare, 0, 1);
}

void eachParameter(SteroidParameters& p, const Visit& visit) {
    const Section steroid("steroid", visit);
    steroid("half-effect dose", "mg/kg/d", p.halfDose, 0.01, 100);
    steroid("fast lag", "h", p.fastLag, 1, 2000);
    steroid("middle lag", "h", p.middleLag, 1, 2000);
    steroid("slow lag", "h", p.slowLag, 1, 5000);
    steroid("liver ALP gain", "1", p.liverAlpGain, 0, 500);
    steroid("steroid ALP gain", "1", p.steroidAlpGain, 0, 2000);
    steroid("GGT gain", "1", p.ggtGain, 0, 500);
    steroid("leak gain", "1", p.leakGain, 0, 50);
    steroid("slow leak gain", "1", p.slowLeakGain, 0, 50);
    steroid("lag in blood", "h", p.clearance, 1, 500);
    steroid("fall of urine need", "1", p.urineNeed, 0, 5);
    steroid("insulin resistance", "1", p.insulinResistance, 0, 50);
    steroid("cholesterol gain", "1", p.cholesterol, 0, 10);
    steroid("muscle loss", "1", p.muscleLoss, 0, 0.45);
    steroid("lag of muscle loss", "h", p.muscleLag, 1, 5000);
}

void eachParameter(PhenobarbitalParameters& p, const Visit& visit) {
    const Section phenobarbital("phenobarbital", visit);
    phenobarbital("half-effect dose", "mg/kg/d", p.halfDose, 0.1, 200);
    phenobarbital("lag", "h", p.lag, 1, 5000);
    phenobarbital("leak gain", "1", p.leakGain, 0, 100);
    phenobarbital("ALP wash-off gain", "1", p.alpWashGain, 0, 100);
}

void setLiver(const Species& s, Constants<double>& c) {
    const double ln2 = std::log(2.0);
    const auto& p = s.liver;
    auto& l = c.liver;
    l.regrowth = p.regrowth;
    l.portalGrowth = p.portalShare;
    l.portalShare = s.bileAcids.portalShare;
    l.cytosolTime = p.dyingCytosol / ln2;
    l.mitochondriaTime = p.dyingMitochondria / ln2;
    l.obstructionDeath = p.obstructionDeath;
    l.scarCholestasis = p.scarCholestasis;
    l.acquiredShunt = p.acquiredShunt;
    l.necrosisCholestasis = p.necrosisCholestasis;
    l.ggtCanalicular = p.ggtCanalicularShare;
    l.adaptationLeak = p.adaptationLeak;
    l.obstructionLeak = p.obstructionLeak;
    l.canalicularLeak = p.canalicularLeak;
    l.steroidLeak = s.steroid.leakGain;
    l.steroidSlowLeak = s.steroid.slowLeakGain;
    l.phenobarbitalLeak = s.phenobarbital.leakGain;
    l.thyroidLeak = s.hormones.liverLeakOfThyroxine;
    l.steroidHalfDose = s.steroid.halfDose;
    l.phenobarbitalHalfDose = s.phenobarbital.halfDose;
    l.reserve = s.kidney.ureaLiverHalf;

    auto& rate = c.rate.liver;
    rate.leak = 1 / p.leakLag;
    rate.cytosol = 1 / l.cytosolTime;
    rate.mitochondria = 1 / l.mitochondriaTime;
    rate.ducts = 1 / p.fillingLag;
    rate.necrosisCholestasis = 1 / p.necrosisCholestasisLag;
    rate.adaptation = 1 / p.adaptationLag;
    rate.response = 1 / p.responseLag;
    rate.steroidFast = 1 / s.steroid.fastLag;
    rate.steroidMiddle = 1 / s.steroid.middleLag;
    rate.steroidSlow = 1 / s.steroid.slowLag;
    rate.phenobarbital = 1 / s.phenobarbital.lag;
}

void restLiver(const Species&, const Constants<double>&, double, State<double>& y) {
    y.liver = {};
    y.liver.living = 1;
}

} // namespace cistern::body
