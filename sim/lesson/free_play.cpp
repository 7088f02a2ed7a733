#include "lesson/free_play.h"

#include "body/constants.h"
#include "lesson/organ.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace cistern::lesson {

namespace {

using body::Tissue;

/// Over healthy, per living gram.
double released(double leak, double gain) {
    return leak <= 1 ? leak : 1 + gain * (leak - 1);
}

double rate(double halfLife) {
    return std::numbers::ln2 / halfLife;
}

void within(const char* what, double value, double least, double most) {
    if (!(value >= least && value <= most))
        throw std::invalid_argument(std::string("free play: ") + what + " of " +
                                    std::to_string(value) + " is out of its range");
}

/// The analyte that measures a plasma pool.
std::optional<body::Analyte> analyteOf(body::Pool pool) {
    return body::analyteNamed(body::name(pool));
}

} // namespace

double LeakingOrgan::release(const Handles& handles) const {
    return rate(halfLife) * released * lesson::released(handles.leak, gain) * handles.work;
}

double LeakingOrgan::held(const Handles& handles) const {
    return (release(handles) + rate(halfLife) * others) / rate(handles.halfLife);
}

std::optional<double> LeakingOrgan::leakHolding(double level, const Handles& at) const {
    const double asked = level * halfLife / at.halfLife - others;
    const double fold = asked / (released * at.work);
    const double leak = fold <= 1 ? fold : 1 + (fold - 1) / gain;
    if (!(leak >= Handles::leastLeak && leak <= Handles::mostLeak)) return std::nullopt;
    return leak;
}

std::optional<LeakingOrgan> leakingOrgan(const Knowledge& knowledge, body::Kind kind,
                                         Tissue tissue) {
    const std::optional<body::Pool> pool = organOf(tissue).marker;
    const std::optional<body::Analyte> marker = pool ? analyteOf(*pool) : std::nullopt;
    if (!marker) return std::nullopt;
    body::Signalment who;
    who.kind = kind;
    const lab::Method* method = knowledge.bench.find(*marker);
    const lab::Interval* interval = knowledge.bench.interval(who, 0, *marker);
    if (!method || !method->serves(kind) || !interval) return std::nullopt;

    const body::Individual animal = body::median(knowledge.species(kind), who);
    const body::EnzymePool& plasma = animal.own.pool[static_cast<std::size_t>(*pool)];
    const body::Constants<double> c = body::constants(animal);
    const body::EnzymeGain<double>& gain = c.enzymes.gain[static_cast<int>(*pool)];
    LeakingOrgan out{kind, tissue, *marker, 0, 0, 1, plasma.halfLife, *interval};
    switch (tissue) {
    case Tissue::liver:
        out.released = gain.living;
        break;
    case Tissue::skeletalMuscle:
        out.released = gain.muscle * c.muscle.shedding;
        break;
    case Tissue::heart:
        out.released = gain.heart * c.muscle.heartShedding;
        break;
    case Tissue::pancreas:
        out.released = gain.acini;
        out.gain = gain.acinarLeak / gain.acini;
        break;
    default:
        return std::nullopt;
    }
    if (!(out.released > 0)) return std::nullopt;
    out.others = plasma.setPoint - out.released;
    return out;
}

std::vector<LeakingOrgan> leakingOrgans(const Knowledge& knowledge, body::Kind kind) {
    std::vector<LeakingOrgan> out;
    for (const Tissue tissue : body::tissues())
        if (auto one = leakingOrgan(knowledge, kind, tissue)) out.push_back(*one);
    return out;
}

FreePlay::FreePlay(const LeakingOrgan& organ)
    : organ_(organ), handles_(organ.healthy()), level_(organ.held(handles_)) {}

void FreePlay::turn(const Handles& handles) {
    within("a leak", handles.leak, Handles::leastLeak, Handles::mostLeak);
    within("work", handles.work, 0, Handles::mostWork);
    within("a half-life", handles.halfLife, Handles::leastHalfLife, Handles::mostHalfLife);
    handles_ = handles;
}

