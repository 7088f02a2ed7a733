#include "hand_bench.h"
#include "lab/report.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <set>

using namespace cistern;
using body::Analyte;
using hand::creatininePerMg;
using lab::Bound;
using lab::Flag;
using lab::Units;

namespace {

const std::vector<std::string> chemistry{"chemistry"};

lab::Report measure(const lab::Bench& bench, const body::Snapshot& truth,
                    const std::vector<std::string>& tests, std::uint64_t number = 1,
                    const body::Individual& animal = hand::dog()) {
    return lab::measure(bench, animal, truth, hand::specimen(truth.hour), tests, number);
}

/// One analyte at a level, read without error.
lab::Result exact(lab::Bench& bench, Analyte analyte, double amount, const std::string& test) {
    hand::makeExact(hand::edit(bench, analyte));
    body::Snapshot truth = hand::healthyLevels();
    hand::level(truth, analyte) = amount;
    return *measure(bench, truth, {test}).find(analyte);
}

} // namespace

TEST_CASE("A flag is judged on the number as printed", "[lab]") {
    lab::Bench bench = hand::bench(); // creatinine 0.5 to 1.4 mg/dL, printed to 0.1
    const auto at = [&](double mg) {
        return exact(bench, Analyte::creatinine, mg * creatininePerMg, "kidney");
    };
    CHECK(printed(at(1.449), bench, Units::conventional) == "1.4");
    CHECK(at(1.449).flag == Flag::none);
    CHECK(printed(at(1.451), bench, Units::conventional) == "1.5");
    CHECK(at(1.451).flag == Flag::high);
    CHECK(at(0.451).flag == Flag::none);
    CHECK(at(0.449).flag == Flag::low);
    CHECK(printedInterval(at(1), bench, Units::conventional) == "0.5 - 1.4");
}

TEST_CASE("No result carries digits that are not printed", "[lab]") {
    lab::Bench bench = hand::bench();
    const lab::Result result = exact(bench, Analyte::creatinine, 100, "kidney");
    CHECK(printed(result, bench, Units::conventional) == "1.1");
    CHECK(result.value == Approx(1.1 * creatininePerMg).epsilon(1e-12));
    CHECK(printed(result, bench, Units::si) == "97");
}

TEST_CASE("Conventional and SI units agree", "[lab]") {
    // Molar mass arithmetic: 1.4 mg/dL creatinine = 124 umol/L, 5.0 = 442; urea nitrogen 28 mg/dL =
    // 10.0 mmol/L; bilirubin 1 mg/dL = 17.1 umol/L; glucose 180 mg/dL = 10.0 mmol/L.
    const lab::Bench bench = hand::bench();
    const auto both = [&](Analyte analyte, double amount) {
        return printed(amount, analyte, bench, Units::conventional) + " = " +
               printed(amount, analyte, bench, Units::si);
    };
    CHECK(both(Analyte::creatinine, 123.8) == "1.4 = 124");
    CHECK(both(Analyte::creatinine, 442) == "5.0 = 442");
    CHECK(both(Analyte::urea, 10) == "28 = 10.0");
    CHECK(both(Analyte::bilirubin, 17.1) == "1.0 = 17");
    CHECK(both(Analyte::glucose, 10) == "180 = 10.0");
    CHECK(both(Analyte::albumin, 37) == "3.7 = 37");
    CHECK(both(Analyte::ALT, 412.4) == "412 = 412");
    CHECK(both(Analyte::USG, 1.0304) == "1.030 = 1.030");
}

TEST_CASE("Below the range a result prints <, far above it >", "[lab]") {
    lab::Bench bench = hand::bench(); // enzymes from 3 to 500 U/L, diluted 1:10
    const lab::Result low = exact(bench, Analyte::ALT, 1, "liver enzymes");
    CHECK(printed(low, bench, Units::conventional) == "< 3");
    CHECK(low.flag == Flag::low); // all below 3 is below 18
    CHECK(low.notes == std::vector<std::string>{"below the measuring range"});
    CHECK(printedHalfWidth(low, bench, Units::conventional).empty());

    const lab::Result rerun = exact(bench, Analyte::ALT, 2000, "liver enzymes");
    CHECK(printed(rerun, bench, Units::si) == "2000");
    CHECK(rerun.notes == std::vector<std::string>{"diluted 1:10 and run again"});
    CHECK(rerun.flag == Flag::high);

    const lab::Result high = exact(bench, Analyte::ALT, 7000, "liver enzymes");
    CHECK(printed(high, bench, Units::conventional) == "> 5000");
    CHECK(high.bound == Bound::above);
    CHECK(high.flag == Flag::high);
    CHECK(high.notes ==
          std::vector<std::string>{"above the measuring range even when diluted 1:10"});
}

