// What the ideal reader made of the same case, and how the learner's reading lay beside it.
#include "base/text.h"
#include "lesson/organ.h"
#include "lesson/telling.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace cistern::lesson {

namespace {

using reader::Moved;
using reader::Posterior;

// Assumed: what is too little to be told.
constexpr double leastWeight = 0.01;   // of an explanation, share
constexpr double leastDifference = 10; // between the reader's points and the learner's, of 100
constexpr double leastBits = 0.05;     // by which a finding or a test moves
constexpr double certainErrors = 2;    // standard errors by which a gain must exceed nothing
constexpr std::size_t mostTold = 3;    // explanations or tests in one sentence
constexpr double thin = 100; // effective stories below which 10 % points rest on a handful each
constexpr double twice = 2;  // a band so many times as wide as another is told

std::string share(double weight) {
    if (weight > 0 && weight < leastWeight) return "less than 1 %";
    if (weight < 1 && weight > 1 - leastWeight) return "more than 99 %";
    return percent(weight);
}

std::string bits(double amount) {
    const std::string text = base::rounded(amount, amount < 1 ? 0.01 : 0.1);
    return text + (text == "1.0" ? " bit" : " bits");
}

/// The weight of what is true.
double onTruth(const std::vector<double>& weights, const Telling& t, const Posterior& ideal) {
    const std::vector<std::string>& isTrue = t.lesson.truth().explanations;
    double sum = 0;
    for (std::size_t i = 0; i < ideal.names.size(); ++i)
        if (std::find(isTrue.begin(), isTrue.end(), ideal.names[i]) != isTrue.end())
            sum += weights[i];
    return sum;
}

bool keyed(const Telling& t, const Posterior& ideal) {
    const std::vector<std::string>& isTrue = t.lesson.truth().explanations;
    return std::any_of(ideal.names.begin(), ideal.names.end(), [&](const std::string& name) {
        return std::find(isTrue.begin(), isTrue.end(), name) != isTrue.end();
    });
}

/// How many doublings of the truth's share one piece of evidence brings by itself.
double towards(const Moved& one, const Telling& t, const Posterior& ideal) {
    constexpr double none = 1e-12; // keeps a share of nothing finite
    return std::log2((onTruth(one.weights, t, ideal) + none) /
                     (onTruth(ideal.prior, t, ideal) + none));
}

/// "ALT of 412 U/L at draw 1", "icterus".
std::string piece(const Moved& one, const Telling& t) {
    const auto analyte = body::analyteNamed(one.what);
    if (one.finding || !analyte || one.sample >= t.lesson.taken().size()) return one.what;
    const Taken& taken = t.lesson.taken()[one.sample];
    std::string text = t.called(*analyte);
    if (const lab::Result* result = taken.report.find(*analyte)) text += " of " + t.amount(*result);
    if (t.lesson.taken().size() > 1) text += " at draw " + std::to_string(taken.draw + 1);
    return text;
}

std::string moves(const Moved& one, const Telling& t, const Posterior& ideal,
                  const std::string& verb) {
    return "On its own, " + piece(one, t) + " " + verb + " a careful reader from " +
           share(onTruth(ideal.prior, t, ideal)) + " to " + share(onTruth(one.weights, t, ideal)) +
           " for " + joined(t.lesson.truth().explanations) + ": " + bits(one.bits) + ".";
}

/// "bile duct obstruction 12", heaviest first, the small ones left out.
std::string weighed(const Posterior& ideal, const std::vector<double>& weights) {
    std::vector<std::size_t> order(ideal.names.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return weights[a] > weights[b]; });
    std::vector<std::string> told;
    for (const std::size_t i : order)
        if (told.size() < mostTold && weights[i] >= leastWeight)
            told.push_back(ideal.names[i] + " " + base::rounded(100 * weights[i], 1));
    return joined(told);
}

