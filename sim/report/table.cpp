#include "report/table.h"

#include "lesson/organ.h"

#include <charconv>
#include <cmath>
#include <cstdlib>

namespace cistern::report {

namespace {

constexpr double percent = 100;
constexpr int digits = 7; // significant

} // namespace

std::string heading(body::Analyte analyte, const lab::Bench& bench, lab::Units units) {
    const std::string& unit = bench.method(analyte).writing(units).unit;
    return std::string(body::name(analyte)) + "[" + (unit.empty() ? "1" : unit) + "]";
}

Table courseTable(const body::Course& course, const lab::Bench& bench, lab::Units units,
                  const std::vector<body::Analyte>& analytes) {
    Table table;
    table.header.push_back("time[h]");
    for (const body::Tissue tissue : body::tissues()) {
        table.header.push_back("work:" + std::string(body::name(tissue)) + "[%]");
        if (lesson::organOf(tissue).leaks)
            table.header.push_back("leak:" + std::string(body::name(tissue)) + "[fold]");
    }
    for (const body::Analyte analyte : analytes)
        table.header.push_back(heading(analyte, bench, units));
    for (const char* last : {"GFR[mL/min/kg]", "hydration[%]", "plasma volume[mL/kg]"})
        table.header.emplace_back(last);

    table.rows.reserve(course.size());
    for (std::size_t look = 0; look < course.size(); ++look) {
        const body::Snapshot at = course.at(look);
        std::vector<double>& row = table.rows.emplace_back();
        row.reserve(table.header.size());
        row.push_back(at.hour);
        for (const body::Tissue tissue : body::tissues()) {
            row.push_back(percent * at.work(tissue));
            if (lesson::organOf(tissue).leaks) row.push_back(at.leak(tissue));
        }
        for (const body::Analyte analyte : analytes)
            row.push_back(at.level(analyte) * bench.method(analyte).writing(units).factor);
        row.push_back(at.value[body::reading::gfr]);
        row.push_back(percent * at.value[body::reading::hydration]);
        row.push_back(at.value[body::reading::plasmaVolume]);
    }
    return table;
}

body::Parts partsForTable(const std::vector<body::Analyte>& analytes) {
    body::Parts parts = analytes.empty() ? 0 : body::partsFor(analytes);
    for (int i = 0; i < body::partCount; ++i) {
        const body::Parts without = body::allParts & ~(1u << i);
        for (int tissue = 0; tissue < body::tissueCount; ++tissue)
            if (!body::known(body::reading::work + tissue, without) ||
                !body::known(body::reading::leak + tissue, without))
                parts |= 1u << i;
    }
    return parts;
}

double sevenDigits(double value) {
    if (!std::isfinite(value)) return value;
    char buffer[32];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value,
                                   std::chars_format::scientific, digits - 1);
    double kept = 0;
    std::from_chars(buffer, end.ptr, kept);
    return kept == 0 ? 0 : kept; // never -0
}

std::string number(double value) {
    if (!std::isfinite(value)) return "";
    char buffer[512]; // a double has at most some 340 places without exponent
    const auto end =
        std::to_chars(buffer, buffer + sizeof buffer, sevenDigits(value), std::chars_format::fixed);
    return std::string(buffer, end.ptr);
}

} // namespace cistern::report
