#include "approved.h"
#include "report/csv.h"
#include "report/json.h"
#include "sample.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>
#include <sstream>

using namespace cistern;
using body::Analyte;
using lab::Units;

namespace {

std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> all;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) all.push_back(line);
    return all;
}

std::vector<lab::Report> reports() {
    return {sample::draw(1, -24, 300, 26, 0.3), sample::draw(2, 0, 9, 37, 3)};
}

/// Two looks at a made-up animal.
body::Course course() {
    body::Course::Table table(2, body::reading::count);
    table.setZero();
    for (int look = 0; look < 2; ++look) {
        const body::Snapshot truth = hand::healthyLevels();
        for (int i = 0; i < body::reading::count; ++i)
            table(look, i) = truth.value[static_cast<std::size_t>(i)];
        for (int tissue = 0; tissue < body::tissueCount; ++tissue) {
            table(look, body::reading::work + tissue) = look == 0 ? 1 : 0.25;
            table(look, body::reading::leak + tissue) = look == 0 ? 1 : 1.0 / 3;
        }
        table(look, body::reading::gfr) = 3.5;
        table(look, body::reading::hydration) = 0.92;
        table(look, body::reading::plasmaVolume) = 45;
    }
    return {{0, 1.5}, table};
}

} // namespace

TEST_CASE("A field is quoted only where RFC 4180 wants it", "[report]") {
    CHECK(report::csvField("ALT[U/L]") == "ALT[U/L]");
    CHECK(report::csvField("a, b") == "\"a, b\"");
    CHECK(report::csvField("the \"quiet\" liver") == "\"the \"\"quiet\"\" liver\"");
    CHECK(report::csvField("two\nlines") == "\"two\nlines\"");
    CHECK(report::csvLine({"a", "", "c d"}) == "a,,c d\r\n");
}

TEST_CASE("Numbers have seven digits and no exponent", "[report]") {
    CHECK(report::number(0) == "0");
    CHECK(report::number(-0.0) == "0");
    CHECK(report::number(100) == "100");
    CHECK(report::number(1.0 / 3) == "0.3333333");
    CHECK(report::number(12345678) == "12345680");
    CHECK(report::number(1.5e-9) == "0.0000000015");
    CHECK(report::number(-36) == "-36");
    CHECK(report::number(std::numeric_limits<double>::quiet_NaN()).empty());
}

TEST_CASE("Results as CSV read as approved", "[report]") {
    checkApproved("results.csv", report::resultsCsv(reports(), hand::bench(), Units::conventional));
    checkApproved("results_si.csv", report::resultsCsv(reports(), hand::bench(), Units::si));
}

TEST_CASE("Every line of a CSV ends in CR LF and has the header's fields", "[report]") {
    const std::string text = report::tableCsv(
        report::courseTable(course(), hand::bench(), Units::si, {Analyte::ALT, Analyte::USG}));
    const auto rows = lines(text);
    REQUIRE(rows.size() == 3);
    for (const std::string& row : rows) {
        CHECK(row.back() == '\r');
        // The leak of three tissues has no meaning: adrenal cortex, thyroid, white cells.
        CHECK(std::count(row.begin(), row.end(), ',') == 2 * body::tissueCount - 3 + 5);
    }
    CHECK(rows[0] == "time[h],work:liver[%],leak:liver[fold],work:bile ducts[%],leak:bile "
                     "ducts[fold],work:skeletal muscle[%],leak:skeletal muscle[fold],"
                     "work:heart[%],leak:heart[fold],work:kidney[%],leak:kidney[fold],"
                     "work:pancreas[%],leak:pancreas[fold],work:bone[%],leak:bone[fold],"
                     "work:gut[%],leak:gut[fold],work:red cells[%],leak:red cells[fold],"
                     "work:adrenal cortex[%],work:thyroid[%],work:white cells[%],"
                     "work:platelets[%],leak:platelets[fold],ALT[U/L],USG[1],GFR[mL/min/"
                     "kg],hydration[%],plasma volume[mL/kg]\r");
    const auto repeated = [](const std::string& part, int times) {
        std::string all;
        for (int i = 0; i < times; ++i) all += part;
        return all;
    };
    CHECK(rows[1] == "0," + repeated("100,1,", 9) + "100,100,100,100,1,30,1.03,3.5,92,45\r");
    CHECK(rows[2] ==
          "1.5," + repeated("25,0.3333333,", 9) + "25,25,25,25,0.3333333,30,1.03,3.5,92,45\r");
}

TEST_CASE("A table of a course asks only for the parts of the body that it shows", "[report]") {
    using body::Part;
    const body::Parts few = report::partsForTable({Analyte::ALT});
    for (const Part part : {Part::enzymes, Part::protein, Part::whiteCells, Part::platelets})
        CHECK(body::has(few, part)); // work and leak of every tissue stand in it
    for (const Part part : {Part::bile, Part::portal, Part::sugar, Part::salts})
        CHECK_FALSE(body::has(few, part));
    CHECK(body::has(report::partsForTable({Analyte::ALT, Analyte::K}), Part::salts));
}