void tellWeights(std::vector<std::string>& out, const Telling& t, const Posterior& ideal) {
    if (ideal.names.empty()) return;
    out.push_back("Of 100 points a careful reader of the same exam and results gives " +
                  weighed(ideal, ideal.weights) + "; before the exam " +
                  weighed(ideal, ideal.prior) + "; after the exam alone " +
                  weighed(ideal, ideal.signs) + ".");
    std::vector<std::size_t> order(ideal.names.size());
    std::vector<double> beyond(ideal.names.size()); // the learner's points less the reader's
    for (std::size_t i = 0; i < ideal.names.size(); ++i) {
        const auto at = t.lesson.answers().points.find(ideal.names[i]);
        beyond[i] =
            (at == t.lesson.answers().points.end() ? 0 : at->second) - 100 * ideal.weights[i];
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::abs(beyond[a]) > std::abs(beyond[b]);
    });
    std::vector<std::string> more, less;
    for (const std::size_t i : order) {
        std::vector<std::string>& list = beyond[i] > 0 ? more : less;
        const double holds = 100 * ideal.weights[i];
        if (std::abs(beyond[i]) >= leastDifference && list.size() < mostTold)
            list.push_back(ideal.names[i] + " (you " + base::rounded(beyond[i] + holds, 1) +
                           ", the reader " + base::rounded(holds, 1) + ")");
    }
    if (!more.empty())
        out.push_back("You gave more than the results hold to " + joined(more) + ".");
    if (!less.empty()) out.push_back("You gave less than they hold to " + joined(less) + ".");
    if (more.empty() && less.empty())
        out.push_back("Your points lay within " + base::rounded(leastDifference, 1) +
                      " of the reader's, each of them.");
}

void tellEvidence(std::vector<std::string>& out, const Telling& t, const Posterior& ideal) {
    if (!keyed(t, ideal) || ideal.moved.empty()) return;
    const auto less = [&](const Moved& a, const Moved& b) {
        return towards(a, t, ideal) < towards(b, t, ideal);
    };
    const auto [worst, best] = std::minmax_element(ideal.moved.begin(), ideal.moved.end(), less);
    if (towards(*best, t, ideal) > 0 && best->bits >= leastBits)
        out.push_back(moves(*best, t, ideal, "would move"));
    else
        out.push_back("No finding and no result by itself moves a careful reader towards what is "
                      "true here: it takes them together.");
    if (towards(*worst, t, ideal) < 0 && worst->bits >= leastBits)
        out.push_back(moves(*worst, t, ideal, "would mislead"));
}

/// A scale of bands: how values compare on it, how far apart they must lie to count as different,
/// and how one is written.
struct Scale {
    std::function<double(double)> place;
    double least;
    std::function<std::string(double)> text;
    std::string unit;
};

std::string shownBand(const Band& band, const Scale& scale) {
    const std::string low = scale.text(band.low), high = scale.text(band.high);
    if (low == high) return "the reader is sure of " + low + " " + scale.unit;
    return "the reader's 80 % band is " + low + " to " + high + " " + scale.unit +
           ", most likely " + scale.text(band.best) + " " + scale.unit;
}

/// How a learner's band lies against the reader's.
std::string against(const Band& said, const Band& holds, const Scale& scale) {
    const auto at = scale.place;
    const double width = at(said.high) - at(said.low), sound = at(holds.high) - at(holds.low);
    if (at(said.high) < at(holds.low) - scale.least) return "yours lies below it";
    if (at(said.low) > at(holds.high) + scale.least) return "yours lies above it";
    if (std::max(width, scale.least) * twice <= sound)
        return "yours is much narrower than the results allow";
    if (width >= twice * std::max(sound, scale.least)) return "yours could be much narrower";
    return "yours is about as wide";
}

std::string whereTruth(const Band& band, double truth, const Scale& scale) {
    if (scale.place(truth) < scale.place(band.low) - scale.least) return "the truth lay below it";
    if (scale.place(truth) > scale.place(band.high) + scale.least) return "the truth lay above it";
    return "the truth lay there";
}

