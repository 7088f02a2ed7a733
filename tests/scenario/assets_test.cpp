#include "at_hand.h"
#include "base/units.h"
#include "lab/calculated.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace cistern;
using base::FaultKind;

namespace {

/// Faults of the shipped assets after one text in one file is replaced by another.
std::vector<base::Fault> after(const std::string& file, const std::string& text,
                               const std::string& other) {
    static const test::Memory shipped = test::Memory::copyOf("assets");
    test::Memory changed = shipped;
    std::string& whole = changed.texts.at("assets/" + file);
    const std::size_t at = whole.find(text);
    REQUIRE(at != std::string::npos);
    whole.replace(at, text.size(), other);
    try {
        scenario::loadAssets(changed, "assets");
    } catch (const base::InputError& error) {
        return error.faults();
    }
    return {};
}

} // namespace

TEST_CASE("every parameter of both species is loaded within its bounds", "[scenario]") {
    const auto& knowledge = test::assets().knowledge;
    for (body::Species species : {knowledge.dog, knowledge.cat})
        body::eachParameter(species, [&](const body::Parameter& parameter) {
            INFO(name(species.kind) << " " << parameter.name);
            CHECK(std::isfinite(*parameter.value));
            CHECK(*parameter.value >= parameter.least * (1 - 1e-9)); // a last bit of conversion
            CHECK(*parameter.value <= parameter.most * (1 + 1e-9));
        });
}

TEST_CASE("every number of the assets names a source that exists", "[scenario]") {
    const auto& all = test::assets();
    std::set<std::string> keys;
    for (const auto& source : all.sources) keys.insert(source.key);
    CHECK(keys.size() == all.sources.size());
    int parameters = 0;
    body::Species any = all.knowledge.dog;
    body::eachParameter(any, [&](const body::Parameter&) { ++parameters; });
    CHECK(all.values.size() > static_cast<std::size_t>(2 * parameters));
    for (const auto& value : all.values) {
        INFO(value.name);
        CHECK(keys.count(value.source) == 1);
        CHECK_FALSE(value.value.empty());
        CHECK(value.place.line > 0);
    }
}

TEST_CASE("factors between unit systems follow from the molar mass", "[scenario]") {
    const auto& bench = test::assets().knowledge.bench;
    // 1 mg/dL of creatinine is 88.402 umol/L at 113.12 g/mol; of urea nitrogen 0.35697 mmol/L at
    // 28.014 g/mol; of glucose 0.055507 mmol/L at 180.156 g/mol; of bilirubin 17.104 umol/L at
    // 584.66 g/mol. Checked with an independent UCUM library.
    const auto perMgdL = [&](body::Analyte analyte) { // or per ug/dL
        return 1 / bench.method(analyte).conventional.factor;
    };
    CHECK(perMgdL(body::Analyte::creatinine) == Approx(88.4017).epsilon(1e-5));
    CHECK(perMgdL(body::Analyte::urea) == Approx(0.356964).epsilon(1e-5));
    CHECK(perMgdL(body::Analyte::glucose) == Approx(0.0555074).epsilon(1e-5));
    CHECK(perMgdL(body::Analyte::bilirubin) == Approx(17.1040).epsilon(1e-5));
    // As rounded in tables of the trade, to three digits: Ca 0.2495, P 0.323, Mg 0.411 and
    // triglycerides 0.0113 mmol/L per mg/dL, T4 12.87 and cortisol 27.6 nmol/L, SDMA 0.0494 umol/L
    // per ug/dL, ammonia 1.703 ug/dL per umol/L.
    constexpr double digits = 5e-3;
    CHECK(perMgdL(body::Analyte::Ca) == Approx(0.2495).epsilon(digits));
    CHECK(perMgdL(body::Analyte::P) == Approx(0.323).epsilon(digits));
    CHECK(perMgdL(body::Analyte::Mg) == Approx(0.411).epsilon(digits));
    CHECK(perMgdL(body::Analyte::triglycerides) == Approx(0.0113).epsilon(digits));
    CHECK(perMgdL(body::Analyte::T4) == Approx(12.87).epsilon(digits));
    CHECK(perMgdL(body::Analyte::cortisol) == Approx(27.6).epsilon(digits));
    CHECK(perMgdL(body::Analyte::SDMA) == Approx(0.0494).epsilon(digits));
    CHECK(1 / perMgdL(body::Analyte::ammonia) == Approx(1.703).epsilon(digits));
    for (body::Analyte analyte : body::analytes()) {
        INFO(name(analyte));
        CHECK(bench.method(analyte).si.factor > 0);
        CHECK(bench.method(analyte).least < bench.method(analyte).most + 1e-300);
    }
}

