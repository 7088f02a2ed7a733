#include "report/control.h"

#include "base/text.h"
#include "base/units.h"
#include "report/csv.h"
#include "report/table.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace cistern::report {

namespace {

using base::padLeft;
using base::padRight;

constexpr int pageWidth = 80;                  // cells
constexpr int runWidth = 4, valueWidth = 8;    // cells
constexpr int cellsPerDeviation = 5, edge = 4; // the field ends at 4 SD
constexpr int fieldWidth = 2 * edge * cellsPerDeviation + 1;

void addLine(std::string& page, std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    page += line + "\n";
}

void addWrapped(std::string& page, const std::string& text) {
    const auto lines = base::wrapped(text, pageWidth - 2);
    for (std::size_t i = 0; i < lines.size(); ++i) addLine(page, (i ? "  " : "") + lines[i]);
}

std::string joined(const std::vector<std::string>& parts, const char* between) {
    std::string text;
    for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
    return text;
}

int cellOf(int deviations) {
    return (edge + deviations) * cellsPerDeviation;
}

/// The bands, and the control among them.
std::string field(double score) {
    std::string cells(static_cast<std::size_t>(fieldWidth), ' ');
    const auto at = [&](int cell) -> char& { return cells[static_cast<std::size_t>(cell)]; };
    for (const int band : {-3, -2, -1, 1, 2, 3})
        at(cellOf(band)) = std::abs(band) == 3 ? '!' : std::abs(band) == 2 ? ':' : '.';
    at(cellOf(0)) = '|';
    if (std::abs(score) > edge) {
        at(score > 0 ? fieldWidth - 1 : 0) = score > 0 ? '>' : '<';
    } else {
        const int cell = static_cast<int>(std::lround((edge + score) * cellsPerDeviation));
        at(cell) = std::abs(score) > 3 ? '#' : std::abs(score) > 2 ? 'x' : 'o';
    }
    return cells;
}

std::string scale() {
    std::string cells(static_cast<std::size_t>(fieldWidth), ' ');
    for (int band = -3; band <= 3; ++band) {
        const std::string words = band > 0 ? "+" + std::to_string(band) : std::to_string(band);
        const auto from = static_cast<std::size_t>(cellOf(band) - (band != 0));
        cells.replace(from, words.size(), words);
    }
    return cells;
}

/// All five fit beside the field.
std::string rulesBroken(lab::Rules broken) {
    if (broken.empty()) return "";
    if (!broken.reject()) return "1-2s warning";
    std::vector<std::string> rejecting;
    for (const lab::Rule rule : lab::rules())
        if (rule != lab::Rule::warning && broken.has(rule)) rejecting.emplace_back(name(rule));
    return joined(rejecting, " ");
}

void addLevel(std::string& page, const lab::Chart& chart, std::size_t m,
              const lab::Writing& writing) {
    const lab::ControlLevel& level = chart.levels[m];
    const auto number = [&](double amount) { return controlNumber(amount, level, writing.factor); };
    const std::string unit = writing.unit == "1" ? "" : " " + base::shown(writing.unit);
    addLine(page, level.name + ", " + spoken(name(chart.analyte)) + ": mean " +
                      number(level.target.mean) + unit + ", SD " +
                      controlDeviation(level, writing.factor) + unit);
    addLine(page, padLeft("run", runWidth) + padLeft("value", valueWidth) + " " + scale() +
                      " rules broken");
    for (const lab::ControlRun& run : chart.runs)
        addLine(page, padLeft(std::to_string(run.number + 1), runWidth) +
                          padLeft(number(run.values[m]), valueWidth) + " " + field(run.scores[m]) +
                          " " + rulesBroken(brokenBy(run, m)));
    addLine(page, "");
}

/// "in run 4", "in 3 runs, first in run 4".
std::string when(const lab::Chart& chart, lab::Rule rule) {
    std::size_t count = 0;
    std::string first;
    for (const lab::ControlRun& run : chart.runs)
        if (run.broken.has(rule) && count++ == 0)
            first = "in run " + std::to_string(run.number + 1);
    return count == 1 ? first : "in " + std::to_string(count) + " runs, first " + first;
}

} // namespace

std::string_view verdict(lab::Rules broken) {
    return broken.empty() ? "in control" : broken.reject() ? "rejected" : "warning";
}

std::vector<std::string> names(lab::Rules rules) {
    std::vector<std::string> all;
    for (const lab::Rule rule : lab::rules())
        if (rules.has(rule)) all.emplace_back(name(rule));
    return all;
}

