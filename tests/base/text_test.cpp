#include "base/text.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>

using namespace cistern::base;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

} // namespace

TEST_CASE("The nearest known name is found for a slip of the pen", "[base]") {
    const std::vector<std::string> known{
        "hepatocyte necrosis", "muscle necrosis", "fasting", "ALT", "AST", "bile_acids"};
    CHECK(nearest("hepatocyte necrossis", known) == "hepatocyte necrosis");
    CHECK(nearest("fastign", known) == "fasting"); // neighbors swapped: one edit
    CHECK(nearest("Fasting", known) == "fasting");
    CHECK(nearest("bile acids", known) == "bile_acids");
    CHECK(nearest("AL", known) == "ALT");
    CHECK(nearest("ALTT", known) == "ALT");
    CHECK(nearest("ast", known) == "AST");
}

TEST_CASE("No name is suggested when all are far", "[base]") {
    const std::vector<std::string> known{"fasting", "fright"};
    CHECK(nearest("hemorrhage", known).empty());
    CHECK(nearest("", known).empty());
    CHECK(nearest("fasting", {}).empty());
}

TEST_CASE("At most a third of the letters may differ, and the fewest edits win", "[base]") {
    const std::vector<std::string> known{"abcdef", "abcxyf"};
    CHECK(nearest("abcdxx", known) == "abcdef"); // two of six
    CHECK(nearest("abcdef", known) == "abcdef");
    CHECK(nearest("abxyzz", known).empty()); // three of six, from either
    CHECK(nearest("abcxyz", known) == "abcxyf");
}

TEST_CASE("Names are listed as in a sentence", "[base]") {
    const std::vector<std::string> names{"a", "b", "c"};
    CHECK(listed(names) == "a, b or c");
    CHECK(listed(names, "and") == "a, b and c");
    CHECK(listed(std::span(names).first(2)) == "a or b");
    CHECK(listed(std::span(names).first(1)) == "a");
    CHECK(listed({}).empty());
}

TEST_CASE("UTF-8 is told from what is not", "[base]") {
    // Boundaries of table 3-7, "Well-Formed UTF-8 Byte Sequences", of the Unicode Standard.
    for (const char* good :
         {"", "a", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xee\x80\x80",
          "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf", "µmol °C 🐕"})
        CHECK(isUtf8(good));
    for (const char* bad : {"\x80", "\xc0\x80", "\xc1\xbf", "\xc2", "\xc2x", "\xe0\x9f\xbf",
                            "\xed\xa0\x80", "\xe2\x82", "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80",
                            "\xf5\x80\x80\x80", "\xff", "abc\xfe"})
        CHECK_FALSE(isUtf8(bad));
    CHECK(characterLength("🐕") == 4);
    CHECK(characterLength("µ") == 2);
    CHECK(characterLength("") == 0);
    CHECK(characterLength("\xff") == 0);
}

TEST_CASE("Width counts characters, and padding fills cells", "[base]") {
    CHECK(width("") == 0);
    CHECK(width("µmol/L") == 6);
    CHECK(width("\xff\xfe") == 2); // broken bytes count one each and end
    CHECK(padRight("µg", 4) == "µg  ");
    CHECK(padLeft("µg", 4) == "  µg");
    CHECK(padRight("longer", 3) == "longer");
    CHECK(padLeft("longer", -1) == "longer");
}

TEST_CASE("Text is wrapped at blanks and paragraphs stay apart", "[base]") {
    using Lines = std::vector<std::string>;
    CHECK(wrapped("the quiet liver", 9) == Lines{"the quiet", "liver"});
    CHECK(wrapped("one\ntwo\n\nthree\n", 20) == Lines{"one two", "", "three"});
    CHECK(wrapped("one\n\n\n\n two", 20) == Lines{"one", "", "two"});
    CHECK(wrapped("\n\n  one", 20) == Lines{"one"});
    CHECK(wrapped("abcdefgh x", 3) == Lines{"abc", "def", "gh", "x"});
    CHECK(wrapped("µµ µµ", 5) == Lines{"µµ µµ"});
    CHECK(wrapped("", 10).empty());
    CHECK(wrapped(" \n ", 10).empty());
    CHECK(wrapped("ab", 0) == Lines{"a", "b"});
}

