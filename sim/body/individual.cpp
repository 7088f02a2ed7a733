#include "body/individual.h"

#include "base/chance.h"
#include "body/course.h"
#include "body/population.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace cistern::body {

namespace {

/// No animal is drawn further than this many standard deviations out: beyond lies no healthy one.
constexpr double furthest = 3;

/// Age at which growth is long over [h].
constexpr double adult = 8 * 8766;

double factor(base::Chance& chance, double variation) {
    return std::exp(logSpread(variation) * std::clamp(chance.normal(), -furthest, furthest));
}

EnzymePool& pool(Species& species, Pool which) {
    return species.pool[static_cast<std::size_t>(which)];
}

/// A parameter that scales with the healthy level of an analyte, or against it.
struct Lever {
    double* value;
    bool inverse = false;
    void scale(double factor) const { *value = inverse ? *value / factor : *value * factor; }
};

/// Where the healthy level of an analyte is held: one or several parameters that scale together.
/// None for what follows from others.
std::vector<Lever> levers(Species& s, Analyte analyte) {
    const auto level = [&](Pool which) { return Lever{&pool(s, which).setPoint}; };
    switch (analyte) {
    case Analyte::ALT:
        return {level(Pool::ALT)};
    case Analyte::AST:
        return {level(Pool::AST)};
    case Analyte::ALP:
        return {level(Pool::liverALP), level(Pool::steroidALP), level(Pool::boneALP)};
    case Analyte::GGT:
        return {level(Pool::GGT)};
    case Analyte::GLDH:
        return {level(Pool::GLDH)};
    case Analyte::SDH:
        return {level(Pool::SDH)};
    case Analyte::CK:
        return {level(Pool::CK)};
    case Analyte::LDH:
        return {level(Pool::LDH)};
    case Analyte::lipase:
        return {level(Pool::lipase)};
    case Analyte::amylase:
        return {level(Pool::amylase)};
    case Analyte::TLI:
        return {level(Pool::TLI)};
    case Analyte::cTnI:
        return {level(Pool::cTnI)};
    case Analyte::bilirubin:
        return {{&s.bilirubin.unconjugated}, {&s.bilirubin.conjugated}};
    case Analyte::bileAcids:
        return {{&s.bileAcids.fasting}};
    case Analyte::ammonia:
        return {{&s.ammonia.level}};
    case Analyte::albumin:
        return {{&s.protein.albumin}};
    case Analyte::globulin:
        return {{&s.protein.globulin}};
    case Analyte::glucose:
        return {{&s.sugar.glucose}};
    case Analyte::urea:
        return {{&s.kidney.urea}};
    case Analyte::creatinine:
        return {{&s.kidney.creatinine}};
    case Analyte::SDMA:
        return {{&s.kidney.sdma}};
    case Analyte::cholesterol:
        return {{&s.sugar.cholesterol}};
    case Analyte::triglycerides:
        return {{&s.sugar.triglycerides}};
    case Analyte::Na:
        return {{&s.water.sodium}};
    case Analyte::K:
        return {{&s.salts.potassium}};
    case Analyte::Cl:
        return {{&s.salts.chloride}};
    case Analyte::tCO2:
        return {{&s.salts.tco2}};
    case Analyte::Ca:
        return {{&s.salts.calcium}};
    case Analyte::P:
        return {{&s.salts.phosphate}};
    case Analyte::Mg:
        return {{&s.salts.magnesium}};
    case Analyte::T4:
        return {{&s.hormones.thyroxine}};
    case Analyte::cortisol:
        return {{&s.hormones.cortisol}};
    case Analyte::CRP:
        return {{&s.acutePhase.crp}};
    case Analyte::SAA:
        return {{&s.acutePhase.saa}};
    case Analyte::PT:
        return {{&s.clotting.pt}};
    case Analyte::aPTT:
        return {{&s.clotting.aptt}};
    case Analyte::fibrinogen:
        return {{&s.acutePhase.fibrinogen}};
    case Analyte::UPC:
        return {{&s.kidney.urineProtein}};
    case Analyte::Hct: // red cells vary in mass, in size and in what they hold
        return {{&s.redCells.hematocrit}, {&s.redCells.count}, {&s.redCells.hemoglobin}};
    case Analyte::MCV:
        return {{&s.redCells.count, true}};
    case Analyte::MCHC:
        return {{&s.redCells.hemoglobin}};
    case Analyte::reticulocytes: // in how long they are told from other cells
        return {{&s.redCells.reticulocyteLife}};
    case Analyte::neutrophils:
        return {{&s.whiteCells.neutrophils}};
    case Analyte::bands:
        return {{&s.whiteCells.bands}};
    case Analyte::lymphocytes:
        return {{&s.whiteCells.lymphocytes}};
    case Analyte::monocytes:
        return {{&s.whiteCells.monocytes}};
    case Analyte::eosinophils:
        return {{&s.whiteCells.eosinophils}};
    case Analyte::platelets:
        return {{&s.platelets.count}};
    default:
        return {}; // USG is handled apart: one plus a small part
    }
}

/// Muscle sheds AST and ALT at the pace that its own CK level states. It must not account for more
/// than this share of their healthy level, or the liver's part would be negative.
constexpr double mostFromMuscle = 0.8;

void limitMuscleShare(Species& s) {
    const EnzymePool& ck = pool(s, Pool::CK);
    const double muscleOfCk = ck.setPoint * ck.volume / ck.halfLife / ck.muscleContent;
    for (Pool which : {Pool::ALT, Pool::AST, Pool::LDH}) {
        EnzymePool& p = pool(s, which);
        const double needed = (1 - p.otherShare) * p.setPoint * p.volume / p.halfLife;
        p.muscleContent = std::min(p.muscleContent, mostFromMuscle * needed / muscleOfCk);
    }
}

/// Standard normals that the animal's set points are drawn from, one an analyte, correlated as in
/// the population.
Eigen::VectorXd deviations(const Species& species, std::uint64_t seed, std::uint64_t animal) {
    Eigen::VectorXd z(analyteCount);
    for (Analyte analyte : analytes()) {
        const auto item = static_cast<std::uint32_t>(analyte);
        base::Chance chance(seed, base::Purpose::setPoints, animal, item);
        z(static_cast<Eigen::Index>(item)) = std::clamp(chance.normal(), -furthest, furthest);
    }
    if (species.population && species.population->mixing.size() > 0)
        z = (species.population->mixing.triangularView<Eigen::Lower>() * z).eval();
    return z;
}

/// The species at an age: its healthy levels as the young and the old have them.
Species atAge(const Species& species, double age) {
    Species own = species;
    if (!species.population) return own;
    for (Analyte analyte : analytes()) {
        const double factor = species.population->stages[static_cast<std::size_t>(analyte)].at(age);
        for (const Lever& lever : levers(own, analyte)) lever.scale(factor);
    }
    return own;
}

/// Moves healthy levels away from the median, each by so many of its standard deviations.
void setApart(Species& own, const Species& species, const Eigen::VectorXd& z) {
    for (Analyte analyte : analytes()) {
        const auto item = static_cast<std::size_t>(analyte);
        const double factor =
            std::exp(logSpread(species.between[item]) * z(static_cast<Eigen::Index>(item)));
        for (const Lever& lever : levers(own, analyte)) lever.scale(factor);
        if (analyte == Analyte::USG) {
            // A gravity below plain filtrate or above the kidney's best is no set point.
            auto& kidney = own.kidney;
            kidney.urineGravity =
                std::clamp(1 + (kidney.urineGravity - 1) * factor, kidney.urineGravityPlain,
                           1 + 0.95 * (kidney.urineGravityMost - 1));
        }
    }
}

} // namespace

