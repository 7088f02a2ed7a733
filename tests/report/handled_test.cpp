#include "report/csv.h"
#include "report/json.h"
#include "sample.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace cistern;
using Catch::Matchers::Contains;
using lab::Units;

namespace {

/// A draw whose EDTA tube was a fifth full.
std::vector<lab::Report> shortFilled() {
    lab::Report report = sample::draw(1, 0, 2, 37, 3);
    report.specimen.handling.tubes = {lab::usualTube("serum"), lab::usualTube("edta")};
    report.specimen.handling.tubes[1].fill = 0.2;
    return {report};
}

std::vector<lab::Report> usual() {
    return {sample::draw(1, 0, 2, 37, 3)};
}

std::string text(const std::vector<lab::Report>& reports) {
    return report::laboratoryReport(sample::bramble(), reports, hand::bench(), sample::within(),
                                    Units::conventional);
}

} // namespace

TEST_CASE("The report tells how a specimen was handled, but not the usual", "[report]") {
    CHECK_THAT(text(shortFilled()), Contains("\n  Handled: EDTA tube 20 % full.\n"));
    CHECK_THAT(text(usual()), !Contains("Handled"));
}

TEST_CASE("CSV tells the handling among the notes of each result", "[report]") {
    const auto csv = [](const std::vector<lab::Report>& reports) {
        return report::resultsCsv(reports, hand::bench(), Units::si);
    };
    CHECK_THAT(csv(shortFilled()), Contains(",handled: EDTA tube 20 % full\r\n"));
    CHECK_THAT(csv(usual()), !Contains("handled"));
}

TEST_CASE("JSON tells the handling with its numbers", "[report]") {
    const auto draw = [](const std::vector<lab::Report>& reports) {
        return nlohmann::json::parse(
            report::resultsJson(sample::bramble(), reports, hand::bench(), Units::si))["draws"][0];
    };
    const auto handling = draw(shortFilled())["handling"];
    CHECK(handling["in_words"][0] == "EDTA tube 20 % full");
    CHECK(handling["tubes"][1]["tube"] == "edta");
    CHECK(handling["tubes"][1]["fill"] == 0.2);
    CHECK(handling["temperature_Cel"] == 22);
    CHECK_FALSE(draw(usual()).contains("handling"));
}
