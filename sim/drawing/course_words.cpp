#include "drawing/course_words.h"

#include "base/text.h"
#include "drawing/axis.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

std::string foldWords(double fold) {
    return "\xC3\x97" + base::significant(fold, 2);
}

std::string levelWords(const CourseView& view, double value, double healthy) {
    return view.fold ? foldWords(value / healthy) : base::significant(value, 3);
}

const std::string& meaningWords(const CourseWords& words, Meaning meaning) {
    return meaning == Meaning::leaks   ? words.leaks
           : meaning == Meaning::works ? words.works
           : meaning == Meaning::held  ? words.held
                                       : words.cleared;
}

namespace {

std::string percent(double share) {
    return base::rounded(100 * share, 1) + " %";
}

std::string described(const CourseView& view, const LevelLine& line) {
    const double span = view.hours.back() - view.hours.front();
    const auto words = [&](double value) {
        return levelWords(view, value, line.healthy) +
               (view.fold || line.unit.empty() ? "" : " " + line.unit);
    };
    const auto [lowest, highest] = std::minmax_element(line.values.begin(), line.values.end());
    const auto at = [&](auto value) {
        return words(*value) + " at " +
               timeWords(view.hours[static_cast<std::size_t>(value - line.values.begin())], span);
    };
    std::string text = line.name + " (" + meaningWords(view.words, line.meaning) + ") starts at " +
                       words(line.values.front()) + ", is highest with " + at(highest) +
                       ", lowest with " + at(lowest) + " and ends at " + words(line.values.back());
    for (std::size_t i = 0; i < line.pegs.size(); ++i)
        text += (i == 0 ? "; measured " : ", ") + words(line.pegs[i].value) + " at " +
                timeWords(line.pegs[i].hour, span);
    return text + ".";
}

} // namespace

std::string described(const CourseView& view) {
    const double span = view.hours.back() - view.hours.front();
    const auto range = [&](double from, double to) {
        return timeWords(from, span) + " to " + timeWords(to, span) + ".";
    };
    std::vector<std::string> sentences{"Time from " + range(view.hours.front(), view.hours.back())};
    for (const HappeningBar& bar : view.happenings)
        sentences.push_back(bar.name + " from " + range(bar.from, bar.to));
    if (view.fold && !view.levels.empty())
        sentences.push_back("Levels are multiples of this animal's own healthy value.");
    for (const LevelLine& line : view.levels) sentences.push_back(described(view, line));
    for (const WorkLine& line : view.work)
        sentences.push_back("Work of the " + line.name + " starts at " +
                            percent(line.shares.front()) + ", is lowest with " +
                            percent(*std::min_element(line.shares.begin(), line.shares.end())) +
                            " and ends at " + percent(line.shares.back()) + ".");
    std::string text;
    for (const std::string& sentence : sentences) text.append(text.empty() ? "" : " ") += sentence;
    return text;
}

} // namespace cistern::drawing
