#pragma once
#include "drawing/control_chart.h"
#include "lab/control/chart.h"
#include "lesson/case.h"

#include <string>

namespace cistern::view {

/// The chart of an analyte's controls up to the run of a draw, from which the report's control
/// state is judged. Throws as lab::chart() does for an analyte that has no control.
lab::Chart chartAt(const lesson::Case& one, const lesson::Knowledge& knowledge, std::size_t draw,
                   body::Analyte analyte);

/// "Control chart of creatinine".
std::string title(const lab::Chart& chart);

/// A chart as it is drawn, with its title; the subtitle names the method and tells of no fault.
drawing::ControlChartView control(const lab::Chart& chart, const lab::Bench& bench,
                                  lab::Units units);

} // namespace cistern::view
