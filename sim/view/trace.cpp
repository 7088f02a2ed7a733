#include "view/trace.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/assay/kinetic.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <variant>

namespace cistern::view {

namespace {

constexpr double perMinute = 60; // [s]

const lab::Kinetic* kinetic(const lab::Result& result, const lab::Bench& bench) {
    return std::get_if<lab::Kinetic>(&bench.method(result.analyte).assay);
}

/// Readings of the window, first and one past the last; two equal ones if there is none.
std::pair<std::size_t, std::size_t> windowOf(const lab::Trace& trace) {
    constexpr float slack = 1e-3f; // [s]
    const auto index = [&](double second) {
        const auto at = std::lower_bound(trace.seconds.begin(), trace.seconds.end(),
                                         static_cast<float>(second) - slack);
        return static_cast<std::size_t>(at - trace.seconds.begin());
    };
    if (!(trace.to > trace.from)) return {0, 0};
    return {index(trace.from), std::min(index(trace.to) + 1, trace.seconds.size())};
}

/// Slope [1/s] and intercept at second 0 of the line through the window.
std::pair<double, double> lineOf(const lab::Trace& trace) {
    const auto [first, last] = windowOf(trace);
    const double slope = lab::slope(trace, first, last);
    double seconds = 0, absorbance = 0;
    for (std::size_t i = first; i < last; ++i) {
        seconds += static_cast<double>(trace.seconds[i]);
        absorbance += static_cast<double>(trace.absorbance[i]);
    }
    const auto count = static_cast<double>(last - first);
    return {slope, absorbance / count - slope * seconds / count};
}

std::string unitOf(const lab::Result& result, const lab::Bench& bench, lab::Units units) {
    const std::string& unit = bench.method(result.analyte).writing(units).unit;
    return unit == "1" ? "" : " " + base::shown(unit);
}

std::string verdictOf(const lab::Result& result, const lab::Bench& bench) {
    const lab::Trace& trace = result.trace;
    if (!kinetic(result, bench)) {
        for (const std::string& note : result.notes)
            if (note.find("used up") != std::string::npos ||
                note.find("too dark") != std::string::npos)
                return "not to be believed: " + note;
        return "";
    }
    if (!(trace.to > trace.from)) return "bent from the start: nothing straight to read";
    return trace.to < static_cast<double>(trace.seconds.back())
               ? "bent: read from its first, straight part"
               : "straight: read to the end";
}

} // namespace

std::vector<const lab::Result*> traced(const lab::Report& report) {
    std::vector<const lab::Result*> found;
    for (const lab::Result& result : report.results)
        if (result.trace.seconds.size() >= 2) found.push_back(&result);
    return found;
}

std::optional<Rate> rate(const lab::Result& result, const lab::Bench& bench, lab::Units units) {
    const lab::Kinetic* assay = kinetic(result, bench);
    const lab::Trace& trace = result.trace;
    if (!assay || !(trace.to > trace.from)) return std::nullopt;
    const auto [first, last] = windowOf(trace);
    const double rising = lab::slope(trace, first, last) * perMinute * (assay->falls ? -1 : 1);
    return Rate{rising - assay->blank,
                lab::enzymeFactor(assay->absorption, assay->volumes, assay->photometer.path) *
                    assay->calibration / assay->turnover *
                    bench.method(result.analyte).writing(units).factor};
}

drawing::TraceView trace(const lab::Result& result, const lab::Bench& bench, lab::Units units) {
    const lab::Trace& seen = result.trace;
    if (seen.seconds.size() < 2)
        throw std::invalid_argument("no trace was taken of " +
                                    std::string(body::name(result.analyte)));
    const std::string printed = lab::printed(result, bench, units) + unitOf(result, bench, units);
    drawing::TraceView view;
    view.title = report::spoken(body::name(result.analyte)) + " at " +
                 base::rounded(seen.wavelength, 1) + " nm";
    view.subtitle = "printed " + printed;
    view.seconds.assign(seen.seconds.begin(), seen.seconds.end());
    view.absorbance.assign(seen.absorbance.begin(), seen.absorbance.end());
    view.windowFrom = seen.from;
    view.windowTo = seen.to;
    view.shownUntil = view.seconds.back();
    view.verdict = verdictOf(result, bench);
    if (const std::optional<Rate> found = rate(result, bench, units)) {
        view.line = lineOf(seen);
        view.subtitle = base::significant(found->perMinute, 3) + " a minute × " +
                        base::significant(found->factor, 4) + "; " + view.subtitle;
    } else {
        view.words.window = "read at its two ends";
    }
    return view;
}

} // namespace cistern::view
