#include "lesson/marks.h"
#include "lesson/organ.h"

#include <algorithm>
#include <cmath>

namespace cistern::lesson {

namespace {

// The shrug: what a reader would bet on before seeing any result, from the spread of the shelf's
// outlines (assumed).
constexpr Band shrugLeak{1.5, 0.7, 8}; // [fold]
constexpr Band shrugWork{80, 25, 100}; // [%]

// The naive reader's sums (assumed, so as to be sure of itself and consistent).
constexpr double naiveSpread = 1.5;         // leak band: fold / 1.5 .. fold * 1.5
constexpr double naiveLossPerDoubling = 20; // work lost for each doubling over the limit [%]
constexpr double naiveHalfBand = 10;        // [%]
constexpr double naiveFavorite = 90;        // points for what it believes

bool names(const std::string& explanation, body::Tissue organ, const Case& lesson,
           const Knowledge& knowledge) {
    const auto named = [&](const body::InsultKind& kind) {
        return kind.tissue == organ &&
               std::any_of(kind.explains.begin(), kind.explains.end(), [&](const auto& phrase) {
                   return !phrase.empty() && explanation.find(phrase) != std::string::npos;
               });
    };
    for (const body::InsultKind& kind : knowledge.insults)
        if (named(kind)) return true;
    for (const auto& kind : lesson.newInsults)
        if (named(*kind)) return true;
    for (const std::string& word : organOf(organ).words)
        if (explanation.find(word) != std::string::npos) return true;
    return false;
}

/// By how many times a flagged result lies beyond its limit; 1 without a flag.
double beyondLimit(const lab::Result& result) {
    constexpr double least = 1e-6; // keeps a count of none finite
    if (result.flag == lab::Flag::none || !result.interval) return 1;
    const double value = std::max(result.value, least);
    const double fold = result.flag == lab::Flag::high
                            ? value / std::max(result.interval->high, least)
                            : result.interval->low / value;
    return std::max(fold, 1.0);
}

/// Points for the favored explanations together, the rest evenly over the others.
std::map<std::string, double> favoring(const std::vector<std::string>& list,
                                       const std::vector<std::string>& favored) {
    const double n = static_cast<double>(list.size()), k = static_cast<double>(favored.size());
    std::map<std::string, double> points;
    for (const std::string& one : list) {
        const bool among = std::find(favored.begin(), favored.end(), one) != favored.end();
        if (k == 0 || k == n)
            points[one] = 100 / n;
        else
            points[one] = among ? naiveFavorite / k : (100 - naiveFavorite) / (n - k);
    }
    return points;
}

bool asks(const Case& lesson, body::Tissue organ) {
    return std::find(lesson.organs.begin(), lesson.organs.end(), organ) != lesson.organs.end();
}

std::map<std::string, double> naivePoints(const Case& lesson, const Knowledge& knowledge,
                                          const std::vector<lab::Report>& reports) {
    bool flagged = false;
    for (const lab::Report& report : reports)
        for (const lab::Result& result : report.results)
            flagged = flagged || result.flag != lab::Flag::none;
    std::optional<body::Tissue> loudest;
    double highest = 1;
    for (const body::Tissue organ : body::tissues()) {
        const lab::Result* result = leadingResult(organ, reports);
        if (!result) continue;
        const bool output = clue(organ, result->analyte)->output;
        if (output ? !asks(lesson, organ) : result->flag != lab::Flag::high) continue;
        if (beyondLimit(*result) > highest) {
            highest = beyondLimit(*result);
            loudest = organ;
        }
    }
    std::vector<std::string> named, sick, well;
    for (const std::string& one : lesson.explanations) {
        if (one == nothingWrong)
            well.push_back(one);
        else
            sick.push_back(one);
        if (one != nothingWrong && loudest && names(one, *loudest, lesson, knowledge))
            named.push_back(one);
    }
    if (!flagged) return favoring(lesson.explanations, well);
    return favoring(lesson.explanations, named.empty() ? sick : named);
}

} // namespace

const lab::Result* leadingResult(body::Tissue tissue, const std::vector<lab::Report>& reports) {
    for (const Clue& one : organOf(tissue).clues)
        for (auto report = reports.rbegin(); report != reports.rend(); ++report)
            if (const lab::Result* result = report->find(one.analyte)) return result;
    return nullptr;
}

namespace {

/// The naive reader on one organ, from the result that leads it.
OrganAnswer naiveAnswer(const lab::Result& result, bool output) {
    const double beyond = beyondLimit(result);
    const bool high = result.flag == lab::Flag::high;
    const bool sick = output ? result.flag == lab::Flag::low : high;
    const double fold = sick ? std::min(beyond, mostLeak / naiveSpread) : 1;
    double work = 100;
    if (output)
        work = std::clamp(high ? 100 * beyond : 100 / beyond, leastWork, mostWork - naiveHalfBand);
    else
        work = std::max(leastWork, work - naiveLossPerDoubling * std::log2(fold));
    return {Band{fold, fold / naiveSpread, fold * naiveSpread},
            Band{work, std::max(leastWork, work - naiveHalfBand), work + naiveHalfBand}};
}

/// Leaves out the leak of an organ of which none is asked for.
OrganAnswer asAsked(body::Tissue tissue, OrganAnswer answer) {
    if (!organOf(tissue).leaks) answer.leak.reset();
    return answer;
}

} // namespace

Answers shrugAnswers(const Case& lesson) {
    Answers answers;
    for (const body::Tissue organ : lesson.organs)
        answers.organs[organ] = asAsked(organ, {shrugLeak, shrugWork});
    answers.points = favoring(lesson.explanations, {});
    return answers;
}

Answers naiveAnswers(const Case& lesson, const Knowledge& knowledge,
                     const std::vector<lab::Report>& reports) {
    Answers answers;
    for (const body::Tissue organ : lesson.organs) {
        const lab::Result* result = leadingResult(organ, reports);
        const OrganAnswer answer = result && result->interval
                                       ? naiveAnswer(*result, clue(organ, result->analyte)->output)
                                       : OrganAnswer{shrugLeak, shrugWork};
        answers.organs[organ] = asAsked(organ, answer);
    }
    answers.points = naivePoints(lesson, knowledge, reports);
    return answers;
}

} // namespace cistern::lesson
