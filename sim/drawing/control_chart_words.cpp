#include "drawing/axis.h"
#include "drawing/control_chart.h"

#include <algorithm>

namespace cistern::drawing {

namespace {

/// "in run 4", "in 3 runs, first in run 4".
std::string when(const RuleRow& rule, const std::vector<std::uint64_t>& runs) {
    const auto first = std::find(rule.broken.begin(), rule.broken.end(), true);
    const auto count = std::count(rule.broken.begin(), rule.broken.end(), true);
    if (count == 0) return "in no run";
    const std::string run =
        "in run " + std::to_string(runs[static_cast<std::size_t>(first - rule.broken.begin())]);
    return count == 1 ? run : "in " + std::to_string(count) + " runs, first " + run;
}

} // namespace

std::string words(const ControlChartView& view) {
    validate(view);
    if (!view.description.empty()) return view.description;
    std::string text;
    const auto add = [&](const std::string& one) { text += (text.empty() ? "" : " ") + one; };
    for (const ControlLine& line : view.lines) {
        const auto [least, most] =
            std::minmax_element(line.marks.begin(), line.marks.end(),
                                [](const auto& a, const auto& b) { return a.score < b.score; });
        add(line.name + " (" + line.target + "): " + std::to_string(view.runs.size()) +
            " runs, from " + tickNumber(least->score, 2) + " to " + tickNumber(most->score, 2) +
            " SD.");
    }
    for (const RuleRow& rule : view.rules)
        add(rule.name + " is broken " + when(rule, view.runs) + ": " + rule.words +
            (rule.words.ends_with(".") ? "" : "."));
    if (view.rules.empty()) add(view.words.none);
    return text;
}

} // namespace cistern::drawing
