// The case of a machine that has drifted prints the pattern that its own text speaks of; its seed
// was chosen for that.
#include "printed_case.h"

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;
using test::Set;

TEST_CASE("the fourth one today: one flag that nothing goes with, and a chart that tells why",
          "[scenario]") {
    const Printed p = print("the_fourth_one_today");
    CHECK(p.high(0) == Set{Analyte::creatinine});
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::creatinine) > 2.1); // mg/dL, the limit of grown cats
    CHECK(p.value(0, Analyte::USG) > 1.045);      // strong urine
    CHECK(p.truth[0].work(Tissue::kidney) > 0.98);
    lesson::Case mended = test::shipped("the_fourth_one_today");
    mended.machine = {};
    CHECK(print(mended).value(0, Analyte::creatinine) < 2.1); // mg/dL

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
