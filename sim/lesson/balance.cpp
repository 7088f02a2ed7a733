#include "lesson/balance.h"

#include "base/statistics.h"
#include "lesson/organ.h"

#include <algorithm>
#include <cmath>

namespace cistern::lesson {

namespace {

constexpr std::string_view leakGroup = "what leaks"; // of lab::Method::group
constexpr double alike = 1;                          // losses that count as the same [%]
constexpr double least = 1e-6;                       // keeps a count of none finite

/// How many times a result stands over its upper limit or, where less is sicker, under its lower.
std::optional<double> foldOf(const lab::Result& result, bool output) {
    if (!result.interval) return std::nullopt;
    const double value = std::max(result.value, least);
    return output ? result.interval->low / value : value / std::max(result.interval->high, least);
}

struct Loudest {
    std::optional<body::Analyte> analyte;
    double fold = 0;

    void consider(const lab::Result& result, bool output) {
        const auto found = foldOf(result, output);
        if (!found || (analyte && *found <= fold)) return;
        analyte = result.analyte;
        fold = *found;
    }
};

std::vector<lab::Report> reports(const Case& subject, const Knowledge& knowledge) {
    const body::Individual animal = patient(subject, knowledge);
    const std::vector<body::Snapshot> truth = atDraws(subject, knowledge);
    std::vector<lab::Report> out;
    for (std::size_t d = 0; d < subject.draws.size(); ++d)
        out.push_back(report(subject, knowledge, animal, truth[d], d, subject.draws[d].tests));
    return out;
}

Loudest loudestEnzyme(const std::vector<lab::Report>& reports, const lab::Bench& bench) {
    for (auto report = reports.rbegin(); report != reports.rend(); ++report) {
        Loudest loudest;
        for (const lab::Result& result : report->results)
            if (bench.method(result.analyte).group == leakGroup) loudest.consider(result, false);
        if (loudest.analyte) return loudest;
    }
    return {};
}

Loudest leadingOf(body::Tissue organ, const std::vector<lab::Report>& reports) {
    Loudest loudest;
    if (const lab::Result* result = leadingResult(organ, reports))
        loudest.consider(*result, clue(organ, result->analyte)->output);
    return loudest;
}

const OrganTruth* inQuestion(const Truth& truth, const std::vector<lab::Report>& reports) {
    const OrganTruth* worst = nullptr;
    for (const OrganTruth& one : truth.organs)
        if (!worst || one.work < worst->work) worst = &one;
    const OrganTruth* chosen = worst;
    for (const OrganTruth& one : truth.organs)
        if (one.work <= worst->work + alike &&
            leadingOf(one.organ, reports).fold > leadingOf(chosen->organ, reports).fold)
            chosen = &one;
    return chosen;
}

} // namespace

std::optional<std::pair<double, double>> CaseFigures::pair() const {
    if (!leading || !organ) return std::nullopt;
    return std::pair{fold, lost};
}

CaseFigures figures(const Case& subject, const Knowledge& knowledge, const Readers& readers) {
    const std::vector<lab::Report> sheets = reports(subject, knowledge);
    CaseFigures out;
    out.name = subject.name;
    Loudest loudest = loudestEnzyme(sheets, knowledge.bench);
    if (const OrganTruth* organ = inQuestion(readers.truth, sheets)) {
        out.organ = organ->organ;
        out.lost = std::clamp(100 - organ->work, 0.0, 100.0);
        if (!loudest.analyte) loudest = leadingOf(organ->organ, sheets);
    }
    out.leading = loudest.analyte;
    out.fold = loudest.fold;
    out.ideal = readers.ideal.total;
    out.naive = readers.naive.total;
    out.shrug = readers.shrug.total;
    return out;
}

bool Balance::loudIsNoSickness() const {
    return correlation && std::abs(*correlation) <= mostCorrelation;
}

Balance balance(std::span<const CaseFigures> cases) {
    Balance out;
    std::vector<double> folds, losses;
    double whole = 0;
    for (const CaseFigures& one : cases) {
        if (const auto pair = one.pair()) {
            folds.push_back(pair->first);
            losses.push_back(std::round(pair->second));
        }
        whole += one.weight;
        out.ideal += one.weight * one.ideal;
        out.naive += one.weight * one.naive;
        out.shrug += one.weight * one.shrug;
    }
    for (double* sum : {&out.ideal, &out.naive, &out.shrug})
        if (whole > 0) *sum /= whole;
    out.pairs = folds.size();
    out.correlation = base::rankCorrelation(folds, losses);
    if (out.correlation) out.limits = base::rankCorrelationLimits(*out.correlation, out.pairs);
    return out;
}

Worth worth(double ideal, double naive, double shrug) {
    if (!(ideal > shrug + hardlyBetter)) return Worth::unanswerable;
    if (naive > ideal - hardlyBetter && naive >= doesWell) return Worth::trivial;
    return Worth::fair;
}

} // namespace cistern::lesson
