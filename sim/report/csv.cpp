#include "report/csv.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/specimen/handling_words.h"
#include "report/control.h"
#include "report/text.h"

namespace cistern::report {

namespace {

std::string sign(lab::Bound bound) {
    return bound == lab::Bound::below ? "<" : bound == lab::Bound::above ? ">" : "";
}

/// Notes of a result, and where its controls stand if they are out.
std::vector<std::string> notesOf(const lab::Result& result, const lab::Report& report) {
    std::vector<std::string> notes = result.notes;
    if (report.controls)
        for (const lab::ControlNote& note : report.controls->notes)
            if (note.analyte == result.analyte)
                notes.push_back("controls rejected " + base::listed(names(note.broken), "and"));
    return notes;
}

std::string joined(const std::vector<std::string>& parts, const char* between) {
    std::string text;
    for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
    return text;
}

} // namespace

std::string csvField(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

std::string csvLine(const std::vector<std::string>& fields) {
    std::string line;
    for (std::size_t i = 0; i < fields.size(); ++i) line += (i ? "," : "") + csvField(fields[i]);
    return line + "\r\n";
}

std::string resultsCsv(const std::vector<lab::Report>& reports, const lab::Bench& bench,
                       lab::Units units) {
    std::string text = csvLine({"time[h]", "specimen", "analyte", "value", "bound", "unit", "low",
                                "high", "flag", "half width", "notes"});
    for (const lab::Report& report : reports) {
        const std::string handled = lab::inOne(lab::shownByTubes(report.specimen.handling));
        for (const lab::Result& result : report.results) {
            std::vector<std::string> notes = notesOf(result, report);
            if (!handled.empty()) notes.push_back("handled: " + handled);
            const auto amount = [&](double value) {
                return lab::printed(value, result.analyte, bench, units);
            };
            const std::string& unit = bench.method(result.analyte).writing(units).unit;
            text += csvLine({number(report.specimen.hour), report.specimen.id,
                             std::string(body::name(result.analyte)),
                             lab::printedNumber(result, bench, units), sign(result.bound),
                             unit.empty() ? "1" : unit,
                             result.interval ? amount(result.interval->low) : "",
                             result.interval ? amount(result.interval->high) : "",
                             result.flag == lab::Flag::none  ? ""
                             : result.flag == lab::Flag::low ? "L"
                                                             : "H",
                             lab::printedHalfWidth(result, bench, units), joined(notes, "; ")});
        }
    }
    return text;
}

std::string tableCsv(const Table& table) {
    std::string text = csvLine(table.header);
    for (const std::vector<double>& row : table.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) text += (i ? "," : "") + number(row[i]);
        text += "\r\n";
    }
    return text;
}

std::string herdHeader(const lab::Bench& bench, lab::Units units,
                       const std::vector<body::Analyte>& analytes) {
    std::vector<std::string> fields{"number", "age[y]", "weight[kg]", "sex"};
    for (const char* kind : {"true:", "measured:"})
        for (const body::Analyte analyte : analytes)
            fields.push_back(kind + heading(analyte, bench, units));
    fields.push_back("beyond");
    return csvLine(fields);
}

std::string herdLine(const Member& member, const lab::Bench& bench, lab::Units units,
                     const std::vector<body::Analyte>& analytes) {
    const double years = member.who.age * base::conversion("h", "y").value_or(0);
    std::vector<std::string> fields{std::to_string(member.number), number(years),
                                    number(member.who.weight), std::string(name(member.who.sex))};
    for (const body::Analyte analyte : analytes)
        fields.push_back(
            number(member.truth.level(analyte) * bench.method(analyte).writing(units).factor));
    std::vector<std::string> beyond;
    for (const body::Analyte analyte : analytes) {
        const lab::Result* result = member.report.find(analyte);
        fields.push_back(result ? lab::printedNumber(*result, bench, units) : "");
        if (result && result->bound != lab::Bound::exact)
            beyond.push_back(std::string(body::name(analyte)) + " " + sign(result->bound));
    }
    fields.push_back(joined(beyond, " "));
    return csvLine(fields);
}

} // namespace cistern::report
