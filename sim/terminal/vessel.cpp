#include "base/text.h"
#include "base/units.h"
#include "drawing/opened.h"
#include "drawing/svg.h"
#include "lesson/organ.h"
#include "report/text.h"
#include "report/words.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <memory>

namespace cistern::terminal {

namespace {

struct Wanted {
    std::string file, organ, seed, units = "conventional", out;
};

constexpr std::size_t steps = 60;   // of the path
constexpr std::size_t labelled = 6; // of them carry their day
constexpr double asFull = 3;        // upper limits that fill the trough, or more if the level asks

/// What stands for an organ's leak in blood: the first clue of it that is no output, if its leak
/// goes into blood.
std::optional<body::Analyte> markerOf(body::Tissue organ, const lab::Bench& bench,
                                      body::Kind kind) {
    if (!lesson::organOf(organ).marker) return std::nullopt;
    for (const lesson::Clue& clue : lesson::organOf(organ).clues) {
        const lab::Method* method = bench.find(clue.analyte);
        if (!clue.output && method && method->serves(kind)) return clue.analyte;
    }
    return std::nullopt;
}

/// How far apart two points look: work as a share, leak in decades.
double distance(const drawing::PlanePoint& a, const drawing::PlanePoint& b) {
    constexpr double least = 0.01; // a dead organ leaks nothing
    const auto decades = [&](double leak) { return std::log10(std::max(leak, least)); };
    return std::hypot(a.work - b.work, decades(a.leak) - decades(b.leak));
}

drawing::PlanePoint pointOf(const body::Snapshot& now, body::Tissue organ) {
    return {now.work(organ), now.leak(organ), {}};
}

/// Of the organs that the case asks about and that leak, the one that is wanted, or that lies
/// furthest from health.
body::Tissue organOf(const lesson::Case& one, const lab::Bench& bench, const body::Snapshot& now,
                     const std::string& wanted) {
    std::vector<std::string> names;
    std::string furthest;
    double most = -1;
    for (const body::Tissue organ : one.organs) {
        if (!lesson::organOf(organ).leaks || !markerOf(organ, bench, one.who.kind)) continue;
        names.emplace_back(body::name(organ));
        const double off = distance(pointOf(now, organ), drawing::PlanePoint{});
        if (off > most) furthest = names.back();
        most = std::max(most, off);
    }
    if (names.empty())
        throw UsageError("None of the organs that " + one.name +
                         " asks about leaks what the laboratory measures in blood.");
    return *body::tissueNamed(wanted.empty() ? furthest : readWord("--organ", wanted, names));
}

/// Concentrations at one scale for both animals.
struct Trough {
    const lab::Method& method;
    const lab::Writing& writing;
    double limit, full; ///< upper limit of the healthy, and what fills it, in the model's unit

