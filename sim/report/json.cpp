#include "report/json.h"

#include "base/units.h"
#include "lab/specimen/handling_words.h"
#include "report/control.h"
#include "report/json_number.h"

#include <nlohmann/json.hpp>

namespace cistern::report {

namespace {

using Json = nlohmann::ordered_json;

Json result(const lab::Result& result, const lab::Bench& bench, lab::Units units) {
    const std::string& unit = bench.method(result.analyte).writing(units).unit;
    Json json{{"analyte", body::name(result.analyte)},
              {"value", printedValue(lab::printedNumber(result, bench, units))}};
    if (result.bound != lab::Bound::exact)
        json["bound"] = result.bound == lab::Bound::below ? "<" : ">";
    json["unit"] = unit.empty() ? "1" : unit;
    if (result.interval) {
        json["low"] =
            printedValue(lab::printed(result.interval->low, result.analyte, bench, units));
        json["high"] =
            printedValue(lab::printed(result.interval->high, result.analyte, bench, units));
    }
    if (result.flag != lab::Flag::none) json["flag"] = result.flag == lab::Flag::low ? "L" : "H";
    if (result.bound == lab::Bound::exact)
        json["half_width"] = printedValue(lab::printedHalfWidth(result, bench, units));
    if (!result.notes.empty()) json["notes"] = result.notes;
    return json;
}

Json tube(const lab::Tube& tube) {
    Json json{{"tube", tube.name},
              {"fill", plain(tube.fill)},
              {"inversions", tube.inversions},
              {"clot_h", plain(tube.clot)},
              {"spin_rcf", plain(tube.rcf)},
              {"spin_min", plain(tube.minutes)}};
    if (!tube.toppedFrom.empty()) json["topped_from"] = tube.toppedFrom;
    return json;
}

Json handling(const lab::Handling& handling) {
    Json tubes = Json::array();
    for (const lab::Tube& one : handling.tubes) tubes.push_back(tube(one));
    return {{"in_words", lab::said(handling)},
            {"attempts", handling.attempts},
            {"tubes", std::move(tubes)},
            {"unseparated_h", plain(handling.unseparated)},
            {"temperature_Cel", plain(handling.temperature)},
            {"light", name(handling.light)},
            {"light_h", plain(handling.lightFor)},
            {"film_after_h", plain(handling.filmAfter)}};
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
    if (!lab::said(specimen.handling).empty()) json["handling"] = handling(specimen.handling);
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
