#include "base/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace cistern::base;

namespace {

const std::vector<std::string> everyUnit{
    "1",       "fold",    "%",       "{ratio}",   "h",         "min",       "s",          "d",
    "wk",      "mo",      "a",       "y",         "/min",      "%/d",       "Cel",        "m[Hg]",
    "mm[Hg]",  "kg",      "g",       "mg",        "ug",        "ng",        "pg",         "mol",
    "mmol",    "umol",    "nmol",    "pmol",      "L",         "dL",        "mL",         "uL",
    "fL",      "m",       "cm",      "mm",        "um",        "m2",        "cm3",        "U",
    "U/L",     "U/g",     "U/kg/h",  "mU/L",      "kU/L",      "mg/kg",     "mg/kg/d",    "g/kg",
    "L/kg",    "L/kg/h",  "mL/kg/h", "mL/min/kg", "mmol/kg/h", "umol/kg/h", "mg/dL",      "g/dL",
    "g/L",     "ug/dL",   "mmol/L",  "umol/L",    "nmol/L",    "pmol/L",    "10*9/L",     "10*12/L",
    "10*3/uL", "10*6/uL", "L/L",     "/h",        "kg/m2",     "mg/dL/d",   "{beats}/min"};

double factor(std::string_view from, std::string_view to, double molarMass = 0) {
    const auto value = conversion(from, to, molarMass);
    INFO(from << " to " << to);
    REQUIRE(value.has_value());
    return *value;
}

} // namespace

TEST_CASE("A quantity is a number and a unit, with or without a blank", "[base]") {
    struct Case {
        std::string text;
        double value;
        std::string unit;
    };
    for (const Case& one : std::vector<Case>{{"58 h", 58, "h"},
                                             {"14d", 14, "d"},
                                             {"0.9 mg/dL", 0.9, "mg/dL"},
                                             {"-36 h", -36, "h"},
                                             {"75 %", 75, "%"},
                                             {"12 %/d", 12, "%/d"},
                                             {"+5 d", 5, "d"},
                                             {"  7  kg ", 7, "kg"},
                                             {".5 h", 0.5, "h"},
                                             {"7.5 10*3/uL", 7.5, "10*3/uL"},
                                             {"88 /min", 88, "/min"},
                                             {"88/min", 88, "/min"},
                                             {"1.0e3 U/L", 1000, "U/L"},
                                             {"2E-2 g", 0.02, "g"},
                                             {"5 e", 5, "e"},
                                             {"5e", 5, "e"},
                                             {"0", 0, ""},
                                             {"0.5", 0.5, ""},
                                             {"3 {ratio}", 3, "{ratio}"}}) {
        const auto quantity = readQuantity(one.text);
        CAPTURE(one.text);
        REQUIRE(quantity.has_value());
        CHECK(quantity->value == one.value);
        CHECK(quantity->unit == one.unit);
    }
}

TEST_CASE("What is no plain decimal number is no quantity", "[base]") {
    for (const std::string text :
         {"",        " ",        "h",        "h 5",     "nan h", "inf",     "-inf h",
          ".nan",    "0x1F",     "0X1F U/L", "012 h",   "-012",  "1_000 h", "1,5 mg/dL",
          "1e999 h", "1e-999 h", "--5 h",    "+-5",     "- 5 h", "5. h",    ".",
          "-",       "8..30 kg", "1.2.3",    "5\th\n5", "five",  "−5 h",    "5µg"}) {
        CAPTURE(text);
        const auto quantity = readQuantity(text);
        CHECK_FALSE((quantity && (quantity->unit.empty() || knownUnit(quantity->unit))));
    }
    for (const std::string text : {"nan", "0x1F", "012 h", "1_000", "1,5", "1e999", "8..30 kg"})
        CHECK_FALSE(readQuantity(text).has_value());
}

TEST_CASE("A quantity written out and read again is the same", "[base]") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> mantissa(-10, 10);
    std::uniform_int_distribution<int> power(-12, 12);
    for (int i = 0; i < 2000; ++i) {
        const double value = mantissa(random) * std::pow(10.0, power(random));
        const std::string& unit = everyUnit[static_cast<std::size_t>(i) % everyUnit.size()];
        char text[80];
        std::snprintf(text, sizeof text, "%.17g %s", value, unit.c_str()); // 17 digits lose nothing
        const auto quantity = readQuantity(text);
        CAPTURE(text);
        REQUIRE(quantity.has_value());
        CHECK(quantity->value == value);
        CHECK(quantity->unit == unit);
    }
}

TEST_CASE("The units of the project are known", "[base]") {
    for (const std::string& unit : everyUnit) {
        CAPTURE(unit);
        CHECK(knownUnit(unit));
    }
}

TEST_CASE("Misspelt, empty and foreign units are not known", "[base]") {
    for (const std::string unit :
         {"",      " ",         "hours",  "hr",     "day", "Kg",     "KG",       "gm",
          "l",     "mg/dl",     "IU/L",   "u/L",    "mcg", "µmol/L", "umol / L", "mg/",
          "/",     "//h",       "mg//dL", "mg..dL", ".h",  "kmin",   "mh",       "k%",
          "kfold", "mCel",      "kk",     "k",      "1m",  "10",     "10*0",     "10*123",
          "10*-3", "10**3",     "h2",     "L2",     "m4",  "m[Hg",   "{ratio",   "ratio}",
          "{a}b",  "mg/(kg.d)", "F",      "C",      "12",  "0"}) {
        CAPTURE(unit);
        CHECK_FALSE(knownUnit(unit));
    }
    CHECK_FALSE(knownUnit(std::string(100000, '/')));
}

