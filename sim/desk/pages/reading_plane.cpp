#include "desk/pages/reading_plane.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

using drawing::PlaneScale;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double percent = 100;
constexpr double shape = .62;       // height over width
constexpr double leastHeight = 16;  // [em]
constexpr double mostOfWindow = .5; // of its height
constexpr double reach = .3;        // of the leak axis, so that it never jumps under a hand

/// Nearest place inside the plot, of work [%] and leak [fold].
Point inPlot(const PlaneScale& scale, double work, double leak) {
    return scale.at(std::clamp(work / percent, 0., PlaneScale::workHigh),
                    std::clamp(leak, scale.leakLow, PlaneScale::leakHigh));
}

} // namespace

PlaneScale answerPlane(Flow& flow, const lesson::OrganAnswer& answer) {
    drawing::PlaneView view;
    view.reach = reach;
    view.words.answer.clear();
    const double most = mostOfWindow * flow.sheet().setting().height;
    const Box box =
        flow.room(std::max(std::min(shape * flow.width(), most), leastHeight * flow.em()));
    view.textScale = flow.letters().scale / drawing::planeLetters(box); // as large as all else
    const PlaneScale scale = drawing::planeScale(view, box);
    if (answer.leak && answer.work)
        view.answer = drawing::PlaneBox{answer.work->low / percent, answer.work->high / percent,
                                        answer.leak->low, answer.leak->high};
    flow.sheet().add(drawing::plane(view, box));
    if (view.answer || (!answer.leak && !answer.work)) return scale;
    Box band = scale.plot;
    if (answer.leak) {
        band.y = inPlot(scale, 0, answer.leak->high).y;
        band.height = inPlot(scale, 0, answer.leak->low).y - band.y;
    } else {
        band.x = inPlot(scale, answer.work->low, 1).x;
        band.width = inPlot(scale, answer.work->high, 1).x - band.x;
    }
    drawing::Color soft = tonesOf(measureOf(answer.leak ? Asked::leak : Asked::work).meaning).soft;
    soft.alpha = .45;
    flow.sheet().add(Shape{drawing::rectangle(band), soft, Stroke{theme::muted, 1, {4, 4}}});
    return scale;
}

Places placesAt(const PlaneScale& scale, Point at) {
    const drawing::PlanePoint point = scale.inverse(at);
    return {position(measureOf(Asked::leak), point.leak),
            position(measureOf(Asked::work), percent * point.work)};
}

std::vector<PlaneSpot> corners(const PlaneScale& scale, const lesson::OrganAnswer& answer) {
    std::vector<PlaneSpot> out;
    if (!answer.leak || !answer.work) return out;
    for (const BandPart leak : {BandPart::high, BandPart::low})
        for (const BandPart work : {BandPart::low, BandPart::high})
            out.push_back(
                {std::string(leak == BandPart::high ? "top" : "bottom") +
                     (work == BandPart::low ? "-left" : "-right"),
                 leak, work,
                 inPlot(scale, valueOf(*answer.work, work), valueOf(*answer.leak, leak))});
    return out;
}

Box frameOf(const PlaneScale& scale, const lesson::OrganAnswer& answer) {
    const Point low = inPlot(scale, answer.work->low, answer.leak->low);
    const Point high = inPlot(scale, answer.work->high, answer.leak->high);
    return {low.x, high.y, high.x - low.x, low.y - high.y};
}

Point likeliest(const PlaneScale& scale, const lesson::OrganAnswer& answer) {
    return inPlot(scale, answer.work->best, answer.leak->best);
}

} // namespace cistern::desk