TEST_CASE("A limit inside the interval raises no flag", "[lab]") {
    lab::Bench bench = hand::bench(); // bile acids 0 to 10 umol/L, read from 1
    CHECK(exact(bench, Analyte::bileAcids, 0.2, "bile acids").flag == Flag::none);
}

TEST_CASE("A printed limit never says more than was seen", "[lab]") {
    lab::Bench bench = hand::bench(); // bilirubin from 1 umol/L = 0.058 mg/dL, printed to 0.1
    const lab::Result low = exact(bench, Analyte::bilirubin, 0.5, "chemistry");
    CHECK(printed(low, bench, Units::conventional) == "< 0.1");
    CHECK(printed(low, bench, Units::si) == "< 2"); // 0.1 mg/dL is 1.7 umol/L
}

TEST_CASE("Urine gravity prints to the third place", "[lab]") {
    lab::Bench bench = hand::bench();
    const lab::Result result = exact(bench, Analyte::USG, 1.03, "urine");
    CHECK(printed(result, bench, Units::conventional) == "1.030");
    CHECK(result.flag == Flag::none); // no interval is published here
    CHECK(printedInterval(result, bench, Units::conventional).empty());
    CHECK(printed(exact(bench, Analyte::USG, 1.08, "urine"), bench, Units::si) == "> 1.060");
}

TEST_CASE("Doubt covers the specimen's content nineteen times in twenty", "[lab]") {
    const lab::Bench bench = hand::bench();
    const double amount = GENERATE(200.0, 3000.0); // as it is, and diluted
    body::Snapshot truth = hand::healthyLevels();
    hand::level(truth, Analyte::ALT) = amount;
    constexpr int n = 4000;
    int inside = 0;
    for (int i = 0; i < n; ++i) {
        const lab::Report report =
            measure(bench, truth, {"liver enzymes"}, static_cast<std::uint64_t>(i));
        const lab::Result& result = *report.find(Analyte::ALT);
        inside += std::abs(result.value - amount) <= result.halfWidth;
    }
    // Four standard errors of a share of 0.95 among n; rounding to 1 U/L adds below 0.003 where
    // the standard deviation is 3.8 U/L.
    const double tolerance = 4 * std::sqrt(0.95 * 0.05 / n) + 0.003;
    CHECK(static_cast<double>(inside) / n == Approx(0.95).margin(tolerance));
}

TEST_CASE("Doubt prints finer than the step where it is small", "[lab]") {
    const lab::Bench bench = hand::bench();
    const lab::Report report = measure(bench, hand::healthyLevels(), {"kidney", "liver enzymes"});
    const lab::Result& creatinine = *report.find(Analyte::creatinine);
    // 1.96 * sqrt(2^2 + (0.015 * 88.4)^2 + (0.01 * 88.4)^2) = 5.0 umol/L = 0.057 mg/dL
    CHECK(printedHalfWidth(creatinine, bench, Units::conventional) == "0.06");
    lab::Result large = *report.find(Analyte::ALT);
    large.halfWidth = 13.4;
    CHECK(printedHalfWidth(large, bench, Units::conventional) == "13");
}

TEST_CASE("Globulin is protein less albumin as measured", "[lab]") {
    const lab::Bench bench = hand::bench();
    for (std::uint64_t number = 0; number < 20; ++number) {
        const lab::Report report = measure(bench, hand::healthyLevels(), chemistry, number);
        const lab::Result& globulin = *report.find(Analyte::globulin);
        const double difference =
            report.find(Analyte::protein)->value - report.find(Analyte::albumin)->value;
        CHECK(globulin.value == Approx(difference).epsilon(1e-9)); // all three to 0.1 g/dL
        CHECK(globulin.notes.back() == "calculated as protein less albumin");
        const lab::Report alone = measure(bench, hand::healthyLevels(), {"proteins"}, number);
        CHECK(alone.results.size() == 1);
        CHECK(alone.find(Analyte::globulin)->value == globulin.value);
    }
}

