#include "reference/fluids.h"

namespace reference {

using namespace cistern::body;

namespace {
/// Solute that a healthy kidney excretes [mmol/kg/h], and how far below plain filtrate the most
/// dilute urine lies.
constexpr double soluteLoad = 0.6, dilution = 0.008;
constexpr double creatinineMass = 113.12; // g/mol
/// Share of the healthy clearance that no kidney does.
constexpr double gut = 0.005;
/// Most that uremia adds to the acids [mmol/L].
constexpr double mostUremic = 25;
} // namespace

Fluids::Fluids(const Species& s)
    : healthyFiltration(s.kidney.filtration),
      water(s.water),
      kidney(s.kidney),
      salt(s.salts),
      steroid(s.steroid),
      glucose(s.sugar.glucose),
      threshold(s.sugar.threshold),
      albumin(s.protein.albumin),
      healthyPlasma(s.redCells.bloodVolume * (1 - s.redCells.hematocrit)),
      cellSodium(water.sodium * (water.total - water.extracellular)),
      creatinineMade(kidney.filtration * kidney.creatinine),
      sdmaMade((1 - kidney.sdmaFloor) * kidney.sdma * kidney.filtration),
      ureaClearance(kidney.ureaProduction / (kidney.urea * kidney.filtration)),
      needAtRest((kidney.urineGravity - kidney.urineGravityPlain) /
                 (kidney.urineGravityMost - kidney.urineGravityPlain)),
      proteinMade(kidney.urineProtein * creatinineMade * creatinineMass / 1000),
      potassiumAmount(salt.potassiumSpace * salt.potassium),
      phosphateAmount(salt.phosphateSpace * salt.phosphate),
      phosphateIntake(kidney.filtration * salt.phosphate * salt.phosphateExcreted),
      gap(water.sodium + salt.potassium - salt.chloride - salt.tco2),
      perExtracellular(1 / water.extracellular),
      perTotal(1 / water.total),
      perFiltration(1 / kidney.filtration),
      perNeedSpan(1 / kidney.needSpan),
      perAlbumin(1 / albumin) {
    rate.water = 1 / water.lag;
    rate.stunned = 1 / kidney.stunLag;
    rate.hyperfiltration = 1 / kidney.hyperfiltrationLag;
    rate.outflow = 1 / kidney.outflowLag;
    rate.intake = 1 / kidney.intakeLag;
    rate.muscleMass = 1 / steroid.muscleLag;
    rate.phosphateExcreted = 1 / salt.phosphateLag;
}

void Fluids::rest(Vector& y) const {
    for (std::size_t one :
         {at::nephrons, at::hyperfiltration, at::outflow, at::intake, at::muscleMass})
        y[one] = 1;
    y[at::water] = water.total;
    y[at::salt] = water.sodium * water.extracellular;
    y[at::creatinine] = kidney.creatinine * water.total;
    y[at::urea] = kidney.urea * water.total;
    y[at::sdma] = (1 - kidney.sdmaFloor) * kidney.sdma * water.total;
    y[at::potassium] = potassiumAmount;
    y[at::phosphate] = phosphateAmount;
    y[at::phosphateExcreted] = salt.phosphateExcreted;
}

void Fluids::nowWater(const Vector& y, Now& n) const {
    n.extracellular = y[at::salt] * y[at::water] / (cellSodium + y[at::salt]);
    n.stretch = std::sqrt(n.extracellular * perExtracellular);
    n.share = y[at::nephrons] * (1 - y[at::stunned]);
}

void Fluids::nowKidney(const Vector& y, const Drives& d, Now& n) const {
    const double fill2 = n.filled * n.filled, fill4 = fill2 * fill2;
    n.perfusion = 2 * fill4 / (1 + fill4);
    n.filtration = kidney.filtration * (gut + (1 - gut) * n.share * y[at::hyperfiltration] *
                                                  n.perfusion * y[at::outflow] * n.root4);
    n.clearance = n.filtration / y[at::water];
    const double dry = (1 - n.filled) * perNeedSpan;
    n.need = needAtRest + (1 - needAtRest) * dry / std::sqrt(1 + dry * dry) -
             steroid.urineNeed * y[at::excess];
    // Urea slips back as water is saved: bends towards 0.3 and 1.4 of its healthy clearance.
    const double saved = kidney.ureaNeed * (n.need - needAtRest);
    const double bend = saved / (saved > 0 ? 0.7 : 0.4);
    n.cleared = ureaClearance * (1 - saved / std::sqrt(1 + bend * bend));
    n.creatinine = y[at::creatinine] / y[at::water];
    const double lost = std::max(0.0, 1 - n.filtration * perFiltration);
    n.creatinineMade =
        creatinineMade * y[at::muscleMass] * (1 - kidney.uremicFall * lost * lost * lost);
    n.spilled = n.filtration * positive(y[at::glucose] - threshold, kidney.thresholdWidth);
    n.proteinLost = proteinMade * (1 + kidney.urineProteinOfCortisol * n.half) +
                    1000 * d[Drive::kidneyProteinLoss] * n.albumin * perAlbumin;
}

void Fluids::rates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double salted = y[at::salt] / (water.sodium * water.extracellular);
    // A loss dries up where a fifth to a tenth of the salt outside the cells is left.
    const double loss = d[Drive::waterLoss] * std::clamp(10 * salted - 1, 0.0, 1.0);
    const double bled = d[Drive::bleeding] * healthyPlasma * salted;
    const double back = d[Drive::waterLoss] > 0 ? 0 : rate.water, unheld = 1 - n.held;
    const double wanted = water.total - water.waterOfAldosterone * unheld;
    const double saltWanted =
        water.sodium * water.extracellular * (1 - water.saltOfAldosterone * unheld);
    dy[at::water] = (wanted - y[at::water]) * back - loss - bled;
    dy[at::salt] =
        (saltWanted - y[at::salt]) * back - water.sodium * (water.isotonicShare * loss + bled);

