#include "desk/pages/reading_band.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace cistern::desk {

using lesson::Band;

namespace {

// Leak in twentieths of a decade, an eighth more each; two digits tell them apart.
const Measure leak{"leak", "Leak", "fold",      lesson::leastLeak,       lesson::mostLeak,
                   80,     true,   {5, .5, 50}, drawing::Meaning::leaks, drawing::theme::leakInk};
constexpr int leakDigits = 2;
const Measure work{"work", "Work", "%",           lesson::leastWork,       lesson::mostWork,
                   150,    false,  {60, 10, 110}, drawing::Meaning::works, drawing::theme::workInk};

double& part(Band& band, BandPart which) {
    return which == BandPart::low ? band.low : which == BandPart::best ? band.best : band.high;
}

} // namespace

const Measure& measureOf(Asked asked) {
    return asked == Asked::leak ? leak : work;
}

double position(const Measure& measure, double value) {
    const double share =
        measure.ratios ? std::log(value / measure.least) / std::log(measure.most / measure.least)
                       : (value - measure.least) / (measure.most - measure.least);
    return share * measure.steps;
}

double valueAt(const Measure& measure, double position) {
    const double share = std::clamp(std::round(position) / measure.steps, 0., 1.);
    if (!measure.ratios) return measure.least + share * (measure.most - measure.least);
    // The very number that a person would type.
    return std::stod(base::significant(
        measure.least * std::pow(measure.most / measure.least, share), leakDigits));
}

std::optional<Band>& bandOf(lesson::OrganAnswer& answer, Asked asked) {
    return asked == Asked::leak ? answer.leak : answer.work;
}

const std::optional<Band>& bandOf(const lesson::OrganAnswer& answer, Asked asked) {
    return asked == Asked::leak ? answer.leak : answer.work;
}

double valueOf(const Band& band, BandPart which) {
    Band copy = band;
    return part(copy, which);
}

Band moved(Band band, BandPart which, double to) {
    part(band, which) = to;
    if (which == BandPart::low) {
        band.best = std::max(band.best, to);
        band.high = std::max(band.high, to);
    } else if (which == BandPart::high) {
        band.best = std::min(band.best, to);
        band.low = std::min(band.low, to);
    } else {
        band.low = std::min(band.low, to);
        band.high = std::max(band.high, to);
    }
    return band;
}

Band stepped(const Measure& measure, const Band& band, BandPart which, double steps) {
    const double by = std::round(steps);
    if (by == 0) return band;
    return moved(band, which, valueAt(measure, position(measure, valueOf(band, which)) + by));
}

Band shifted(const Measure& measure, const Band& band, double steps) {
    const auto at = [&](double value) { return std::round(position(measure, value)); };
    const double by = std::clamp(std::round(steps), -at(band.low), measure.steps - at(band.high));
    if (by == 0) return band;
    const auto to = [&](double value) { return valueAt(measure, at(value) + by); };
    return {to(band.best), to(band.low), to(band.high)};
}

} // namespace cistern::desk
