#include "report/fhir.h"

#include "base/units.h"
#include "base/uuid.h"
#include "lab/specimen/handling_words.h"
#include "report/json_number.h"
#include "report/table.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace cistern::report {

namespace {

using Json = nlohmann::ordered_json;

// Code systems of HL7 and others, by their official addresses.
constexpr const char* loinc = "http://loinc.org";
constexpr const char* ucum = "http://unitsofmeasure.org";
constexpr const char* snomed = "http://snomed.info/sct";
constexpr const char* actReason = "http://terminology.hl7.org/CodeSystem/v3-ActReason";
constexpr const char* interpretation =
    "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";
constexpr const char* observationCategory =
    "http://terminology.hl7.org/CodeSystem/observation-category";
constexpr const char* rangeMeaning = "http://terminology.hl7.org/CodeSystem/referencerange-meaning";
constexpr const char* service = "http://terminology.hl7.org/CodeSystem/v2-0074";
constexpr const char* specimenType = "http://terminology.hl7.org/CodeSystem/v2-0487";
constexpr const char* animalExtension = "http://hl7.org/fhir/StructureDefinition/patient-animal";
constexpr const char* genderStatus = "http://hl7.org/fhir/animal-genderstatus";

/// A list of one: nlohmann-json would take {one} for the thing itself.
Json listOf(Json one) {
    return Json::array({std::move(one)});
}

Json coded(const char* system, const char* code, const std::string& display) {
    return {{"coding", listOf({{"system", system}, {"code", code}, {"display", display}})}};
}

/// A plain ratio has a code, "1", but no unit that people read.
Json quantity(Json value, const std::string& unit) {
    const std::string code = unit.empty() ? "1" : unit;
    Json json{{"value", std::move(value)}};
    if (const std::string shown = base::shown(code); !shown.empty()) json["unit"] = shown;
    json["system"] = ucum;
    json["code"] = code;
    return json;
}

Json hourExtension(double hour) {
    Json span = quantity(plain(hour), "h");
    return {{"url", "urn:cistern:hour"}, {"valueDuration", std::move(span)}};
}

std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text)
        out += c == '&'   ? std::string("&amp;")
               : c == '<' ? std::string("&lt;")
               : c == '>' ? std::string("&gt;")
                          : std::string(1, c);
    return out;
}

Json narrative(const std::vector<std::string>& paragraphs) {
    std::string div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">";
    for (const std::string& one : paragraphs) div += "<p>" + escaped(one) + "</p>";
    return {{"status", "additional"}, {"div", div + "</div>"}};
}

/// Makes the resources of one patient, and names them.
class Writer {
public:
    Writer(const Patient& patient, const lab::Bench& bench, lab::Units units)
        : patient_(patient),
          bench_(bench),
          units_(units),
          space_(base::namedUuid(base::uriNamespace, "urn:cistern")) {}

    Json bundle(const std::vector<lab::Report>& reports) {
        add(patient());
        for (const lab::Report& report : reports) addDraw(report);
        return {{"resourceType", "Bundle"},
                {"meta", label()},
                {"type", "collection"},
                {"entry", std::move(entries_)}};
    }

private:
    const Patient& patient_;
    const lab::Bench& bench_;
    lab::Units units_;
    std::string space_;
    Json entries_ = Json::array();

    /// The id of something of this patient, the same whenever it is asked for.
    std::string id(const std::string& what) const {
        return base::namedUuid(space_, patient_.name + "/" +
                                           std::string(body::name(patient_.who.kind)) + "/" +
                                           std::to_string(patient_.who.seed) + "/" + what);
    }
    static std::string drawName(const lab::Specimen& specimen) {
        return specimen.id + "/" + number(specimen.hour);
    }
    static Json reference(const std::string& id) { return {{"reference", "urn:uuid:" + id}}; }
    static Json label() {
        return {
            {"security",
             listOf({{"system", actReason}, {"code", "HTEST"}, {"display", "test health data"}})}};
    }
    static Json resource(const char* type, const std::string& id) {
        return {{"resourceType", type}, {"id", id}, {"meta", label()}};
    }
    void add(Json one) {
        entries_.push_back({{"fullUrl", "urn:uuid:" + one["id"].get<std::string>()},
                            {"resource", std::move(one)}});
    }

