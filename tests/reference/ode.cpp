#include "reference/ode.h"

#include <boost/numeric/odeint.hpp>

#include <algorithm>
#include <cmath>

namespace reference {

using namespace cistern::body;

namespace {
const double ln2 = std::log(2.0);
/// Corners rounded by a parabola over 0.1 to either side.
double rounding(double gap) {
    const double within = std::max(0.1 - std::abs(gap), 0.0);
    return within * within / 0.4;
}
double eased(double a, double b) {
    return std::min(a, b) - rounding(a - b);
}
} // namespace

Ode::Ode(const Plan& plan)
    : p_(plan.animal.own), age_(plan.animal.who.age), from_(plan.from), windows_(plan.windows) {
    const auto& sp = p_;
    tc = sp.liver.dyingCytosol / ln2;
    tm = sp.liver.dyingMitochondria / ln2;
    tmc = sp.muscle.dyingCytosol / ln2;
    for (int j = 0; j < 7; ++j) {
        ke[j] = ln2 / sp.pool[j].halfLife;
        mc[j] = sp.liver.mass * sp.pool[j].liverContent / sp.pool[j].volume;
        mus[j] = sp.muscle.recovery * sp.muscle.mass * sp.pool[j].muscleContent / sp.pool[j].volume;
    }
    bm = sp.pool[6].setPoint * ke[6] / mus[6];
    for (int j = 0; j < 7; ++j) b[j] = sp.pool[j].setPoint * ke[j] - mus[j] * bm;
    const auto& bi = sp.bilirubin;
    tDelta = bi.deltaHalfLife / ln2;
    const double C0 = bi.conjugated;
    const double excreted = bi.production / bi.space -
                            bi.renalClearance / bi.space * C0 * C0 / (C0 + bi.renalThreshold) -
                            bi.deltaRate * C0;
    Vmax = bi.reserve * excreted;
    Km = C0 * (bi.reserve - 1);
    const auto& ac = sp.bileAcids;
    kb = -std::log(1 - ac.extraction);
    const double J = (ac.plasmaFlow * ac.extraction * ac.fasting + ac.renalClearance * ac.fasting) /
                     (1 - ac.extraction);
    const double E = J / (1 - ac.lossPerPass);
    syn = E - ac.extraction * J - ac.plasmaFlow * ac.extraction * ac.fasting;
    gut0 = E / ac.uptake;
    store0 = ac.pool - gut0 - ac.fasting * ac.space;
    kS = ac.storedShare * E / store0;
    Pc = sp.kidney.filtration * sp.kidney.creatinine;
    r0 = sp.kidney.ureaProduction / (sp.kidney.urea * sp.kidney.filtration);
    n0 = (sp.kidney.urineGravity - sp.kidney.urineGravityPlain) /
         (sp.kidney.urineGravityMost - sp.kidney.urineGravityPlain);
    kc = ln2 / sp.protein.albuminHalfLife;
    ki = sp.protein.exchange * sp.protein.plasmaShare / (1 - sp.protein.plasmaShare) - kc;
    synA = kc * sp.protein.albumin * sp.water.plasma / sp.protein.plasmaShare;
    for (const Window& w : windows_)
        for (double t : {w.from, w.to})
            if (t > from_) changes_.push_back(t);
    std::sort(changes_.begin(), changes_.end());
    changes_.erase(std::unique(changes_.begin(), changes_.end()), changes_.end());
    hold(from_);
}

void Ode::hold(double hour) {
    double d[driveCount] = {};
    for (const Window& w : windows_)
        if (w.from <= hour && hour < w.to) {
            double& x = d[static_cast<int>(w.drive)];
            x = addsUp(w.drive) ? x + w.value : x + w.value - x * w.value;
        }
    const auto at = [&](Drive which) { return d[static_cast<int>(which)]; };
    k = at(Drive::liverDeath), kscar = at(Drive::liverScar), a = at(Drive::liverLeak),
    o = at(Drive::bileBlock);
    z = at(Drive::canalicularBlock), fat = at(Drive::liverFat), sig = at(Drive::shunt),
    dose = at(Drive::steroidDose);
    phen = at(Drive::phenobarbitalDose), km = at(Drive::muscleDeath), heme = at(Drive::hemeLoad);
    kn = at(Drive::nephronDeath), ka = at(Drive::nephronStun), block = at(Drive::outflowBlock);
    loss = at(Drive::waterLoss), fast = at(Drive::foodMissing), meal = at(Drive::meal);
}

Ode::State Ode::healthy() const {
    State y{};
    y[v] = y[vm] = y[vn] = y[hn] = y[ou] = y[In] = y[Mm] = y[H] = 1;
    y[X] = (1 - p_.muscle.directShare) * bm / p_.muscle.lymphRate;
    const double month = 30.4375 * 24;
    y[grow] = p_.bone.growthAtOneMonth *
              std::exp((month - std::max(age_ + from_, 0.0)) / p_.bone.growthLag);
    for (int j = 0; j < 7; ++j) y[ALT + j] = p_.pool[j].setPoint;
    y[ALPB] *= 1 + y[grow];
    y[B] = p_.bilirubin.unconjugated + p_.bilirubin.conjugated;
    y[De] = p_.bilirubin.deltaRate * p_.bilirubin.conjugated * tDelta;
    y[St] = store0, y[G] = gut0, y[P] = p_.bileAcids.fasting;
    y[W] = p_.water.total, y[S] = p_.water.sodium * p_.water.extracellular, y[Vp] = p_.water.plasma;
    y[Cr] = p_.kidney.creatinine * y[W], y[Ur] = p_.kidney.urea * y[W];
    y[Ap] = p_.protein.albumin * y[Vp], y[Ai] = y[Ap] * (1 / p_.protein.plasmaShare - 1);
    y[Gl] = p_.sugar.glucose, y[Ch] = p_.sugar.cholesterol;
    return y;
}

Ode::Algebra Ode::algebra(const State& y) const {
    Algebra x;
    const auto& L = p_.liver;
    const double s2_ = y[s] * y[s];
    x.od = 1 - (1 - y[oe]) * (1 - L.scarCholestasis * s2_);
    x.Z = 1 - (1 - x.od) * (1 - y[f]) * (1 - fat);
    x.sh = 1 - (1 - sig) * (1 - L.acquiredShunt * s2_ * y[s]);
    x.reached = 1 - p_.bileAcids.portalShare * x.sh;
    x.work = y[v] * x.reached;
    x.calm = 1 - L.adaptationLeak * y[h];
    x.shed = y[Dm] / tmc + bm * y[vm];
    x.flow = p_.muscle.directShare * x.shed + p_.muscle.lymphRate * y[X];
    const auto& bi = p_.bilirubin;
    x.C = std::max((y[B] - y[H] * (bi.unconjugated - bi.backFlow * bi.conjugated) / y[v]) /
                       (1 + bi.backFlow),
                   0.0);
    const double fill = y[Vp] / p_.water.plasma, p4 = fill * fill * fill * fill;
    x.filtration = p_.kidney.filtration * y[vn] * (1 - y[q]) * y[hn] * 2 * p4 / (1 + p4) * y[ou];
    const double dry = (1 - fill) / p_.kidney.needSpan;
    x.need = n0 + (1 - n0) * dry / std::sqrt(1 + dry * dry) - p_.steroid.urineNeed * y[co];
    const double saved = p_.kidney.ureaNeed * (x.need - n0), bend = saved / (saved > 0 ? 0.7 : 0.4);
    x.cleared = r0 * (1 - saved / std::sqrt(1 + bend * bend));
    return x;
}

void Ode::operator()(const State& y, State& dy, double) const {
    const Algebra x = algebra(y);
    const auto& L = p_.liver;
    const auto& st = p_.steroid;
    const double kill = k + L.obstructionDeath * y[oe], zf = x.Z - x.od;
    dy[v] = L.regrowth * y[v] * (1 - L.portalShare * sig - y[v] - y[s]) - kill * y[v];
    dy[s] = (kscar + L.obstructionDeath * y[oe]) * y[v];
    dy[D] = kill * y[v] - y[D] / tc;
    dy[M] = kill * y[v] - y[M] / tm;
    dy[oe] = (o - y[oe]) / L.fillingLag;
    dy[f] = (std::max(z, 1 - std::exp(-L.necrosisCholestasis * y[M])) - y[f]) /
            L.necrosisCholestasisLag;
    dy[h] = (y[oe] - y[h]) / L.adaptationLag;
    dy[om] = (x.Z - y[om]) / L.responseLag;
    dy[on] = (x.od + L.ggtCanalicularShare * zf - y[on]) / L.responseLag;
    dy[s1] = (dose / (dose + st.halfDose) - y[s1]) / st.fastLag;
    dy[s2] = (y[s1] - y[s2]) / st.middleLag;
    dy[s3] = (y[s2] - y[s3]) / st.slowLag;
    dy[pb] = (phen / (phen + p_.phenobarbital.halfDose) - y[pb]) / p_.phenobarbital.lag;
    dy[l] = (a + (L.obstructionLeak * y[oe] + L.canalicularLeak * zf) * x.calm +
             st.leakGain * y[s1] * y[s1] + p_.phenobarbital.leakGain * y[pb] - y[l]) /
            L.leakLag;
    dy[vm] = p_.muscle.regrowth * y[vm] * (1 - y[vm]) - km * y[vm];
    dy[Dm] = km * y[vm] - y[Dm] / tmc;
    dy[X] = (1 - p_.muscle.directShare) * x.shed - p_.muscle.lymphRate * y[X];
    dy[grow] = -y[grow] / p_.bone.growthLag;
    enzymes(y, x, dy);
    bile(y, x, dy);
    waterAndKidney(y, x, dy);
    proteinAndSugar(y, x, dy);
}

void Ode::enzymes(const State& y, const Algebra& x, State& dy) const {
    const auto& L = p_.liver;
    const double flowC = y[D] / tc, flowM = y[M] / tm;
    for (int j : {0, 1}) {
        const auto& e = p_.pool[j];
        const double mu = e.mitochondrialShare;
        dy[ALT + j] =
            y[v] * b[j] * (1 + (1 - mu) * y[l]) +
            mc[j] * ((1 - mu) * e.cytosolYield * flowC + mu * e.mitochondrialYield * flowM) +
            mus[j] * x.flow - ke[j] * y[ALT + j];
    }
    const double wash = 1 + L.alpWashGain * y[om];
    const double content[3] = {
        1 + L.alpContentGain * y[om] * x.calm + p_.steroid.liverAlpGain * y[s1],
        1 + p_.steroid.steroidAlpGain * y[s3],
        1 + L.ggtContentGain * y[on] * x.calm + p_.steroid.ggtGain * y[s1] * y[s2]};
    const double washed[3] = {wash + p_.phenobarbital.alpWashGain * y[pb], wash,
                              1 + L.ggtWashGain * y[on]};
    const int which[3] = {2, 3, 5};
    for (int i = 0; i < 3; ++i) {
        const int j = which[i];
        const auto& e = p_.pool[j];
        const double share = (1 - e.mitochondrialShare) * e.cytosolYield;
        dy[ALT + j] =
            content[i] * (y[v] * b[j] * washed[i] + mc[j] * share * flowC) - ke[j] * y[ALT + j];
    }
    dy[ALPB] = p_.pool[4].setPoint * ke[4] * (1 + y[grow]) - ke[4] * y[ALPB];
    dy[CK] = mus[6] * x.flow - ke[6] * y[CK];
}

void Ode::bile(const State& y, const Algebra& x, State& dy) const {
    const auto& bi = p_.bilirubin;
    const double C = x.C;
    dy[H] = (1 + heme - y[H]) / bi.hemeLag;
    dy[B] = bi.production / bi.space * y[H] - Vmax * y[v] * (1 - x.Z) * C / (Km + C) -
            bi.renalClearance / bi.space * (1 + p_.liver.adaptationRenal * y[h]) * C * C /
                (C + bi.renalThreshold) -
            bi.deltaRate * C;
    dy[De] = bi.deltaRate * C - y[De] / tDelta;
    const auto& ac = p_.bileAcids;
    const double e = 1 - std::exp(-kb * y[v] / x.reached);
    const double J = (1 - ac.lossPerPass) * ac.uptake * y[G];
    const double E = e * (1 - x.sh) * J + ac.plasmaFlow * x.reached * e * y[P] + syn;
    const double fill = meal > 0 ? ac.mealStoredShare : ac.storedShare;
    const double empty = meal > 0 ? kS + ac.mealEmptying : kS;
    dy[St] = fill * (1 - x.Z) * E - empty * y[St];
    dy[G] = (1 - fill) * (1 - x.Z) * E + empty * y[St] - ac.uptake * y[G];
    dy[P] = (J * (x.sh + (1 - x.sh) * (1 - e)) + x.Z * E - ac.plasmaFlow * x.reached * e * y[P] -
             ac.renalClearance * y[P]) /
            ac.space;
}

void Ode::waterAndKidney(const State& y, const Algebra& x, State& dy) const {
    const auto& w = p_.water;
    const auto& kd = p_.kidney;
    const double back = loss > 0 ? 0 : 1 / w.lag;
    dy[W] = (w.total - y[W]) * back - loss;
    dy[S] = (w.sodium * w.extracellular - y[S]) * back - w.isotonicShare * w.sodium * loss;
    const double tonicity = (w.sodium * (w.total - w.extracellular) + y[S]) / y[W];
    const double ecf = y[S] / tonicity;
    dy[Vp] = (w.plasma * std::sqrt(ecf / w.extracellular) - y[Vp]) / w.refillLag -
             w.isotonicShare / 2 * y[Vp] / ecf * loss;
    dy[vn] = -kn * y[vn];
    dy[q] = ka > 0 ? ka * (1 - y[q]) : -y[q] / kd.stunLag;
    dy[hn] = (1 + kd.hyperfiltration * (1 - y[vn]) - y[hn]) / kd.hyperfiltrationLag;
    dy[ou] = (1 - block - y[ou]) / kd.outflowLag;
    dy[In] = (1 - (1 - kd.fastingUrea) * fast - y[In]) / kd.intakeLag;
    dy[co] = (dose - y[co]) / p_.steroid.clearance;
    dy[Mm] = (1 - p_.steroid.muscleLoss * std::min(y[co], 1.0) - y[Mm]) / p_.steroid.muscleLag;
    const double lost = std::max(0.0, 1 - x.filtration / kd.filtration);
    dy[Cr] = Pc * y[Mm] * (1 - kd.uremicFall * lost * lost * lost) - x.filtration * y[Cr] / y[W];
    const double made = x.work * (1 + kd.ureaLiverHalf) / (x.work + kd.ureaLiverHalf);
    dy[Ur] = kd.ureaProduction * y[In] * made - x.cleared * x.filtration * y[Ur] / y[W];
}

void Ode::proteinAndSugar(const State& y, const Algebra& x, State& dy) const {
    const auto& pr = p_.protein;
    const double wanted = 1 + pr.demandGain * (1 - y[Ap] / y[Vp] / pr.albumin);
    dy[Ap] = synA * eased(wanted, pr.reserve * x.work) + ki * y[Ai] - (pr.exchange + kc) * y[Ap];
    dy[Ai] = pr.exchange * y[Ap] - (ki + kc) * y[Ai];
    const auto& su = p_.sugar;
    const double i = 1 / (1 + p_.steroid.insulinResistance * y[co]);
    const double wish = i * (1 + su.insulinGain * (y[Gl] / su.glucose - 1));
    const double ins = std::min(std::max(wish, 0.0) + rounding(wish), su.insulinMost);
    const double demand = 3 / (1 + 2 * ins);
    const double out = (1 - su.kidneyShare) * eased(demand, su.liverMost * x.work) +
                       su.kidneyShare * eased(demand, su.liverMost / 2);
    dy[Gl] =
        su.output / su.space * out -
        su.output / su.space / su.glucose * (su.insulinFree + (1 - su.insulinFree) * ins) * y[Gl] -
        x.filtration / su.space * std::max(0.0, y[Gl] - su.threshold);
    const double made = x.work * (1 + p_.kidney.ureaLiverHalf) / (x.work + p_.kidney.ureaLiverHalf);
    dy[Ch] = (su.cholesterol * made * (1 + p_.steroid.cholesterol * y[co]) *
                  (1 + su.cholesterolInsulin * (1 - i)) * (1 + su.cholesterolBile * x.od) -
              y[Ch]) /
             su.cholesterolLag;
}

std::array<double, reading::gfr> Ode::read(const State& y) const {
    const Algebra x = algebra(y);
    std::array<double, reading::gfr> r{};
    const auto& alt = p_.pool[0];
    const auto& ggt = p_.pool[5];
    r[0] = x.work;
    r[1] = 1 - x.od;
    r[2] = y[vm];
    r[3] = 1;
    const double fill = y[Vp] / p_.water.plasma, p4 = fill * fill * fill * fill;
    r[4] = y[vn] * (1 - y[q]) * std::min(2 * p4 / (1 + p4), 1.0) * y[ou];
    r[5] = 1 + y[l] + mc[0] * alt.cytosolYield * y[D] / tc / (b[0] * y[v]);
    r[6] =
        (1 + p_.liver.ggtContentGain * y[on] * x.calm + p_.steroid.ggtGain * y[s1] * y[s2]) *
        (1 + p_.liver.ggtWashGain * y[on] + mc[5] * ggt.cytosolYield * y[D] / tc / (b[5] * y[v]));
    r[7] = x.shed / (y[vm] * bm);
    r[8] = 1 + y[grow];
    r[9] = 1;
    const auto level = [&](Analyte which) -> double& {
        return r[reading::analyte + static_cast<int>(which)];
    };
    level(Analyte::ALT) = y[ALT];
    level(Analyte::AST) = y[AST];
    level(Analyte::ALP) = y[ALPL] + y[ALPC] + y[ALPB];
    level(Analyte::GGT) = y[GGT];
    level(Analyte::CK) = y[CK];
    level(Analyte::bilirubin) = y[B] + y[De];
    level(Analyte::bileAcids) = y[P];
    level(Analyte::albumin) = y[Ap] / y[Vp];
    level(Analyte::globulin) = p_.protein.globulin * p_.water.plasma / y[Vp];
    level(Analyte::protein) = level(Analyte::albumin) + level(Analyte::globulin);
    level(Analyte::glucose) = y[Gl];
    level(Analyte::urea) = y[Ur] / y[W];
    level(Analyte::creatinine) = y[Cr] / y[W];
    level(Analyte::cholesterol) = y[Ch];
    const auto& kd = p_.kidney;
    const double load = std::max(
        1.0, 1 +
                 kd.soluteShare *
                     (x.filtration * x.cleared * level(Analyte::urea) / kd.ureaProduction - 1) +
                 x.filtration * std::max(0.0, y[Gl] - p_.sugar.threshold) / 0.6);
    const double perLoad = std::min(1.0, y[vn] * (1 - y[q]) / load);
    const double capacity = 2 * perLoad * perLoad / (1 + perLoad * perLoad) * (1 - y[q]);
    const double span = x.need > 0 ? kd.urineGravityMost - kd.urineGravityPlain : 0.008;
    level(Analyte::USG) = kd.urineGravityPlain + span * capacity * std::max(x.need, -1.0);
    return r;
}

std::vector<double> course(const Plan& plan, double tolerance) {
    namespace odeint = boost::numeric::odeint;
    using Stepper = odeint::runge_kutta_dopri5<Ode::State>;
    Ode ode(plan);
    Ode::State y = ode.healthy();
    auto stepper = odeint::make_dense_output(tolerance * 1e-3, tolerance, Stepper());
    std::vector<double> rows;
    rows.reserve(plan.looks.size() * reading::gfr);
    std::size_t look = 0, change = 0;
    double now = plan.from;
    const auto store = [&](const Ode::State& at) {
        for (double x : ode.read(at)) rows.push_back(x);
        ++look;
    };
    while (look < plan.looks.size() && plan.looks[look] <= now) store(y);
    while (look < plan.looks.size()) {
        const double until = change < ode.changes().size()
                                 ? std::min(ode.changes()[change], plan.looks.back())
                                 : plan.looks.back();
        stepper.initialize(y, now, std::min(0.05, until - now));
        Ode::State at;
        while (stepper.current_time() < until) {
            stepper.do_step(std::cref(ode));
            while (look < plan.looks.size() &&
                   plan.looks[look] <= std::min(stepper.current_time(), until)) {
                stepper.calc_state(plan.looks[look], at);
                store(at);
            }
        }
        stepper.calc_state(until, y);
        now = until;
        if (change < ode.changes().size() && ode.changes()[change] <= now) {
            ode.hold(now);
            ++change;
        }
    }
    return rows;
}

} // namespace reference
