// `course`, as a process.
#include "program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using namespace cistern::test;
using Catch::Contains;
using Catch::StartsWith;

namespace {

Outcome course(std::vector<std::string> options) {
    options.insert(options.begin(), {"course", "the_sore_thigh"});
    return program(options);
}

void refuses(const std::vector<std::string>& options, const std::string& words) {
    refused(course(options), words);
}

std::size_t column(const std::vector<std::vector<std::string>>& rows, const std::string& head) {
    for (std::size_t i = 0; i < rows[0].size(); ++i)
        if (rows[0][i] == head) return i;
    FAIL("no column " + head);
    return 0;
}

} // namespace

TEST_CASE("a course runs from one day before the first insult to the last draw, by the hour",
          "[terminal]") {
    const Outcome outcome = course({});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    const auto rows = csv(outcome.out);
    CHECK(rows[0][0] == "time[h]");
    // the injection is given at -10 h, the last draw taken at 38 h: tests/../the_sore_thigh.yaml
    CHECK(rows[1][0] == "-34");
    CHECK(rows[2][0] == "-33");
    CHECK(rows.back()[0] == "38");
    CHECK(rows.size() == 1 + 34 + 38 + 1);
    for (const auto& row : rows) CHECK(row.size() == rows[0].size());
    for (const char* head : {"work:liver[%]", "leak:liver[fold]", "work:skeletal muscle[%]",
                             "ALT[U/L]", "GFR[mL/min/kg]", "hydration[%]", "plasma volume[mL/kg]"})
        column(rows, head);
}

TEST_CASE("a course starts healthy: work whole, leak one", "[terminal]") {
    const auto rows = csv(course({}).out);
    for (const char* tissue : {"liver", "bile ducts", "skeletal muscle", "heart", "kidney",
                               "pancreas", "bone", "gut", "red cells", "platelets"}) {
        const std::string name(tissue);
        // standing still in health, to the error bound of the stepper (1e-4)
        CHECK(std::stod(rows[1][column(rows, "work:" + name + "[%]")]) ==
              Approx(100).epsilon(1e-4));
        CHECK(std::stod(rows[1][column(rows, "leak:" + name + "[fold]")]) ==
              Approx(1).epsilon(1e-4));
    }
}

TEST_CASE("rows, analytes and units can be chosen, durations with or without a blank",
          "[terminal]") {
    const Outcome tight = course({"--every", "30min", "--until", "1d", "--from", "0 h",
                                  "--analytes", "CK,creatinine", "--units", "si"});
    CHECK(tight.code == 0);
    const auto rows = csv(tight.out);
    CHECK(rows.size() == 1 + 49);
    CHECK(rows.back()[0] == "24");
    const std::size_t first = column(rows, "CK[U/L]");
    CHECK(rows[0][first + 1] == "creatinine[umol/L]");
    CHECK(rows[0][first + 2] == "GFR[mL/min/kg]");
    CHECK(course({"--until", "14d", "--every", "1d"}).out ==
          course({"--until=14 d", "--every", "24 h"}).out);
}

TEST_CASE("a course of one analyte is its column of the whole course, to the last digit",
          "[terminal]") {
    const auto whole = csv(course({}).out);
    for (const char* name : {"ALT", "K", "neutrophils"}) {
        const auto alone = csv(course({"--analytes", name}).out);
        REQUIRE(alone.size() == whole.size());
        CHECK(alone[0].size() < whole[0].size());
        for (std::size_t j = 0; j < alone[0].size(); ++j) {
            const std::size_t same = column(whole, alone[0][j]);
            for (std::size_t i = 0; i < alone.size(); ++i) {
                INFO(alone[0][j] << ", row " << i);
                CHECK(alone[i][j] == whole[i][same]);
            }
        }
    }
}

TEST_CASE("a course tells the work of every tissue, and its leak where that has a meaning",
          "[terminal]") {
    const auto rows = csv(course({"--analytes", "ALT"}).out);
    const auto has = [&](const std::string& head) {
        return std::find(rows[0].begin(), rows[0].end(), head) != rows[0].end();
    };
    for (const char* tissue : {"liver", "bile ducts", "skeletal muscle", "heart", "kidney",
                               "pancreas", "bone", "gut", "red cells", "platelets"}) {
        CHECK(has("work:" + std::string(tissue) + "[%]"));
        CHECK(has("leak:" + std::string(tissue) + "[fold]"));
    }
    for (const char* tissue : {"adrenal cortex", "thyroid", "white cells"}) {
        CHECK(has("work:" + std::string(tissue) + "[%]"));
        CHECK_FALSE(has("leak:" + std::string(tissue) + "[fold]"));
    }
}

