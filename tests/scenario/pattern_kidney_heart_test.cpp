// The cases of kidney, water, glands, heart and muscle print the pattern that their own texts speak
// of; each seed was chosen for that.
#include "printed_case.h"

#include <cmath>

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;
using test::Set;
using test::within;

TEST_CASE("the new flat: a choked liver, ALP without GGT, and cells that are at work",
          "[scenario]") {
    const Printed p = print("the_new_flat");
    CHECK(p.high(0) ==
          Set{Analyte::ALT, Analyte::AST, Analyte::ALP, Analyte::SDH, Analyte::bilirubin});
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::ALP) > 3 * 49);    // U/L: three times the limit
    CHECK(p.value(0, Analyte::bilirubin) > 2.5); // mg/dL: seen in the gums
    CHECK(p.truth[0].work(Tissue::liver) > 0.95);
}

TEST_CASE("downstream: the liver leaks, the heart is lost, and troponin is silent", "[scenario]") {
    const Printed p = print("downstream");
    CHECK(p.high(0) == Set{Analyte::ALT, Analyte::AST, Analyte::SDH});
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::ALT) > 1.8 * 100); // U/L: nearly twice the limit
    CHECK(p.value(0, Analyte::ALT) < 2 * 100);
    CHECK(p.value(0, Analyte::cTnI) < 0.03); // ng/mL, of 0.07
    CHECK(p.truth[0].work(Tissue::heart) < 0.75);
    CHECK(p.truth[0].work(Tissue::liver) > 0.95);
}

TEST_CASE("clipped by a cart: troponin thirty times its limit and a heart that is whole",
          "[scenario]") {
    const Printed p = print("clipped_by_a_cart");
    CHECK(p.high(0) == Set{Analyte::AST, Analyte::CK, Analyte::LDH, Analyte::cTnI});
    CHECK(p.high(1) == Set{Analyte::AST, Analyte::CK, Analyte::cTnI});
    CHECK((p.low(0).empty() && p.low(1).empty()));
    CHECK(p.value(0, Analyte::cTnI) == Approx(30 * 0.07).epsilon(0.1)); // "thirty" is a round word
    CHECK(p.value(1, Analyte::cTnI) < 0.5 * p.value(0, Analyte::cTnI));
    CHECK(std::abs(p.value(0, Analyte::PCV) - p.value(1, Analyte::PCV)) <= 2); // %: steady
    CHECK(p.truth[0].work(Tissue::heart) > 0.99);
    CHECK(p.truth[0].leak(Tissue::heart) > 30);
}

TEST_CASE("six days after the fence: CK has drained, AST and ALT still tell, the liver is silent",
          "[scenario]") {
    const Printed p = print("six_days_after_the_fence");
    CHECK(p.high(0) == Set{Analyte::ALT, Analyte::AST});
    CHECK(p.high(1) == Set{Analyte::AST});
    CHECK((p.low(0).empty() && p.low(1).empty()));
    CHECK(p.value(1, Analyte::AST) < 0.35 * p.value(0, Analyte::AST)); // two thirds down
    CHECK(p.truth[0].work(Tissue::skeletalMuscle) < 0.94);
    CHECK(p.truth[0].leak(Tissue::liver) < 1.01);
    CHECK(p.truth[0].work(Tissue::liver) > 0.99);
}

TEST_CASE("two days of the runs: high creatinine with strong urine, and all home with water",
          "[scenario]") {
    const Printed p = print("two_days_of_the_runs");
    CHECK(within({Analyte::creatinine, Analyte::urea, Analyte::USG, Analyte::protein, Analyte::TP},
                 p.high(0)));
    CHECK(p.low(0).empty());
    CHECK((p.high(1).empty() && p.low(1).empty()));
    CHECK(p.value(0, Analyte::PCV) > 1.1 * p.value(1, Analyte::PCV));
    CHECK(p.value(0, Analyte::TP) > 1.1 * p.value(1, Analyte::TP));
    CHECK(p.truth[0].work(Tissue::kidney) < 0.6);
    CHECK(p.truth[1].work(Tissue::kidney) > 0.98);
}