void FreePlay::pass(double hours) {
    if (!(hours >= 0 && std::isfinite(hours)))
        throw std::invalid_argument("free play: time passes forward only");
    level_ = held() + (level_ - held()) * std::exp2(-hours / handles_.halfLife);
}

double FreePlay::leaving() const {
    return std::max(0., rate(handles_.halfLife) * level_ - rate(organ_.halfLife) * organ_.others);
}

std::string_view name(Remark remark) {
    constexpr std::array<std::string_view, remarkCount> names{"healthy",
                                                              "low",
                                                              "quiet leak",
                                                              "fast drain",
                                                              "quiet and hurt",
                                                              "quiet and spent",
                                                              "not yet",
                                                              "high and sound",
                                                              "high and hurt",
                                                              "high and spent",
                                                              "slow drain",
                                                              "after the leak",
                                                              "part gone",
                                                              "rising",
                                                              "falling",
                                                              "falls while worse",
                                                              "settled",
                                                              "slower than species",
                                                              "faster than species",
                                                              "as in species"};
    return names.at(static_cast<std::size_t>(remark));
}

namespace {

constexpr double spent = 0.35, hurt = 0.8; // work below which an organ is called so
constexpr double loud = 1.5;               // leak from which it is called one
constexpr double moved = 0.05;             // of a level: less is no motion
constexpr double otherDrain = 1.3;         // fold of a half-life: less is no difference

/// What the number means.
Remark meaning(const FreePlay& play) {
    const LeakingOrgan& organ = play.organ();
    const Handles& at = play.handles();
    const double limit = organ.interval.high, held = play.held();
    const Handles asSpecies{at.leak, at.work, organ.halfLife};
    if (play.level() > limit) {
        // It comes down, and not because the organ is going.
        if (held <= limit && organ.held({at.leak, std::max(at.work, 1.), at.halfLife}) <= limit)
            return Remark::afterLeak;
        if (at.work < spent) return Remark::highSpent;
        if (at.work < hurt) return Remark::highHurt;
        return held > limit && organ.held(asSpecies) <= limit ? Remark::slowDrain
                                                              : Remark::highSound;
    }
    if (held > limit) return Remark::notYet;
    if (at.work < spent) return Remark::quietSpent;
    if (at.work < hurt) return Remark::quietHurt;
    if (organ.held(asSpecies) > limit) return Remark::fastDrain;
    if (at.leak >= loud) return Remark::quietLeak;
    return play.level() < organ.interval.low ? Remark::low : Remark::healthy;
}

Remark motion(const FreePlay& play) {
    const Handles& at = play.handles();
    const double level = play.level(), held = play.held();
    if (held > level * (1 + moved)) return Remark::rising;
    if (held >= level * (1 - moved)) return Remark::settled;
    const bool wholeWouldStay =
        play.organ().held({at.leak, std::max(at.work, 1.), at.halfLife}) >= level * (1 - moved);
    return wholeWouldStay ? Remark::fallsWhileWorse : Remark::falling;
}

Remark drain(const FreePlay& play) {
    const double fold = play.handles().halfLife / play.organ().halfLife;
    if (fold > otherDrain) return Remark::slowerThanSpecies;
    return fold < 1 / otherDrain ? Remark::fasterThanSpecies : Remark::asInSpecies;
}

} // namespace

std::vector<Remark> remarks(const FreePlay& play) {
    std::vector<Remark> said{meaning(play)};
    const bool aboutLeak = said.front() == Remark::afterLeak || said.front() == Remark::notYet;
    if (aboutLeak && play.handles().work < hurt) said.push_back(Remark::partGone);
    said.push_back(motion(play));
    said.push_back(drain(play));
    return said;
}

} // namespace cistern::lesson
