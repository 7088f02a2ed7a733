// What stands on the bench: tubes, traces, charts, and the course of it all.
#include "at_hand.h"
#include "drawing/svg.h"
#include "view/control.h"
#include "view/course.h"
#include "view/trace.h"
#include "view/tubes.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace cistern;
using namespace cistern::test;

namespace {

const drawing::Box tall{0, 0, 120, 260}, wide{0, 0, 420, 260};

} // namespace

TEST_CASE("tubes are as they were handled, and their serum as it was measured", "[view]") {
    for (const char* name : three) {
        const lesson::Case one = shipped(name);
        const lesson::Lesson lesson(one, known());
        for (const lesson::Taken& taken : lesson.taken())
            for (const view::Moment moment : {view::Moment::drawn, view::Moment::spun}) {
                const auto tubes = view::tubes(lesson, taken.draw, moment);
                CHECK_FALSE(tubes.empty());
                for (const drawing::TubeView& tube : tubes) {
                    INFO(name << ", " << tube.name);
                    CHECK_NOTHROW(drawing::tube(tube, tall));
                    CHECK((!tube.spun || moment == view::Moment::spun));
                    const bool pink = lab::hemolysisWord(taken.report.specimen) != "clear";
                    CHECK((tube.hemolysis >= 0.1) == pink);
                    if (const lab::Result* cells = taken.report.find(body::Analyte::PCV))
                        CHECK(tube.cells == cells->value);
                }
            }
    }
}

TEST_CASE("a tube handled otherwise looks otherwise", "[view]") {
    const lesson::Case one = shipped("all_legs");
    lesson::Lesson lesson(one, known());
    const auto serum = [&](view::Moment moment) {
        const auto tubes = view::tubes(lesson, 0, moment);
        return *std::find_if(tubes.begin(), tubes.end(),
                             [](const auto& tube) { return tube.name == "serum"; });
    };
    CHECK(serum(view::Moment::drawn).clot == 1);
    CHECK(serum(view::Moment::spun).spun);
    lesson.apply(lesson::Go{lesson::Stage::plan});
    lesson.apply(lesson::Handle{0, "serum clot", "5 min"});
    lesson.apply(lesson::Handle{0, "serum fill", "40 %"});
    CHECK(serum(view::Moment::drawn).clot < 0.5);
    CHECK(serum(view::Moment::drawn).fill == 0.4);
    CHECK_THAT(serum(view::Moment::drawn).caption, Catch::Contains("5 min"));
}

TEST_CASE("rate and factor of a trace give the printed result", "[view]") {
    // Beside the run's own factor, which reads all a little too high or too low: four of its
    // standard deviations, and what rounding to the printed step leaves.
    int traces = 0;
    for (const char* name : three) {
        const lesson::Case one = shipped(name);
        const lesson::Lesson lesson(one, known());
        for (const lesson::Taken& taken : lesson.taken())
            for (const lab::Result* result : view::traced(taken.report)) {
                INFO(name << ", " << body::name(result->analyte));
                const drawing::TraceView trace =
                    view::trace(*result, known().bench, lab::Units::conventional);
                CHECK_NOTHROW(drawing::trace(trace, wide));
                CHECK_THAT(trace.subtitle,
                           Catch::Contains("printed " + lab::printed(*result, known().bench,
                                                                     lab::Units::conventional)));
                ++traces;
                const auto rate = view::rate(*result, known().bench, lab::Units::conventional);
                CHECK(trace.line.has_value() == rate.has_value());
                const bool diluted = std::any_of(
                    result->notes.begin(), result->notes.end(),
                    [](const std::string& note) { return note.find("diluted") != note.npos; });
                if (!rate || diluted || result->bound != lab::Bound::exact) continue;
                const lab::Method& method = known().bench.method(result->analyte);
                const double told = rate->perMinute * rate->factor;
                const double value = result->value * method.conventional.factor;
                CHECK(
                    told ==
                    Approx(value).epsilon(4 * method.betweenRun).margin(method.conventional.step));
            }
    }
    CHECK(traces > 10);
    CHECK_THROWS_AS(view::trace(lab::Result{}, known().bench, lab::Units::si),
                    std::invalid_argument);
}

TEST_CASE("the chart of a draw is the one its report tells of", "[view]") {
    for (const char* name : three) {
        lesson::Case one = shipped(name);
        one.machine.faults.push_back({lab::MachineFault::drift, {}, 0.3});
        one.draws.front().tests = {"chemistry", "control chart"};
        const lesson::Lesson lesson(one, known());
        const lab::Report& report = lesson.taken().front().report;
        REQUIRE(report.controls);
        CHECK_FALSE(report.controls->notes.empty());
        for (const lab::ControlNote& note : report.controls->notes) {
            const lab::Chart chart =
                view::chartAt(one, known(), lesson.taken().front().draw, note.analyte);
            CHECK(chart.runs.back().broken == note.broken);
            const drawing::ControlChartView drawn =
                view::control(chart, known().bench, lab::Units::si);
            CHECK(drawn.lines.front().marks.back().score == chart.runs.back().scores.front());
            CHECK_THAT(drawn.subtitle, !Catch::Contains("drift"));
            CHECK_NOTHROW(drawing::picture(drawn));
        }
    }
}

TEST_CASE("a course holds the truth and what was measured of it", "[view]") {
    for (const char* name : three) {
        const lesson::Case one = shipped(name);
        const body::Individual animal = lesson::patient(one, known());
        std::vector<double> hours;
        for (double hour = lesson::lastDraw(one) - 30; hour <= lesson::lastDraw(one); hour += 1)
            hours.push_back(hour);
        const body::Course course = body::simulate(lesson::plan(one, known(), hours));
        const auto analytes = view::mostMoved(course, known().bench, animal, 4);
        REQUIRE(analytes.size() == 4);
        const drawing::CourseView drawn =
            view::course(one, known(), course, lab::Units::si, analytes);
        REQUIRE(drawn.levels.size() == 4);
        for (std::size_t i = 0; i < 4; ++i) {
            const double factor = known().bench.method(analytes[i]).writing(lab::Units::si).factor;
            CHECK(drawn.levels[i].values.back() / factor ==
                  Approx(course.at(course.size() - 1).level(analytes[i])));
        }
        CHECK(drawn.work.size() == one.organs.size());
        CHECK_NOTHROW(drawing::layout(drawn));
    }
}