TEST_CASE("nothing in the tray: no enzyme, hardly a filter, and both numbers home when it runs",
          "[scenario]") {
    const Printed p = print("nothing_in_the_tray");
    CHECK(within({Analyte::creatinine, Analyte::urea, Analyte::K, Analyte::P}, p.high(0)));
    CHECK(p.low(0) == Set{Analyte::Ca});
    for (Analyte leaking : {Analyte::ALT, Analyte::AST, Analyte::ALP, Analyte::GGT, Analyte::GLDH,
                            Analyte::SDH, Analyte::CK, Analyte::LDH})
        CHECK(p.high(0).count(leaking) == 0);
    CHECK(p.value(0, Analyte::creatinine) > 3 * 2.1); // mg/dL: three times the limit
    CHECK(p.value(0, Analyte::K) > 7.5);              // mmol/L
    CHECK((p.high(1).empty() && p.low(1).empty()));
    CHECK(p.truth[0].work(Tissue::kidney) < 0.05);
    CHECK(p.truth[1].work(Tissue::kidney) > 0.98);
}

TEST_CASE("worse after kennels: sodium low, potassium high, no stress on the film, no cortisol",
          "[scenario]") {
    const Printed p = print("worse_after_kennels");
    CHECK(within({Analyte::creatinine, Analyte::urea, Analyte::K, Analyte::Ca}, p.high(0)));
    CHECK(within({Analyte::Na, Analyte::cortisol}, p.low(0)));
    CHECK(p.low(1).count(Analyte::cortisol) == 1);
    CHECK(p.value(0, Analyte::Na) / p.value(0, Analyte::K) < 24); // common practice: under 27
    CHECK(p.value(0, Analyte::lymphocytes) > 2);                  // 10^3/uL, of 1.0 to 4.8
    CHECK(p.value(0, Analyte::eosinophils) > 0.4);                // 10^3/uL, of 0.0 to 1.3
    CHECK(p.value(0, Analyte::USG) < 1.045);                      // the limit, in a dog this dry
    CHECK(p.high(1).count(Analyte::creatinine) == 0);
    CHECK(p.value(1, Analyte::K) < p.value(0, Analyte::K));
    CHECK(p.truth[0].work(Tissue::adrenalCortex) < 0.05);
}

TEST_CASE("faster than she looks: the kidney's numbers rise when the gland slows, not its loss",
          "[scenario]") {
    const Printed p = print("faster_than_she_looks");
    const Set kidney{Analyte::creatinine, Analyte::urea, Analyte::SDMA};
    CHECK(within({Analyte::ALT, Analyte::T4}, p.high(0)));
    for (Analyte one : kidney) CHECK(p.high(0).count(one) == 0);
    CHECK(within(kidney, p.high(1)));
    CHECK(p.high(1).count(Analyte::ALT) + p.high(1).count(Analyte::T4) == 0);
    CHECK(p.value(0, Analyte::USG) < 1.022);
    CHECK(std::abs(p.truth[0].work(Tissue::kidney) - p.truth[1].work(Tissue::kidney)) < 0.02);
    CHECK(p.truth[0].work(Tissue::kidney) < 0.45);
    CHECK(p.truth[0].work(Tissue::liver) > 0.99);
}

TEST_CASE("pale and not replacing: a third of the red cells missing and reticulocytes as ever",
          "[scenario]") {
    const Printed p = print("pale_and_not_replacing");
    CHECK(within({Analyte::creatinine, Analyte::urea}, p.high(0)));
    CHECK(p.low(0) == Set{Analyte::USG, Analyte::Hb, Analyte::Hct});
    CHECK(p.value(0, Analyte::creatinine) > 2 * 2.1); // mg/dL: twice the limit
    CHECK(p.value(0, Analyte::reticulocytes) < 45);   // 10^3/uL, of 0 to 61
    CHECK(p.value(0, Analyte::USG) < 1.014);
    CHECK(p.truth[0].work(Tissue::kidney) < 0.2);
    CHECK(p.truth[0].work(Tissue::redCells) < 0.75);
}

TEST_CASE("the same creatinine: the dry dog's own number, thin urine, and nothing dry",
          "[scenario]") {
    const Printed p = print("the_same_creatinine"), dry = print("two_days_of_the_runs");
    const double printed = 0.1; // mg/dL: creatinine is printed to one decimal
    CHECK(std::abs(p.value(0, Analyte::creatinine) - dry.value(0, Analyte::creatinine)) < printed);
    CHECK(p.high(0) == Set{Analyte::creatinine, Analyte::urea, Analyte::lipase});
    CHECK(p.low(0) == Set{Analyte::USG});
    CHECK(p.high(1).count(Analyte::lipase) == 0);
    CHECK(p.value(0, Analyte::lipase) < 2 * 108); // U/L: over the limit, not far
    CHECK(dry.value(0, Analyte::USG) > 1.045);
    CHECK(p.truth[0].work(Tissue::kidney) < 0.5);
    CHECK(p.truth[0].leak(Tissue::pancreas) < 1.01);
}