    const double stun = d[Drive::nephronStun];
    dy[at::nephrons] = -d[Drive::nephronDeath] * y[at::nephrons];
    dy[at::stunned] = stun > 0 ? stun * (1 - y[at::stunned]) : -rate.stunned * y[at::stunned];
    dy[at::hyperfiltration] =
        rate.hyperfiltration *
        (1 + kidney.hyperfiltration * (1 - y[at::nephrons]) - y[at::hyperfiltration]);
    dy[at::outflow] = rate.outflow * (1 - d[Drive::outflowBlock] - y[at::outflow]);
    const double fed = 1 - (1 - kidney.fastingUrea) * d[Drive::foodMissing];
    dy[at::intake] = rate.intake * (fed - y[at::intake]);
    dy[at::muscleMass] =
        rate.muscleMass * (1 - 2 * steroid.muscleLoss * n.half - y[at::muscleMass]);

    dy[at::creatinine] = n.creatinineMade - n.clearance * y[at::creatinine];
    dy[at::urea] = kidney.ureaProduction * y[at::intake] * n.made * std::sqrt(n.root4) -
                   n.cleared * n.clearance * y[at::urea];
    dy[at::sdma] = sdmaMade - n.clearance * y[at::sdma];
    saltRates(y, d, n, dy);
}

void Fluids::saltRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double food = 1 - d[Drive::foodMissing];
    const double g = n.filtration * perFiltration;
    const double dry = water.total / y[at::water];
    const double potassium = y[at::potassium] * dry / potassiumAmount;
    const double passing = g * (1 + salt.potassiumHalf) / (g + salt.potassiumHalf) *
                           std::sqrt(gut + (1 - gut) * y[at::outflow]) *
                           (salt.potassiumFloor + (1 - salt.potassiumFloor) * n.held);
    dy[at::potassium] =
        salt.potassiumIntake * (0.75 + 0.25 * food - potassium * potassium * potassium * passing);

    const double phosphate = y[at::phosphate] * dry / phosphateAmount;
    dy[at::phosphate] = phosphateIntake * (0.8 + 0.2 * food) -
                        n.filtration * y[at::phosphateExcreted] * salt.phosphate * phosphate;
    const double over = phosphate / (1 + salt.phosphateOfThyroxine * (y[at::effect] - 1) +
                                     salt.phosphateOfAldosterone * (1 - n.held));
    const double over3 = over * over * over, over6 = over3 * over3;
    const double wanted =
        salt.phosphateMost * over6 / (over6 + salt.phosphateMost / salt.phosphateExcreted - 1);
    dy[at::phosphateExcreted] = rate.phosphateExcreted * (wanted - y[at::phosphateExcreted]);
}

double Fluids::gravity(const Vector& y, const Now& n) const {
    const double excreted = n.clearance * n.cleared * y[at::urea];
    const double load =
        std::max(1.0, 1 + kidney.soluteShare * (excreted / kidney.ureaProduction - 1) +
                          n.spilled / soluteLoad);
    const double perLoad = std::min(1.0, n.share / load), square = perLoad * perLoad;
    const double capacity = 2 * square / (1 + square) * (1 - y[at::stunned]) *
                            (1 - kidney.aldosteroneConcentration * (1 - n.held));
    const double span = n.need > 0 ? kidney.urineGravityMost - kidney.urineGravityPlain : dilution;
    return kidney.urineGravityPlain + span * capacity * std::max(n.need, -1.0);
}

Fluids::Levels Fluids::levels(const Vector& y, const Now& n) const {
    Levels out{};
    const double hydration = y[at::water] * perTotal, unheld = 1 - n.held;
    const double glucoseRise = y[at::glucose] - glucose;
    out.urea = y[at::urea] / y[at::water];
    out.creatinine = n.creatinine;
    out.sdma = kidney.sdmaFloor * kidney.sdma + y[at::sdma] / y[at::water];
    out.sodium = (cellSodium + y[at::salt]) / y[at::water] - salt.sodiumOfGlucose * glucoseRise;
    out.potassium = y[at::potassium] / (salt.potassiumSpace * hydration);
    out.phosphate = y[at::phosphate] / (salt.phosphateSpace * hydration);

    const double uremia = n.creatinine / kidney.creatinine - 1;
    const double uremic = salt.uremicAcid * onset(uremia, 0.2);
    const double acids = uremic * mostUremic / (uremic + mostUremic) +
                         salt.lactate * onset(1 - n.perfusion, 0.1) +
                         salt.ketones * onset(0.15 - n.sensitivity, 0.05) / 0.15;
    out.tco2 = 4 + positive(salt.tco2 - acids - salt.tco2OfAldosterone * unheld - 4, 2);
    out.gap = gap + acids + 0.25 * (n.albumin - albumin);
    out.chloride = out.sodium + out.potassium - out.tco2 - out.gap;
    out.calcium = salt.calcium * (1 - salt.calciumBound * (1 - n.albumin / albumin)) /
                      (1 + salt.calciumOfPhosphate / salt.calcium *
                               onset(out.phosphate - salt.phosphate, 0.3)) +
                  salt.calciumOfAldosterone * unheld;
    out.magnesium = salt.magnesium * (1 + salt.magnesiumOfCreatinine * uremia);

    out.gravity = gravity(y, n);
    out.kidneyLeak = n.proteinLost / proteinMade;
    out.proteinRatio = n.proteinLost / (n.creatinineMade * creatinineMass / 1000);
    return out;
}

} // namespace reference
