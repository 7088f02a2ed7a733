#include "approved.h"
#include "base/text.h"
#include "report/sources.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace cistern;

namespace {

std::string text() {
    return report::sourcesText(
        {{"dog pools.ALT.half-life", "58 h", "45 h to 60 h", "contested", "fisher",
          "Reported between two and three days; the middle of the older series is taken."},
         {"dog kidney.filtration", "0.21 L/kg/h", "", "assumed", "own", ""},
         {"insult corticosteroid effect.a parameter with a name longer than its column allows",
          "0.5 mg/kg/d", "", "fitted", "own", "Fitted to the rise of ALP in treated dogs."}},
        {{"fisher", "Fisher A. An invented paper about the disappearance of enzymes from the "
                    "plasma of dogs. Journal of Locks 1990;1:1-9."},
         {"own", "Chosen by the authors of this program."},
         {"unused", "Nobody 2000."}});
}

} // namespace

TEST_CASE("Parameters with their sources read as approved", "[report]") {
    checkApproved("sources.txt", text());
}

TEST_CASE("Sources keep to eighty columns and leave out what is not cited", "[report]") {
    std::istringstream lines(text());
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(base::width(line) <= 80);
    }
    CHECK(text().find("Nobody") == std::string::npos);
}