TEST_CASE("Globulin is not calculated from what could not be read", "[lab]") {
    const lab::Bench bench = hand::bench();
    body::Snapshot truth = hand::healthyLevels();
    hand::level(truth, Analyte::albumin) = 3; // read from 10 g/L
    const lab::Report report = measure(bench, truth, {"proteins"});
    CHECK(report.find(Analyte::globulin) == nullptr);
    REQUIRE(report.notRun.size() == 1);
    CHECK(report.notRun.front() ==
          "Globulin was not calculated: albumin lies outside the measuring range.");
}

TEST_CASE("What can only be measured is not calculated", "[lab]") {
    lab::Bench bench = hand::bench();
    hand::edit(bench, Analyte::creatinine).calculated = true;
    CHECK_THROWS_AS(measure(bench, hand::healthyLevels(), {"kidney"}), std::invalid_argument);
}

TEST_CASE("The same draw gives the same numbers whatever else is asked for", "[lab]") {
    const lab::Bench bench = hand::bench();
    const body::Snapshot truth = hand::healthyLevels();
    const lab::Report all = measure(bench, truth, {"urine", "chemistry", "bile acids"});
    const lab::Report few = measure(bench, truth, {"kidney", "liver enzymes"});
    for (const lab::Result& result : few.results) {
        CHECK(all.find(result.analyte)->value == result.value);
        CHECK(all.find(result.analyte)->flag == result.flag);
    }
    CHECK(few.specimen.seen.hemolysis == all.specimen.seen.hemolysis);
}

TEST_CASE("A tube run again and again gives different numbers", "[lab]") {
    const lab::Bench bench = hand::bench();
    body::Snapshot truth = hand::healthyLevels();
    hand::level(truth, Analyte::ALT) = 400;
    std::set<double> seen;
    for (std::uint64_t number = 0; number < 10; ++number)
        seen.insert(measure(bench, truth, chemistry, number).find(Analyte::ALT)->value);
    CHECK(seen.size() > 5); // the standard deviation is 7 U/L, so ties are few
    CHECK(*seen.rbegin() - *seen.begin() < 8 * lab::spread(bench.method(Analyte::ALT), 400));
    const lab::Report once = measure(bench, truth, chemistry, 3);
    CHECK(once.find(Analyte::ALT)->value ==
          measure(bench, truth, chemistry, 3).find(Analyte::ALT)->value);
}

TEST_CASE("An animal's wobble belongs to the hour, not to the run", "[lab]") {
    lab::Bench bench = hand::bench();
    hand::makeExact(hand::edit(bench, Analyte::ALT));
    body::Individual animal = hand::dog();
    animal.own.within[static_cast<std::size_t>(Analyte::ALT)] = 0.15;
    const auto at = [&](double hour, std::uint64_t number) {
        body::Snapshot truth = hand::healthyLevels(hour);
        hand::level(truth, Analyte::ALT) = 400;
        return measure(bench, truth, {"liver enzymes"}, number, animal).find(Analyte::ALT)->value;
    };
    CHECK(at(0, 1) == at(0, 2));
    CHECK(at(0, 1) != at(24, 1));

    double sum = 0, squares = 0;
    constexpr int n = 4000;
    for (int day = 0; day < n; ++day) {
        const double x = std::log(at(24.0 * day, 1) / 400);
        sum += x;
        squares += x * x;
    }
    // Log-normal: sd of the logarithm is sqrt(ln(1 + cv^2)). Four standard errors, and 0.013 for
    // wobbles being held within three standard deviations.
    const double expected = std::sqrt(std::log1p(0.15 * 0.15));
    const double seen = std::sqrt(squares / n - std::pow(sum / n, 2));
    CHECK(seen / expected == Approx(1).margin(4 / std::sqrt(2.0 * n) + 0.013));
}

TEST_CASE("Results stand in panel order, each once", "[lab]") {
    const lab::Bench bench = hand::bench();
    const auto panel = bench.analytes({"kidney", "liver enzymes", "chemistry"});
    CHECK(panel.size() == 10);
    CHECK(panel.front() == Analyte::ALT);
    CHECK(panel.back() == Analyte::creatinine);
    CHECK(bench.analytes({}).empty());
}