TEST_CASE("an analyte of which health has none is drawn in its unit", "[terminal]") {
    const Outcome outcome = course({"--format", "svg", "--analytes", "toxic,neutrophils"});
    CHECK(outcome.code == 0);
    CHECK_THAT(outcome.out, Contains(">toxic") && Contains("Levels in"));
}

TEST_CASE("the last row is the end, also where the steps do not meet it", "[terminal]") {
    const auto rows = csv(course({"--from", "0h", "--until", "10h", "--every", "4h"}).out);
    REQUIRE(rows.size() == 5);
    CHECK(rows[3][0] == "8");
    CHECK(rows[4][0] == "10");
}

TEST_CASE("looking more often does not change what is seen", "[terminal]") {
    const auto coarse = csv(course({"--every", "24h", "--from", "-34h", "--until", "14h"}).out);
    const auto fine = csv(course({"--every", "1h", "--from", "-34h", "--until", "14h"}).out);
    REQUIRE(coarse.size() == 4);
    for (std::size_t i = 0; i < coarse[3].size(); ++i) {
        INFO(coarse[0][i]);
        const double seen = std::stod(coarse[3][i]), again = std::stod(fine.back()[i]);
        CHECK(seen == Approx(again).epsilon(2e-4)); // twice the stepper's error bound of 1e-4
    }
}

TEST_CASE("the json of a course is the same table", "[terminal]") {
    const auto rows = csv(course({"--every", "12h"}).out);
    const auto json = nlohmann::json::parse(course({"--every", "12h", "--format", "json"}).out);
    REQUIRE(json.at("rows").size() + 1 == rows.size());
    CHECK(json.at("columns") == nlohmann::json(rows[0]));
    for (std::size_t i = 0; i + 1 < rows.size(); ++i)
        for (std::size_t j = 0; j < rows[0].size(); ++j)
            CHECK(json["rows"][i][j] == std::stod(rows[i + 1][j]));
}

TEST_CASE("the svg of a course is a drawing with its caution", "[terminal]") {
    for (const std::string& name : shipped()) {
        const Outcome outcome = program({"course", name, "--format", "svg"});
        INFO(name);
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        CHECK_THAT(outcome.out, Contains("<svg") && Contains("</svg>"));
        CHECK_THAT(outcome.out, Contains("Invented animal"));
    }
    const Outcome one = course({"--format", "svg", "--analytes", "CK,AST"});
    CHECK_THAT(one.out, Contains(">CK") && Contains(">AST"));
    CHECK(one.out.find(">ALP") == std::string::npos);
}

TEST_CASE("a course goes into a file whole, and nothing else is said on stdout", "[terminal]") {
    const Folder folder;
    const std::string path = folder.path("out.csv");
    const Outcome outcome = course({"--out", path});
    CHECK(outcome.code == 0);
    CHECK(outcome.out == "");
    CHECK_THAT(outcome.err, Contains("out.csv"));
    CHECK(textOf(path) == course({}).out);
    CHECK(folder.names() == std::vector<std::string>{"out.csv"});
}

TEST_CASE("a file that cannot be written is told, exit code 1, nothing half-written",
          "[terminal]") {
    const Folder folder;
    const Outcome outcome = course({"--out", folder.path("no/such/out.csv")});
    CHECK(outcome.code == 1);
    CHECK(outcome.out == "");
    CHECK_THAT(outcome.err, Contains("cannot be written"));
    CHECK(folder.names().empty());
    CHECK(course({"--out", "/dev/full"}).code == 1);
    CHECK(course({"--out", folder.path("")}).code == 1);
}

TEST_CASE("courses without sense are refused", "[terminal]") {
    refuses({"--every", "0 h"}, "longer than no time");
    refuses({"--every", "-1 h"}, "longer than no time");
    refuses({"--every", "1"}, "has no unit");
    refuses({"--every", "1 s", "--until", "30 d"}, "rows; at most");
    refuses({"--until", "-90 d"}, "earlier than --until");
    refuses({"--from", "50 h"}, "earlier than --until");
    refuses({"--from", "-90 y"}, "was born");
    refuses({"--until", "inf h"}, "is not a time");
    refuses({"--analytes", "ALT,,AST"}, "empty entry");
    refuses({"--analytes", ""}, "--analytes is empty");
    refuses({"--out", ""}, "--out is empty");
    refuses({"--analytes", "ALT,ALT"}, "given twice");
    refuses({"--analytes", "ALTT"}, "perhaps you mean \"ALT\"");
    refuses({"--format", "png"}, "allowed: csv, json or svg");
}
