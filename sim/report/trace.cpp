#include "report/trace.h"

#include "base/text.h"
#include "base/units.h"
#include "report/csv.h"
#include "report/table.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cistern::report {

namespace {

constexpr std::size_t columns = 60, rows = 12; // of the chart
constexpr float leastSpan = 0.05f;             // absorbance: below it noise would fill the chart

bool used(const lab::Trace& trace, std::size_t i) {
    constexpr float slack = 1e-3f; // [s]
    return trace.to > trace.from && trace.seconds[i] >= static_cast<float>(trace.from) - slack &&
           trace.seconds[i] <= static_cast<float>(trace.to) + slack;
}

/// Rows of characters, the highest absorbance first.
std::vector<std::string> plotted(const lab::Trace& trace, float low, float high) {
    std::vector<std::string> picture(rows, std::string(columns, ' '));
    const float last = std::max(trace.seconds.back(), std::numeric_limits<float>::min());
    for (std::size_t i = 0; i < trace.seconds.size(); ++i) {
        const float across = trace.seconds[i] / last * static_cast<float>(columns - 1);
        const float up = (trace.absorbance[i] - low) / (high - low) * static_cast<float>(rows - 1);
        const auto column = static_cast<std::size_t>(std::lround(across));
        const auto row = rows - 1 - static_cast<std::size_t>(std::lround(up));
        char& cell = picture[row][column];
        if (used(trace, i))
            cell = 'o';
        else if (cell == ' ')
            cell = '.';
    }
    return picture;
}

} // namespace

std::string traceChart(const lab::Report& report, body::Analyte analyte, const lab::Bench& bench) {
    const lab::Result* result = report.find(analyte);
    const std::string name(body::name(analyte));
    if (!result) return "No " + name + " was measured in specimen " + report.specimen.id + ".\n";
    const lab::Trace& trace = result->trace;
    if (trace.seconds.size() < 2)
        return name + " is not read from a color over time: there is no trace.\n";
    const auto [least, most] =
        std::minmax_element(trace.absorbance.begin(), trace.absorbance.end());
    const float middle = (*least + *most) / 2, half = std::max(*most - *least, leastSpan) / 2;
    const float low = middle - half, high = middle + half;

    std::string page = "Trace of " + name + ", specimen " + report.specimen.id + ", at " +
                       base::rounded(trace.wavelength, 1) + " nm: printed " +
                       lab::printed(*result, bench, lab::Units::conventional) + " " +
                       base::shown(bench.method(analyte).conventional.unit) + "\n";
    const std::vector<std::string> picture = plotted(trace, low, high);
    for (std::size_t row = 0; row < rows; ++row) {
        const float at =
            high - (high - low) * static_cast<float>(row) / static_cast<float>(rows - 1);
        const bool labeled = row % 3 == 0 || row + 1 == rows;
        const std::string label = labeled ? base::rounded(static_cast<double>(at), 0.001) : "";
        page += base::padLeft(label, 10) + " |" +
                picture[row].substr(0, picture[row].find_last_not_of(' ') + 1) + "\n";
    }
    const std::string end = base::rounded(static_cast<double>(trace.seconds.back()), 1) + " s";
    page += std::string(11, ' ') + "+" + std::string(columns, '-') + "\n";
    page += std::string(12, ' ') + "0" + base::padLeft(end, static_cast<int>(columns) - 1) + "\n";
    page += trace.to > trace.from ? "absorbance; o: read, from " + base::rounded(trace.from, 1) +
                                        " to " + base::rounded(trace.to, 1) + " s; .: not used\n"
                                  : "absorbance; no part of it was straight enough to be read\n";
    return page;
}

std::string tracesCsv(const std::vector<lab::Report>& reports, body::Analyte analyte) {
    std::string text = csvLine({"time[h]", "specimen", "analyte", "wavelength[nm]", "reading[s]",
                                "absorbance[1]", "used"});
    for (const lab::Report& report : reports) {
        const lab::Result* result = report.find(analyte);
        if (!result) continue;
        const lab::Trace& trace = result->trace;
        for (std::size_t i = 0; i < trace.seconds.size(); ++i)
            text += csvLine({base::significant(report.specimen.hour, 6), report.specimen.id,
                             std::string(body::name(analyte)), base::rounded(trace.wavelength, 1),
                             base::rounded(static_cast<double>(trace.seconds[i]), 0.1),
                             base::rounded(static_cast<double>(trace.absorbance[i]), 0.0001),
                             used(trace, i) ? "1" : "0"});
    }
    return text;
}

} // namespace cistern::report
