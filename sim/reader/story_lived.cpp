// What a story's animal goes through, and its samples.
#include "lab/specimen/choices.h"
#include "reader/story_inside.h"

#include <limits>
#include <numbers>

namespace cistern::reader {

namespace {

/// Windows that would be shorter act all at once for whatever follows them [h].
constexpr double shortest = 5. / 60;

/// How long what is not stopped goes on after the last sample [h]: beyond any repeat that is asked
/// for.
constexpr double goesOn = 60 * 24;

/// Share of the time that is followed in which a slow loss makes up for what came before it.
constexpr double madeUpFor = 0.25;

/// Hours from presentation until what is stopped no longer acts: treatment takes hold the same day.
constexpr Spread stopHours{Spread::Shape::fold, 2.5, 0.5, 12, 0.5, 12};

/// An untold meal: earlier than this it no longer shows, later ones the owner remembers [h].
constexpr double latestMeal = 2, earliestMeal = 5;

double normalBelow(double deviate) {
    return std::erfc(-deviate / std::numbers::sqrt2) / 2;
}

} // namespace

body::Insult Stories::insult(const Event& event) const {
    const InsultPrior& prior = *event.prior;
    const body::InsultKind& kind = *prior.kind;
    body::Insult insult;
    insult.kind = &kind;
    insult.severity = std::clamp(prior.severity[kind_].at(event.severity), kind.least, kind.most);
    const double endless = std::numeric_limits<double>::infinity();
    double before = 0, lasts = endless; // [h] from its start to presentation; from its start
    if (usesOnset(prior)) before = prior.onset[kind_].at(event.onset);
    if (prior.span != Span::running || countsHours(kind)) {
        const double hours =
            countsHours(kind) ? insult.severity : prior.duration[kind_].at(event.duration);
        if (prior.span == Span::ended)
            lasts = hours;
        else
            before = hours;
    }
    if (prior.span != Span::ended) before = std::min(before, priors_->longest);
    const double start = presented_ - std::max(before, shortest);
    insult.from = std::max(start, -question_->who.age); // not before birth
    insult.to = start + lasts;
    if (accumulates(kind))
        insult.to = std::min(insult.to, presented_);
    else if (event.stopped)
        insult.to = std::min(insult.to, presented_ + stopHours.at(event.stop));
    insult.to = std::min(insult.to, question_->last() + goesOn);
    insult.to = std::max(insult.to, insult.from + shortest);
    return insult;
}

std::vector<body::Insult> Stories::lived(const Event& event) const {
    const body::Insult whole = insult(event);
    const InsultPrior& prior = *event.prior;
    const double hours = prior.duration[kind_].at(event.duration);
    const bool share =
        std::any_of(whole.kind->effects.begin(), whole.kind->effects.end(),
                    [](const body::Effect& effect) { return effect.law == body::Law::shareLost; });
    if (prior.span != Span::slow || !share || hours <= whole.to - whole.from) return {whole};
    body::Insult first = whole, rest = whole;
    first.to = rest.from = whole.from + madeUpFor * (whole.to - whole.from);
    const double rate = -std::log1p(-whole.severity) / hours;
    rest.severity = -std::expm1(-rate * (rest.to - rest.from));
    first.severity = 1 - (1 - whole.severity) / (1 - rest.severity);
    return {first, rest};
}

std::vector<body::Window> Stories::windows(const Story& story, const body::Species& species) const {
    std::vector<body::Window> all;
    all.reserve(2 * story.events.size() + question_->meals.size() + 1);
    for (const Event& event : story.events)
        for (const body::Insult& part : lived(event))
            for (const body::Window& window : body::windows(part, species)) all.push_back(window);
    for (double hour : question_->meals) all.push_back(body::meal(hour, species));
    if (story.fed) {
        const double since = latestMeal + (earliestMeal - latestMeal) * normalBelow(story.meal);
        all.push_back(body::meal(presented_ - since, species));
    }
    return all;
}

lab::Handling Stories::handling(const Story& story, std::size_t sample) const {
    const lab::Handling& known = question_->samples.at(sample).handling;
    if (sample >= story.slips.size() || story.slips[sample].mishap < 0) return known;
    const Slip& slip = story.slips[sample];
    const Mishap& mishap = priors_->mishaps.at(static_cast<std::size_t>(slip.mishap));
    if (!mishap.size) return lab::handledOtherwise(known, mishap.what, mishap.how);
    const double size = mishap.size->at(slip.size);
    // What has no unit is counted: tries, turns, times the earth's pull.
    const std::string text = mishap.unit.empty() ? std::to_string(std::lround(size))
                                                 : std::to_string(size) + " " + mishap.unit;
    return lab::handledOtherwise(known, mishap.what, text);
}

} // namespace cistern::reader
