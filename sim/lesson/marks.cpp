#include "lesson/marks.h"

#include "base/text.h"
#include "lesson/organ.h"

#include <algorithm>
#include <cmath>

namespace cistern::lesson {

namespace {

/// What each part counts, in a case that has them all. A part that a case does not ask or has no
/// key for drops out, and the others share its weight in proportion. Work is shared out evenly over
/// the organs, leak over those of which it is asked. Work and explanation weigh most: they are what
/// the lesson is about.
struct Weight {
    Part part;
    double share;
};
constexpr Weight weights[] = {{Part::leak, 0.20},
                              {Part::work, 0.30},
                              {Part::explanations, 0.30},
                              {Part::next, 0.10},
                              {Part::specimen, 0.10}};

constexpr double alpha = 0.2; // an 80 % band
// Scores that bring 0 points: round numbers at which the shrug, were its own belief true, expects
// 54 points for leak and 53 for work.
constexpr double leakUnit = 1.5; // [doublings]
constexpr double workUnit = 30;  // [percentage points]
constexpr double acceptableNext = 60;

double share(Part part) {
    for (const Weight& weight : weights)
        if (weight.part == part) return weight.share;
    return 0;
}

template<class T>
bool has(const std::vector<T>& list, const T& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

double doublings(double fold) {
    return std::log2(std::clamp(fold, leastLeak, mostLeak));
}

double pointsFor(double score, double unit) {
    return 100 * (1 - score / unit);
}

} // namespace

std::string_view name(Part part) {
    switch (part) {
    case Part::leak:
        return "leak";
    case Part::work:
        return "work";
    case Part::explanations:
        return "explanations";
    case Part::next:
        return "next step";
    case Part::specimen:
        return "specimen";
    }
    return "";
}

const OrganTruth* Truth::find(body::Tissue organ) const {
    for (const OrganTruth& one : organs)
        if (one.organ == organ) return &one;
    return nullptr;
}

Truth truthOf(const Case& lesson, const body::Snapshot& last) {
    Truth truth;
    truth.hour = last.hour;
    for (const body::Tissue organ : lesson.organs)
        truth.organs.push_back({organ, last.leak(organ), 100 * last.work(organ)});
    truth.explanations = lesson.key.explanations;
    truth.next = lesson.key.next;
    truth.distrusted = lesson.key.distrust;
    return truth;
}

double intervalScore(const Band& band, double truth) {
    const double below = std::max(0.0, band.low - truth), above = std::max(0.0, truth - band.high);
    const double interval = band.high - band.low + 2 / alpha * (below + above);
    return (std::abs(truth - band.best) / 2 + alpha / 2 * interval) / 1.5;
}

double leakPoints(const Band& fold, double truth) {
    const Band band{doublings(fold.best), doublings(fold.low), doublings(fold.high)};
    return pointsFor(intervalScore(band, doublings(truth)), leakUnit);
}

double workPoints(const Band& percent, double truth) {
    return pointsFor(intervalScore(percent, std::clamp(truth, leastWork, mostWork)), workUnit);
}

double explanationPoints(const std::map<std::string, double>& points,
                         const std::vector<std::string>& list,
                         const std::vector<std::string>& isTrue) {
    const auto trueOnes = std::count_if(list.begin(), list.end(),
                                        [&](const std::string& one) { return has(isTrue, one); });
    double brier = 0;
    for (const std::string& explanation : list) {
        const auto at = points.find(explanation);
        const double said = at == points.end() ? 0 : at->second / 100;
        const double was = has(isTrue, explanation) ? 1 / static_cast<double>(trueOnes) : 0;
        brier += (said - was) * (said - was);
    }
    return 100 * (1 - brier / 2);
}

double nextPoints(const std::optional<std::string>& next, const std::vector<std::string>& list,
                  const std::vector<std::string>& acceptable) {
    const auto worth = [&](const std::string& step) {
        if (acceptable.empty() || !has(acceptable, step)) return 0.0;
        return step == acceptable.front() ? 100.0 : acceptableNext;
    };
    if (next) return worth(*next);
    double sum = 0;
    for (const std::string& step : list) sum += worth(step);
    return list.empty() ? 0 : sum / static_cast<double>(list.size());
}

double specimenPoints(const std::vector<body::Analyte>& distrusted,
                      const std::vector<body::Analyte>& measured,
                      const std::vector<body::Analyte>& faulty) {
    double sound = 0, soundRight = 0, bad = 0, badRight = 0;
    for (const body::Analyte analyte : measured) {
        const bool doubted = has(distrusted, analyte);
        if (has(faulty, analyte)) {
            ++bad;
            badRight += doubted;
        } else {
            ++sound;
            soundRight += !doubted;
        }
    }
    if (bad == 0 && sound == 0) return 100;
    if (bad == 0) return 100 * soundRight / sound;
    if (sound == 0) return 100 * badRight / bad;
    return 50 * (soundRight / sound + badRight / bad);
}

Sheet sheet(const std::string& reader, const Answers& answers, const Case& lesson,
            const Truth& truth, const std::vector<body::Analyte>& measured) {
    Sheet out;
    out.reader = reader;
    out.answers = answers;
    const double organs = static_cast<double>(truth.organs.size());
    const double leaking = static_cast<double>(
        std::count_if(truth.organs.begin(), truth.organs.end(),
                      [](const OrganTruth& one) { return organOf(one.organ).leaks; }));
    for (const OrganTruth& one : truth.organs) {
        const OrganAnswer& said = answers.organs.at(one.organ);
        if (organOf(one.organ).leaks)
            out.parts.push_back({Part::leak, one.organ, leakPoints(said.leak.value(), one.leak),
                                 share(Part::leak) / leaking});
        out.parts.push_back({Part::work, one.organ, workPoints(said.work.value(), one.work),
                             share(Part::work) / organs});
    }
    const bool keyed = std::any_of(
        lesson.explanations.begin(), lesson.explanations.end(),
        [&](const std::string& explanation) { return has(truth.explanations, explanation); });
    if (keyed)
        out.parts.push_back(
            {Part::explanations, std::nullopt,
             explanationPoints(answers.points, lesson.explanations, truth.explanations),
             share(Part::explanations)});
    if (!lesson.next.empty() && !truth.next.empty())
        out.parts.push_back({Part::next, std::nullopt,
                             nextPoints(answers.next, lesson.next, truth.next), share(Part::next)});
    if (!measured.empty())
        out.parts.push_back({Part::specimen, std::nullopt,
                             specimenPoints(answers.distrusted, measured, truth.distrusted),
                             share(Part::specimen)});
    double whole = 0;
    for (const Mark& mark : out.parts) whole += mark.weight;
    for (Mark& mark : out.parts) {
        mark.weight /= whole;
        out.total += mark.weight * mark.points;
    }
    return out;
}

Marks marks(const Answers& learner, const Case& lesson, const Knowledge& knowledge,
            const Truth& truth, const std::vector<lab::Report>& reports) {
    std::vector<body::Analyte> measured;
    for (const lab::Report& report : reports)
        for (const lab::Result& result : report.results)
            if (!has(measured, result.analyte)) measured.push_back(result.analyte);
    Marks out;
    out.learner = sheet("you", learner, lesson, truth, measured);
    out.shrug = sheet("the shrug", shrugAnswers(lesson), lesson, truth, measured);
    out.shrug.how = "Knows no result: the same wide bands whatever the case, even points, a blind "
                    "pick of the next step.";
    out.naive = sheet("the naive reader", naiveAnswers(lesson, knowledge, reports), lesson, truth,
                      measured);
    out.naive.how = "Takes a bigger number for a sicker organ (a count or a hormone for the organ "
                    "itself), a flag for a disease, no flag for health, and picks the next step "
                    "blindly.";
    return out;
}

std::string inWords(double total) {
    if (total < 0) return "no points: the bands were narrow and missed";
    return base::rounded(total, 1) + " of 100";
}

} // namespace cistern::lesson
