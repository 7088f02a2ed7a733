#include "reference/ode.h"

#include <boost/numeric/odeint.hpp>

namespace reference {

using namespace cistern::body;

Ode::Ode(const Plan& plan)
    : plan_(plan),
      organs_(plan.animal.own),
      fluids_(plan.animal.own),
      blood_(plan.animal.own),
      solutes_(plan.animal.own, organs_) {
    for (const Window& w : plan.windows)
        for (double t : {w.from, w.to})
            if (t > plan.from) changes_.push_back(t);
    std::sort(changes_.begin(), changes_.end());
    changes_.erase(std::unique(changes_.begin(), changes_.end()), changes_.end());
    hold(plan.from);
}

void Ode::hold(double hour) {
    drives_ = {};
    for (const Window& w : plan_.windows)
        if (w.from <= hour && hour < w.to) {
            double& x = drives_.value[static_cast<std::size_t>(w.drive)];
            x = addsUp(w.drive) ? x + w.value : join(x, w.value);
        }
}

Ode::State Ode::healthy() const {
    State y{};
    organs_.rest(y);
    fluids_.rest(y);
    blood_.rest(y);
    solutes_.rest(y, plan_.animal.who.age + plan_.from);
    return y;
}

Now Ode::now(const State& y) const {
    Now n;
    organs_.now(y, drives_, n);
    fluids_.nowWater(y, n);
    blood_.now(y, drives_, n);
    solutes_.now(y, drives_, n);
    fluids_.nowKidney(y, drives_, n);
    return n;
}

void Ode::operator()(const State& y, State& dy, double) const {
    Now n = now(y);
    organs_.rates(y, drives_, n, dy);
    fluids_.rates(y, drives_, n, dy);
    blood_.rates(y, drives_, n, dy);
    solutes_.rates(y, drives_, n, dy);
}

void Ode::readTissues(const State& y, const Now& n, const Blood::Levels& blood,
                      const Fluids::Levels& fluids, const Solutes::Levels& solutes,
                      Row& row) const {
    const auto set = [&](Tissue tissue, double work, double leak) {
        row[static_cast<std::size_t>(reading::work + static_cast<int>(tissue))] = work;
        row[static_cast<std::size_t>(reading::leak + static_cast<int>(tissue))] = leak;
    };
    set(Tissue::liver, n.work, solutes.liverLeak);
    set(Tissue::bileDucts, 1 - n.ductal, solutes.ductLeak);
    set(Tissue::skeletalMuscle, y[at::muscle], n.shed / (y[at::muscle] * organs_.muscleShed));
    set(Tissue::heart, y[at::heart], n.heartFlow / (y[at::heart] * organs_.heartShed));
    set(Tissue::kidney, n.share * std::min(n.perfusion, 1.0) * y[at::outflow], fluids.kidneyLeak);
    set(Tissue::pancreas, y[at::acini], 1 + y[at::acinarLeak]);
    set(Tissue::bone, 1, solutes.boneLeak);
    set(Tissue::gut, y[at::gut],
        1 + drives_[Drive::gutProteinLoss] / plan_.animal.own.digestion.healthyLoss);
    set(Tissue::redCells, blood.redWork, blood.redLeak);
    set(Tissue::adrenalCortex, y[at::adrenal], 1);
    set(Tissue::thyroid, y[at::thyroid], 1);
    set(Tissue::whiteCells, blood.whiteWork, 1);
    set(Tissue::platelets, blood.plateletWork, blood.plateletLeak);
}

Ode::Row Ode::read(const State& y) const {
    const Now n = now(y);
    const Blood::Levels blood = blood_.levels(y, drives_, n);
    const Fluids::Levels fluids = fluids_.levels(y, n);
    const Solutes::Levels solutes = solutes_.levels(y, drives_, n);
    Row row{};
    readTissues(y, n, blood, fluids, solutes, row);

    const auto level = [&](Analyte which) -> double& {
        return row[static_cast<std::size_t>(reading::analyte + static_cast<int>(which))];
    };
    const auto enzyme = [&](Pool which) { return solutes.enzyme[static_cast<std::size_t>(which)]; };
    level(Analyte::ALT) = enzyme(Pool::ALT);
    level(Analyte::AST) = enzyme(Pool::AST);
    level(Analyte::ALP) = enzyme(Pool::liverALP) + enzyme(Pool::steroidALP) + enzyme(Pool::boneALP);
    level(Analyte::GGT) = enzyme(Pool::GGT);
    level(Analyte::GLDH) = enzyme(Pool::GLDH);
    level(Analyte::SDH) = enzyme(Pool::SDH);
    level(Analyte::CK) = enzyme(Pool::CK);
    level(Analyte::LDH) = enzyme(Pool::LDH);
    level(Analyte::lipase) = enzyme(Pool::lipase);
    level(Analyte::amylase) = enzyme(Pool::amylase);
    level(Analyte::TLI) = enzyme(Pool::TLI);
    level(Analyte::cTnI) = enzyme(Pool::cTnI);
    level(Analyte::bilirubin) = solutes.bilirubin;
    level(Analyte::bileAcids) = y[at::acids];
    level(Analyte::ammonia) = y[at::ammonia];
    level(Analyte::albumin) = n.albumin;
    level(Analyte::globulin) = n.globulin;
    level(Analyte::protein) = n.albumin + n.globulin;
    level(Analyte::glucose) = y[at::glucose];
    level(Analyte::urea) = fluids.urea;
    level(Analyte::creatinine) = fluids.creatinine;
    level(Analyte::SDMA) = fluids.sdma;
    level(Analyte::cholesterol) = solutes.cholesterol;
    level(Analyte::triglycerides) = solutes.triglycerides;
    level(Analyte::Na) = fluids.sodium;
    level(Analyte::K) = fluids.potassium;
    level(Analyte::Cl) = fluids.chloride;
    level(Analyte::tCO2) = fluids.tco2;
    level(Analyte::anionGap) = fluids.gap;
    level(Analyte::Ca) = fluids.calcium;
    level(Analyte::P) = fluids.phosphate;
    level(Analyte::Mg) = fluids.magnesium;
    level(Analyte::T4) = plan_.animal.own.hormones.thyroxine * y[at::thyroid];
    level(Analyte::cortisol) = organs_.cortisol(y, n);
    level(Analyte::CRP) = solutes.crp;
    level(Analyte::SAA) = solutes.saa;
    level(Analyte::PT) = solutes.pt;
    level(Analyte::aPTT) = solutes.aptt;
    level(Analyte::fibrinogen) = solutes.fibrinogen;
    level(Analyte::USG) = fluids.gravity;
    level(Analyte::UPC) = fluids.proteinRatio;
    level(Analyte::RBC) = blood.redCells;
    level(Analyte::Hb) = blood.hemoglobin;
    level(Analyte::Hct) = level(Analyte::PCV) = blood.hematocrit;
    level(Analyte::MCV) = blood.volume;
    level(Analyte::MCH) = blood.content;
    level(Analyte::MCHC) = blood.concentration;
    level(Analyte::reticulocytes) = blood.reticulocytes;
    level(Analyte::neutrophils) = blood.segmented;
    level(Analyte::bands) = blood.bands;
    level(Analyte::lymphocytes) = blood.lymphocytes;
    level(Analyte::monocytes) = blood.monocytes;
    level(Analyte::eosinophils) = blood.eosinophils;
    level(Analyte::WBC) =
        blood.segmented + blood.bands + blood.lymphocytes + blood.monocytes + blood.eosinophils;
    level(Analyte::platelets) = blood.platelets;
    level(Analyte::toxic) = blood.toxic;
    level(Analyte::TP) = n.albumin + n.globulin + solutes.fibrinogen;

    row[reading::gfr] = n.filtration * (1000.0 / 60);
    row[reading::hydration] = y[at::water] / plan_.animal.own.water.total;
    row[reading::plasmaVolume] = 1000 * n.plasma;
    row[reading::conjugated] = solutes.conjugated;
    row[reading::delta] = solutes.delta;
    std::copy(solutes.enzyme.begin(), solutes.enzyme.end(), &row[reading::pool]);
    std::copy(solutes.release.begin(), solutes.release.end(), &row[reading::release]);
    return row;
}

std::vector<double> course(const Plan& plan, double tolerance) {
    namespace odeint = boost::numeric::odeint;
    using Stepper = odeint::runge_kutta_dopri5<Ode::State>;
    Ode ode(plan);
    Ode::State y = ode.healthy();
    auto stepper = odeint::make_dense_output(tolerance * 1e-3, tolerance, Stepper());
    std::vector<double> rows;
    rows.reserve(plan.looks.size() * reading::count);
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
