#include "reference/organs.h"

namespace reference {

using namespace cistern::body;

Organs::Organs(const Species& s)
    : hormone(s.hormones),
      liver(s.liver),
      steroid(s.steroid),
      phenobarbital(s.phenobarbital),
      muscle(s.muscle),
      digestion(s.digestion),
      liverReserve(s.kidney.ureaLiverHalf),
      acidPortal(s.bileAcids.portalShare) {
    rate.fast = 1 / hormone.fastTrace;
    rate.daily = 1 / hormone.dailyTrace;
    rate.chronic = 1 / hormone.chronicTrace;
    rate.cortisol = 1 / hormone.cortisolLag;
    rate.excess = 1 / steroid.clearance;
    rate.thyroid = rateOf(hormone.thyroxineHalfLife);
    rate.effect = 1 / hormone.thyroidEffectLag;
    rate.fright = 1 / hormone.frightLag;
    rate.dying = rateOf(liver.dyingCytosol);
    rate.dyingMitochondria = rateOf(liver.dyingMitochondria);
    rate.leak = 1 / liver.leakLag;
    rate.ducts = 1 / liver.fillingLag;
    rate.necrosis = 1 / liver.necrosisCholestasisLag;
    rate.adaptation = 1 / liver.adaptationLag;
    rate.response = 1 / liver.responseLag;
    rate.steroidFast = 1 / steroid.fastLag;
    rate.steroidMiddle = 1 / steroid.middleLag;
    rate.steroidSlow = 1 / steroid.slowLag;
    rate.phenobarbital = 1 / phenobarbital.lag;
    rate.muscleDying = rateOf(muscle.dyingCytosol);
    rate.heartDying = rateOf(s.heart.dyingCytosol);
    rate.acinarLeak = 1 / digestion.acinarLeakLag;
    rate.gut = 1 / digestion.gutLag;
    rate.fat = 1 / digestion.fatLag;
    // The heart's pace follows from troponin, muscle's from what of CK the heart does not give.
    const auto cleared = [&](Pool which) {
        const EnzymePool& p = s.pool[static_cast<std::size_t>(which)];
        return p.setPoint * p.volume * rateOf(p.halfLife);
    };
    const EnzymePool& troponin = s.pool[static_cast<std::size_t>(Pool::cTnI)];
    const EnzymePool& ck = s.pool[static_cast<std::size_t>(Pool::CK)];
    const double heartReaching = s.heart.recovery * s.heart.mass;
    heartShed = cleared(Pool::cTnI) / (heartReaching * troponin.heartContent);
    muscleShed = (cleared(Pool::CK) - heartReaching * ck.heartContent * heartShed) /
                 (muscle.recovery * muscle.mass * ck.muscleContent);
}

void Organs::rest(Vector& y) const {
    for (std::size_t one : {at::adrenal, at::thyroid, at::effect, at::living, at::muscle, at::heart,
                            at::acini, at::gut})
        y[one] = 1;
    y[at::muscleFluid] = (1 - muscle.directShare) * muscleShed / muscle.lymphRate;
}

void Organs::now(const Vector& y, const Drives& d, Now& n) const {
    n.held =
        (1 + hormone.adrenalReserve) * y[at::adrenal] / (y[at::adrenal] + hormone.adrenalReserve);
    const double dose = y[at::given] + y[at::own];
    n.cortisol = join(y[at::stressed], dose / (dose + hormone.halfEffectDose));
    n.half = y[at::excess] / (1 + y[at::excess]);
    n.root2 = std::sqrt(y[at::effect]);
    n.root4 = std::sqrt(n.root2);
    n.contracted = 1 - positive(1 - y[at::contraction]);

    n.flowC = y[at::dying] * rate.dying;
    n.flowM = y[at::dyingMitochondria] * rate.dyingMitochondria;
    const double scar2 = y[at::scar] * y[at::scar];
    n.ductal = join(y[at::ducts], liver.scarCholestasis * scar2);
    n.cholestasis = 1 - (1 - n.ductal) * (1 - y[at::necrosis]) * (1 - d[Drive::liverFat]);
    n.shunted = join(d[Drive::shunt], liver.acquiredShunt * scar2 * y[at::scar]);
    n.reached = 1 - acidPortal * n.shunted;
    n.work = y[at::living] * n.reached;
    n.made = n.work * (1 + liverReserve) / (n.work + liverReserve);
    n.calm = 1 - liver.adaptationLeak * y[at::adaptation];

    n.shed = y[at::muscleDying] * rate.muscleDying + muscleShed * y[at::muscle];
    n.muscleFlow = muscle.directShare * n.shed + muscle.lymphRate * y[at::muscleFluid];
    n.heartFlow = y[at::heartDying] * rate.heartDying + heartShed * y[at::heart];
}

/// Given steroid holds down what the cortex would give, to a twentieth.
double Organs::cortisol(const Vector& y, const Now& n) const {
    const double free = 0.05 + 0.95 / (1 + y[at::given] / hormone.suppressingDose);
    return hormone.cortisol * ((n.held + hormone.cortisolInStress * y[at::stressed]) * free +
                               hormone.cortisolPerDose * y[at::own]);
}

void Organs::rates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    hormoneRates(y, d, n, dy);
    liverRates(y, d, n, dy);
    softRates(y, d, n, dy);
}

