// `control`, as a process.
#include "program.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace cistern::test;
using Catch::Contains;

namespace {

Outcome control(const std::vector<std::string>& options) {
    std::vector<std::string> all{"control"};
    for (const std::string& option : options) all.push_back(option);
    return program(all);
}

/// Wrong use: nothing on stdout, one sentence, exit code 2.
void refuses(const std::vector<std::string>& options, const std::string& words) {
    refused(control(options), words);
}

std::vector<std::vector<std::string>> rows(const std::vector<std::string>& options) {
    std::vector<std::string> all{"control", "--format", "csv"};
    for (const std::string& option : options) all.push_back(option);
    const Outcome outcome = program(all);
    CHECK(outcome.code == 0);
    return csv(outcome.out);
}

const std::vector<std::string> drift{"--fault", "drift", "--by", "20%", "--from", "25"};

} // namespace

TEST_CASE("control prints a chart of each material in 80 columns", "[terminal]") {
    const Outcome outcome = control({});
    CHECK(outcome.code == 0);
    CHECK(outcome.err == "");
    CHECK(tooWide(outcome.out) == "");
    CHECK_THAT(outcome.out, Contains("Control chart of creatinine"));
    CHECK_THAT(outcome.out, Contains("Still Water, creatinine: mean"));
    CHECK_THAT(outcome.out, Contains("High Water, creatinine: mean"));
    CHECK_THAT(outcome.out, Contains("Not for diagnosing or treating."));
    std::size_t runs = 0;
    for (const std::string& line : lines(outcome.out))
        if (line.size() > 40 &&
            line.substr(0, 4).find_first_not_of(" 0123456789") == std::string::npos)
            ++runs;
    CHECK(runs >= 60); // thirty of each material
}

TEST_CASE("one seed gives one chart, another seed another", "[terminal]") {
    CHECK(control({}).out == control({"--seed", "1", "--runs", "30"}).out);
    CHECK(control({"--seed", "2"}).out != control({}).out);
    refuses({"--seed", "-1"}, "is not a whole number");
}

TEST_CASE("the csv of control holds each control with its unit and score", "[terminal]") {
    const auto table = rows({"--runs", "12"});
    REQUIRE(table.size() == 1 + 2 * 12);
    CHECK(table[0] == std::vector<std::string>{"run", "analyte", "material", "value[mg/dL]",
                                               "mean[mg/dL]", "deviation[mg/dL]", "score[SD]",
                                               "rules", "verdict"});
    for (std::size_t i = 1; i < table.size(); ++i) {
        const auto number = [&](std::size_t column) { return std::stod(table[i][column]); };
        CHECK(number(0) == Approx((i + 1) / 2));
        // Seven digits are printed of each, and their difference is smaller than they are.
        CHECK(number(6) == Approx((number(3) - number(4)) / number(5)).margin(1e-4));
    }
    CHECK(rows({"--units", "si"})[0][3] == "value[umol/L]");
}

TEST_CASE("a drift breaks the rules from its run on", "[terminal]") {
    const auto sound = rows({}), drifted = rows(drift);
    REQUIRE(drifted.size() == sound.size());
    for (std::size_t i = 1; i <= 2 * 24; ++i) CHECK(drifted[i] == sound[i]);
    for (std::size_t i = 1 + 2 * 25; i < drifted.size(); ++i) {
        CHECK_THAT(drifted[i][7], Contains("4-1s"));
        CHECK(drifted[i][8] == "rejected");
    }
    CHECK_THAT(control(drift).out,
               Contains("Speaks for systematic error") && Contains("drift 20 % from run 25"));
    CHECK(tooWide(control(drift).out) == "");
    for (const char* word : {"diagnosis", "kidney", "broken machine"})
        CHECK(control(drift).out.find(word) == std::string::npos);
}

TEST_CASE("every measured analyte has a chart, in text and as a drawing", "[terminal]") {
    for (const char* test :
         {"ALT", "K", "USG", "bile_acids", "cTnI", "platelets", "toxic", "SAA"}) {
        INFO(test);
        const Outcome text = control({"--test", test, "--runs", "40"});
        CHECK(text.code == 0);
        CHECK(tooWide(text.out) == "");
        const Outcome drawn = control({"--test", test, "--format", "svg"});
        CHECK(drawn.code == 0);
        CHECK_THAT(drawn.out, Contains("<svg ") && Contains("High Water"));
    }
}

TEST_CASE("long and short charts keep their shape", "[terminal]") {
    for (const char* runs : {"2", "1000"}) {
        CHECK(tooWide(control({"--runs", runs}).out) == "");
        CHECK(control({"--runs", runs, "--format", "svg"}).code == 0);
    }
    refuses({"--runs", "1"}, "from 2 to 1000");
    refuses({"--runs", "1001"}, "from 2 to 1000");
    refuses({"--runs", "ten"}, "is not a whole number");
}

TEST_CASE("faults, sizes and tests without sense are refused", "[terminal]") {
    refuses({"--fault", "drfit", "--by", "5%"}, "perhaps you mean \"drift\"");
    refuses({"--fault", "drift"}, "--fault needs its size");
    refuses({"--fault", "dirty aperture", "--by", "20%"}, "allowed: drift");
    refuses({"--by", "5%"}, "name it with --fault");
    refuses({"--from", "5"}, "name it with --fault");
    refuses({"--fault", "drift", "--by", "5"}, "is not a number with its unit");
    refuses({"--fault", "drift", "--by", "nan%"}, "is not a number with its unit");
    refuses({"--fault", "drift", "--by", "2000%"}, "allowed: -95 % to 1000 %");
    refuses({"--fault", "drift", "--by", "2 h"}, "is not a size of drift");
    refuses({"--fault", "bad lot", "--by", "120%"}, "allowed: 0 % to 95 %");
    refuses({"--fault", "wrong temperature", "--by", "5%"}, "allowed: -15 K to 10 K");
    refuses({"--fault", "drift", "--by", "5%", "--from", "31"}, "from 1 to 30");
    refuses({"--fault", "drift", "--by", "5%", "--from", "0"}, "from 1 to 30");
    refuses({"--test", "globulin"}, "is calculated from other results");
    refuses({"--test", "creatinin"}, "perhaps you mean \"creatinine\"");
    refuses({"--test", ""}, "--test is empty");
    refuses({"--format", "json"}, "allowed: text, csv or svg");
    refuses({"--units", "metric"}, "allowed: conventional or si");
    refuses({"extra"}, "one too many");
}