TEST_CASE("both species have an interval for every analyte of a test, at every adult age",
          "[scenario]") {
    const auto& bench = test::assets().knowledge.bench;
    for (body::Kind kind : {body::Kind::dog, body::Kind::cat}) {
        body::Signalment who;
        who.kind = kind;
        for (const lab::Test& test : bench.tests)
            for (body::Analyte analyte : bench.analytes({test.name}, kind))
                for (double years = 2; years < 20; years += 1) {
                    who.age = years * 8766; // h
                    INFO(name(kind) << " " << name(analyte) << " at " << years << " y");
                    CHECK(bench.interval(who, 0, analyte) != nullptr);
                }
    }
}

TEST_CASE("limits for decisions are told from the middle 95 % of the healthy", "[scenario]") {
    const auto& bench = test::assets().knowledge.bench;
    for (const lab::Interval& one : bench.intervals) {
        INFO(name(one.kind) << " " << name(one.analyte));
        // IRIS 2019 stages by it; the healthy lie below 0.2. Of toxic change none is expected.
        const bool judged =
            one.analyte == body::Analyte::UPC || one.analyte == body::Analyte::toxic;
        CHECK(one.decision == judged);
    }
}

TEST_CASE("a method may be for one species alone", "[scenario]") {
    const auto& bench = test::assets().knowledge.bench;
    using Analytes = std::vector<body::Analyte>;
    CHECK(bench.analytes({"CRP"}, body::Kind::dog) == Analytes{body::Analyte::CRP});
    CHECK(bench.analytes({"CRP"}, body::Kind::cat) == Analytes{body::Analyte::SAA});
    CHECK(bench.analytes({"CRP"}).size() == 2);
}

TEST_CASE("what is said to be calculated can be, from what is measured", "[scenario]") {
    const auto& bench = test::assets().knowledge.bench;
    for (const lab::Method& method : bench.methods) {
        INFO(name(method.analyte));
        CHECK(method.calculated == (lab::recipe(method.analyte) != nullptr));
        if (const lab::Recipe* recipe = lab::recipe(method.analyte))
            for (const auto& part : recipe->parts)
                CHECK_FALSE(bench.method(part.analyte).calculated);
    }
}

TEST_CASE("every insult acts, within sensible bounds", "[scenario]") {
    for (const body::InsultKind& kind : test::assets().knowledge.insults) {
        INFO(kind.name);
        CHECK_FALSE(kind.effects.empty());
        CHECK(kind.least < kind.most);
        CHECK((kind.dog || kind.cat));
        CHECK(base::knownUnit(kind.unit));
    }
}

