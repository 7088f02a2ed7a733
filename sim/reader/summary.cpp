// What a reader's table of stories amounts to.
#include "reader/inside.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

constexpr double standardErrors = 3; // that a weight is said to be off by at most

/// By how much each explanation's weight may be off: three standard errors, weights being
/// self-normalized (variance sum w^2 (f - p)^2), but no less than the heaviest story weighs, for
/// one like it may have been missed.
std::vector<double> errorsOf(const std::vector<double>& weights, const std::vector<Fits>& fit,
                             const std::vector<double>& shares) {
    std::vector<double> errors(shares.size(), 0);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] <= 0) continue;
        for (std::size_t e = 0; e < shares.size(); ++e) {
            const double said = fit[i] >> e & 1 ? 1.0 / std::popcount(fit[i]) : 0;
            errors[e] += std::pow(weights[i] * (said - shares[e]), 2);
        }
    }
    const double heaviest = weights.empty() ? 0 : *std::max_element(weights.begin(), weights.end());
    for (double& error : errors) error = std::max(standardErrors * std::sqrt(error), heaviest);
    return errors;
}

Points pointsOf(std::vector<Weighted> values) {
    return {quantile(values, 0.05), quantile(values, 0.1), quantile(values, 0.5),
            quantile(values, 0.9), quantile(values, 0.95)};
}

} // namespace

Posterior Reader::Inside::summary(int rounds) {
    Posterior out;
    out.stories = lived.size();
    out.animals = 2 * lived.size();
    out.rounds = rounds;
    for (const Explanation& one : question.explanations) out.names.push_back(one.name);
    out.prior = explained(normalized(logs(false, false)));
    out.signs = explained(normalized(logs(true, false)));
    std::vector<double> log = logs(true, true);
    const std::vector<double> every = normalized(log);
    if (!question.explanations.empty())
        for (std::size_t i = 0; i < every.size(); ++i)
            if (!fit[i]) out.unlisted += every[i];
    keepListed(log);
    weights = normalized(log);
    out.effective = effective(weights);
    out.weights = explained(weights);
    out.errors = errorsOf(weights, fit, out.weights);
    out.organs = organs();
    out.results = results.data();
    out.spoiled = spoiled();
    out.moved = moved(out.prior);
    return out;
}

namespace {

/// A normal distribution as five values of equal weight: the middles of its fifths.
constexpr std::array fifths{-1.2815515655446004, -0.5244005127080407, 0.0, 0.5244005127080407,
                            1.2815515655446004};

} // namespace

std::vector<OrganBelief> Reader::Inside::organs() const {
    const std::size_t count = wanted.organs.size();
    std::vector<std::vector<Weighted>> work(count), leak(count);
    const double passedOver = least(weights);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] < passedOver) continue;
        const auto leaks = results.logLeak(lived, i, stories);
        for (std::size_t o = 0; o < count; ++o) {
            work[o].emplace_back(
                lived.work(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(o)), weights[i]);
            const auto [mean, deviation] = leaks[o];
            if (deviation <= 0)
                leak[o].emplace_back(std::exp(mean), weights[i]);
            else
                for (const double z : fifths)
                    leak[o].emplace_back(std::exp(mean + z * deviation),
                                         weights[i] / fifths.size());
        }
    }
    std::vector<OrganBelief> all;
    for (std::size_t o = 0; o < count; ++o)
        all.push_back(
            {wanted.organs[o], pointsOf(std::move(work[o])), pointsOf(std::move(leak[o]))});
    return all;
}

double Reader::Inside::least(const std::vector<double>& all) {
    constexpr double negligible = 1e-3; // all that is left out together
    return negligible / static_cast<double>(all.size());
}

std::vector<double> Reader::Inside::spoiled() const {
    std::vector<double> shares(results.data().size(), 0);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] < least(weights)) continue;
        const std::vector<char> here = results.spoiled(lived, i, stories);
        for (std::size_t d = 0; d < shares.size(); ++d)
            if (here[d]) shares[d] += weights[i];
    }
    return shares;
}

std::vector<Moved> Reader::Inside::moved(const std::vector<double>& prior) const {
    // Stories of the first round were drawn whatever was seen, and do for the priors by themselves.
    constexpr std::size_t most = 10000;
    const std::size_t count = std::min(ofFirst, most);
    const std::size_t signCount = question.signs.size(), dataCount = results.data().size();
    std::vector<std::vector<double>> of(signCount + dataCount);
    for (std::vector<double>& one : of)
        one.assign(lived.size(), -std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < count; ++i) {
        if (!lived.alive[i]) continue;
        for (std::size_t s = 0; s < signCount; ++s) of[s][i] = std::log(told[i][s] / draws[0][i]);
        const std::vector<double> alone = results.alone(lived, i, stories);
        for (std::size_t d = 0; d < dataCount; ++d)
            of[signCount + d][i] = alone[d] - std::log(draws[0][i]);
    }
    std::vector<Moved> all;
    for (std::size_t k = 0; k < of.size(); ++k) {
        Moved one;
        one.finding = k < signCount;
        if (one.finding) {
            const Sign& sign = question.signs[k];
            one.what = sign.there ? sign.name : "no " + sign.name;
        } else {
            const Datum& datum = results.data()[k - signCount];
            one.what = body::name(datum.analyte);
            one.sample = datum.sample;
        }
        one.weights = explained(normalized(of[k]));
        one.bits = divergence(one.weights, prior);
        all.push_back(std::move(one));
    }
    return all;
}

namespace {

/// Works and leaks closer than this share are one: coarse steps and an animal's own healthy levels
/// move them so far.
constexpr double same = 1e-3;

void place(Place& at, double value, double weight, double limit) {
    if (value < limit * (1 - same))
        at.below += weight;
    else if (value <= limit * (1 + same))
        at.equal += weight;
}

Eigen::Index columnOf(const std::vector<body::Tissue>& organs, body::Tissue organ) {
    return std::find(organs.begin(), organs.end(), organ) - organs.begin();
}

} // namespace

Place Reader::workAt(body::Tissue organ, double share) const {
    const Inside& in = *inside_;
    const Eigen::Index o = columnOf(in.wanted.organs, organ);
    Place at;
    for (std::size_t i = 0; i < in.weights.size(); ++i)
        if (in.weights[i] > 0)
            place(at, in.lived.work(static_cast<Eigen::Index>(i), o), in.weights[i], share);
    return at;
}

Place Reader::leakAt(body::Tissue organ, double fold) const {
    const Inside& in = *inside_;
    const auto o = static_cast<std::size_t>(columnOf(in.wanted.organs, organ));
    Place at;
    for (std::size_t i = 0; i < in.weights.size(); ++i) {
        if (in.weights[i] <= 0) continue;
        const auto [mean, deviation] = in.results.logLeak(in.lived, i, in.stories)[o];
        if (deviation > same)
            at.below +=
                in.weights[i] * std::erfc((mean - std::log(fold)) / deviation / std::sqrt(2.)) / 2;
        else
            place(at, std::exp(mean), in.weights[i], fold);
    }
    return at;
}

} // namespace cistern::reader
