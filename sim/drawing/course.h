#pragma once
#include "drawing/meaning.h"
#include "drawing/painter.h"

#include <optional>
#include <string>
#include <vector>

/// The course: how one animal's levels and the work of its organs moved over time, with what the
/// laboratory measured and what happened to the animal. Plain data in; layout, picture, PNG and SVG
/// out.
namespace cistern::drawing {

/// One draw as the laboratory saw it.
struct Peg {
    double hour = 0;
    double value = 0;     ///< in the unit of its line
    double halfWidth = 0; ///< of the error bar, same unit, >= 0
};

/// One analyte over time.
struct LevelLine {
    std::string name; ///< as people read it: "ALT", "bile acids"
    std::string unit; ///< as people read it: "U/L"
    Meaning meaning = Meaning::leaks;
    double healthy = 1;         ///< this animal's own healthy value [unit], > 0 if drawn as fold
    std::vector<double> values; ///< the truth, one for each hour
    std::vector<Peg> pegs;
};

/// How much of one organ still functions, one share for each hour (1 is all of it).
struct WorkLine {
    std::string name;
    std::vector<double> shares;
};

/// Something that happened to the animal, from one hour to another (the same: a single moment).
/// The part outside the course is not drawn.
struct HappeningBar {
    std::string name;
    double from = 0, to = 0;
};

/// Every word of the drawing that is not data, for other languages.
struct CourseWords {
    std::string leaks = "what leaks", works = "what works", cleared = "what is cleared",
                held = "what is held in balance";
    std::string measured = "measured that day, with the analyzer's doubt";
    std::string fold = "Levels: times this animal's own healthy value (×1)";
    std::string level = "Levels in"; ///< the unit follows
    std::string work = "Work: share of the organ that still functions";
    std::string last = "at the end"; ///< over the column of last values
    std::string happened = "What happened";
    std::string zero = "0"; ///< hour 0 on the time axis: "today", "first dose"
};

struct CourseView {
    std::string title, subtitle;
    std::vector<double> hours; ///< rising, at least two
    std::vector<LevelLine> levels;
    std::vector<WorkLine> work;
    std::vector<HappeningBar> happenings;
    std::string caution = "Invented animal, for teaching. Not for diagnosing or treating. "
                          "A licensed veterinarian decides.";
    bool fold = true;        ///< over the own healthy value; else each unit gets a panel of its own
    bool logarithmic = true; ///< level axes; work is always linear
    double width = 1280, height = 800; ///< at least 400 x 300; grows if the letters need it
    double textScale = 1;              ///< 0.5 to 3
    CourseWords words;
    std::string description; ///< for those who cannot see it; empty: told from the data, in English
    std::string language = "en";
};

/// Everything placed. Boxes and points are in pixels of the picture.
struct CourseLayout {
    struct Curve {
        std::string name;
        Meaning meaning = Meaning::leaks;
        std::vector<double> dash;
        std::vector<Point> points;
        struct Measured {
            Point at;
            double top, bottom; ///< of the error bar
            bool below, above;  ///< the error bar goes on past the axis
        };
        std::vector<Measured> pegs;
        Point end;  ///< of the curve
        Box sample; ///< short piece of the line before its name
    };
    struct Panel {
        Box field;
        std::vector<double> grid;     ///< y of the level lines
        std::optional<double> health; ///< y of the healthy level
        std::vector<Curve> curves;
    };
    struct Key { ///< an entry of the legend
        Box mark;
        std::optional<Meaning> meaning; ///< none: the measured peg
    };
    double width = 0, height = 0;
    std::string title, description, language;
    Box card;
    std::vector<Panel> panels;
    std::vector<Key> legend;
    std::vector<double> timeGrid, minorTimes, onsets; ///< x
    std::vector<Box> bars;
    std::vector<Text> texts; ///< all of them
    bool fit = true;         ///< in a box: whether it held everything
    bool fits() const { return fit; }
};

/// Throws std::invalid_argument with one sentence naming the line and the hour if the view cannot
/// be drawn: no hours, counts that differ, a number that is not finite, a peg outside the course.
void validate(const CourseView& view);

/// Places everything; throws as validate() does.
CourseLayout layout(const CourseView& view);
/// The same without a page, inside a box, at a scale of the letters that the box can hold or the
/// least.
CourseLayout layout(const CourseView& view, const Box& box);

Picture picture(const CourseLayout& placed);
std::string svg(const CourseView& view);
std::string png(const CourseView& view, double scale = 1);

/// The panels, the legend and what happened in a box, from about 380 x 260, with no page around
/// them: no title, subtitle, card or caution. Letters grow with the text scale and shrink where the
/// box has no room for them. Throws as validate() does.
Group course(const CourseView& view, const Box& box);

/// What the course shows, in sentences, for those who cannot see it: its description, or if that is
/// empty told from the data, in English.
std::string words(const CourseView& view);

} // namespace cistern::drawing