    Json patient() const {
        const body::Signalment& who = patient_.who;
        const bool dog = who.kind == body::Kind::dog;
        const bool male = who.sex == body::Sex::male || who.sex == body::Sex::neuteredMale;
        const bool whole = who.sex == body::Sex::male || who.sex == body::Sex::female;
        Json species = dog ? coded(snomed, "448771007", "Canis lupus subspecies familiaris")
                           : coded(snomed, "448169003", "Felis catus");
        species["text"] = body::name(who.kind);
        Json one = resource("Patient", id("patient"));
        one["text"] =
            narrative({std::string(caution), patient_.name + ": " + signalment(who) + "."});
        Json parts = Json::array();
        parts.push_back({{"url", "species"}, {"valueCodeableConcept", std::move(species)}});
        parts.push_back({{"url", "genderStatus"},
                         {"valueCodeableConcept", coded(genderStatus, whole ? "intact" : "neutered",
                                                        whole ? "Intact" : "Neutered")}});
        one["extension"] = listOf({{"url", animalExtension}, {"extension", std::move(parts)}});
        one["identifier"] =
            listOf({{"system", "urn:cistern:seed"}, {"value", std::to_string(who.seed)}});
        one["name"] = listOf({{"text", patient_.name}});
        one["gender"] = male ? "male" : "female";
        return one;
    }

    std::string specimenId(const lab::Report& report, const std::string& kind) const {
        return id(drawName(report.specimen) + "/" + kind);
    }

    Json specimen(const lab::Report& report, const std::string& kind) const {
        const lab::Specimen& drawn = report.specimen;
        const bool urine = kind == "urine";
        Json one = resource("Specimen", specimenId(report, kind));
        one["identifier"] = listOf({{"system", "urn:cistern:specimen"}, {"value", drawn.id}});
        const bool blood = kind.ends_with("blood"), plasma = kind.ends_with("plasma");
        one["type"] = urine    ? coded(specimenType, "UR", "Urine")
                      : blood  ? coded(specimenType, "BLD", "Whole blood")
                      : plasma ? coded(specimenType, "PLAS", "Plasma")
                               : coded(specimenType, "SER", "Serum");
        one["type"]["text"] = kind;
        one["subject"] = reference(id("patient"));
        Json collection{{"extension", listOf(hourExtension(drawn.hour))}};
        if (!urine && !drawn.handling.vein.empty())
            collection["bodySite"] = {{"text", drawn.handling.vein + " vein"}};
        if (!urine && drawn.handling.fasted)
            collection["fastingStatusDuration"] = quantity(plain(*drawn.handling.fasted), "h");
        one["collection"] = std::move(collection);
        Json notes = Json::array();
        if (kind == "serum")
            notes.push_back(
                {{"text", "hemolysis " + number(drawn.seen.hemolysis) + " g/L, icterus " +
                              number(drawn.seen.icterus) + " umol/L, lipemia " +
                              number(drawn.seen.lipemia) + " mmol/L"}});
        if (const std::string handled = lab::inOne(lab::shownByTubes(drawn.handling));
            !urine && !handled.empty())
            notes.push_back({{"text", "Handled: " + handled}});
        if (!notes.empty()) one["note"] = std::move(notes);
        return one;
    }

    Json rangeOf(const lab::Result& result, const std::string& unit) const {
        const auto limit = [&](double level) {
            return quantity(printedValue(lab::printed(level, result.analyte, bench_, units_)),
                            unit);
        };
        Json range{{"low", limit(result.interval->low)}, {"high", limit(result.interval->high)}};
        if (result.interval->decision)
            range["text"] = "limits for decisions, by judgement; not the healthy middle 95 %";
        else
            range["type"] = coded(rangeMeaning, "normal", "Normal Range");
        return range;
    }