TEST_CASE("broken assets are refused with the place and the kind of the fault", "[scenario]") {
    struct Broken {
        std::string file, text, other;
        FaultKind kind;
    };
    const std::vector<Broken> all{
        {"species/dog.yaml", "33 g/kg", "33", FaultKind::missingUnit},
        {"species/dog.yaml", "33 g/kg", "33 L/kg", FaultKind::wrongDimension},
        {"species/dog.yaml", "33 g/kg", "330 g/kg", FaultKind::outOfRange},
        {"species/dog.yaml", "33 g/kg", "36 g/kg", FaultKind::contradiction}, // beyond its range
        {"species/dog.yaml", "33 g/kg", ".nan", FaultKind::outOfRange},
        {"species/dog.yaml", "source: Brown 1997", "source: Browne 1997", FaultKind::unknownName},
        {"species/dog.yaml", "source: Brown 1997, ", "", FaultKind::missingKey},
        {"species/dog.yaml", "standing: from memory", "standing: hearsay", FaultKind::unknownName},
        {"species/dog.yaml", "  mass:", "  mas:", FaultKind::missingKey},
        {"species/dog.yaml", "species: dog", "species: cat", FaultKind::duplicateKey},
        {"species/dog.yaml", "species: dog", "species: wolf", FaultKind::unknownName},
        {"insults/liver.yaml", "drive: liver death", "drive: liver deth", FaultKind::unknownName},
        {"insults/liver.yaml", "law: share lost", "law: of the sea", FaultKind::unknownName},
        {"insults/liver.yaml", "tissue: liver", "tissue: soul", FaultKind::unknownName},
        {"insults/liver.yaml", "unit: '%'", "unit: parts", FaultKind::unknownUnit},
        {"insults/liver.yaml", "most: 95 %", "most: 0.01 %", FaultKind::wrongOrder},
        {"methods/chemistry.yaml", "analyte: ALT", "analyte: AST", FaultKind::duplicateKey},
        {"methods/chemistry.yaml", "calculated: true", "calculated: yes", FaultKind::notABoolean},
        {"methods/chemistry.yaml", "unit: mg/dL", "unit: mg/dl/s", FaultKind::unknownUnit},
        {"methods/chemistry.yaml", "unit: mg/dL", "unit: mg/kg", FaultKind::wrongDimension},
        {"methods/chemistry.yaml", "principle: end point", "principle: magic",
         FaultKind::unknownName},
        {"methods/chemistry.yaml", "falls: true", "falls: down", FaultKind::notABoolean},
        {"methods/chemistry.yaml", "total: {value: 1200 uL", "total: {value: 90 uL",
         FaultKind::wrongOrder},
        {"methods/chemistry.yaml", "limit: {value: 0.2", "limit: {value: 1.2", // unreadable
         FaultKind::contradiction},
        {"photometer.yaml", "path: {value: 10 mm", "path: {value: 10 s", FaultKind::wrongDimension},
        {"spectra.yaml", "at: 350 nm", "at: 330 nm", FaultKind::wrongOrder},
        {"intervals/dog.yaml", "decision limit: true", "decision limit: 1", FaultKind::notABoolean},
        {"tests.yaml", "analytes: [ALT", "analytes: [ALTT", FaultKind::unknownName},
        {"tests.yaml", "test: urine", "test: chemistry", FaultKind::duplicateKey},
        {"codes.yaml", "loinc: 1742-6", "loinc: 1742-7", FaultKind::unknownName},
        {"codes.yaml", "loinc: 1742-6", "conventional: 1742-6", FaultKind::missingKey},
        {"codes.yaml", "analyte: AST", "analyte: ALT", FaultKind::duplicateKey},
        {"codes.yaml", "- {analyte: SDMA, loinc: none, why: 'no code is at hand'}", "",
         FaultKind::missingKey},
        {"codes.yaml", ", why: 'no code is at hand'", "", FaultKind::missingKey},
        {"findings.yaml", "unit: Cel", "unit: degrees", FaultKind::unknownUnit},
        {"sources.yaml", "Brown 1997:", "Brown:", FaultKind::unknownName},
    };
    for (const Broken& broken : all) {
        INFO(broken.file << ": " << broken.text << " -> " << broken.other);
        const auto faults = after(broken.file, broken.text, broken.other);
        REQUIRE_FALSE(faults.empty());
        CHECK(std::any_of(faults.begin(), faults.end(),
                          [&](const base::Fault& one) { return one.kind == broken.kind; }));
    }
}

TEST_CASE("a folder without assets is told file by file", "[scenario]") {
    test::Memory empty;
    try {
        scenario::loadAssets(empty, "assets");
        FAIL("assets were loaded from nothing");
    } catch (const base::InputError& error) {
        CHECK(error.faults().size() >= 9); // four folders, five files
    }
}
