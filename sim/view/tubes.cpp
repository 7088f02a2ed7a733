#include "view/tubes.h"

#include "base/text.h"
#include "lab/specimen/seen.h"
#include "lab/specimen/spin.h"
#include "lab/specimen/volume.h"
#include "report/words.h"

#include <algorithm>
#include <map>
#include <optional>

namespace cistern::view {

namespace {

using drawing::Additive;

std::optional<Additive> additiveOf(const std::string& tube) {
    static const std::map<std::string, Additive> known{{"serum", Additive::clot},
                                                       {"edta", Additive::edta},
                                                       {"heparin", Additive::heparin},
                                                       {"citrate", Additive::citrate},
                                                       {"fluoride", Additive::fluoride}};
    const auto found = known.find(tube);
    return found == known.end() ? std::nullopt : std::optional(found->second);
}

/// A color on the drawing's scale, where the eye begins to see it at a tenth and calls it strong at
/// a half.
double shade(double amount, double seen, double strong) {
    constexpr double faint = 0.1, half = 0.5;
    if (amount < seen) return faint * amount / seen;
    return std::min(1., faint + (half - faint) * (amount - seen) / (strong - seen));
}

/// Share of the blood that is cells: measured, or as in most.
double cellsOf(const lab::Report* report, const lesson::Lesson& lesson, double hour) {
    using body::Analyte;
    for (const Analyte one : {Analyte::PCV, Analyte::Hct})
        if (const lab::Result* result = report ? report->find(one) : nullptr)
            return std::clamp(result->value, 0., 1.);
    const lab::Interval* usual =
        lesson.knowledge().bench.interval(lesson.subject().who, hour, Analyte::Hct);
    return usual ? (usual->low + usual->high) / 2 : drawing::TubeView{}.cells;
}

std::string inMinutes(double hours) {
    constexpr double perHour = 60;
    return base::rounded(perHour * hours, 1) + " min";
}

/// What was done to the tube beside filling and turning.
std::string captionOf(const lab::Tube& tube, Additive additive, bool spun) {
    std::string text;
    if (!tube.toppedFrom.empty()) text += "topped up from the " + tube.toppedFrom + " tube, ";
    if (spun)
        text +=
            base::rounded(tube.rcf, 1) + " × g for " + report::shownNumber(tube.minutes) + " min";
    else if (additive == Additive::clot)
        text += "stands " + inMinutes(tube.clot);
    else if (!text.empty())
        text.erase(text.size() - 2);
    return text;
}

} // namespace

std::vector<drawing::TubeView> tubes(const lesson::Lesson& lesson, std::size_t draw,
                                     Moment moment) {
    const lab::Bench& bench = lesson.knowledge().bench;
    const lesson::Draw& one = lesson.subject().draws.at(draw);
    const lab::Handling& handling = lesson.handling().at(draw);
    const std::vector<std::string>& chosen = lesson.chosen().at(draw);
    const lab::Report* report = nullptr;
    for (const lesson::Taken& taken : lesson.taken())
        if (taken.draw == draw) report = &taken.report;

    const lab::Indices seen = report ? report->specimen.seen : lab::Indices{};
    const double cells = cellsOf(report, lesson, one.at);
    std::vector<drawing::TubeView> views;
    for (const std::string& name :
         lab::volume(bench, lesson.animal(), handling, chosen.empty() ? one.tests : chosen).tubes) {
        const std::optional<Additive> additive = additiveOf(name);
        if (!additive) continue;
        const lab::Tube tube = handling.tube(name) ? *handling.tube(name) : lab::usualTube(name);
        drawing::TubeView view;
        view.name = name == "edta" ? "EDTA" : name;
        view.additive = *additive;
        view.fill = std::min(tube.fill, drawing::mostFill);
        view.turns = tube.inversions;
        view.spun = moment == Moment::spun && *additive != Additive::edta && tube.minutes > 0 &&
                    tube.rcf > 0;
        view.cells = cells;
        view.hemolysis = shade(seen.hemolysis, lab::pinkFrom, lab::redFrom);
        view.icterus = shade(seen.icterus, lab::yellowFrom, lab::deepYellowFrom);
        view.lipemia = shade(seen.lipemia, lab::hazyFrom, lab::milkyFrom);
        if (bench.specimen && *additive == Additive::clot)
            view.clot = 1 - lab::fibrinLeft(bench.specimen->spin, tube.clot);
        else if (bench.specimen && *additive == Additive::edta && report && report->clotted)
            view.clot = bench.specimen->mixing.clotVisibleFrom;
        view.caption = captionOf(tube, *additive, view.spun);
        views.push_back(std::move(view));
    }
    return views;
}

} // namespace cistern::view
