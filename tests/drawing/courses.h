#pragma once
#include "drawing/course.h"

#include <cmath>

/// Invented courses for the tests of drawing.
namespace cistern::test {

using namespace drawing;

/// A level that leaves its healthy value at hour `from` for a peak (or, with a fold below 1, for
/// good) after `lag` hours.
inline LevelLine level(const CourseView& view, std::string name, std::string unit, Meaning meaning,
                       double healthy, double fold, double from, double lag) {
    LevelLine line{std::move(name), std::move(unit), meaning, healthy, {}, {}};
    for (double hour : view.hours) {
        const double x = std::max(0.0, (hour - from) / lag);
        const double share = fold > 1 ? x * std::exp(1 - x) : 1 - std::exp(-x);
        line.values.push_back(healthy * (1 + (fold - 1) * share));
    }
    return line;
}

/// Pegs a little off the truth at the given looks of every line.
inline void measure(CourseView& view, const std::vector<std::size_t>& looks) {
    for (LevelLine& line : view.levels)
        for (std::size_t look : looks)
            line.pegs.push_back(
                {view.hours[look], 1.05 * line.values[look], 0.12 * line.values[look]});
}

/// Four days, three lines.
inline CourseView lockKeepersDog() {
    CourseView view;
    view.title = "What Bramble found beside the lock";
    view.subtitle = "Bramble · dog · 9 years · 18 kg · seed 4711";
    for (int hour = -24; hour <= 72; ++hour) view.hours.push_back(hour);
    view.levels = {level(view, "ALT", "U/L", Meaning::leaks, 40, 60, 0, 20),
                   level(view, "albumin", "g/L", Meaning::works, 34, 0.8, 0, 60),
                   level(view, "bilirubin", "µmol/L", Meaning::cleared, 3, 6, 6, 50)};
    measure(view, {30, 54, 94});
    WorkLine liver{"liver", {}};
    for (double hour : view.hours)
        liver.shares.push_back(1 - 0.5 * (1 - std::exp(-std::max(0.0, hour) / 8)));
    view.work = {liver};
    view.happenings = {{"acute liver death", 0, 6}};
    return view;
}

/// Five hundred days, nine lines from 0.3 to 300 fold, two organs, four happenings.
inline CourseView slowCat() {
    CourseView view;
    view.title = "Five hundred days of a scarring liver, with a course of steroid tablets";
    view.subtitle = "Tansy · cat · 11 years · 4 kg · pegs are what the laboratory printed";
    constexpr double day = 24;
    for (double hour = -30 * day; hour <= 500 * day; hour += 12) view.hours.push_back(hour);
    view.levels = {
        level(view, "ALT", "U/L", Meaning::leaks, 40, 300, 0, 100 * day),
        level(view, "AST", "U/L", Meaning::leaks, 25, 22, 0, 90 * day),
        level(view, "ALP", "U/L", Meaning::leaks, 60, 12, 120 * day, 110 * day),
        level(view, "GGT", "U/L", Meaning::leaks, 4, 5, 120 * day, 150 * day),
        level(view, "albumin", "g/L", Meaning::works, 34, 0.45, 60 * day, 200 * day),
        level(view, "glucose", "mmol/L", Meaning::works, 5, 0.75, 60 * day, 200 * day),
        level(view, "urea", "mmol/L", Meaning::works, 6, 0.3, 60 * day, 150 * day),
        level(view, "bilirubin", "µmol/L", Meaning::cleared, 3, 9, 200 * day, 300 * day),
        level(view, "bile acids", "µmol/L", Meaning::cleared, 4, 30, 90 * day, 350 * day)};
    measure(view, {180, 540, 920});
    WorkLine liver{"liver", {}}, kidney{"kidney", {}};
    for (double hour : view.hours) {
        liver.shares.push_back(std::exp(-std::max(0.0, hour) / (350 * day)));
        kidney.shares.push_back(hour < 80 * day ? 1 : 0.9);
    }
    view.work = {liver, kidney};
    view.happenings = {{"hepatic fibrosis, slowly", 0, 600 * day},
                       {"steroid tablets", 120 * day, 150 * day},
                       {"a fast of two days", 330 * day, 332 * day},
                       {"anesthesia and a dental cleaning at the clinic", 470 * day, 470 * day}};
    return view;
}

/// Everything healthy: every end lies at one height, and all happenings at one time.
inline CourseView crowded() {
    CourseView view = lockKeepersDog();
    view.title = "All quiet";
    view.happenings.clear();
    for (LevelLine& line : view.levels) line.pegs.clear();
    const LevelLine one = level(view, "gamma-glutamyltransferase of the bile ducts", "U/L",
                                Meaning::leaks, 4, 1, 0, 1);
    view.levels.assign(12, one);
    view.work.assign(5, {"skeletal muscle", std::vector<double>(view.hours.size(), 1)});
    for (int i = 0; i < 4; ++i)
        view.happenings.push_back({"a meal that was larger than the bowl of the dog it was for and "
                                   "took until the evening",
                                   66.0 + i, 67.0 + i});
    view.words.zero = "the moment it was seen";
    return view;
}

} // namespace cistern::test
