#pragma once
#include "drawing/painter.h"

#include <cstdint>
#include <string>
#include <vector>

/// The control chart: how far each control lay from its mean, run by run, and which rules each run
/// breaks. Plain data in; picture and SVG out.
namespace cistern::drawing {

enum class ControlState { inControl, warning, rejected };

/// One control of one run.
struct ControlMark {
    double score = 0; ///< standard deviations from the mean
    ControlState state = ControlState::inControl;
};

/// One material over all runs.
struct ControlLine {
    std::string name;   ///< "High Water"
    std::string target; ///< "mean 1.90 mg/dL, SD 0.04 mg/dL"
    std::vector<ControlMark> marks;
};

/// A rule that some run breaks, and which runs do.
struct RuleRow {
    std::string name;  ///< "2-2s"
    std::string words; ///< what it speaks for
    bool warning = false;
    std::vector<bool> broken; ///< one for each run
};

/// Every word of the drawing that is not data, for other languages.
struct ControlWords {
    std::string inControl = "in control", warning = "warning", rejected = "rejected",
                beyond = "beyond the edge", mean = "mean", run = "run",
                rules = "Rules broken, run by run", none = "No rule is broken in these runs.";
};

struct ControlChartView {
    std::string title, subtitle;
    std::vector<std::uint64_t> runs; ///< their numbers, rising, at least two
    std::vector<ControlLine> lines;  ///< at least one
    std::vector<RuleRow> rules;
    std::string caution = "Invented laboratory, for teaching. Not for diagnosing or treating. "
                          "A licensed veterinarian decides.";
    double width = 1280;  ///< of the whole page, at least 500
    double textScale = 1; ///< 0.5 to 3
    ControlWords words;
    std::string description; ///< for those who cannot see it
    std::string language = "en";
};

/// Throws std::invalid_argument with one sentence if the view cannot be drawn: fewer than two runs,
/// counts that differ, a score that is not finite.
void validate(const ControlChartView& view);

/// The whole page; throws as validate() does.
Picture picture(const ControlChartView& view);
std::string svg(const ControlChartView& view);

/// The charts of all materials and the rules they break in a box, from about 260 x 220, with no
/// page around them: no title, subtitle, card or caution. Letters shrink where the box has no room
/// for them; what each rule speaks for stands there only where letters as asked leave room. Throws
/// as validate() does.
Group controlChart(const ControlChartView& view, const Box& box);

/// What the chart shows, in sentences, for those who cannot see it: its description, or if that is
/// empty told from the data, in English.
std::string words(const ControlChartView& view);

} // namespace cistern::drawing
