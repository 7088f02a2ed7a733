// The cases of needle, tube, wait and spin print the pattern that their own texts speak of; each
// seed was chosen for that. In all of them the animal is well.
#include "lab/specimen/handling_words.h"
#include "printed_case.h"

#include <cmath>

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;
using test::Set;
using test::within;

namespace {

bool warns(const lab::Report& report, const std::string& of) {
    return std::any_of(report.warnings.begin(), report.warnings.end(),
                       [&](const auto& line) { return line.find(of) != std::string::npos; });
}

bool clean(const Printed& p, std::size_t draw) {
    return p.high(draw).empty() && p.low(draw).empty();
}

} // namespace

TEST_CASE("thirty-eight: few platelets by the machine, clumps on the film, a full house an hour on",
          "[scenario]") {
    const Printed p = print("thirty_eight");
    CHECK(within(p.high(0), {Analyte::WBC, Analyte::lymphocytes})); // clumps are taken for them
    CHECK(p.low(0) == Set{Analyte::platelets});
    CHECK(p.value(0, Analyte::platelets) == Approx(38)); // 10^3/uL, of 200 to 700: its title
    CHECK(warns(p.reports[0], "look at the film"));
    CHECK(warns(p.reports[0], "feathered edge"));
    CHECK(clean(p, 1));
    CHECK_FALSE(warns(p.reports[1], "clumps"));
    CHECK(p.truth[0].work(Tissue::platelets) > 0.98);
}

TEST_CASE("a thimble in a big tube: small cells that are overfull, and protein that reads high",
          "[scenario]") {
    const Printed p = print("a_thimble_in_a_big_tube");
    CHECK(p.low(0) == Set{Analyte::PCV, Analyte::MCV});
    CHECK(p.high(0) == Set{Analyte::MCHC, Analyte::TP});
    CHECK(p.value(0, Analyte::MCHC) > 37); // g/dL: common practice, more than a cell can hold
    CHECK(lab::shownByTubes(p.reports[0].specimen.handling) ==
          std::vector<std::string>{"EDTA tube 10 % full"});
    CHECK(p.truth[0].work(Tissue::redCells) > 0.98);
}

TEST_CASE("laid on its side: platelets and white cells far down, red cells barely changed",
          "[scenario]") {
    const Printed p = print("laid_on_its_side");
    CHECK(p.high(0).empty());
    CHECK(within({Analyte::platelets, Analyte::WBC, Analyte::neutrophils}, p.low(0)));
    CHECK(within(p.low(0), {Analyte::platelets, Analyte::WBC, Analyte::neutrophils,
                            Analyte::lymphocytes, Analyte::monocytes}));
    CHECK(p.value(0, Analyte::platelets) < 75); // 10^3/uL, of 211 to 621
    CHECK(p.value(0, Analyte::WBC) < 4);        // 10^3/uL, of 6 to 17
    CHECK(warns(p.reports[0], "thread of clot"));
    CHECK(p.truth[0].work(Tissue::whiteCells) > 0.98);
    CHECK(p.truth[0].work(Tissue::platelets) > 0.98);
}

