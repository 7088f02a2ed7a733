// What a reader's table of stories amounts to.
#include "base/chance.h"
#include "base/parallel.h"
#include "reader/inside.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

constexpr double standardErrors = 3; // that a weight is said to be off by at most

/// By how much each explanation's weight may be off: three standard errors, weights being
/// self-normalized (variance sum w^2 (f - p)^2), but no less than the heaviest story weighs, for
/// one like it may have been missed.
std::vector<double> errorsOf(const std::vector<double>& weights, const std::vector<Explained>& fit,
                             const std::vector<double>& shares) {
    std::vector<double> errors(shares.size(), 0);
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] <= 0) continue;
        std::vector<double> said(shares.size(), 0);
        fit[i].addTo(said, 1);
        for (std::size_t e = 0; e < shares.size(); ++e)
            errors[e] += std::pow(weights[i] * (said[e] - shares[e]), 2);
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

Posterior Reader::Inside::summary(int rounds, int threads) {
    Posterior out;
    out.stories = lived.size();
    out.animals = 2 * lived.size();
    out.rounds = rounds;
    for (const Explanation& one : question.explanations) out.names.push_back(one.name);
    out.prior = explained(normalized(logs(false, false)));
    out.signs = explained(normalized(logs(true, false)));
    const std::vector<double> every = normalized(logs(true, true, true));
    for (std::size_t i = 0; i < every.size(); ++i) out.unlisted += every[i] * (1 - fit[i].listed);
    weights = normalized(logs(true, true));
    out.effective = effective(weights);
    out.weights = explained(weights);
    out.errors = errorsOf(weights, fit, out.weights);
    const std::vector<std::size_t> rows = heavy();
    out.organs = organs(rows, threads);
    out.results = results.data();
    out.spoiled = spoiled(rows, threads);
    out.moved = moved(out.prior, threads);
    return out;
}

namespace {

/// A normal distribution as five values of equal weight: the middles of its fifths.
constexpr std::array fifths{-1.2815515655446004, -0.5244005127080407, 0.0, 0.5244005127080407,
                            1.2815515655446004};

constexpr double cloudPoints = 400;
/// Multiples of it fill the interval from 0 to 1 evenly: what of a leak is not known to a story is
/// spread so over its points.
constexpr double golden = 0.6180339887498949;

} // namespace

std::vector<std::size_t> Reader::Inside::heavy() const {
    constexpr double negligible = 1e-3; // all that is left out together
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < weights.size(); ++i)
        if (weights[i] >= negligible / static_cast<double>(weights.size())) all.push_back(i);
    return all;
}

std::vector<OrganBelief> Reader::Inside::organs(const std::vector<std::size_t>& rows,
                                                int threads) const {
    const std::size_t count = wanted.organs.size();
    std::vector<std::vector<std::pair<double, double>>> leaks(rows.size());
    base::inParallel(rows.size(), threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t k = first; k < last; ++k)
            leaks[k] = results.logLeak(lived, rows[k], stories);
    });
    std::vector<OrganBelief> all(count);
    base::inParallel(count, threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t o = first; o < last; ++o) {
            std::vector<Weighted> work, leak;
            std::vector<Seen> seen;
            double passed = 0; // weight of the stories so far
            for (std::size_t k = 0; k < rows.size(); ++k) {
                const double weight = weights[rows[k]];
                work.emplace_back(
                    lived.work(static_cast<Eigen::Index>(rows[k]), static_cast<Eigen::Index>(o)),
                    weight);
                const auto [mean, deviation] = leaks[k][o];
                passed += weight;
                while ((static_cast<double>(seen.size()) + 0.5) / cloudPoints < passed) {
                    const double turn = golden * static_cast<double>(seen.size() + 1);
                    const double z = base::normalQuantile(turn - std::floor(turn));
                    seen.push_back(
                        {work.back().first, std::exp(mean + z * std::max(deviation, 0.))});
                }
                if (deviation <= 0)
                    leak.emplace_back(std::exp(mean), weight);
                else
                    for (const double z : fifths)
                        leak.emplace_back(std::exp(mean + z * deviation), weight / fifths.size());
            }
            all[o] = {wanted.organs[o], pointsOf(std::move(work)), pointsOf(std::move(leak)),
                      std::move(seen)};
        }
    });
    return all;
}

std::vector<double> Reader::Inside::spoiled(const std::vector<std::size_t>& rows,
                                            int threads) const {
    std::vector<std::vector<char>> here(rows.size());
    base::inParallel(rows.size(), threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t k = first; k < last; ++k)
            here[k] = results.spoiled(lived, rows[k], stories);
    });
    std::vector<double> shares(results.data().size(), 0);
    for (std::size_t k = 0; k < rows.size(); ++k)
        for (std::size_t d = 0; d < shares.size(); ++d)
            if (here[k][d]) shares[d] += weights[rows[k]];
    return shares;
}

std::vector<Moved> Reader::Inside::moved(const std::vector<double>& prior, int threads) const {
    // Stories of the first round were drawn whatever was seen, and do for the priors by themselves.
    constexpr std::size_t most = 10000;
    const std::size_t signCount = question.signs.size(), dataCount = results.data().size();
    std::vector<std::vector<double>> of(signCount + dataCount);
    for (std::vector<double>& one : of)
        one.assign(std::min(ofFirst, most), -std::numeric_limits<double>::infinity());
    base::inParallel(of.empty() ? 0 : of[0].size(), threads, [&](std::size_t from, std::size_t to) {
        for (std::size_t i = from; i < to; ++i) {
            if (!lived.alive[i]) continue;
            const double before = std::log(fit[i].listed / draws[0][i]);
            for (std::size_t s = 0; s < signCount; ++s) of[s][i] = std::log(told[i][s]) + before;
            const std::vector<double> alone = results.alone(lived, i, stories);
            for (std::size_t d = 0; d < dataCount; ++d) of[signCount + d][i] = alone[d] + before;
        }
    });
    std::vector<Moved> all(of.size());
    base::inParallel(of.size(), threads, [&](std::size_t from, std::size_t to) {
        for (std::size_t k = from; k < to; ++k) {
            Moved& one = all[k];
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
        }
    });
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