double logSpread(double variation) {
    return std::sqrt(std::log1p(variation * variation));
}

Individual median(const Species& species, const Signalment& who) {
    return {atAge(species, who.age), who};
}

Individual raised(const Species& species, const Signalment& who,
                  const std::array<double, analyteCount>& deviations) {
    Individual one = median(species, who);
    setApart(one.own, species, Eigen::Map<const Eigen::VectorXd>(deviations.data(), analyteCount));
    return one;
}

void drawHalfLives(Individual& one, double spread, std::uint64_t seed, std::uint64_t animal) {
    for (Pool which : pools()) {
        base::Chance chance(seed, base::Purpose::halfLives, animal,
                            static_cast<std::uint32_t>(which));
        pool(one.own, which).halfLife *= factor(chance, spread);
    }
    limitMuscleShare(one.own);
}

Individual individual(const Species& species, const Signalment& who, std::uint64_t animal) {
    Individual one = median(species, who);
    setApart(one.own, species, deviations(species, who.seed, animal));
    drawHalfLives(one, species.halfLifeSpread, who.seed, animal);
    return one;
}

double wobble(const Individual& animal, Analyte analyte, double hour, std::uint64_t number) {
    // Days differ from one another, not minutes: draws within one minute share their wobble.
    const auto minute = static_cast<std::uint32_t>(std::llround(hour * 60));
    const auto item = static_cast<std::uint32_t>(analyte) ^ (minute << 6);
    static_assert(analyteCount <= 64);
    base::Chance chance(animal.who.seed, base::Purpose::wobble, number, item);
    const double within = animal.own.within[static_cast<std::size_t>(analyte)];
    return std::exp(logSpread(within) * std::clamp(chance.normal(), -furthest, furthest));
}

double setPoint(const Individual& animal, Analyte analyte) {
    // A plan that looks at its very start sees the animal at rest.
    Signalment grown = animal.who;
    grown.age = std::max(grown.age, adult);
    Plan plan{{animal.own, grown}, {}, 0, {0}, {}, partsFor({analyte})};
    return simulate(plan).at(0).level(analyte);
}

} // namespace cistern::body
