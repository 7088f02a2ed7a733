#include "lesson/ideal.h"

#include "base/text.h"
#include "lab/calculated.h"
#include "lesson/organ.h"

#include <algorithm>
#include <numeric>

namespace cistern::lesson {

namespace {

Band band(const reader::Points& points, double times, double least, double most) {
    const auto held = [&](double value) { return std::clamp(times * value, least, most); };
    return {held(points.median), held(points.p10), held(points.p90)};
}

/// How likely it is that so many of the others are faulty: chances by number, 0 to all of them.
std::vector<double> faultyAmong(const std::vector<Doubt>& doubts, std::size_t without) {
    std::vector<double> chances{1};
    for (std::size_t i = 0; i < doubts.size(); ++i) {
        if (i == without) continue;
        const double q = doubts[i].chance;
        chances.push_back(0);
        for (std::size_t k = chances.size() - 1; k > 0; --k)
            chances[k] = chances[k] * (1 - q) + chances[k - 1] * q;
        chances[0] *= 1 - q;
    }
    return chances;
}

double chanceOf(const reader::Posterior& posterior, body::Analyte analyte) {
    double worst = 0;
    bool known = false;
    for (std::size_t i = 0; i < posterior.results.size(); ++i)
        if (posterior.results[i].analyte == analyte) {
            worst = std::max(worst, posterior.spoiled[i]);
            known = true;
        }
    if (known) return worst;
    if (const lab::Recipe* recipe = lab::recipe(analyte))
        for (const lab::Recipe::Part& part : recipe->parts)
            worst = std::max(worst, chanceOf(posterior, part.analyte));
    return worst;
}

bool heaviestIsTrue(const reader::Posterior& posterior, const Truth& truth) {
    const auto heaviest = std::max_element(posterior.weights.begin(), posterior.weights.end());
    if (heaviest == posterior.weights.end()) return false;
    const std::string& name =
        posterior.names[static_cast<std::size_t>(heaviest - posterior.weights.begin())];
    return std::find(truth.explanations.begin(), truth.explanations.end(), name) !=
           truth.explanations.end();
}

} // namespace

std::vector<Doubt> doubts(const reader::Posterior& posterior,
                          const std::vector<body::Analyte>& measured) {
    std::vector<Doubt> all;
    for (const body::Analyte analyte : measured)
        all.push_back({analyte, chanceOf(posterior, analyte)});
    return all;
}

std::vector<body::Analyte> distrusted(const std::vector<Doubt>& doubts) {
    std::vector<body::Analyte> out;
    const std::size_t n = doubts.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::vector<double> others = faultyAmong(doubts, i);
        // As specimenPoints() has it: each class is half of the whole, or all of it if the other is
        // empty.
        double ifFaulty = 0, ifSound = 0;
        for (std::size_t k = 0; k < n; ++k) {
            ifFaulty += others[k] * (k + 1 == n ? 1 : 0.5) / static_cast<double>(k + 1);
            ifSound += others[k] * (k == 0 ? 1 : 0.5) / static_cast<double>(n - k);
        }
        const double q = doubts[i].chance;
        if (q * ifFaulty > (1 - q) * ifSound) out.push_back(doubts[i].analyte);
    }
    return out;
}

Answers idealAnswers(const reader::Posterior& posterior, const Case& subject, const Truth& truth,
                     const std::vector<body::Analyte>& measured) {
    Answers answers;
    for (const reader::OrganBelief& belief : posterior.organs) {
        OrganAnswer& answer = answers.organs[belief.organ];
        answer.work = band(belief.work, 100, leastWork, mostWork);
        if (organOf(belief.organ).leaks) answer.leak = band(belief.leak, 1, leastLeak, mostLeak);
    }
    const double whole = std::accumulate(posterior.weights.begin(), posterior.weights.end(), 0.0);
    for (std::size_t i = 0; i < posterior.names.size(); ++i)
        answers.points[posterior.names[i]] =
            whole > 0 ? 100 * posterior.weights[i] / whole
                      : 100 / static_cast<double>(posterior.names.size());
    if (!subject.next.empty() && !truth.next.empty() && heaviestIsTrue(posterior, truth))
        answers.next = truth.next.front();
    answers.distrusted = distrusted(doubts(posterior, measured));
    return answers;
}

Sheet idealSheet(const reader::Posterior& posterior, const Case& subject, const Truth& truth,
                 const std::vector<body::Analyte>& measured) {
    Sheet out = sheet("the ideal reader", idealAnswers(posterior, subject, truth, measured),
                      subject, truth, measured);
    out.how = "Weighs all results and findings against " + std::to_string(posterior.animals) +
              " invented animals and says what they hold, no more; takes the best next step if "
              "its favorite explanation is true, else picks blindly.";
    return out;
}

} // namespace cistern::lesson