    void fill(drawing::VesselView& view, double level) const {
        view.level = std::min(1., level / full);
        view.mark = limit / full;
        view.reading = report::spoken(body::name(method.analyte)) + " " +
                       base::rounded(level * writing.factor, writing.step) + " " +
                       base::shown(writing.unit);
        view.levelWords = level > limit ? base::rounded(level / limit, 0.1) + " × the upper limit"
                                        : "below the upper limit";
    }
};

/// "-12 h", "-3 d", "-9 mo" before the last hour, by how long all of it takes.
std::string before(double hours, double whole) {
    constexpr double day = 24, month = 30.44 * day;
    if (whole > 6 * month) return base::rounded(hours / month, 1) + " mo";
    if (whole > 3 * day) return base::rounded(hours / day, 1) + " d";
    return base::rounded(hours, 1) + " h";
}

/// Its path, unless it stood still.
drawing::PlaneView planeOf(const body::Course& course, body::Tissue organ) {
    constexpr double still = 0.02, room = 0.04; // distances: of nothing, and of a label
    drawing::PlaneView plane;
    const double last = course.hours().back(), whole = last - course.hours().front();
    plane.truth = pointOf(course.at(course.size() - 1), organ);
    bool moved = false;
    drawing::PlanePoint labelledLast = *plane.truth; // where it stands, and where a label stands
    for (std::size_t i = 0; i < course.size(); ++i) {
        drawing::PlanePoint at = pointOf(course.at(i), organ);
        moved = moved || distance(at, *plane.truth) > still;
        const auto apart = [&](const drawing::PlanePoint& from) {
            return distance(at, from) > room;
        };
        if (i > 0 && i + 1 < course.size() && i % (course.size() / labelled) == 0 &&
            apart(*plane.truth) && apart(labelledLast)) {
            at.label = before(course.hours()[i] - last, whole);
            labelledLast = at;
        }
        plane.path.push_back(at);
    }
    if (!moved) plane.path.clear();
    return plane;
}

std::vector<double> hoursOf(const lesson::Case& one) {
    const double last = lesson::lastDraw(one);
    const double first =
        std::max(std::min(lesson::firstInsult(one).value_or(last - 1), last - 1), -one.who.age);
    std::vector<double> hours;
    for (std::size_t i = 0; i <= steps; ++i)
        hours.push_back(first + (last - first) * static_cast<double>(i) / steps);
    return hours;
}

drawing::OpenedView opened(const lesson::Case& one, const lesson::Knowledge& knowledge,
                           const std::string& wanted, lab::Units units) {
    const body::Course course = body::simulate(lesson::plan(one, knowledge, hoursOf(one)));
    const body::Snapshot now = course.at(course.size() - 1);
    const body::Tissue organ = organOf(one, knowledge.bench, now, wanted);
    const body::Analyte marker = *markerOf(organ, knowledge.bench, one.who.kind);
    const lab::Method& method = knowledge.bench.method(marker);
    const lab::Interval* interval = knowledge.bench.interval(one.who, now.hour, marker);
    const double own = body::setPoint(lesson::patient(one, knowledge), marker);
    const double limit = interval ? interval->high : 2 * own;
    const Trough trough{method, method.writing(units), limit,
                        std::max(asFull * limit, 1.2 * now.level(marker))};
    const std::string name(body::name(organ));
    drawing::OpenedView view;
    view.title = one.title + ": the " + name + " opened";
    view.subtitle =
        one.patient + ", " + report::signalment(one.who) + ", at " + report::shownTime(now.hour);
    view.here.name = one.patient + ": " + name;
    view.here.caption = "as it is, which no laboratory sees";
    constexpr double whole = 0.995; // rounds to 100 %
    view.here.work = now.work(organ) > whole ? std::max(1., now.work(organ)) : now.work(organ);
    view.here.leak = now.leak(organ);
    trough.fill(view.here, now.level(marker));
    view.healthy.name = "The same in health";
    view.healthy.caption = "as it was before anything happened";
    trough.fill(view.healthy, own);
    for (drawing::VesselView* each : {&view.here, &view.healthy}) each->spout = 0.5;
    view.planeSubtitle = "From the first insult to the last draw";
    view.plane = planeOf(course, organ);
    return view;
}

int vessel(World& world, const Wanted& wanted) {
    const bool pixels = wanted.out.ends_with(".png");
    if (!wanted.out.empty() && !wanted.out.ends_with(".svg") && !pixels)
        throw UsageError("--out is \"" + wanted.out + "\"; a picture's name ends in .svg or .png.");
    const lab::Units units = readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lesson::Case one = readCase(world, assets.knowledge, wanted.file, wanted.seed);
    const drawing::Picture picture =
        drawing::picture(opened(one, assets.knowledge, wanted.organ, units));
    constexpr double fine = 2; // pixels a unit
    deliver(world, wanted.out, pixels ? drawing::png(picture, fine) : drawing::svg(picture));
    return done;
}

} // namespace

Job declareVessel(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    option("--organ", wanted->organ,
           "One that the case asks about; left out: the one furthest from health.", "NAME");
    option("--seed", wanted->seed,
           "Another animal, by number; what the case lets vary is drawn within its ranges.", "N");
    option("--units", wanted->units, "conventional (left out) or si.", "NAME");
    option("--out", wanted->out,
           "Writes .svg or .png, whole or not at all; SVG to the screen if "
           "left out.",
           "FILE");
    app.footer(
        "An organ as a jar that stands over a trough: the part of its wall that stands is its "
        "work, its pores are its leak, the water is the blood's level. Beside it the same in "
        "health, and the way through leak and work from the first insult to the last draw. "
        "It tells the answer of a case.");
    return [wanted](World& world) { return vessel(world, *wanted); };
}

} // namespace cistern::terminal
