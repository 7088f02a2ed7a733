// The case of a machine that has drifted prints the pattern that its own text speaks of; its seed
// was chosen for that.
#include "printed_case.h"

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;
using test::Set;

namespace {

/// Creatinine of the case's draw [mg/dL] on a machine without fault.
double rerun(const std::string& name) {
    const auto& knowledge = test::assets().knowledge;
    lesson::Case one =
        scenario::readCase(base::Disk(), CISTERN_SOURCE "/scenarios/" + name + ".yaml", knowledge);
    one.machine = {};
    const body::Individual animal = lesson::patient(one, knowledge);
    const lab::Report report = lesson::report(
        one, knowledge, animal, lesson::atDraws(one, knowledge)[0], 0, one.draws[0].tests);
    return report.find(Analyte::creatinine)->value *
           knowledge.bench.method(Analyte::creatinine).conventional.factor;
}

} // namespace

TEST_CASE("the fourth one today: one flag that nothing goes with, and a chart that tells why",
          "[scenario]") {
    const Printed p = print("the_fourth_one_today");
    CHECK(p.high(0) == Set{Analyte::creatinine});
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::creatinine) > 2.1); // mg/dL, the limit of grown cats
    CHECK(p.value(0, Analyte::USG) > 1.045);      // strong urine
    CHECK(p.truth[0].work(Tissue::kidney) > 0.98);
    CHECK(rerun("the_fourth_one_today") < 2.1);

    REQUIRE(p.reports[0].controls);
    const lab::ControlState& controls = *p.reports[0].controls;
    REQUIRE(controls.notes.size() == 1);
    const lab::ControlNote& note = controls.notes[0];
    CHECK(note.analyte == Analyte::creatinine);
    CHECK(note.broken.has(lab::Rule::fourOne));
    CHECK(note.side == 1);
    CHECK(note.oneSided >= 6); // runs that the fault has lasted
    CHECK(controls.warned.empty());
    CHECK(controls.inControl > 15);
}