TEST_CASE("A course speaks in the chosen units", "[report]") {
    const auto table = [](Units units) {
        return report::courseTable(course(), hand::bench(), units, {Analyte::creatinine});
    };
    const std::size_t column = 1 + 2 * body::tissueCount - 3;
    CHECK(table(Units::conventional).header[column] == "creatinine[mg/dL]");
    CHECK(table(Units::conventional).rows[0][column] == Approx(1).epsilon(1e-12));
    CHECK(table(Units::si).header[column] == "creatinine[umol/L]");
    CHECK(table(Units::si).rows[0][column] == Approx(88.4).epsilon(1e-12));
    CHECK_THROWS_AS(report::courseTable(course(), hand::bench(), Units::si, {Analyte::AST}),
                    std::out_of_range);
}

TEST_CASE("A herd has one line an animal, and limits stay numbers", "[report]") {
    const std::vector<Analyte> analytes{Analyte::ALT, Analyte::bilirubin, Analyte::cholesterol};
    lab::Bench bench = hand::bench();
    bench.methods.push_back(hand::method(Analyte::cholesterol, 0.05, 0.01, 0.01, 0.1, 20,
                                         {"mg/dL", 1 / 0.0259, 1}, {"mmol/L", 1, 0.1}, "else"));
    report::Member member;
    member.number = 7;
    member.who = sample::bramble().who;
    member.truth = hand::healthyLevels();
    hand::level(member.truth, Analyte::ALT) = 9000;
    hand::level(member.truth, Analyte::bilirubin) = 0.01;
    hand::makeExact(hand::edit(bench, Analyte::ALT));
    hand::makeExact(hand::edit(bench, Analyte::bilirubin));
    member.report =
        lab::measure(bench, hand::dog(), member.truth, hand::specimen(), {"chemistry"}, 1);

    CHECK(report::herdHeader(bench, Units::si, analytes) ==
          "number,age[y],weight[kg],sex,true:ALT[U/L],true:bilirubin[umol/L],"
          "true:cholesterol[mmol/L],measured:ALT[U/L],measured:bilirubin[umol/L],"
          "measured:cholesterol[mmol/L],beyond\r\n");
    CHECK(report::herdLine(member, bench, Units::si, analytes) ==
          "7,9,18,spayed female,9000,0.01,6.7,5000,2,,ALT > bilirubin <\r\n");
}

TEST_CASE("Results as JSON keep their documented shape", "[report]") {
    const std::string text =
        report::resultsJson(sample::bramble(), reports(), hand::bench(), Units::si);
    const auto json = nlohmann::json::parse(text);
    CHECK(json["patient"]["species"] == "dog");
    CHECK(json["patient"]["age_y"] == 9);
    CHECK(json["patient"]["seed"] == 4711);
    CHECK(json["units"] == "si");
    REQUIRE(json["draws"].size() == 2);
    const auto& first = json["draws"][0];
    CHECK(first["time_h"] == -24);
    CHECK(first["specimen"] == "4711-1");
    CHECK(first["not_run"][0] == "Blood counts are not run in this laboratory.");
    const auto& alt = first["results"][0];
    CHECK(alt["analyte"] == "ALT");
    CHECK(alt["bound"] == ">");
    CHECK(alt["value"] == 5000);
    CHECK(alt["flag"] == "H");
    CHECK_FALSE(alt.contains("half_width"));
    const lab::Report second = reports()[1];
    for (const auto& one : json["draws"][1]["results"]) {
        const auto analyte = body::analyteNamed(one["analyte"].get<std::string>());
        const lab::Result& result = *second.find(*analyte);
        // Values are as printed: the shortest decimal of the printed text.
        CHECK(one["value"].get<double>() ==
              std::stod(lab::printedNumber(result, hand::bench(), Units::si)));
        CHECK(one.contains("low") == result.interval.has_value());
    }
    CHECK(json["caution"] == std::string(report::caution));
    checkApproved("results.json", text);
}

TEST_CASE("A course as JSON holds the same numbers as its CSV", "[report]") {
    const report::Table table =
        report::courseTable(course(), hand::bench(), Units::conventional, {Analyte::urea});
    const auto json = nlohmann::json::parse(report::tableJson(table));
    CHECK(json["columns"].get<std::vector<std::string>>() == table.header);
    REQUIRE(json["rows"].size() == table.rows.size());
    for (std::size_t i = 0; i < table.rows.size(); ++i)
        for (std::size_t j = 0; j < table.header.size(); ++j)
            CHECK(json["rows"][i][j].get<double>() == std::stod(report::number(table.rows[i][j])));
}