    std::string observationId(const lab::Report& report, const lab::Result& result) const {
        return id(drawName(report.specimen) + "/" + std::string(body::name(result.analyte)) + "/" +
                  std::string(name(units_)));
    }

    Json observation(const lab::Report& report, const lab::Result& result) const {
        const lab::Method& method = bench_.method(result.analyte);
        const lab::Writing& writing = method.writing(units_);
        Json one = resource("Observation", observationId(report, result));
        one["extension"] = listOf(hourExtension(report.specimen.hour));
        if (result.bound == lab::Bound::exact)
            one["extension"].push_back(
                {{"url", "urn:cistern:half-width"},
                 {"valueQuantity",
                  quantity(printedValue(lab::printedHalfWidth(result, bench_, units_)),
                           writing.unit)}});
        one["status"] = "final";
        one["category"] = listOf(coded(observationCategory, "laboratory", "Laboratory"));
        Json codes = Json::array();
        if (!writing.loinc.empty()) codes.push_back({{"system", loinc}, {"code", writing.loinc}});
        codes.push_back({{"system", "urn:cistern:analyte"}, {"code", body::name(result.analyte)}});
        one["code"] = {{"coding", std::move(codes)},
                       {"text", method.words.empty() ? std::string(body::name(result.analyte))
                                                     : method.words}};
        one["subject"] = reference(id("patient"));
        Json value =
            quantity(printedValue(lab::printedNumber(result, bench_, units_)), writing.unit);
        if (result.bound != lab::Bound::exact)
            value["comparator"] = result.bound == lab::Bound::below ? "<" : ">";
        one["valueQuantity"] = std::move(value);
        if (result.flag != lab::Flag::none)
            one["interpretation"] =
                listOf(result.flag == lab::Flag::low ? coded(interpretation, "L", "Low")
                                                     : coded(interpretation, "H", "High"));
        if (!result.notes.empty()) {
            one["note"] = Json::array();
            for (const std::string& note : result.notes) one["note"].push_back({{"text", note}});
        }
        if (!method.principle.empty()) one["method"] = {{"text", method.principle}};
        one["specimen"] = reference(specimenId(report, method.specimen));
        if (result.interval) one["referenceRange"] = listOf(rangeOf(result, writing.unit));
        return one;
    }

    void addDraw(const lab::Report& report) {
        std::vector<std::string> kinds;
        for (const lab::Result& result : report.results) {
            const std::string& kind = bench_.method(result.analyte).specimen;
            if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
        }
        Json one = resource("DiagnosticReport",
                            id(drawName(report.specimen) + "/report/" + std::string(name(units_))));
        std::vector<std::string> words{std::string(caution)};
        words.push_back(patient_.name + ", " + shownTime(report.specimen.hour) +
                        " by the clock of the case.");
        words.insert(words.end(), report.warnings.begin(), report.warnings.end());
        words.insert(words.end(), report.notRun.begin(), report.notRun.end());
        one["text"] = narrative(words);
        one["extension"] = listOf(hourExtension(report.specimen.hour));
        one["status"] = "final";
        one["category"] = listOf(coded(service, "LAB", "Laboratory"));
        one["code"] = coded(loinc, "11502-2", "Laboratory report");
        one["subject"] = reference(id("patient"));
        for (const std::string& kind : kinds)
            one["specimen"].push_back(reference(specimenId(report, kind)));
        for (const lab::Result& result : report.results)
            one["result"].push_back(reference(observationId(report, result)));
        add(std::move(one));
        for (const std::string& kind : kinds) add(specimen(report, kind));
        for (const lab::Result& result : report.results) add(observation(report, result));
    }
};

} // namespace

std::string resultsFhir(const Patient& patient, const std::vector<lab::Report>& reports,
                        const lab::Bench& bench, lab::Units units) {
    return Writer(patient, bench, units).bundle(reports).dump(2) + "\n";
}

} // namespace cistern::report
