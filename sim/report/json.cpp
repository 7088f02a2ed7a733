#include "report/json.h"

#include "base/units.h"
#include "report/control.h"

#include <nlohmann/json.hpp>

#include <charconv>
#include <cmath>
#include <cstdint>

namespace cistern::report {

namespace {

using Json = nlohmann::ordered_json;

/// A number without more digits than it has: 12, not 12.0.
Json plain(double number) {
    constexpr double exactIntegers = 0x1p53;
    const double kept = sevenDigits(number);
    if (kept == std::floor(kept) && std::abs(kept) < exactIntegers)
        return static_cast<std::int64_t>(kept);
    return kept;
}

/// A printed number as the number it shows.
Json value(const std::string& printed) {
    double number = 0;
    std::from_chars(printed.data(), printed.data() + printed.size(), number);
    return plain(number);
}

Json result(const lab::Result& result, const lab::Bench& bench, lab::Units units) {
    const std::string& unit = bench.method(result.analyte).writing(units).unit;
    Json json{{"analyte", body::name(result.analyte)},
              {"value", value(lab::printedNumber(result, bench, units))}};
    if (result.bound != lab::Bound::exact)
        json["bound"] = result.bound == lab::Bound::below ? "<" : ">";
    json["unit"] = unit.empty() ? "1" : unit;
    if (result.interval) {
        json["low"] = value(lab::printed(result.interval->low, result.analyte, bench, units));
        json["high"] = value(lab::printed(result.interval->high, result.analyte, bench, units));
    }
    if (result.flag != lab::Flag::none) json["flag"] = result.flag == lab::Flag::low ? "L" : "H";
    if (result.bound == lab::Bound::exact)
        json["half_width"] = value(lab::printedHalfWidth(result, bench, units));
    if (!result.notes.empty()) json["notes"] = result.notes;
    return json;
}

Json controls(const lab::ControlState& state) {
    Json json{{"runs", state.runs}, {"rejected", Json::array()}, {"warned", Json::array()}};
    for (const lab::ControlNote& note : state.notes)
        json["rejected"].push_back(Json{{"analyte", body::name(note.analyte)},
                                        {"rules", names(note.broken)},
                                        {"since_runs", note.since},
                                        {"one_sided_runs", note.oneSided}});
    for (const body::Analyte analyte : state.warned) json["warned"].push_back(body::name(analyte));
    json["in_control"] = state.inControl;
    return json;
}

Json draw(const lab::Report& report, const lab::Bench& bench, lab::Units units) {
    const lab::Specimen& specimen = report.specimen;
    Json json{{"time_h", plain(specimen.hour)},
              {"specimen", specimen.id},
              {"vein", specimen.handling.vein}};
    if (specimen.handling.fasted) json["fasted_h"] = plain(*specimen.handling.fasted);
    json["indices"] = Json{{"hemolysis_g/L", plain(specimen.seen.hemolysis)},
                           {"icterus_umol/L", plain(specimen.seen.icterus)},
                           {"lipemia_mmol/L", plain(specimen.seen.lipemia)}};
    json["results"] = Json::array();
    for (const lab::Result& one : report.results)
        json["results"].push_back(result(one, bench, units));
    json["not_run"] = report.notRun;
    json["warnings"] = report.warnings;
    if (report.controls) json["controls"] = controls(*report.controls);
    return json;
}

} // namespace

std::string resultsJson(const Patient& patient, const std::vector<lab::Report>& reports,
                        const lab::Bench& bench, lab::Units units) {
    const body::Signalment& who = patient.who;
    const double years = who.age * base::conversion("h", "y").value_or(0);
    Json json{{"caution", caution},
              {"patient",
               {{"name", patient.name},
                {"species", body::name(who.kind)},
                {"sex", name(who.sex)},
                {"age_y", plain(years)},
                {"weight_kg", plain(who.weight)},
                {"condition", who.condition},
                {"seed", who.seed}}},
              {"units", name(units)},
              {"draws", Json::array()}};
    for (const lab::Report& report : reports) json["draws"].push_back(draw(report, bench, units));
    return json.dump(2) + "\n";
}

std::string tableJson(const Table& table) {
    Json rows = Json::array();
    for (const std::vector<double>& row : table.rows) {
        Json numbers = Json::array();
        for (const double number : row) numbers.push_back(plain(number));
        rows.push_back(std::move(numbers));
    }
    return Json{{"columns", table.header}, {"rows", std::move(rows)}}.dump() + "\n";
}

} // namespace cistern::report
