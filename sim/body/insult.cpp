#include "body/insult.h"

#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

bool kills(Drive drive) {
    switch (drive) {
    case Drive::liverDeath:
    case Drive::muscleDeath:
    case Drive::heartDeath:
    case Drive::acinarDeath:
    case Drive::nephronDeath:
    case Drive::nephronStun:
    case Drive::adrenalDeath:
    case Drive::bleeding:
    case Drive::hemolysis:
    case Drive::plateletDeath:
        return true;
    default:
        return false;
    }
}

bool gentle(Drive drive) {
    switch (drive) {
    case Drive::phenobarbitalDose:
    case Drive::gutProteinLoss:
    case Drive::kidneyProteinLoss:
    case Drive::adrenalDeath:
    case Drive::thyroxine:
    case Drive::parasites:
    case Drive::marrowBlock:
    case Drive::ironLack:
    case Drive::foodMissing:
    case Drive::meal:
        return true;
    default:
        return false;
    }
}

bool addsUp(Drive drive) {
    switch (drive) {
    case Drive::bileBlock:
    case Drive::canalicularBlock:
    case Drive::liverFat:
    case Drive::shunt:
    case Drive::outflowBlock:
    case Drive::insulinLack:
    case Drive::inflammation:
    case Drive::stress:
    case Drive::fright:
    case Drive::parasites:
    case Drive::marrowBlock:
    case Drive::ironLack:
    case Drive::foodMissing:
    case Drive::meal:
        return false;
    default:
        return true;
    }
}

namespace {

/// Mass [g/kg] of the organ that a drive destroys.
double massOf(Drive drive, const Species& species) {
    return drive == Drive::muscleDeath ? species.muscle.mass : species.liver.mass;
}

double valueOf(const Effect& effect, const Insult& insult, const Species& species) {
    const double hours = insult.to - insult.from;
    switch (effect.law) {
    case Law::shareLost:
        return effect.times * -std::log1p(-insult.severity) / hours;
    case Law::massLost:
        return effect.times * -std::log1p(-insult.severity / massOf(effect.drive, species)) / hours;
    case Law::fold:
        return effect.times * (insult.severity - 1);
    case Law::level:
        return effect.times * insult.severity;
    case Law::spent:
        return effect.times * insult.severity / hours;
    case Law::daily:
        return effect.times * -std::log1p(-insult.severity) / 24;
    case Law::constant:
        return effect.times;
    }
    throw std::logic_error("an effect without a law");
}

} // namespace

std::vector<Window> windows(const Insult& insult, const Species& species) {
    std::vector<Window> all;
    if (species.kind == Kind::dog ? !insult.kind->dog : !insult.kind->cat) return all;
    for (const Effect& effect : insult.kind->effects)
        all.push_back({effect.drive, insult.from, insult.to, valueOf(effect, insult, species)});
    return all;
}

Window meal(double at, const Species& species) {
    return {Drive::meal, at, at + species.bileAcids.mealLength, 1};
}

} // namespace cistern::body