lab::Rules brokenBy(const lab::ControlRun& run, std::size_t material) {
    lab::Rules rules;
    for (const lab::Break& one : run.breaks)
        if (one.material == lab::Break::all || one.material == static_cast<int>(material))
            rules.add(one.rule);
    return rules;
}

std::string controlNumber(double amount, const lab::ControlLevel& level, double factor) {
    constexpr double parts = 2; // a step is at most this part of the standard deviation
    const double step =
        std::pow(10, std::floor(std::log10(level.target.deviation * factor / parts)));
    return base::rounded(amount * factor, step);
}

std::string controlDeviation(const lab::ControlLevel& level, double factor) {
    return base::significant(level.target.deviation * factor, 2);
}

std::string ruleWords(lab::Rule rule) {
    return std::string(words(rule)) + ". " + std::string(speaksFor(kind(rule))) + ".";
}

std::vector<std::string> controlTold(const lab::Chart& chart) {
    const lab::Rules broken = chart.broken();
    if (broken.empty()) return {"No rule is broken in these runs."};
    std::vector<std::string> sentences;
    for (const lab::Rule rule : lab::rules())
        if (broken.has(rule))
            sentences.push_back(std::string(name(rule)) + " " + when(chart, rule) + ": " +
                                ruleWords(rule));
    return sentences;
}

std::vector<std::string> controlSentences(const lab::ControlState& state) {
    std::vector<std::string> sentences;
    for (const lab::ControlNote& note : state.notes) {
        std::vector<std::string> rules;
        for (const std::string& rule : names(note.broken))
            if (rule != name(lab::Rule::warning)) rules.push_back(rule);
        std::string text = "Controls of " + spoken(name(note.analyte)) + ": out of control, " +
                           base::listed(rules, "and") + " broken";
        if (note.since > 1) text += ", since " + std::to_string(note.since) + " runs";
        if (note.oneSided > 1)
            text += "; the last " + std::to_string(note.oneSided) + " runs all read " +
                    (note.side > 0 ? "above" : "below") + " the mean";
        sentences.push_back(text + ".");
    }
    std::vector<std::string> warned;
    for (const body::Analyte analyte : state.warned) warned.push_back(spoken(name(analyte)));
    if (!warned.empty())
        sentences.push_back("Controls of " + base::listed(warned, "and") +
                            ": a warning (1-2s), no more.");
    const std::string count = std::to_string(state.inControl);
    if (state.notes.empty() && warned.empty())
        sentences.push_back(state.inControl == 0 ? "Controls: none of these tests has any."
                                                 : "Controls of all " + count +
                                                       " tests that have them: in control.");
    else if (state.inControl > 0)
        sentences.push_back("Controls of the other " + count + " tests: in control.");
    return sentences;
}

std::string controlText(const lab::Chart& chart, const lab::Bench& bench, lab::Units units) {
    const lab::Writing& writing = bench.method(chart.analyte).writing(units);
    std::string page;
    for (std::size_t m = 0; m < chart.levels.size(); ++m) addLevel(page, chart, m, writing);
    addWrapped(page, "Bands at 1 SD (.), 2 SD (:) and 3 SD (!) beside the mean (|); a control "
                     "beyond 2 SD is x, beyond 3 SD #, beyond 4 SD < or >.");
    for (const std::string& sentence : controlTold(chart)) addWrapped(page, sentence);
    return page;
}

std::string controlCsv(const lab::Chart& chart, const lab::Bench& bench, lab::Units units) {
    const lab::Writing& writing = bench.method(chart.analyte).writing(units);
    const std::string unit = "[" + (writing.unit.empty() ? "1" : writing.unit) + "]";
    std::string text = csvLine({"run", "analyte", "material", "value" + unit, "mean" + unit,
                                "deviation" + unit, "score[SD]", "rules", "verdict"});
    for (const lab::ControlRun& run : chart.runs)
        for (std::size_t m = 0; m < chart.levels.size(); ++m) {
            const lab::Target& target = chart.levels[m].target;
            text +=
                csvLine({std::to_string(run.number + 1), std::string(name(chart.analyte)),
                         chart.levels[m].name, number(run.values[m] * writing.factor),
                         number(target.mean * writing.factor),
                         number(target.deviation * writing.factor), number(run.scores[m]),
                         joined(names(brokenBy(run, m)), " "), std::string(verdict(run.broken))});
        }
    return text;
}

} // namespace cistern::report