TEST_CASE("A test that is not run says so, and an unknown one is refused", "[lab]") {
    const lab::Bench bench = hand::bench();
    const body::Snapshot truth = hand::healthyLevels();
    const lab::Report report = measure(bench, truth, {"kidney", "blood count"});
    CHECK(report.results.size() == 1);
    CHECK(report.notRun ==
          std::vector<std::string>{"Blood counts are not run in this laboratory."});
    CHECK_THROWS_AS(measure(bench, truth, {"chemstry"}), std::invalid_argument);
    CHECK_THROWS_WITH(measure(bench, truth, {"chemstry"}),
                      Catch::Contains("chemstry") && Catch::Contains("did you mean \"chemistry\""));
}

TEST_CASE("A level that is no amount is refused", "[lab]") {
    const lab::Bench bench = hand::bench();
    const double bad = GENERATE(-1.0, std::numeric_limits<double>::quiet_NaN(),
                                std::numeric_limits<double>::infinity());
    body::Snapshot truth = hand::healthyLevels();
    hand::level(truth, Analyte::ALT) = bad;
    CHECK_THROWS_WITH(measure(bench, truth, chemistry), Catch::Contains("ALT"));
    CHECK_THROWS_AS(measure(bench, hand::healthyLevels(), chemistry, 1u << 26),
                    std::invalid_argument);
}

TEST_CASE("Intervals follow species and age", "[lab]") {
    lab::Bench bench = hand::bench();
    bench.intervals.insert(bench.intervals.begin(),
                           {body::Kind::dog, Analyte::ALP, 0, 8766, 20, 300, "young, by hand"});
    body::Signalment who = hand::dog().who;
    CHECK(bench.interval(who, 0, Analyte::ALP)->high == 90);
    who.age = 8760;
    CHECK(bench.interval(who, 0, Analyte::ALP)->high == 300);
    CHECK(bench.interval(who, 6, Analyte::ALP)->high == 90); // a year old six hours later
    who.kind = body::Kind::cat;
    CHECK(bench.interval(who, 0, Analyte::ALP) == nullptr);
}

TEST_CASE("A clean specimen looks clean, and its yellow follows bilirubin", "[lab]") {
    const lab::Bench bench = hand::bench();
    body::Snapshot truth = hand::healthyLevels();
    for (std::uint64_t number = 0; number < 200; ++number) {
        const lab::Specimen seen = measure(bench, truth, {"kidney"}, number).specimen;
        CHECK(seen.seen.hemolysis > 0);
        CHECK(hemolysisWord(seen) == "clear");
        CHECK(lipemiaWord(seen) == "clear");
        CHECK(seen.seen.icterus == Approx(3));
    }
    CHECK(measure(bench, truth, {"kidney"}).warnings.empty());
    hand::level(truth, Analyte::bilirubin) = 120;
    const lab::Report yellow = measure(bench, truth, {"kidney"});
    CHECK(icterusWord(yellow.specimen) == "yellow");
    CHECK(yellow.warnings ==
          std::vector<std::string>{"The serum is yellow to the eye: icterus index 120 µmol/L."});
}

TEST_CASE("Serum full of fat is hazy to the eye", "[lab]") {
    const lab::Bench bench = hand::bench();
    body::Snapshot truth = hand::healthyLevels();
    hand::level(truth, Analyte::triglycerides) = 6;
    const lab::Report milky = measure(bench, truth, {"kidney"});
    CHECK(lipemiaWord(milky.specimen) == "hazy");
    CHECK(milky.warnings ==
          std::vector<std::string>{"The serum is hazy to the eye: lipemia index 6.0 mmol/L."});
}

TEST_CASE("A fed animal's draw warns where food matters", "[lab]") {
    const lab::Bench bench = hand::bench();
    lab::Specimen fed = hand::specimen();
    fed.handling.fasted = 3;
    const auto warnings = [&](const char* test) {
        return lab::measure(bench, hand::dog(), hand::healthyLevels(), fed, {test}, 1).warnings;
    };
    CHECK(warnings("bile acids").size() == 1);
    CHECK(warnings("kidney").empty());
}

TEST_CASE("Without a method an analyte cannot be printed or measured", "[lab]") {
    lab::Bench bench = hand::bench();
    bench.tests.push_back({"muscle", {Analyte::AST}, ""});
    CHECK_THROWS_WITH(bench.method(Analyte::AST), Catch::Contains("AST"));
    CHECK_THROWS_AS(measure(bench, hand::healthyLevels(), {"muscle"}), std::out_of_range);
}
