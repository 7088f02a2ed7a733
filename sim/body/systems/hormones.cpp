#include "body/constants.h"
#include "body/species.h"

#include <cmath>

namespace cistern::body {

void eachParameter(HormoneParameters& p, const Visit& visit) {
    const Section hormones("hormones", visit);
    hormones("fast trace of inflammation", "h", p.fastTrace, 0.2, 24);
    hormones("daily trace of inflammation", "h", p.dailyTrace, 1, 100);
    hormones("chronic trace of inflammation", "h", p.chronicTrace, 10, 2000);
    hormones("cortisol in illness", "1", p.illnessCortisol, 0, 1);
    hormones("lag of cortisol", "h", p.cortisolLag, 0.2, 24);
    hormones("half-effect dose", "mg/kg/d", p.halfEffectDose, 0.01, 20);
    hormones("reserve of the adrenal cortex", "1", p.adrenalReserve, 0.01, 1);
    hormones("cortisol", "nmol/L", p.cortisol, 1, 1000);
    hormones("cortisol in stress", "1", p.cortisolInStress, 0, 20);
    hormones("suppressing dose", "mg/kg/d", p.suppressingDose, 0.001, 10);
    hormones("cortisol of own excess", "1", p.cortisolPerDose, 0, 20);
    hormones("thyroxine", "nmol/L", p.thyroxine, 1, 200);
    hormones("thyroxine half-life", "h", p.thyroxineHalfLife, 1, 200);
    hormones("lag of thyroid effect", "h", p.thyroidEffectLag, 1, 2000);
    hormones("liver leak of thyroxine", "1", p.liverLeakOfThyroxine, 0, 10);
    hormones("lag of fright", "h", p.frightLag, 0.1, 24);
}

void setHormones(const Species& s, Constants<double>& c) {
    const auto& p = s.hormones;
    c.hormones = {p.illnessCortisol,  p.halfEffectDose,  p.adrenalReserve,  p.cortisol,
                  p.cortisolInStress, p.suppressingDose, p.cortisolPerDose, p.thyroxine};
    c.rate.hormones = {1 / p.fastTrace,         1 / p.dailyTrace,
                       1 / p.chronicTrace,      1 / p.cortisolLag,
                       1 / s.steroid.clearance, std::log(2.0) / p.thyroxineHalfLife,
                       1 / p.thyroidEffectLag,  1 / p.frightLag};
}

void restHormones(const Species&, const Constants<double>&, double, State<double>& y) {
    y.hormones = {};
    y.hormones.adrenal = 1;
    y.hormones.thyroid = 1;
    y.hormones.effect = 1;
}

} // namespace cistern::body
