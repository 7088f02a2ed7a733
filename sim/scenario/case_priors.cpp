#include "scenario/prior_reader.h"

#include <algorithm>
#include <cmath>

namespace cistern::scenario {

namespace {

using reader::Spread;

// What is believed of an insult of which a case says nothing. Assumed.
constexpr double usualWeight = 10; // of 1000 animals
constexpr double day = 24;         // [h]
const Spread usualOnset{Spread::Shape::fold, 2 * day, 0.5 * day, 14 * day};
const Spread usualDuration{Spread::Shape::fold, 1 * day, 0.2 * day, 7 * day};

// Ends that a logarithm or a logit can take: a share of the most, and of what is left to it.
constexpr double nearNothing = 0.005;

double logit(double share) {
    return std::log(share / (1 - share));
}

/// The span that animals usually have, or else all that is allowed; its middle on the shape's own
/// scale is the median.
Spread severityOf(Reader severity, const body::InsultKind& kind) {
    Spread spread;
    spread.shape = severityShape(kind);
    spread.least = kind.least;
    spread.most = kind.most;
    Reader usual = severity.find("usual");
    const auto ends = usual ? readSpan(usual, severityRange(kind)) : std::nullopt;
    const bool share = spread.shape == Spread::Shape::share;
    const double top = share ? 1 - nearNothing : kind.most;
    spread.high = std::min(ends ? ends->second : kind.most, top);
    spread.low =
        std::clamp(ends ? ends->first : kind.least, nearNothing * spread.high, spread.high);
    if (share)
        spread.median = 1 / (1 + std::exp(-(logit(spread.low) + logit(spread.high)) / 2));
    else
        spread.median = std::sqrt(spread.low * spread.high);
    return spread;
}

} // namespace

reader::InsultPrior readCasePrior(Shelf& shelf, Reader& insult, const body::InsultKind& kind) {
    reader::InsultPrior prior;
    prior.kind = &kind;
    prior.span = reader::Span::running;
    prior.severity.fill(severityOf(insult.find("severity"), kind));
    prior.onset.fill(usualOnset);
    prior.duration.fill(usualDuration);
    double weight = usualWeight;
    if (Reader map = insult.find("prior")) {
        if (Reader own = map.find("weight"))
            weight = own.quantity({"1", 0, 1000, "", true}).value_or(weight);
        const auto time = [&](const char* key, reader::ByKind<Spread>& into) {
            if (Reader own = map.find(key))
                into.fill(readSpread(shelf, own, timeRange(), Spread::Shape::fold,
                                     "prior " + kind.name + "." + key, {}));
        };
        time("onset", prior.onset);
        time("duration", prior.duration);
        if (Reader span = map.find("span")) prior.span = readActing(span).value_or(prior.span);
        prior.shows.fill(readShows(map.find("shows"), shelf.assets().knowledge.findings));
        map.noMore();
    }
    if (kind.dog) prior.weight[0].fill(weight);
    if (kind.cat) prior.weight[1].fill(weight);
    return prior;
}

} // namespace cistern::scenario
