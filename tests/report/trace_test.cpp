// What the photometer saw, as a chart and as rows.
#include "report/trace.h"
#include "sample.h"

#include <catch2/catch.hpp>

using namespace cistern;
using body::Analyte;

namespace {

/// A falling line read from the third to the last of five readings.
lab::Report traced() {
    lab::Report report;
    report.specimen.id = "7-1";
    lab::Result result;
    result.analyte = Analyte::ALT;
    result.value = 42;
    result.trace.wavelength = 339;
    result.trace.seconds = {0, 10, 20, 30, 40};
    result.trace.absorbance = {1.0F, 0.9F, 0.8F, 0.7F, 0.6F};
    result.trace.from = 20;
    result.trace.to = 40;
    report.results.push_back(result);
    return report;
}

} // namespace

TEST_CASE("A trace falls from the left to the right, and what was read is told apart", "[report]") {
    const std::string chart = report::traceChart(traced(), Analyte::ALT, hand::bench());
    CHECK(chart.find("Trace of ALT, specimen 7-1, at 339 nm: printed 42 U/L\n") == 0);
    CHECK(chart.find("     1.000 |.\n") != std::string::npos);
    CHECK(chart.find("read, from 20 to 40 s") != std::string::npos);
    CHECK(std::count(chart.begin(), chart.end(), 'o') >= 3);
    std::size_t from = 0;
    for (std::size_t end; (end = chart.find('\n', from)) != std::string::npos; from = end + 1)
        CHECK(end - from <= 80);
}

TEST_CASE("Where there is no trace, a sentence says so", "[report]") {
    lab::Report report = traced();
    CHECK(report::traceChart(report, Analyte::CK, hand::bench()) ==
          "No CK was measured in specimen 7-1.\n");
    report.results[0].trace = {};
    CHECK(report::traceChart(report, Analyte::ALT, hand::bench()) ==
          "ALT is not read from a color over time: there is no trace.\n");
    report = traced();
    report.results[0].trace.to = report.results[0].trace.from;
    CHECK(report::traceChart(report, Analyte::ALT, hand::bench())
              .find("no part of it was straight enough") != std::string::npos);
}

TEST_CASE("Rows of a trace carry units in their head and say which were read", "[report]") {
    const std::string rows = report::tracesCsv({traced()}, Analyte::ALT);
    CHECK(rows.find("time[h],specimen,analyte,wavelength[nm],reading[s],absorbance[1],used\r\n") ==
          0);
    CHECK(rows.find("0,7-1,ALT,339,10.0,0.9000,0\r\n") != std::string::npos);
    CHECK(rows.find("0,7-1,ALT,339,20.0,0.8000,1\r\n") != std::string::npos);
}
