#include "approved.h"
#include "base/units.h"
#include "lab/loinc.h"
#include "report/fhir.h"
#include "sample.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <regex>
#include <set>

using namespace cistern;
using body::Analyte;
using lab::Units;
using nlohmann::json;

namespace {

/// The hand-built bench with codes for some analytes, the others without.
lab::Bench bench() {
    lab::Bench bench = hand::bench();
    const auto code = [&](Analyte analyte, const char* conventional, const char* si) {
        lab::Method& method = hand::edit(bench, analyte);
        method.conventional.loinc = conventional;
        method.si.loinc = si;
        method.words = "words of " + std::string(body::name(analyte));
        method.principle = "by hand";
    };
    code(Analyte::ALT, "1742-6", "1742-6");
    code(Analyte::creatinine, "2160-0", "14682-9");
    return bench;
}

std::vector<lab::Report> reports() {
    return {sample::draw(1, -24, 300, 26, 0.3), sample::draw(2, 0, 9, 37, 3)};
}

json bundle(const std::vector<lab::Report>& of, Units units = Units::conventional) {
    return json::parse(report::resultsFhir(sample::bramble(), of, bench(), units));
}

std::vector<json> all(const json& bundle, const std::string& type) {
    std::vector<json> found;
    for (const json& entry : bundle["entry"])
        if (entry["resource"]["resourceType"] == type) found.push_back(entry["resource"]);
    return found;
}

/// The first observation of an analyte, by our own code.
json of(const json& bundle, const std::string& analyte) {
    for (const json& one : all(bundle, "Observation"))
        for (const json& coding : one["code"]["coding"])
            if (coding["system"] == "urn:cistern:analyte" && coding["code"] == analyte) return one;
    FAIL("no observation of " << analyte);
    return {};
}

/// Every value under a key, at any depth.
void gather(const json& in, const std::string& key, std::vector<json>& found) {
    if (in.is_object() && in.contains(key)) found.push_back(in[key]);
    if (in.is_structured())
        for (const json& inner : in) gather(inner, key, found);
}

} // namespace

TEST_CASE("A bundle holds the animal and, of each draw, report, specimens and results",
          "[report]") {
    const json one = bundle(reports());
    CHECK(one["resourceType"] == "Bundle");
    CHECK(one["type"] == "collection");
    CHECK(all(one, "Patient").size() == 1);
    const auto diagnostic = all(one, "DiagnosticReport");
    REQUIRE(diagnostic.size() == 2);
    CHECK(all(one, "Specimen").size() == 4); // serum and urine of each
    std::size_t results = 0;
    for (const lab::Report& report : reports()) results += report.results.size();
    CHECK(all(one, "Observation").size() == results);
    CHECK(diagnostic[0]["result"].size() + diagnostic[1]["result"].size() == results);
    CHECK(diagnostic[0]["extension"][0]["valueDuration"]["value"] == -24);
    CHECK(diagnostic[0]["text"]["div"].get<std::string>().find(
              "Blood counts are not run in this laboratory.") != std::string::npos);
}

TEST_CASE("Whatever a bundle refers to is in it, each under a name of its own", "[report]") {
    const json one = bundle(reports());
    std::set<json> urls;
    for (const json& entry : one["entry"]) {
        CHECK(urls.insert(entry["fullUrl"]).second);
        CHECK(entry["fullUrl"] == "urn:uuid:" + entry["resource"]["id"].get<std::string>());
    }
    std::vector<json> references;
    gather(one, "reference", references);
    CHECK(references.size() > urls.size());
    for (const json& reference : references) CHECK(urls.count(reference) == 1);
}

TEST_CASE("An invented animal is marked as one wherever its data may go", "[report]") {
    const json one = bundle(reports());
    for (const json& entry : one["entry"])
        CHECK(entry["resource"]["meta"]["security"][0]["code"] == "HTEST");
    for (const char* type : {"Patient", "DiagnosticReport"})
        for (const json& resource : all(one, type))
            CHECK(resource["text"]["div"].get<std::string>().find(std::string(report::caution)) !=
                  std::string::npos);
    std::vector<json> dates;
    for (const char* key : {"effectiveDateTime", "issued", "birthDate", "collectedDateTime"})
        gather(one, key, dates);
    CHECK(dates.empty()); // no calendar is made up
}

