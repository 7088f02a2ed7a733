#pragma once
#include "lab/control/chart.h"
#include "lab/control/state.h"

#include <string>
#include <vector>

namespace cistern::report {

/// What the charts of a draw's tests say, in sentences.
std::vector<std::string> controlSentences(const lab::ControlState& state);

/// A control chart for the terminal: UTF-8, lines of 80 cells at most, each ended. A table for each
/// material, a line a run, and what each broken rule speaks for.
std::string controlText(const lab::Chart& chart, const lab::Bench& bench, lab::Units units);

/// The same as RFC 4180, a row for each material of each run: run, material, value, mean and
/// deviation with their unit, score[SD], rules ("1-2s 4-1s"), verdict of the run ("in control",
/// "warning", "rejected").
std::string controlCsv(const lab::Chart& chart, const lab::Bench& bench, lab::Units units);

/// "in control", "warning", "rejected".
std::string_view verdict(lab::Rules broken);

/// Names of a set of rules: {"1-3s", "2-2s"}.
std::vector<std::string> names(lab::Rules rules);

/// Rules that a run breaks with this material, alone or together with others.
lab::Rules brokenBy(const lab::ControlRun& run, std::size_t material);

/// What a rule finds and what it speaks for: "four controls in a row beyond the same 1 SD. Speaks
/// for systematic error: ...".
std::string ruleWords(lab::Rule rule);
/// Which rules a chart breaks and when, in sentences.
std::vector<std::string> controlTold(const lab::Chart& chart);

/// A control's reading in its unit, to a step well below its standard deviation.
std::string controlNumber(double amount, const lab::ControlLevel& level, double factor);
std::string controlDeviation(const lab::ControlLevel& level, double factor);

} // namespace cistern::report