TEST_CASE("Conversions give the factors of the UCUM tables", "[base]") {
    // Exact by definition of the metric prefixes and of UCUM's d, wk, mo_j, a_j; so compared
    // exactly.
    CHECK(factor("d", "h") == 24);
    CHECK(factor("h", "min") == 60);
    CHECK(factor("wk", "d") == 7);
    CHECK(factor("mo", "d") == 30.4375);
    CHECK(factor("y", "d") == 365.25);
    CHECK(factor("a", "mo") == 12);
    CHECK(factor("kg", "g") == 1000);
    CHECK(factor("ug", "mg") == 0.001);
    CHECK(factor("mg/dL", "g/L") == 0.01);
    CHECK(factor("g/dL", "g/L") == 10);
    CHECK(factor("10*3/uL", "10*9/L") == 1);
    CHECK(factor("10*6/uL", "10*12/L") == 1);
    CHECK(factor("fold", "%") == 100);
    CHECK(factor("%", "1") == 0.01);
    CHECK(factor("L/L", "%") == 100);
    CHECK(factor("%/d", "/h") == 1.0 / 2400);
    CHECK(factor("mL/min/kg", "L/kg/h") == 0.06);
    CHECK(factor("cm3", "mL") == 1);
    CHECK(factor("fL", "um3") == 1);
    CHECK(factor("g/kg", "mg/g") == 1);
    CHECK(factor("kU/L", "U/mL") == 1);
    CHECK(factor("Cel", "Cel") == 1);
}

TEST_CASE("Molar masses turn mass into amount", "[base]") {
    // Factors given by the UCUM library of the National Library of Medicine (ucum-lhc 7) for these
    // molar masses; 1e-4 is the rounding of the four digits noted.
    CHECK(factor("mg/dL", "umol/L", 113.12) == Approx(88.40169731258841).epsilon(1e-14));
    CHECK(100 * factor("mg/dL", "mmol/L", 180.156) == Approx(5.5507).epsilon(1e-4));
    CHECK(10 * factor("mg/dL", "mmol/L", 40.078) == Approx(2.4951).epsilon(1e-4));
    CHECK(factor("mg/dL", "umol/L", 584.66) == Approx(17.104).epsilon(1e-4));
    CHECK(factor("umol/L", "mg/dL", 113.12) == Approx(1 / 88.40169731258841).epsilon(1e-14));
    // "per kg" is plain mass: both sides carry it.
    CHECK(factor("mg/kg/d", "umol/kg/d", 100) == Approx(10).epsilon(1e-14));
    CHECK(factor("umol/kg/h", "mg/kg/d", 100) == Approx(2.4).epsilon(1e-14));
}

TEST_CASE("Units of different dimensions do not convert", "[base]") {
    CHECK_FALSE(conversion("mg/dL", "U/L"));
    CHECK_FALSE(conversion("mg/dL", "umol/L")); // no molar mass
    CHECK_FALSE(conversion("mg/dL", "umol/L", -5));
    CHECK_FALSE(conversion("mg/dL", "umol/L", std::nan("")));
    CHECK_FALSE(conversion("h", "kg"));
    CHECK_FALSE(conversion("h", "/h"));
    CHECK_FALSE(conversion("h", "mol", 100));
    CHECK_FALSE(conversion("Cel", "1"));
    CHECK_FALSE(conversion("m2", "m"));
    CHECK_FALSE(conversion("mm[Hg]", "mm"));
    CHECK_FALSE(conversion("%", "%/d"));
    CHECK_FALSE(conversion("U", "umol/min"));
    CHECK_FALSE(conversion("nothing", "h"));
    CHECK_FALSE(conversion("h", ""));
}

TEST_CASE("A conversion and its reverse cancel, and conversions chain", "[base]") {
    // Each factor is rounded a few times: 1e-15 is about five units in the last place.
    int pairs = 0;
    for (const std::string& a : everyUnit)
        for (const std::string& b : everyUnit) {
            const auto there = conversion(a, b, 113.12), back = conversion(b, a, 113.12);
            CAPTURE(a, b);
            REQUIRE(there.has_value() == back.has_value());
            if (!there) continue;
            ++pairs;
            CHECK(*there * *back == Approx(1).epsilon(1e-15));
            for (const std::string& c : everyUnit)
                if (const auto on = conversion(b, c), whole = conversion(a, c); on && whole)
                    if (const auto first = conversion(a, b))
                        CHECK(*first * *on == Approx(*whole).epsilon(1e-15));
        }
    CHECK(pairs > 300); // most units have several partners
    for (const std::string& a : everyUnit) CHECK(factor(a, a) == 1);
}

TEST_CASE("Units are shown in letters that people read", "[base]") {
    CHECK(shown("umol/L") == "µmol/L");
    CHECK(shown("ug/dL") == "µg/dL");
    CHECK(shown("Cel") == "°C");
    CHECK(shown("10*9/L") == "10⁹/L");
    CHECK(shown("10*12/L") == "10¹²/L");
    CHECK(shown("10*3/uL") == "10³/µL");
    CHECK(shown("mm[Hg]") == "mmHg");
    CHECK(shown("kg/m2") == "kg/m²");
    CHECK(shown("a") == "y");
    CHECK(shown("mg/kg/d") == "mg/kg/d");
    CHECK(shown("/min") == "/min");
    CHECK(shown("%") == "%");
    CHECK(shown("fold") == "fold");
    CHECK(shown("U/L") == "U/L");
    CHECK(shown("1").empty());
    CHECK(shown("{ratio}").empty());
    CHECK(shown("").empty());
}
