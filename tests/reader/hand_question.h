#pragma once
#include "reader/evidence.h"
#include "reader/sheet.h"
#include "scenario/at_hand.h"

#include <string>
#include <vector>

/// Questions put together by hand: one insult of known size and time, and what real animals print.
namespace hand {

using namespace cistern;
using body::Analyte;
using body::Kind;

inline const lesson::Knowledge& known() {
    return test::assets().knowledge;
}

inline const body::InsultKind& kind(const std::string& name) {
    for (const body::InsultKind& one : known().insults)
        if (one.name == name) return one;
    throw std::invalid_argument("no insult is called " + name);
}

inline body::Signalment adult(Kind species) {
    body::Signalment who;
    who.kind = species;
    who.weight = species == Kind::dog ? 20 : 4;
    return who;
}

inline reader::ByKind<reader::Spread> always(double value) {
    const reader::Spread one{reader::Spread::Shape::fold, value, value, value, 0, 1e9};
    return {one, one};
}

/// An insult whose size and time are known: its severity in the kind's unit, hours from its start
/// to the first sample, and how long it lasts.
struct Happened {
    std::string insult;
    double severity = 0, onset = 24, duration = 12;
    reader::Span span = reader::Span::ended;
};

inline reader::InsultPrior priorOf(const Happened& what) {
    reader::InsultPrior prior;
    prior.kind = &kind(what.insult);
    for (auto& ages : prior.weight) ages.fill(1);
    prior.severity = always(what.severity);
    prior.onset = always(what.onset);
    prior.duration = always(what.duration);
    prior.span = what.span;
    return prior;
}

/// An animal living through these windows, looked at at these hours.
inline body::Plan planOf(const body::Individual& animal, const std::vector<body::Window>& windows,
                         const std::vector<double>& hours) {
    body::Plan plan;
    plan.animal = animal;
    plan.windows = windows;
    plan.from = hours.front();
    for (const body::Window& window : windows) plan.from = std::min(plan.from, window.from);
    plan.looks = hours;
    return plan;
}

/// What the laboratory prints of it at these hours.
inline std::vector<lab::Report> reportsOf(const body::Individual& animal,
                                          const body::Course& course,
                                          const std::vector<std::string>& tests) {
    std::vector<lab::Report> out;
    for (std::size_t i = 0; i < course.size(); ++i)
        out.push_back(lab::measure(known().bench, animal, course.at(i),
                                   {"", course.hours()[i], {}, {}}, tests, i));
    return out;
}
inline std::vector<lab::Report> reports(const body::Individual& animal,
                                        const std::vector<body::Window>& windows,
                                        const std::vector<double>& hours,
                                        const std::vector<std::string>& tests) {
    return reportsOf(animal, body::simulate(planOf(animal, windows, hours)), tests);
}

inline reader::Wanted wantedFor(const reader::Question& question) {
    reader::Wanted wanted;
    for (const reader::Sample& sample : question.samples) wanted.hours.push_back(sample.hour);
    wanted.analytes = reader::neededFor(question, known().bench);
    wanted.organs = question.organs;
    return wanted;
}

} // namespace hand
