// `herd --intervals`: a healthy herd as a laboratory would take its reference intervals from it.
#include "lab/report.h"
#include "program.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace cistern::test;
using Catch::Contains;

namespace {

void refuses(const std::vector<std::string>& arguments, const std::string& words) {
    refused(program(arguments), words);
}

std::string intervals(const char* animals, const std::vector<std::string>& more = {}) {
    std::vector<std::string> arguments{"herd", "dog", "--intervals", "--animals", animals};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Outcome outcome = program(arguments);
    CHECK(outcome.err == "");
    REQUIRE(outcome.code == 0);
    return outcome.out;
}

/// The numbers at the end of the row that begins with these words.
std::vector<double> numbersOf(const std::string& text, const std::string& row) {
    std::vector<double> numbers;
    for (const std::string& line : lines(text))
        if (line.starts_with(row + " ")) {
            std::istringstream in(line.substr(row.size()));
            for (double number; in >> number;) numbers.push_back(number);
        }
    return numbers;
}

} // namespace

TEST_CASE("intervals of a herd stand beside the published ones in 80 columns", "[terminal]") {
    for (const char* animals : {"5", "15", "25", "60", "200"})
        CHECK(tooWide(intervals(animals)) == "");
    const std::string many = intervals("200");
    CHECK_THAT(many, Contains("by ranks, as advised for 120 animals") && Contains("published") &&
                         Contains("\ncreatinine ") && Contains("Invented animal"));
    CHECK_THAT(intervals("60"), Contains("as advised for fewer than 120 animals"));
    CHECK_THAT(intervals("15"), Contains("only listed") && Contains("Too few animals for limits"));
    CHECK_THAT(intervals("5"), Contains("say nothing"));
}

TEST_CASE("intervals by ranks follow from the results of the animals", "[terminal]") {
    // With 119 animals the ranks p (n + 1) are whole, 3 and 117; but ranks are advised from 120 on,
    // so 159: 4 and 156, and by the table 1 and 8, 152 and 159 with 90 % confidence.
    const std::string found = intervals("159", {"--analytes", "ALP", "--format", "csv"});
    const Outcome herd =
        program({"herd", "dog", "--animals", "159", "--analytes", "ALP", "--format", "csv"});
    std::vector<double> results = columnOf(herd.out, "measured:ALP[U/L]");
    std::sort(results.begin(), results.end());
    const auto is = [&](const char* head, std::size_t rank) {
        INFO(head);
        // The animals' results are printed in whole units, the intervals before rounding.
        CHECK(columnOf(found, head).at(0) == Approx(results.at(rank - 1)).margin(0.501));
    };
    is("low", 4);
    is("low from", 1);
    is("low to", 8);
    is("median", 80);
    is("high", 156);
    is("high from", 152);
    is("high to", 159);
}

TEST_CASE("intervals of many healthy dogs lie near the published ones", "[terminal]") {
    // Within a tenth of the interval, as the model was fitted; with 4000 animals a limit's own 90 %
    // confidence is narrower than that.
    const auto rows =
        csv(intervals("4000", {"--format", "csv", "--analytes",
                               "ALT,AST,CK,albumin,creatinine,urea,Na,K,Cl,Ca,Hct,MCV"}));
    const std::vector<double> low = columnOf(rows, "low"), high = columnOf(rows, "high"),
                              from = columnOf(rows, "published low"),
                              to = columnOf(rows, "published high");
    REQUIRE(low.size() == 12);
    for (std::size_t i = 0; i < low.size(); ++i) {
        INFO(rows[i + 1][0]);
        CHECK(std::abs(low[i] - from[i]) < 0.1 * (to[i] - from[i]));
        CHECK(std::abs(high[i] - to[i]) < 0.1 * (to[i] - from[i]));
    }
}

