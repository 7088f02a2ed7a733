// `herd` and `sources`, as a process.
#include "program.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

using namespace cistern::test;
using Catch::Contains;

namespace {

void refuses(const std::vector<std::string>& arguments, const std::string& words) {
    refused(program(arguments), words);
}

double mean(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

} // namespace

TEST_CASE("a herd is shown beside the published intervals in 80 columns", "[terminal]") {
    for (const char* species : {"dog", "cat"}) {
        const Outcome outcome = program({"herd", species, "--animals", "200"});
        CHECK(outcome.code == 0);
        CHECK(outcome.err == "");
        CHECK_THAT(outcome.out, Contains("True levels:") && Contains("published"));
        for (const char* row :
             {"\nALT ", "\ncreatinine ", "\nanion_gap ", "\nT4 ", "\nPT ", "\nUSG ", "\nUPC ",
              "\nHct ", "\nneutrophils ", "\nplatelets ", "\nTP "})
            CHECK_THAT(outcome.out, Contains(row));
        CHECK_THAT(outcome.out, Contains("Invented animal"));
        CHECK(tooWide(outcome.out) == "");
    }
}

TEST_CASE("median, middle 95 % and distances of a herd follow from its csv", "[terminal]") {
    const Outcome text = program({"herd", "dog", "--animals", "79", "--analytes", "ALT,Na"});
    CHECK(text.code == 0);
    const Outcome all = program({"herd", "dog", "--animals", "79", "--format", "csv"});
    const auto cells = [&](const std::string& name) {
        for (const std::string& line : lines(text.out))
            if (line.starts_with(name + " ")) {
                std::istringstream in(line);
                std::vector<std::string> found;
                for (std::string cell; in >> cell;)
                    if (cell != "-") found.push_back(cell);
                return found;
            }
        FAIL("no line of " + name);
        return std::vector<std::string>{};
    };
    using Pair = std::pair<std::string, std::string>;
    for (const auto& [name, head] : {Pair{"ALT", "true:ALT[U/L]"}, Pair{"Na", "true:Na[mmol/L]"}}) {
        std::vector<double> levels = columnOf(all.out, head);
        std::sort(levels.begin(), levels.end());
        // With 79 animals the ranks p (n + 1) are whole: 2, 40 and 78.
        const double low = levels[1], median = levels[39], high = levels[77];
        const auto row = cells(name);
        REQUIRE(row.size() == 9); // name, unit, median, low, high, published twice, off twice
        CHECK(std::stod(row[2]) == std::round(median)); // both are printed in whole units
        CHECK(std::stod(row[3]) == std::round(low));
        CHECK(std::stod(row[4]) == std::round(high));
        const double from = std::stod(row[5]), to = std::stod(row[6]);
        // Distances are printed to a hundredth of the width, from levels of seven digits.
        CHECK(std::stod(row[7]) == Approx(std::abs(low - from) / (to - from)).margin(0.0051));
        CHECK(std::stod(row[8]) == Approx(std::abs(high - to) / (to - from)).margin(0.0051));
    }
    CHECK_THAT(text.out, Contains(" of 4 limits lie within 0.10 widths"));
}

TEST_CASE("an interval that begins at nothing counts by its upper limit alone", "[terminal]") {
    const Outcome text = program({"herd", "dog", "--animals", "40", "--analytes", "bile_acids"});
    CHECK_THAT(text.out, Contains(" of 1 limits lie within"));
}

TEST_CASE("a herd of some analytes has the same levels and results", "[terminal]") {
    const auto herd = [](const std::string& analytes) {
        std::vector<std::string> arguments{"herd", "cat", "--animals", "20", "--format", "csv"};
        if (!analytes.empty()) arguments.insert(arguments.end(), {"--analytes", analytes});
        return program(arguments).out;
    };
    const std::string all = herd(""), few = herd("K,platelets");
    CHECK(csv(few)[0].size() == 4 + 2 * 2 + 1);
    for (const char* head : {"age[y]", "true:K[mmol/L]", "measured:K[mmol/L]",
                             "true:platelets[10*3/uL]", "measured:platelets[10*3/uL]"})
        CHECK(columnOf(all, head) == columnOf(few, head));
}

TEST_CASE("measured results of a herd spread wider than its true levels", "[terminal]") {
    const auto herd = [](const std::vector<std::string>& more) {
        std::vector<std::string> arguments{"herd", "dog", "--animals", "400", "--analytes", "CK"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return program(arguments).out;
    };
    CHECK_THAT(herd({}), Contains("True levels:") && Contains("--measured adds"));
    CHECK_THAT(herd({"--measured"}),
               Contains("Measured results, unrounded:") && !Contains("--measured adds"));
    const std::string csvOfAll = herd({"--format", "csv"});
    const auto spread = [](std::vector<double> values) {
        std::sort(values.begin(), values.end());
        return values[390] - values[9]; // middle 95 % of 400, to a rank
    };
    // CK wobbles by about a third from day to day, so the order needs no allowance for chance.
    CHECK(spread(columnOf(csvOfAll, "measured:CK[U/L]")) >
          spread(columnOf(csvOfAll, "true:CK[U/L]")));
}

TEST_CASE("the csv of a herd has a row an animal, each an animal of its own", "[terminal]") {
    const Outcome outcome = program({"herd", "dog", "--animals", "25", "--format", "csv"});
    CHECK(outcome.code == 0);
    const auto rows = csv(outcome.out);
    CHECK(rows.size() == 26);
    for (const auto& row : rows) CHECK(row.size() == rows[0].size());
    const auto levels = columnOf(outcome.out, "true:ALT[U/L]");
    CHECK(std::set<double>(levels.begin(), levels.end()).size() == 25);
    for (const double age : columnOf(outcome.out, "age[y]")) CHECK((age >= 2 && age <= 8));
}

TEST_CASE("a herd is the same for the same seed, and its first members for any size",
          "[terminal]") {
    const auto herd = [](const char* animals, const char* seed) {
        return program({"herd", "cat", "--animals", animals, "--seed", seed, "--format", "csv"})
            .out;
    };
    CHECK(herd("30", "7") == herd("30", "7"));
    CHECK(herd("30", "7") != herd("30", "8"));
    const std::string few = herd("10", "7");
    CHECK(herd("5000", "7").substr(0, few.size()) == few);
}

TEST_CASE("an insult moves the herd, and twice the insult moves it further", "[terminal]") {
    const auto level = [](const std::vector<std::string>& more) {
        std::vector<std::string> arguments = {"herd", "dog", "--animals", "60", "--format", "csv"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return mean(columnOf(program(arguments).out, "true:ALT[U/L]"));
    };
    const double healthy = level({});
    const double some = level({"--insult", "hepatocyte necrosis", "--severity", "5 %"});
    const double more = level({"--insult", "hepatocyte necrosis", "--severity", "10 %"});
    // The same animals in each herd, so the order needs no allowance for chance.
    CHECK(healthy < some);
    CHECK(some < more);
    const double later = level({"--insult", "hepatocyte necrosis", "--severity", "10 %", "--from",
                                "-12 d", "--to", "-11 d"});
    CHECK(later < more); // eleven days on, much has drained
}

TEST_CASE("one age can be asked for", "[terminal]") {
    const Outcome pups =
        program({"herd", "dog", "--animals", "40", "--age", "3 mo", "--format", "csv"});
    for (const double age : columnOf(pups.out, "age[y]")) CHECK(age == Approx(0.25));
    const Outcome grown = program({"herd", "dog", "--animals", "40", "--format", "csv"});
    CHECK(mean(columnOf(pups.out, "true:ALP[U/L]")) >
          mean(columnOf(grown.out, "true:ALP[U/L]"))); // bone grows
}

TEST_CASE("herds without sense are refused", "[terminal]") {
    refuses({"herd", "dgo"}, "perhaps you mean \"dog\"");
    refuses({"herd", "horse"}, "allowed: dog or cat");
    refuses({"herd", "dog", "--animals", "0"}, "is not a whole number from 1");
    refuses({"herd", "dog", "--animals", "1000001"}, "is not a whole number from 1");
    refuses({"herd", "dog", "--animals", "10"}, "at least 40 animals");
    refuses({"herd", "dog", "--severity", "10 %"}, "needs an --insult");
    refuses({"herd", "dog", "--insult", "hepatocyte necrosis"}, "needs a --severity");
    refuses({"herd", "dog", "--insult", "hepatocyt necrosis", "--severity", "10 %"},
            "perhaps you mean \"hepatocyte necrosis\"");
    const std::vector<std::string> hurt = {"herd", "dog", "--insult", "hepatocyte necrosis",
                                           "--severity"};
    const auto with = [&](std::vector<std::string> more) {
        more.insert(more.begin(), hurt.begin(), hurt.end());
        return more;
    };
    refuses(with({"10"}), "has no unit");
    refuses(with({"10 kg"}), "is not a severity");
    refuses(with({"200 %"}), "is not a severity");
    refuses(with({"much"}), "is not a number");
    refuses(with({"10 %", "--from", "2 h", "--to", "1 h"}), "earlier than --to");
    refuses(with({"10 %", "--from", "1 h", "--to", "2 h"}), "earlier than the look");
    refuses(with({"10 %", "--from", "-30 y"}), "were born");
    refuses({"herd", "dog", "--age", "0 y"}, "above zero");
    refuses({"herd", "dog", "--format", "json"}, "allowed: text or csv");
    refuses({"herd", "dog", "--analytes", "ALTT"}, "perhaps you mean \"ALT\"");
    refuses({"herd", "cat", "--analytes", "CRP"}, "--analytes"); // not run in the cat
    refuses({"herd", "cat", "--insult", "corticosteroid effect", "--severity", "1 kg"},
            "--severity");
}

TEST_CASE("sources lists every parameter with its source, in 80 columns", "[terminal]") {
    const Outcome all = program({"sources"});
    CHECK(all.code == 0);
    CHECK(all.err == "");
    CHECK_THAT(all.out, Contains("dog liver.mass") && Contains("cat liver.mass"));
    CHECK_THAT(all.out, Contains("published") && Contains("assumed"));
    CHECK(tooWide(all.out) == "");
}

TEST_CASE("sources filters by part of a name and by standing", "[terminal]") {
    const Outcome mass = program({"sources", "LIVER.mass", "--format", "csv"});
    const auto rows = csv(mass.out);
    CHECK(rows.size() == 3); // header, cat, dog
    CHECK(rows[1][0] == "cat liver.mass");
    CHECK(rows[1][5] != ""); // the citation
    const auto all = csv(program({"sources", "--format", "csv"}).out);
    std::size_t sum = 0;
    for (const char* standing :
         {"published", "from memory", "derived", "contested", "fitted", "assumed"}) {
        const Outcome some = program({"sources", standing, "--format", "csv"});
        if (some.code != 0) continue; // no value stands so
        const auto found = csv(some.out);
        for (std::size_t i = 1; i < found.size(); ++i) CHECK(found[i][3] == standing);
        sum += found.size() - 1;
    }
    CHECK(sum == all.size() - 1);
    refuses({"sources", "dog liver.mas_"}, "perhaps you mean \"dog liver.mass\"");
    refuses({"sources", "x", "--format", "json"}, "allowed: text or csv");
}