TEST_CASE("The animal is of its species and sex", "[report]") {
    report::Patient patient = sample::bramble();
    const auto written = [&] {
        return all(json::parse(report::resultsFhir(patient, {}, bench(), Units::si)), "Patient")[0];
    };
    const auto part = [](const json& animal, std::size_t which) {
        return animal["extension"][0]["extension"][which]["valueCodeableConcept"]["coding"][0];
    };
    json animal = written();
    CHECK(animal["extension"][0]["url"] ==
          "http://hl7.org/fhir/StructureDefinition/patient-animal");
    CHECK(part(animal, 0)["code"] == "448771007");
    CHECK(part(animal, 1)["code"] == "neutered");
    CHECK(animal["gender"] == "female");
    patient.who.kind = body::Kind::cat;
    patient.who.sex = body::Sex::male;
    animal = written();
    CHECK(part(animal, 0)["code"] == "448169003");
    CHECK(part(animal, 1)["code"] == "intact");
    CHECK(animal["gender"] == "male");
}

TEST_CASE("A result beyond the range keeps its comparator and has no doubt beside it", "[report]") {
    const json alt = of(bundle(reports()), "ALT"); // 9000 U/L against a range to 5000
    CHECK(alt["valueQuantity"]["comparator"] == ">");
    CHECK(alt["valueQuantity"]["value"] == 5000);
    CHECK(alt["extension"].size() == 1);
    const json low = of(bundle(reports()), "bilirubin"); // 0.3 umol/L against a range from 1
    CHECK(low["valueQuantity"]["comparator"] == "<");
    const json albumin = of(bundle(reports()), "albumin");
    CHECK_FALSE(albumin["valueQuantity"].contains("comparator"));
    CHECK(albumin["extension"][1]["url"] == "urn:cistern:half-width");
    CHECK(albumin["interpretation"][0]["coding"][0]["code"] == "L");
    CHECK(alt["interpretation"][0]["coding"][0]["code"] == "H");
}

TEST_CASE("Numbers, units and codes of a result are those of the report", "[report]") {
    for (const Units units : {Units::conventional, Units::si}) {
        const json one = bundle(reports(), units);
        const lab::Report first = reports()[0];
        for (const lab::Result& result : first.results) {
            INFO(body::name(result.analyte));
            const json seen = of(one, std::string(body::name(result.analyte)));
            const json& value = seen["valueQuantity"];
            // As printed: the shortest decimal of the printed text.
            CHECK(value["value"].get<double>() ==
                  std::stod(lab::printedNumber(result, bench(), units)));
            CHECK(value["code"] == bench().method(result.analyte).writing(units).unit);
            const std::string shown = base::shown(value["code"].get<std::string>());
            CHECK(
                (shown.empty() ? !value.contains("unit") : value["unit"] == shown)); // plain ratio
            CHECK(seen.contains("referenceRange") == result.interval.has_value());
            if (!result.interval) continue;
            CHECK(seen["referenceRange"][0]["low"]["value"].get<double>() ==
                  std::stod(lab::printed(result.interval->low, result.analyte, bench(), units)));
            CHECK(seen["referenceRange"][0]["high"]["code"] == value["code"]);
        }
    }
}

TEST_CASE("A code goes with its kind of quantity, and our own is always there", "[report]") {
    const auto codes = [](const json& one) { return one["code"]["coding"]; };
    const json mass = codes(of(bundle(reports()), "creatinine"));
    const json amount = codes(of(bundle(reports(), Units::si), "creatinine"));
    REQUIRE(mass.size() == 2);
    CHECK(mass[0]["system"] == "http://loinc.org");
    CHECK(mass[0]["code"] == "2160-0");
    CHECK(amount[0]["code"] == "14682-9");
    CHECK(amount[1] == mass[1]);
    const json without = codes(of(bundle(reports()), "albumin")); // none on this bench
    REQUIRE(without.size() == 1);
    CHECK(without[0]["code"] == "albumin");
}

