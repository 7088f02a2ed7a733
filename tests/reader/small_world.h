#pragma once
#include "reader/story.h"
#include "scenario/at_hand.h"

#include <stdexcept>

namespace cistern::test {

inline const body::InsultKind& kindOf(const std::string& name) {
    for (const body::InsultKind& kind : assets().knowledge.insults)
        if (kind.name == name) return kind;
    throw std::out_of_range("no insult is named " + name);
}

/// A prior of one kind, the same in dog and cat at any age: severities as given, begun 48 h (24 to
/// 96) ago, lasting 12 h (6 to 24). Invented.
inline reader::InsultPrior priorOf(const std::string& name, double weight, reader::Spread severity,
                                   reader::Span span = reader::Span::ended) {
    reader::InsultPrior prior;
    prior.kind = &kindOf(name);
    prior.span = span;
    for (std::size_t k = 0; k < 2; ++k) {
        prior.weight[k].fill(weight);
        prior.severity[k] = severity;
        prior.onset[k] = {reader::Spread::Shape::fold, 48, 24, 96};
        prior.duration[k] = {reader::Spread::Shape::fold, 12, 6, 24};
    }
    return prior;
}

inline constexpr reader::Spread half{reader::Spread::Shape::share, 0.5, 0.2, 0.8};
inline constexpr reader::Spread threefold{reader::Spread::Shape::fold, 3, 1.5, 6};

/// Priors in which nothing is wrong with half of all animals and nothing rides along. Invented.
inline reader::Priors smallPriors(std::vector<reader::InsultPrior> insults) {
    reader::Priors priors;
    double sum = 0;
    for (const reader::InsultPrior& one : insults) sum += one.weight[0][0];
    for (auto& one : priors.nothingWrong) one.fill(sum);
    priors.insults = std::move(insults);
    priors.unrelated = 0;
    return priors;
}

/// A grown dog, bled at these hours.
inline reader::Question dogAt(const std::vector<double>& hours) {
    reader::Question question;
    question.who.kind = body::Kind::dog;
    question.who.age = 4 * 8766;
    for (double hour : hours) {
        reader::Sample sample;
        sample.hour = hour;
        sample.handling.tubes = {lab::usualTube("serum"), lab::usualTube("edta")};
        question.samples.push_back(sample);
    }
    return question;
}

/// An event with all deviates at zero: everything at its median.
inline reader::Event median(const reader::InsultPrior& prior) {
    reader::Event event;
    event.prior = &prior;
    return event;
}

inline reader::Story only(const reader::InsultPrior& prior) {
    reader::Story story;
    story.events = {median(prior)};
    return story;
}

} // namespace cistern::test