TEST_CASE("healthy animals with a flag are counted as their results are printed", "[terminal]") {
    const std::string text = intervals("300", {"--analytes", "PT,aPTT,fibrinogen"});
    const Outcome herd = program(
        {"herd", "dog", "--animals", "300", "--analytes", "PT,aPTT,fibrinogen", "--format", "csv"});
    // Published limits in the units and steps of print: Bauer 2009, the intervals of this bench.
    const auto pt = columnOf(herd.out, "measured:PT[s]"),
               aptt = columnOf(herd.out, "measured:aPTT[s]"),
               fibrinogen = columnOf(herd.out, "measured:fibrinogen[mg/dL]");
    int flagged = 0;
    for (std::size_t i = 0; i < pt.size(); ++i)
        flagged += pt[i] < 5.7 || pt[i] > 8.0 || aptt[i] < 10.0 || aptt[i] > 14.3 ||
                   fibrinogen[i] < 130 || fibrinogen[i] > 310;
    const std::vector<double> row = numbersOf(text, "clotting");
    REQUIRE(row.size() == 4); // results, formula, published, these
    CHECK(row[0] == 3);
    CHECK(row[1] == Approx(14.3).margin(0.051)); // 1 - 0.95^3
    // Rounded once for print, or twice: a result on the very edge of a step may differ.
    CHECK(row[2] == Approx(100 * flagged / 300.0).margin(0.4));
}

TEST_CASE("against its own intervals a herd shows fewer flags than the formula says",
          "[terminal]") {
    // Twenty-five results that rise and fall together: by formula 72.3 of 100. Share of 2000
    // animals: standard error 1.1 of 100, so five below is beyond chance.
    const std::string text = intervals("2000");
    const std::vector<double> row = numbersOf(text, "chemistry");
    REQUIRE(row.size() == 4);
    CHECK(row[0] == 25);
    CHECK(row[1] == Approx(72.3).margin(0.051));
    CHECK(row[3] < row[1] - 5);
    CHECK(row[3] > 30); // but far more than one in twenty
}

TEST_CASE("intervals are the same for the same seed", "[terminal]") {
    const auto of = [](const char* seed) {
        return intervals("60", {"--analytes", "ALT,K", "--seed", seed});
    };
    CHECK(of("3") == of("3"));
    CHECK(of("3") != of("4"));
    // Other analytes change nothing.
    const std::string both = intervals("60", {"--analytes", "ALT,K", "--format", "csv"});
    const std::string one = intervals("60", {"--analytes", "K", "--format", "csv"});
    CHECK(csv(both)[2] == csv(one)[1]);
}

TEST_CASE("intervals without sense are refused", "[terminal]") {
    refuses({"herd", "dog", "--method", "ranks"}, "--method needs --intervals");
    refuses({"herd", "dog", "--intervals", "--method", "rank"}, "perhaps you mean \"ranks\"");
    refuses({"herd", "dog", "--intervals", "--method", "ranks", "--animals", "119"},
            "at least 120 animals");
    refuses({"herd", "dog", "--intervals", "--method", "robust", "--animals", "19"},
            "at least 20 animals");
    refuses({"herd", "dog", "--intervals", "--method", "robust", "--animals", "10001"},
            "10000 at most");
    refuses({"herd", "dog", "--intervals", "--insult", "hepatocyte necrosis", "--severity", "10 %"},
            "do not go with --insult");
}

TEST_CASE("what a report says of flags in healthy animals is what a herd of them shows",
          "[terminal]") {
    // Of 4000 animals a share has a standard error of at most 0.8 of 100: four of them, and 1 for
    // one figure that stands for every panel of a dozen results and more.
    constexpr double margin = 4 * 0.8 + 1;
    const auto& bench = assets().knowledge.bench;
    for (const auto kind : {cistern::body::Kind::dog, cistern::body::Kind::cat}) {
        const Outcome outcome = program(
            {"herd", std::string(cistern::body::name(kind)), "--animals", "4000", "--intervals"});
        REQUIRE(outcome.code == 0);
        int seen = 0;
        for (const std::string& line : lines(outcome.out))
            for (const std::string panel : {"chemistry ", "blood count ", "all of these "}) {
                if (!line.starts_with(panel)) continue;
                std::istringstream in(line.substr(panel.size()));
                int results = 0;
                double formula = 0, shown = 0;
                if (!(in >> results >> formula >> shown)) continue;
                INFO(line);
                CHECK(100 * cistern::lab::chanceOfOneOutside(results, kind, bench) ==
                      Approx(shown).margin(margin));
                ++seen;
            }
        CHECK(seen == 3);
    }
}
