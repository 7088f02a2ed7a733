#include "lesson/marks.h"

#include <algorithm>
#include <cmath>

namespace cistern::lesson {

namespace {

constexpr std::string_view healthy = "nothing wrong";

// The shrug: what a reader would bet on before seeing any result, from the spread of the shelf's
// outlines (assumed).
constexpr Band shrugLeak{1.5, 0.7, 8}; // [fold]
constexpr Band shrugWork{80, 25, 100}; // [%]

// The naive reader's sums (assumed, so as to be sure of itself and consistent).
constexpr double naiveSpread = 1.5;         // leak band: fold / 1.5 .. fold * 1.5
constexpr double naiveLossPerDoubling = 20; // work lost for each doubling over the limit [%]
constexpr double naiveHalfBand = 10;        // [%]
constexpr double naiveFavorite = 90;        // points for what it believes

/// Words by which an explanation names an organ (common practice).
std::vector<std::string_view> words(body::Tissue organ) {
    switch (organ) {
    case body::Tissue::liver:
        return {"liver", "hepat"};
    case body::Tissue::bileDucts:
        return {"bile", "chole", "biliar"};
    case body::Tissue::skeletalMuscle:
        return {"muscle", "injection"};
    case body::Tissue::bone:
        return {"bone", "growth", "fracture"};
    case body::Tissue::kidney:
        return {"kidney", "nephr", "renal", "urinary"};
    }
    return {};
}

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
    for (const std::string_view word : words(organ))
        if (explanation.find(word) != std::string::npos) return true;
    return false;
}

/// Fold over the upper limit; 0 if there is no result or no interval.
double foldOverLimit(const lab::Result* result) {
    if (!result || !result->interval || !(result->interval->high > 0)) return 0;
    return result->value / result->interval->high;
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

std::map<std::string, double> naivePoints(const Case& lesson, const Knowledge& knowledge,
                                          const std::vector<lab::Report>& reports) {
    bool flagged = false;
    for (const lab::Report& report : reports)
        for (const lab::Result& result : report.results)
            flagged = flagged || result.flag != lab::Flag::none;
    std::optional<body::Tissue> loudest;
    double highest = 0;
    for (const body::Tissue organ : body::tissues()) {
        const lab::Result* result = leadingResult(organ, reports);
        if (!result || result->flag != lab::Flag::high) continue;
        if (foldOverLimit(result) > highest) {
            highest = foldOverLimit(result);
            loudest = organ;
        }
    }
    std::vector<std::string> named, sick, well;
    for (const std::string& one : lesson.explanations) {
        if (one == healthy)
            well.push_back(one);
        else
            sick.push_back(one);
        if (one != healthy && loudest && names(one, *loudest, lesson, knowledge))
            named.push_back(one);
    }
    if (!flagged) return favoring(lesson.explanations, well);
    return favoring(lesson.explanations, named.empty() ? sick : named);
}

} // namespace

const lab::Result* leadingResult(body::Tissue organ, const std::vector<lab::Report>& reports) {
    using body::Analyte;
    std::vector<Analyte> leading;
    switch (organ) {
    case body::Tissue::liver:
        leading = {Analyte::ALT};
        break;
    case body::Tissue::bileDucts:
        leading = {Analyte::GGT, Analyte::ALP};
        break;
    case body::Tissue::skeletalMuscle:
        leading = {Analyte::CK};
        break;
    case body::Tissue::bone:
        leading = {Analyte::ALP};
        break;
    case body::Tissue::kidney:
        leading = {Analyte::creatinine};
        break;
    }
    for (const Analyte analyte : leading)
        for (auto report = reports.rbegin(); report != reports.rend(); ++report)
            if (const lab::Result* result = report->find(analyte)) return result;
    return nullptr;
}

Answers shrugAnswers(const Case& lesson) {
    Answers answers;
    for (const body::Tissue organ : lesson.organs) answers.organs[organ] = {shrugLeak, shrugWork};
    answers.points = favoring(lesson.explanations, {});
    return answers;
}

Answers naiveAnswers(const Case& lesson, const Knowledge& knowledge,
                     const std::vector<lab::Report>& reports) {
    Answers answers;
    for (const body::Tissue organ : lesson.organs) {
        const lab::Result* result = leadingResult(organ, reports);
        if (!result || !result->interval) {
            answers.organs[organ] = {shrugLeak, shrugWork};
            continue;
        }
        const bool high = result->flag == lab::Flag::high;
        const double fold =
            std::clamp(high ? foldOverLimit(result) : 1.0, 1.0, mostLeak / naiveSpread);
        const double work = std::max(leastWork, 100 - naiveLossPerDoubling * std::log2(fold));
        answers.organs[organ] = {
            Band{fold, fold / naiveSpread, fold * naiveSpread},
            Band{work, std::max(leastWork, work - naiveHalfBand), work + naiveHalfBand}};
    }
    answers.points = naivePoints(lesson, knowledge, reports);
    return answers;
}

} // namespace cistern::lesson
