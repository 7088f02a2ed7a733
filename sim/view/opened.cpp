#include "view/opened.h"

#include "base/text.h"
#include "base/units.h"
#include "lesson/organ.h"
#include "report/text.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace cistern::view {

namespace {

constexpr std::size_t labelled = 6;  // hours of a way that carry their day
constexpr double asFull = 3;         // upper limits that fill the trough
constexpr double headroom = 1.2;     // over a level that asks for more
constexpr double healthySpout = 0.5; // of the widest

/// How far apart two points look: work as a share, leak in decades.
double distance(const drawing::PlanePoint& a, const drawing::PlanePoint& b) {
    constexpr double least = 0.01; // a dead organ leaks nothing
    const auto decades = [&](double leak) { return std::log10(std::max(leak, least)); };
    return std::hypot(a.work - b.work, decades(a.leak) - decades(b.leak));
}

drawing::PlanePoint pointOf(const body::Snapshot& now, body::Tissue organ) {
    return {now.work(organ), now.leak(organ), {}};
}

/// "-12 h", "-3 d", "-9 mo" before the last hour, by how long all of it takes.
std::string before(double hours, double whole) {
    constexpr double day = 24, month = 30.44 * day;
    if (whole > 6 * month) return base::rounded(hours / month, 1) + " mo";
    if (whole > 3 * day) return base::rounded(hours / day, 1) + " d";
    return base::rounded(hours, 1) + " h";
}

/// The plasma pools that an analyte measures.
std::vector<body::Pool> poolsOf(body::Analyte analyte) {
    using body::Pool;
    if (analyte == body::Analyte::ALP) return {Pool::liverALP, Pool::steroidALP, Pool::boneALP};
    std::vector<Pool> found;
    for (const Pool pool : body::pools())
        if (body::name(pool) == body::name(analyte)) found.push_back(pool);
    return found;
}

/// Share of filtration that the kidneys still have.
double filtered(const body::Snapshot& now, const body::Individual& animal) {
    constexpr double perMinute = 1000. / 60; // L/h in mL/min
    return now.at(body::reading::gfr) / (animal.own.kidney.filtration * perMinute);
}

/// What leaves a pool in an hour, share of it: now, and in health.
struct Outflow {
    double now, healthy;
};
Outflow outflow(const body::EnzymePool& pool, double filtered) {
    const double rate = std::numbers::ln2 / pool.halfLife;
    return {rate * (1 - pool.renalShare * (1 - filtered)), rate};
}

} // namespace

std::optional<body::Analyte> markerOf(body::Tissue organ, const lab::Bench& bench,
                                      body::Kind kind) {
    if (!lesson::organOf(organ).marker) return std::nullopt;
    for (const lesson::Clue& clue : lesson::organOf(organ).clues) {
        const lab::Method* method = bench.find(clue.analyte);
        if (!clue.output && method && method->serves(kind)) return clue.analyte;
    }
    return std::nullopt;
}

std::vector<body::Tissue> openable(const lesson::Case& one, const lab::Bench& bench) {
    std::vector<body::Tissue> organs;
    for (const body::Tissue organ : one.organs)
        if (lesson::organOf(organ).leaks && markerOf(organ, bench, one.who.kind))
            organs.push_back(organ);
    return organs;
}

body::Tissue furthest(const std::vector<body::Tissue>& organs, const body::Snapshot& now) {
    const auto off = [&](body::Tissue organ) { return distance(pointOf(now, organ), {}); };
    return *std::max_element(organs.begin(), organs.end(),
                             [&](body::Tissue a, body::Tissue b) { return off(a) < off(b); });
}

std::vector<double> storyHours(const lesson::Case& one, std::size_t steps) {
    const double last = lesson::lastDraw(one);
    const double first =
        std::max(std::min(lesson::firstInsult(one).value_or(last - 1), last - 1), -one.who.age);
    std::vector<double> hours;
    for (std::size_t i = 0; i <= steps; ++i)
        hours.push_back(first +
                        (last - first) * static_cast<double>(i) / static_cast<double>(steps));
    return hours;
}

body::Course story(const lesson::Case& one, const lesson::Knowledge& knowledge, std::size_t steps) {
    return body::simulate(lesson::plan(one, knowledge, storyHours(one, steps)));
}

void Trough::holding(double level) {
    full = std::max(asFull * limit, headroom * level);
}

void Trough::fill(drawing::VesselView& vessel, double level) const {
    vessel.level = std::min(1., level / full);
    vessel.mark = limit / full;
    vessel.reading = report::spoken(body::name(method->analyte)) + " " +
                     base::rounded(level * writing->factor, writing->step) + " " +
                     base::shown(writing->unit);
    vessel.levelWords = level > limit ? base::rounded(level / limit, 0.1) + " × the upper limit"
                                      : "below the upper limit";
}

