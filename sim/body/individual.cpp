#include "body/individual.h"

#include "base/chance.h"

#include <algorithm>
#include <cmath>

namespace cistern::body {

namespace {

/// Standard deviation of the logarithm of a log-normal factor with this coefficient of variation.
double logSpread(double variation) {
    return std::sqrt(std::log1p(variation * variation));
}

/// No animal is drawn further than this many standard deviations out: beyond lies no healthy one.
constexpr double furthest = 3;

double factor(base::Chance& chance, double variation) {
    return std::exp(logSpread(variation) * std::clamp(chance.normal(), -furthest, furthest));
}

EnzymePool& pool(Species& species, Pool which) {
    return species.pool[static_cast<std::size_t>(which)];
}
const EnzymePool& pool(const Species& species, Pool which) {
    return species.pool[static_cast<std::size_t>(which)];
}

/// Where the healthy level of an analyte is held: one or several parameters that scale together.
std::vector<double*> levels(Species& s, Analyte analyte) {
    switch (analyte) {
    case Analyte::ALT:
        return {&pool(s, Pool::ALT).setPoint};
    case Analyte::AST:
        return {&pool(s, Pool::AST).setPoint};
    case Analyte::ALP:
        return {&pool(s, Pool::liverALP).setPoint, &pool(s, Pool::steroidALP).setPoint,
                &pool(s, Pool::boneALP).setPoint};
    case Analyte::GGT:
        return {&pool(s, Pool::GGT).setPoint};
    case Analyte::CK:
        return {&pool(s, Pool::CK).setPoint};
    case Analyte::bilirubin:
        return {&s.bilirubin.unconjugated, &s.bilirubin.conjugated};
    case Analyte::bileAcids:
        return {&s.bileAcids.fasting};
    case Analyte::protein:
        return {}; // albumin and globulin vary, protein is their sum
    case Analyte::albumin:
        return {&s.protein.albumin};
    case Analyte::globulin:
        return {&s.protein.globulin};
    case Analyte::glucose:
        return {&s.sugar.glucose};
    case Analyte::urea:
        return {&s.kidney.urea};
    case Analyte::creatinine:
        return {&s.kidney.creatinine};
    case Analyte::cholesterol:
        return {&s.sugar.cholesterol};
    case Analyte::USG:
        return {}; // handled apart: one plus a small part
    }
    return {};
}

/// Muscle sheds AST and ALT at the pace that its own CK level states. It must not account for more
/// than this share of their healthy level, or the liver's part would be negative.
constexpr double mostFromMuscle = 0.8;

void limitMuscleShare(Species& s) {
    const EnzymePool& ck = pool(s, Pool::CK);
    const double muscleOfCk = ck.setPoint * ck.volume / ck.halfLife / ck.muscleContent;
    for (Pool which : {Pool::ALT, Pool::AST}) {
        EnzymePool& p = pool(s, which);
        const double needed = p.setPoint * p.volume / p.halfLife;
        p.muscleContent = std::min(p.muscleContent, mostFromMuscle * needed / muscleOfCk);
    }
}

} // namespace

Individual median(const Species& species, const Signalment& who) {
    return {species, who};
}

Individual individual(const Species& species, const Signalment& who, std::uint64_t animal) {
    Individual one{species, who};
    for (Analyte analyte : analytes()) {
        const auto item = static_cast<std::uint32_t>(analyte);
        base::Chance chance(who.seed, base::Purpose::setPoints, animal, item);
        const double own = factor(chance, species.between[item]);
        for (double* level : levels(one.own, analyte)) *level *= own;
        if (analyte == Analyte::USG) {
            // A gravity below plain filtrate or above the kidney's best is no set point.
            auto& kidney = one.own.kidney;
            kidney.urineGravity =
                std::clamp(1 + (kidney.urineGravity - 1) * own, kidney.urineGravityPlain,
                           1 + 0.95 * (kidney.urineGravityMost - 1));
        }
    }
    for (Pool which : pools()) {
        base::Chance chance(who.seed, base::Purpose::halfLives, animal,
                            static_cast<std::uint32_t>(which));
        pool(one.own, which).halfLife *= factor(chance, species.halfLifeSpread);
    }
    limitMuscleShare(one.own);
    return one;
}

double wobble(const Individual& animal, Analyte analyte, double hour, std::uint64_t number) {
    // Days differ from one another, not minutes: draws within one minute share their wobble.
    const auto minute = static_cast<std::uint32_t>(std::llround(hour * 60));
    const auto item = static_cast<std::uint32_t>(analyte) ^ (minute << 4);
    base::Chance chance(animal.who.seed, base::Purpose::wobble, number, item);
    const double within = animal.own.within[static_cast<std::size_t>(analyte)];
    return std::exp(logSpread(within) * std::clamp(chance.normal(), -furthest, furthest));
}

double setPoint(const Individual& animal, Analyte analyte) {
    const Species& s = animal.own;
    switch (analyte) {
    case Analyte::ALT:
        return pool(s, Pool::ALT).setPoint;
    case Analyte::AST:
        return pool(s, Pool::AST).setPoint;
    case Analyte::ALP:
        return pool(s, Pool::liverALP).setPoint + pool(s, Pool::steroidALP).setPoint +
               pool(s, Pool::boneALP).setPoint;
    case Analyte::GGT:
        return pool(s, Pool::GGT).setPoint;
    case Analyte::CK:
        return pool(s, Pool::CK).setPoint;
    case Analyte::bilirubin: {
        const auto& b = s.bilirubin;
        return b.unconjugated + b.conjugated * (1 + b.deltaRate * b.deltaHalfLife / std::log(2.0));
    }
    case Analyte::bileAcids:
        return s.bileAcids.fasting;
    case Analyte::protein:
        return s.protein.albumin + s.protein.globulin;
    case Analyte::albumin:
        return s.protein.albumin;
    case Analyte::globulin:
        return s.protein.globulin;
    case Analyte::glucose:
        return s.sugar.glucose;
    case Analyte::urea:
        return s.kidney.urea;
    case Analyte::creatinine:
        return s.kidney.creatinine;
    case Analyte::cholesterol:
        return s.sugar.cholesterol;
    case Analyte::USG:
        return s.kidney.urineGravity;
    }
    return 0;
}

} // namespace cistern::body