TEST_CASE("No wrapped line is too wide, and no word is lost", "[base]") {
    std::mt19937 random(3);
    std::uniform_int_distribution<int> cells(12, 40);
    std::uniform_int_distribution<std::size_t> length(1, 12);
    for (int round = 0; round < 200; ++round) {
        std::string text;
        for (int i = 0; i < 50; ++i) text.append(i > 0 ? 1 : 0, ' ').append(length(random), 'x');
        const int most = cells(random);
        std::string joined;
        for (const std::string& line : wrapped(text, most)) {
            CHECK(width(line) <= most);
            joined += (joined.empty() ? "" : " ") + line;
        }
        CHECK(joined == text); // no word is wider than twelve, so none is cut
    }
}

TEST_CASE("Numbers are rounded to a step", "[base]") {
    CHECK(rounded(12.34, 0.1) == "12.3");
    CHECK(rounded(1234, 10) == "1230");
    CHECK(rounded(1235, 10) == "1240");
    CHECK(rounded(0.5, 1) == "1");
    CHECK(rounded(-0.5, 1) == "-1");
    CHECK(rounded(-0.04, 0.1) == "0.0");
    CHECK(rounded(-0.4, 1) == "0");
    CHECK(rounded(7, 0.001) == "7.000");
    CHECK(rounded(1.13, 0.25) == "1.25");
    CHECK(rounded(1.012, 0.005) == "1.010");
    CHECK(rounded(3.3, 0.5) == "3.5");
    CHECK(rounded(1e15, 1) == "1000000000000000");
    CHECK(rounded(1e300, 0.1).size() == 303); // 301 digits, a point, one decimal
}

TEST_CASE("A rounded number lies within half a step and rounds to itself", "[base]") {
    std::mt19937 random(8);
    std::uniform_real_distribution<double> value(-5000, 5000);
    for (double step : {0.001, 0.01, 0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 100.0})
        for (int i = 0; i < 200; ++i) {
            const double wanted = value(random);
            const std::string text = rounded(wanted, step);
            CAPTURE(wanted, step, text);
            // Rounding of the sum, at most a few units in the last place of 5000.
            CHECK(std::abs(std::stod(text) - wanted) <= step / 2 + 1e-11);
            CHECK(rounded(std::stod(text), step) == text);
        }
}

TEST_CASE("Numbers are shown with significant digits and without exponent", "[base]") {
    CHECK(significant(0.01234, 2) == "0.012");
    CHECK(significant(1234, 2) == "1200");
    CHECK(significant(1234, 4) == "1234");
    CHECK(significant(1234, 6) == "1234.00");
    CHECK(significant(1, 3) == "1.00");
    CHECK(significant(9.96, 2) == "10");
    CHECK(significant(0.0996, 2) == "0.10");
    CHECK(significant(-0.5, 1) == "-0.5");
    CHECK(significant(0, 3) == "0");
    CHECK(significant(-0.0, 3) == "0");
    CHECK(significant(123456789, 1) == "100000000");
    CHECK(significant(5e-324, 3).find('e') == std::string::npos);
}

TEST_CASE("What cannot be rounded is refused", "[base]") {
    for (double bad : {notANumber, infinity, -infinity}) {
        CHECK_THROWS_AS(rounded(bad, 1), std::invalid_argument);
        CHECK_THROWS_AS(rounded(1, bad), std::invalid_argument);
        CHECK_THROWS_AS(significant(bad, 2), std::invalid_argument);
    }
    CHECK_THROWS_AS(rounded(1, 0), std::invalid_argument);
    CHECK_THROWS_AS(rounded(1, -0.1), std::invalid_argument);
    CHECK_THROWS_AS(significant(1, 0), std::invalid_argument);
}
