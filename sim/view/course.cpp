#include "view/course.h"

#include "base/units.h"
#include "report/text.h"
#include "report/words.h"
#include "view/meaning.h"

#include <algorithm>
#include <cmath>

namespace cistern::view {

namespace {

/// `origin` is what the line is counted from: of urine's gravity, drawn as a fold, that of water.
drawing::LevelLine levelLine(body::Analyte analyte, const body::Individual& animal,
                             const body::Course& course, const std::vector<lab::Report>& reports,
                             const lab::Bench& bench, lab::Units units, double origin) {
    const lab::Method& method = bench.method(analyte);
    const lab::Writing& writing = method.writing(units);
    drawing::LevelLine line;
    line.name = report::spoken(body::name(analyte));
    line.unit = base::shown(writing.unit);
    line.meaning = meaning(method);
    line.healthy = (body::setPoint(animal, analyte) - origin) * writing.factor;
    for (std::size_t i = 0; i < course.size(); ++i)
        line.values.push_back((course.at(i).level(analyte) - origin) * writing.factor);
    for (const lab::Report& report : reports)
        if (const lab::Result* result = report.find(analyte))
            line.pegs.push_back({report.specimen.hour, (result->value - origin) * writing.factor,
                                 result->halfWidth * writing.factor});
    return line;
}

/// Reports of the draws that lie on the course.
std::vector<lab::Report> reportsOn(const body::Course& course, const lesson::Case& one,
                                   const lesson::Knowledge& knowledge,
                                   const body::Individual& animal) {
    const std::vector<body::Snapshot> truth = lesson::atDraws(one, knowledge);
    std::vector<lab::Report> reports;
    for (std::size_t d = 0; d < one.draws.size(); ++d)
        if (one.draws[d].at >= course.hours().front() && one.draws[d].at <= course.hours().back())
            reports.push_back(
                lesson::report(one, knowledge, animal, truth[d], d, one.draws[d].tests));
    return reports;
}

} // namespace

std::vector<body::Analyte> mostMoved(const body::Course& course, const lab::Bench& bench,
                                     const body::Individual& animal, std::size_t count) {
    std::vector<std::pair<double, body::Analyte>> moves;
    for (const lab::Method& method : bench.methods) {
        const double origin = lab::origin(method.analyte);
        const double healthy = body::setPoint(animal, method.analyte) - origin;
        if (method.group == "spun tube") continue; // what counter and analyzer tell already
        if (!method.serves(animal.who.kind) || !(healthy > 0)) continue; // no fold of nothing
        const auto& levels =
            course.column(body::reading::analyte + static_cast<int>(method.analyte));
        const double least =
            std::max(levels.minCoeff() - origin, 1e-6 * healthy); // a count may run out
        const double up = (levels.maxCoeff() - origin) / healthy, down = healthy / least;
        moves.emplace_back(std::max(up, down), method.analyte);
    }
    std::stable_sort(moves.begin(), moves.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<body::Analyte> found;
    for (std::size_t i = 0; i < std::min(count, moves.size()); ++i)
        found.push_back(moves[i].second);
    return found;
}

drawing::CourseView course(const lesson::Case& one, const lesson::Knowledge& knowledge,
                           const body::Course& course, lab::Units units,
                           const std::vector<body::Analyte>& analytes) {
    const body::Individual animal = lesson::patient(one, knowledge);
    const std::vector<lab::Report> reports = reportsOn(course, one, knowledge, animal);
    drawing::CourseView view;
    view.title = one.title;
    view.subtitle =
        one.patient + ", " + report::signalment(one.who) + ", seed " + std::to_string(one.who.seed);
    view.hours = course.hours();
    view.fold = std::all_of(analytes.begin(), analytes.end(), [&](body::Analyte analyte) {
        return body::setPoint(animal, analyte) > 0;
    });
    for (const body::Analyte analyte : analytes)
        view.levels.push_back(levelLine(analyte, animal, course, reports, knowledge.bench, units,
                                        view.fold ? lab::origin(analyte) : 0));
    for (const body::Tissue organ : one.organs) {
        drawing::WorkLine line{std::string(body::name(organ)), {}};
        for (std::size_t i = 0; i < course.size(); ++i)
            line.shares.push_back(course.at(i).work(organ));
        view.work.push_back(std::move(line));
    }
    for (const body::Insult& insult : one.insults)
        view.happenings.push_back(
            {insult.kind->name + ", " + report::shownSeverity(insult.severity, *insult.kind),
             insult.from, insult.to});
    for (const double meal : one.meals) view.happenings.push_back({"meal", meal, meal});
    return view;
}

} // namespace cistern::view
