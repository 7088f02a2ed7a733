#pragma once
#include "reader/story.h"

#include <algorithm>
#include <cmath>

// Rules of which the priors' files say nothing are judgement of this project and stand here with a
// name each.

namespace cistern::reader {

/// Insults beside passing ones that one animal has at most; assets/priors speak of pairs, seldom of
/// more.
inline constexpr int mostInsults = 3;

/// How often what comes along with a chance comes if it is to come more often.
inline double often(double chance, bool crowded) {
    constexpr double rare = 0.36; // chances below are raised: 0.01 to 0.06, 0.1 to 0.19
    return crowded ? std::max(chance, std::sqrt(rare * chance)) : chance;
}

/// Whether an insult's severity is reached bit by bit, at the end of its window.
inline bool accumulates(const body::InsultKind& kind) {
    return std::any_of(kind.effects.begin(), kind.effects.end(), [](const body::Effect& effect) {
        return effect.law == body::Law::shareLost || effect.law == body::Law::massLost ||
               effect.law == body::Law::spent;
    });
}

/// Whether the severity says how long the insult has lasted.
inline bool countsHours(const body::InsultKind& kind) {
    return kind.unit == "h";
}

inline bool usesOnset(const InsultPrior& prior) {
    return prior.span == Span::ended || (prior.span == Span::running && !countsHours(*prior.kind));
}

inline bool usesDuration(const InsultPrior& prior) {
    return prior.span != Span::running && !countsHours(*prior.kind);
}

/// How many of a story's first events last.
inline std::ptrdiff_t lasting(const Story& story, std::size_t events) {
    return std::count_if(story.events.begin(),
                         story.events.begin() + static_cast<std::ptrdiff_t>(events),
                         [](const Event& one) { return !one.prior->passing; });
}

/// Whether an animal that has so many lasting insults can have this one too.
inline bool room(const InsultPrior& prior, std::ptrdiff_t lasting) {
    return prior.passing || lasting < mostInsults;
}

} // namespace cistern::reader