void Organs::hormoneRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double inflamed = d[Drive::inflammation];
    const double given = d[Drive::steroidDose], own = d[Drive::ownSteroid];
    dy[at::fast] = rate.fast * (inflamed - y[at::fast]);
    dy[at::daily] = rate.daily * (inflamed - y[at::daily]);
    dy[at::chronic] = rate.chronic * (inflamed - y[at::chronic]);
    dy[at::adrenal] = -d[Drive::adrenalDeath] * y[at::adrenal];
    const double ill = hormone.illnessCortisol * felt(y[at::fast] - y[at::chronic], 0.1);
    dy[at::stressed] = rate.cortisol * (n.held * join(d[Drive::stress], ill) - y[at::stressed]);
    dy[at::given] = rate.cortisol * (given - y[at::given]);
    dy[at::own] = rate.cortisol * (own - y[at::own]);
    dy[at::excess] = rate.excess * (given + own - y[at::excess]);
    dy[at::thyroid] = rate.thyroid * (std::max(0.05, 1 + d[Drive::thyroxine]) - y[at::thyroid]);
    dy[at::effect] = rate.effect * (y[at::thyroid] - y[at::effect]);
    dy[at::fright] = rate.fright * (d[Drive::fright] - y[at::fright]);
}

void Organs::liverRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double trickle = liver.obstructionDeath * y[at::ducts];
    const double death = (d[Drive::liverDeath] + trickle) * y[at::living];
    const double room = 1 - liver.portalShare * d[Drive::shunt] - y[at::living] - y[at::scar];
    dy[at::living] = liver.regrowth * y[at::living] * room - death;
    dy[at::scar] = (d[Drive::liverScar] + trickle) * y[at::living];
    dy[at::dying] = death - n.flowC;
    dy[at::dyingMitochondria] = death - n.flowM;

    const double canalicular = n.cholestasis - n.ductal;
    dy[at::ducts] = rate.ducts * (d[Drive::bileBlock] - y[at::ducts]);
    const double poisoned = 1 - std::exp(-liver.necrosisCholestasis * y[at::dyingMitochondria]);
    dy[at::necrosis] =
        rate.necrosis * (std::max(d[Drive::canalicularBlock], poisoned) - y[at::necrosis]);
    dy[at::adaptation] = rate.adaptation * (y[at::ducts] - y[at::adaptation]);
    dy[at::alpResponse] = rate.response * (n.cholestasis - y[at::alpResponse]);
    dy[at::ggtResponse] =
        rate.response * (n.ductal + liver.ggtCanalicularShare * canalicular - y[at::ggtResponse]);

    const double dose = d[Drive::steroidDose] + d[Drive::ownSteroid];
    dy[at::steroidFast] =
        rate.steroidFast * (dose / (dose + steroid.halfDose) - y[at::steroidFast]);
    dy[at::steroidMiddle] = rate.steroidMiddle * (y[at::steroidFast] - y[at::steroidMiddle]);
    dy[at::steroidSlow] = rate.steroidSlow * (y[at::steroidMiddle] - y[at::steroidSlow]);
    const double sedated = d[Drive::phenobarbitalDose];
    dy[at::phenobarbital] =
        rate.phenobarbital * (sedated / (sedated + phenobarbital.halfDose) - y[at::phenobarbital]);
    const double called =
        d[Drive::liverLeak] +
        (liver.obstructionLeak * y[at::ducts] + liver.canalicularLeak * canalicular) * n.calm +
        steroid.leakGain * y[at::steroidFast] * y[at::steroidFast] +
        steroid.slowLeakGain * y[at::steroidSlow] * y[at::steroidSlow] +
        phenobarbital.leakGain * y[at::phenobarbital] +
        hormone.liverLeakOfThyroxine * onset(y[at::effect] - 1, 0.1);
    dy[at::leak] = rate.leak * (called - y[at::leak]);
}

/// Muscle, heart, pancreas, gut and the fat of a meal.
void Organs::softRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double torn = d[Drive::muscleDeath] * y[at::muscle];
    dy[at::muscle] = muscle.regrowth * y[at::muscle] * (1 - y[at::muscle]) - torn;
    dy[at::muscleDying] = torn - y[at::muscleDying] * rate.muscleDying;
    dy[at::muscleFluid] = (1 - muscle.directShare) * n.shed - muscle.lymphRate * y[at::muscleFluid];
    const double starved = d[Drive::heartDeath] * y[at::heart];
    dy[at::heart] = -starved;
    dy[at::heartDying] = starved - y[at::heartDying] * rate.heartDying;
    dy[at::acini] = -d[Drive::acinarDeath] * y[at::acini];
    dy[at::acinarLeak] = rate.acinarLeak * (d[Drive::acinarLeak] - y[at::acinarLeak]);
    const double lining = 1 / (1 + d[Drive::gutProteinLoss] / digestion.halfWorkLoss);
    dy[at::gut] = rate.gut * (lining - y[at::gut]);
    dy[at::fat] = rate.fat * (digestion.fatOfMeal * d[Drive::meal] - y[at::fat]);
}

} // namespace reference