TEST_CASE("impatience: everything is low by the same share, and the rerun disagrees with itself",
          "[scenario]") {
    const Printed p = print("impatience");
    CHECK(within({Analyte::albumin, Analyte::urea, Analyte::cholesterol, Analyte::Ca, Analyte::Na,
                  Analyte::Cl},
                 p.low(0)));
    CHECK((p.high(0).empty() && p.high(1).empty()));
    CHECK(warns(p.reports[0], "short sample"));
    CHECK(warns(p.reports[1], "short sample"));
    // One spoon for all: between the two runs of one tube every result moves by the same share,
    // within what the analyzer adds to each (a few percent, the anion gap and enzymes more).
    const double all = p.value(1, Analyte::Na) / p.value(0, Analyte::Na);
    CHECK(std::abs(all - 1) > 0.05);
    for (Analyte one : {Analyte::albumin, Analyte::Ca, Analyte::Cl, Analyte::cholesterol})
        CHECK(p.value(1, one) / p.value(0, one) == Approx(all).epsilon(0.06));
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("an hour on the clot: glucose alone is low, and the tube spun on time is inside",
          "[scenario]") {
    const Printed p = print("an_hour_on_the_clot");
    CHECK(p.high(0).empty());
    CHECK(p.low(0) == Set{Analyte::glucose});
    CHECK(clean(p, 1));
    CHECK(p.value(1, Analyte::glucose) > 1.05 * p.value(0, Analyte::glucose));
    CHECK(lab::shownByTubes(p.reports[0].specimen.handling) ==
          std::vector<std::string>{"serum tube 95 min on the clot"});
    CHECK(p.reports[1].warnings.empty());
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("the topped-up tube: four results, and a dog that is well", "[scenario]") {
    const Printed p = print("the_topped_up_tube");
    CHECK(p.high(0) == Set{Analyte::K});
    CHECK(p.low(0) == Set{Analyte::Ca, Analyte::Mg, Analyte::ALP});
    CHECK(p.value(0, Analyte::K) > 8.5);  // mmol/L: stops hearts
    CHECK(p.value(0, Analyte::Ca) < 6);   // mg/dL: cramps muscles
    CHECK(p.reports[0].warnings.empty()); // nobody who was not there can see it
    CHECK(p.truth[0].work(Tissue::kidney) > 0.98);
    CHECK(p.truth[0].work(Tissue::adrenalCortex) > 0.98);
}

TEST_CASE("pink serum: the same spilled cells raise potassium only in a dog that keeps it in them",
          "[scenario]") {
    const Printed bryony = print("pink_serum_bryony"), basalt = print("pink_serum_basalt");
    CHECK(bryony.high(0) == Set{Analyte::AST, Analyte::LDH});
    CHECK(basalt.high(0) == Set{Analyte::AST, Analyte::LDH, Analyte::K});
    CHECK(basalt.value(0, Analyte::K) > 6.2); // mmol/L, of 4.1 to 5.4
    for (const Printed& p : {bryony, basalt}) {
        CHECK(p.low(0).empty());
        CHECK(clean(p, 1));
        CHECK(hemolysisWord(p.reports[0].specimen) == "red");
        CHECK(hemolysisWord(p.reports[1].specimen) == "clear");
        CHECK(warns(p.reports[0], "red to the eye"));
        CHECK(p.truth[0].work(Tissue::redCells) > 0.98);
    }
    CHECK(std::abs(bryony.value(0, Analyte::K) - bryony.value(1, Analyte::K)) < 0.5); // mmol/L
}

TEST_CASE("after breakfast: milky serum with its fat and nothing else, clear ten hours on",
          "[scenario]") {
    const Printed p = print("after_breakfast");
    CHECK(p.high(0) == Set{Analyte::triglycerides});
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::triglycerides) > 3 * 102); // mg/dL: three times the limit
    CHECK(lipemiaWord(p.reports[0].specimen) == "hazy");
    CHECK(clean(p, 1));
    CHECK(lipemiaWord(p.reports[1].specimen) == "clear");
    CHECK(p.truth[0].work(Tissue::pancreas) > 0.98);
}

TEST_CASE("too much to see: ALT reads low because it is high, and only the check finds it",
          "[scenario]") {
    const Printed p = print("too_much_to_see");
    CHECK(within({Analyte::ALT}, p.low(0)));
    CHECK(p.high(0).count(Analyte::AST) == 0);
    CHECK(within({Analyte::GLDH, Analyte::SDH}, p.high(0)));
    CHECK(p.truth[0].level(Analyte::ALT) > 3000); // U/L
    CHECK(p.truth[0].work(Tissue::liver) < 0.65);

    const lab::Trace& trace = p.reports[0].find(Analyte::ALT)->trace;
    REQUIRE(trace.absorbance.size() > 10);
    CHECK(trace.absorbance.front() > 0.9F); // the indicator is there,
    CHECK(trace.absorbance.back() < 0.1F);  // and used up
    for (std::size_t i = 0; i < trace.seconds.size(); ++i)
        if (static_cast<double>(trace.seconds[i]) >= trace.from) CHECK(trace.absorbance[i] < 0.1F);

    lesson::Case checked = test::shipped("too_much_to_see");
    checked.machine.linearityCheck = true;
    const Printed q = print(checked);
    CHECK(q.value(0, Analyte::ALT) == Approx(p.truth[0].level(Analyte::ALT)).epsilon(0.3));
    CHECK(q.high(0).count(Analyte::AST) == 1);
}