void tellBands(std::vector<std::string>& out, const Telling& t) {
    // Assumed: half a point of work, a fifteenth of a doubling of leak, 5 %, are no difference.
    static const Scale work{[](double x) { return x; }, 0.5,
                            [](double x) { return base::rounded(x, 1); }, "%"};
    static const Scale leak{[](double x) { return std::log2(x); }, 0.07, fold, "fold"};
    const Answers& reader = t.lesson.marks().ideal->answers;
    const Answers& learner = t.lesson.answers();
    for (const OrganTruth& truth : t.lesson.truth().organs) {
        const auto at = reader.organs.find(truth.organ), mine = learner.organs.find(truth.organ);
        if (at == reader.organs.end() || mine == learner.organs.end()) continue;
        const auto tell = [&](const std::string& what, const std::optional<Band>& holds,
                              const std::optional<Band>& said, double was, const Scale& scale) {
            if (!holds || !said) return;
            out.push_back(what + " of the " + std::string(body::name(truth.organ)) + ": " +
                          shownBand(*holds, scale) + "; " + against(*said, *holds, scale) +
                          ", and " + whereTruth(*holds, was, scale) + ".");
        };
        tell("Work", at->second.work, mine->second.work, truth.work, work);
        tell("Leak", at->second.leak, mine->second.leak,
             std::clamp(truth.leak, leastLeak, mostLeak), leak);
    }
}

/// "bile acids 0.62", of tests that tell beyond doubt.
std::string gained(const reader::Gain& gain) {
    return gain.test + " " + bits(gain.bits);
}

bool tells(const reader::Gain& gain) {
    return gain.bits >= leastBits && gain.bits > certainErrors * gain.error;
}

void tellGains(std::vector<std::string>& out, const Telling& t, const Posterior& ideal) {
    if (ideal.gains.empty() || ideal.names.empty()) return;
    double open = 0;
    for (const double weight : ideal.weights)
        if (weight > 0) open -= weight * std::log2(weight);
    const std::vector<std::string>& offered = t.lesson.subject().draws[t.last].tests;
    const std::vector<std::string>& chosen = t.lesson.chosen()[t.last];
    std::vector<std::string> next, left;
    for (const reader::Gain& gain : ideal.gains) {
        const bool onOffer = std::find(offered.begin(), offered.end(), gain.test) != offered.end();
        const bool taken = std::find(chosen.begin(), chosen.end(), gain.test) != chosen.end();
        if (onOffer && !taken)
            left.push_back(tells(gain) ? gained(gain) : gain.test + " next to nothing");
        else if (tells(gain) && next.size() < mostTold)
            next.push_back(gained(gain));
    }
    if (open >= leastBits)
        out.push_back("What is still open on the list is " + bits(open) + ".");
    else
        out.push_back("The exam and the results leave next to nothing open on the list.");
    if (!left.empty())
        out.push_back("What the tests that you left out would be expected to tell of it: " +
                      joined(left) + ".");
    if (next.empty() && open >= leastBits)
        out.push_back("No other test at hand, and no repeat within a week, would be expected to "
                      "tell much of it.");
    if (!next.empty())
        out.push_back("Of all else that could come next, most would be expected of " +
                      joined(next) + ".");
}

} // namespace

std::vector<Paragraph> readerParagraphs(const Telling& t) {
    const Posterior* ideal = t.lesson.ideal();
    if (!ideal) return {};
    Paragraph held{"What the results hold", {}}, next{"What a next test would tell", {}};
    tellWeights(held.sentences, t, *ideal);
    tellEvidence(held.sentences, t, *ideal);
    tellBands(held.sentences, t);
    std::string basis = "The reader weighed " + std::to_string(ideal->animals) +
                        " invented animals; as many as " +
                        base::rounded(std::max(1.0, ideal->effective), 1) + " stories count.";
    if (ideal->effective < thin) basis += " That is few: take its figures for rough ones.";
    held.sentences.push_back(basis);
    tellGains(next.sentences, t, *ideal);
    return {held, next};
}

} // namespace cistern::lesson
