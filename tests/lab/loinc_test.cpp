#include "lab/loinc.h"

#include <catch2/catch.hpp>

using namespace cistern;

TEST_CASE("A LOINC code is digits and the digit that checks them", "[lab]") {
    CHECK(lab::isLoinc("12345-5")); // worked example of the LOINC Users' Guide (from memory)
    CHECK(lab::isLoinc("2345-7"));  // glucose in serum, as published value sets have it
    for (const char* wrong :
         {"12345-6", "21345-5", "2345", "2345-", "-7", "2345-77", "23a5-7", "2345-x", "", "-"})
        CHECK_FALSE(lab::isLoinc(wrong));
}