TEST_CASE("Limits for decisions are not called normal", "[report]") {
    std::vector<lab::Report> decided = reports();
    for (lab::Result& result : decided[0].results)
        if (result.analyte == Analyte::ALT) result.interval->decision = true;
    const json range = of(bundle(decided), "ALT")["referenceRange"][0];
    CHECK_FALSE(range.contains("type"));
    CHECK(range["text"].get<std::string>().find("decision") != std::string::npos);
    const json usual = of(bundle(decided), "ALP")["referenceRange"][0];
    CHECK(usual["type"]["coding"][0]["code"] == "normal");
}

TEST_CASE("Notes of a result and the handling of a specimen are told", "[report]") {
    std::vector<lab::Report> noted = reports();
    noted[0].results[0].notes = {"run again, diluted 1 in 10"};
    noted[0].specimen.handling.unseparated = 3;
    noted[0].specimen.handling.fasted = 12;
    noted[0].warnings = {"serum pink & cloudy: <see> the notes"};
    const json one = bundle(noted);
    CHECK(all(one, "Observation")[0]["note"][0]["text"] == "run again, diluted 1 in 10");
    const json serum = all(one, "Specimen")[0];
    CHECK(serum["type"]["coding"][0]["code"] == "SER");
    CHECK(serum["note"].back()["text"] == "Handled: 3 h on its cells after the spin");
    CHECK(serum["collection"]["bodySite"]["text"] == "jugular vein");
    CHECK(serum["collection"]["fastingStatusDuration"]["value"] == 12);
    const json urine = all(one, "Specimen")[1];
    CHECK(urine["type"]["coding"][0]["code"] == "UR");
    CHECK_FALSE(urine["collection"].contains("bodySite"));
    CHECK(all(one, "DiagnosticReport")[0]["text"]["div"].get<std::string>().find(
              "pink &amp; cloudy: &lt;see&gt;") != std::string::npos);
}

TEST_CASE("Ids are named after their content: same bytes again, others for other content",
          "[report]") {
    const auto text = [](std::uint64_t seed, Units units) {
        report::Patient patient = sample::bramble();
        patient.who.seed = seed;
        return report::resultsFhir(patient, reports(), bench(), units);
    };
    CHECK(text(1, Units::si) == text(1, Units::si));
    const auto ids = [](const std::string& written) {
        std::set<json> found;
        for (const json& entry : json::parse(written)["entry"])
            if (entry["resource"]["resourceType"] == "Observation") found.insert(entry["fullUrl"]);
        return found;
    };
    static const std::regex uuid(
        "urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");
    const std::set<json> own = ids(text(1, Units::si));
    for (const json& id : own) CHECK(std::regex_match(id.get<std::string>(), uuid));
    for (const auto& others : {ids(text(2, Units::si)), ids(text(1, Units::conventional))})
        for (const json& id : others) CHECK(own.count(id) == 0);
}

TEST_CASE("A bundle reads as approved", "[report]") {
    checkApproved("results.fhir.json", report::resultsFhir(sample::bramble(), {reports()[1]},
                                                           bench(), Units::conventional));
}

TEST_CASE("Every analyte of the laboratory has a code that checks, or none", "[report]") {
    std::size_t coded = 0;
    const auto& methods = test::assets().knowledge.bench.methods;
    for (const lab::Method& method : methods) {
        INFO(body::name(method.analyte));
        for (const lab::Writing* writing : {&method.conventional, &method.si})
            CHECK((writing->loinc.empty() || lab::isLoinc(writing->loinc)));
        CHECK(method.conventional.loinc.empty() == method.si.loinc.empty());
        coded += method.conventional.loinc.empty() ? 0 : 1;
    }
    CHECK(coded >= 50); // five have none: SDH, toxic change, TLI, SDMA, SAA
    CHECK(methods.size() - coded <= 5);
}

TEST_CASE("One code never stands for mass and for amount of substance", "[report]") {
    // A rule of LOINC: the kind of property is part of what a code means (Users' Guide).
    std::map<std::string, std::string> kinds; // code -> the unit whose kind it has
    for (const lab::Method& method : test::assets().knowledge.bench.methods)
        for (const lab::Writing* writing : {&method.conventional, &method.si}) {
            if (writing->loinc.empty()) continue;
            const auto [known, added] = kinds.emplace(writing->loinc, writing->unit);
            INFO(writing->loinc << " " << known->second << " " << writing->unit);
            CHECK(base::conversion(known->second, writing->unit).has_value());
        }
}
