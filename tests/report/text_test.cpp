#include "approved.h"
#include "base/text.h"
#include "report/text.h"
#include "sample.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace cistern;
using lab::Units;

namespace {

std::string text(const std::vector<lab::Report>& reports, Units units = Units::conventional,
                 report::Draws layout = report::Draws::together) {
    return report::laboratoryReport(sample::bramble(), reports, hand::bench(), sample::within(),
                                    units, layout);
}

std::vector<lab::Report> fiveDraws() {
    return {sample::draw(1, -960, 1, 37, 3), sample::draw(2, -24, 9, 27, 12),
            sample::draw(3, 0, 300, 26, 40), sample::draw(4, 36, 60, 25, 61),
            sample::draw(5, 168, 3, 24, 0.3)};
}

} // namespace

TEST_CASE("The report of one draw reads as approved", "[report]") {
    checkApproved("one_draw.txt", text({sample::draw(1, 0, 40, 26, 41)}));
    checkApproved("one_draw_si.txt", text({sample::draw(1, 0, 40, 26, 41)}, Units::si));
}

TEST_CASE("Draws side by side and one after another read as approved", "[report]") {
    checkApproved("five_draws.txt", text(fiveDraws()));
    checkApproved("two_draws_apart.txt",
                  text({sample::draw(1, 0, 1, 37, 3), sample::draw(2, 24, 9, 36, 4)},
                       Units::conventional, report::Draws::apart));
}

TEST_CASE("A report keeps to eighty columns and carries the caution", "[report]") {
    const auto layout = GENERATE(report::Draws::together, report::Draws::apart);
    const auto units = GENERATE(Units::conventional, Units::si);
    const std::string page = text(fiveDraws(), units, layout);
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(base::width(line) <= 80);
        CHECK((line.empty() || line.back() != ' '));
    }
    const auto caution = base::wrapped(report::caution, 80);
    for (const std::string& line : caution) CHECK(page.find(line) != std::string::npos);
}

TEST_CASE("A patient without draws gets a report without tables", "[report]") {
    const std::string page = text({});
    CHECK(page.find("Bramble, dog, spayed female, 9 y, 18 kg") != std::string::npos);
    CHECK(page.find("test") == std::string::npos);
}

TEST_CASE("Ages and weights are told as people tell them", "[report]") {
    body::Signalment who;
    who.kind = body::Kind::cat;
    who.sex = body::Sex::neuteredMale;
    who.weight = 1.24;
    who.age = 8 * 7 * 24;
    CHECK(report::signalment(who) == "cat, neutered male, 8 wk, 1.2 kg");
    who.age = 8766; // a year of 365.25 days
    CHECK(report::signalment(who) == "cat, neutered male, 12 mo, 1.2 kg");
    who.age = 2.5 * 8766;
    who.weight = 4;
    CHECK(report::signalment(who) == "cat, neutered male, 2.5 y, 4.0 kg");
    who.age = 12 * 8766;
    who.weight = 12.4;
    CHECK(report::signalment(who) == "cat, neutered male, 12 y, 12 kg");
}

TEST_CASE("Hours are told in days where they are many", "[report]") {
    CHECK(report::shownTime(0) == "0 h");
    CHECK(report::shownTime(-36) == "-36 h");
    CHECK(report::shownTime(60) == "60 h (2.5 d)");
    CHECK(report::shownTime(-960) == "-960 h (-40 d)");
}