drawing::VesselView vessel(const body::Snapshot& now, body::Tissue organ, const Trough& trough) {
    constexpr double whole = 0.995; // rounds to 100 %
    drawing::VesselView view;
    view.work = now.work(organ) > whole ? std::max(1., now.work(organ)) : now.work(organ);
    view.leak = now.leak(organ);
    view.spout = healthySpout;
    trough.fill(view, now.level(trough.method->analyte));
    return view;
}

drawing::PlaneView plane(const body::Course& course, body::Tissue organ,
                         std::optional<std::size_t> until) {
    constexpr double still = 0.02, room = 0.04; // distances: of nothing, and of a label
    const std::size_t end = until.value_or(course.size() - 1);
    const double last = course.hours().back(), whole = last - course.hours().front();
    const std::size_t every = std::max(course.size() / labelled, std::size_t{1});
    drawing::PlaneView plane;
    plane.truth = pointOf(course.at(end), organ);
    bool moved = false;
    drawing::PlanePoint labelledLast = *plane.truth; // where it stands, and where a label stands
    for (std::size_t i = 0; i <= end; ++i) {
        drawing::PlanePoint at = pointOf(course.at(i), organ);
        moved = moved || distance(at, *plane.truth) > still;
        const auto apart = [&](const drawing::PlanePoint& from) {
            return distance(at, from) > room;
        };
        if (i > 0 && i < end && i % every == 0 && apart(*plane.truth) && apart(labelledLast)) {
            at.label = before(course.hours()[i] - last, whole);
            labelledLast = at;
        }
        plane.path.push_back(at);
    }
    if (!moved) plane.path.clear();
    return plane;
}

OrganStory organStory(const lesson::Case& one, const lesson::Knowledge& knowledge,
                      body::Course course, body::Tissue organ, lab::Units units) {
    const lab::Bench& bench = knowledge.bench;
    const std::optional<body::Analyte> marker = markerOf(organ, bench, one.who.kind);
    if (!marker)
        throw std::invalid_argument("nothing in blood stands for the leak of the " +
                                    std::string(body::name(organ)));
    body::Individual animal = lesson::patient(one, knowledge);
    const double own = body::setPoint(animal, *marker);
    const lab::Interval* interval = bench.interval(one.who, course.hours().back(), *marker);
    const lab::Method& method = bench.method(*marker);
    Trough trough{&method, &method.writing(units), interval ? interval->high : 2 * own, 0};
    trough.holding(course.column(body::reading::analyte + static_cast<int>(*marker)).maxCoeff());
    return {organ, *marker, std::move(animal), std::move(course), trough, own};
}

drawing::VesselView OrganStory::at(std::size_t at) const {
    const body::Snapshot now = course.at(at);
    drawing::VesselView view = vessel(now, organ, trough);
    double out = 0, healthyOut = 0;
    for (const body::Pool pool : poolsOf(marker)) {
        const Outflow flow =
            outflow(animal.own.pool[static_cast<std::size_t>(pool)], filtered(now, animal));
        out += flow.now * now.pool(pool);
        healthyOut += flow.healthy * now.pool(pool);
    }
    if (healthyOut > 0) view.spout = std::min(1., healthySpout * out / healthyOut);
    return view;
}

drawing::VesselView OrganStory::healthy() const {
    drawing::VesselView view;
    view.spout = healthySpout;
    trough.fill(view, own);
    return view;
}

Flows OrganStory::flows(std::size_t at) const {
    const body::Snapshot now = course.at(at);
    Flows flows;
    for (const body::Pool which : poolsOf(marker)) {
        const body::EnzymePool& pool = animal.own.pool[static_cast<std::size_t>(which)];
        flows.release += now.release(which) / pool.volume;
        flows.clearance += outflow(pool, filtered(now, animal)).now * now.pool(which);
    }
    flows.release *= trough.writing->factor;
    flows.clearance *= trough.writing->factor;
    return flows;
}

drawing::PlaneView OrganStory::plane(std::size_t at) const {
    return view::plane(course, organ, at);
}

drawing::OpenedView opened(const lesson::Case& one, const OrganStory& story) {
    const body::Snapshot now = story.course.at(story.last());
    Trough trough = story.trough;
    trough.holding(now.level(story.marker));
    const std::string name(body::name(story.organ));
    drawing::OpenedView view;
    view.title = one.title + ": the " + name + " opened";
    view.subtitle =
        one.patient + ", " + report::signalment(one.who) + ", at " + report::shownTime(now.hour);
    view.here = vessel(now, story.organ, trough);
    view.here.name = one.patient + ": " + name;
    view.here.caption = "as it is, which no laboratory sees";
    view.healthy = story.healthy();
    trough.fill(view.healthy, story.own);
    view.healthy.name = "The same in health";
    view.healthy.caption = "as it was before anything happened";
    view.planeSubtitle = "From the first insult to the last draw";
    view.plane = story.plane(story.last());
    return view;
}

} // namespace cistern::view
