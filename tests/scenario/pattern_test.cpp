// Each shipped case prints the pattern that its own text speaks of: its seed was chosen for that,
// and a change of the model or of the bench must not take it away unseen.
#include "printed_case.h"

#include <cmath>

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;
using test::Set;
using test::within;

TEST_CASE("no smoke: the enzymes are quiet, what the liver makes is low, and little works",
          "[scenario]") {
    const Printed p = print("no_smoke_from_the_chimney");
    CHECK(within({Analyte::bilirubin, Analyte::bileAcids, Analyte::PT, Analyte::aPTT}, p.high(0)));
    CHECK(within({Analyte::albumin, Analyte::urea, Analyte::cholesterol}, p.low(0)));
    for (Analyte leaking : {Analyte::ALT, Analyte::AST, Analyte::ALP, Analyte::GGT, Analyte::GLDH,
                            Analyte::SDH, Analyte::LDH})
        CHECK(p.high(0).count(leaking) == 0);
    CHECK(p.value(0, Analyte::bilirubin) < 1.5); // mg/dL: too little to be seen in the gums
    CHECK(p.truth[0].work(Tissue::liver) < 0.3);
}

TEST_CASE("the biscuit thief: loud enzymes, a liver that works", "[scenario]") {
    const Printed p = print("the_biscuit_thief");
    CHECK(p.high(0) == Set{Analyte::ALP, Analyte::GGT, Analyte::SDH, Analyte::cholesterol});
    CHECK(p.low(0) == Set{Analyte::lymphocytes, Analyte::USG});
    CHECK(p.value(0, Analyte::eosinophils) <= 0.1); // 10^3/uL: few
    CHECK(p.value(0, Analyte::ALP) > 5 * 127);      // U/L: many times the upper limit
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("all legs: no flag against pups, but one against grown dogs", "[scenario]") {
    const Printed p = print("all_legs");
    CHECK(p.high(0).empty());
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::ALP) > 2 * 127); // U/L: twice the limit of grown dogs
    CHECK(p.value(0, Analyte::P) > 5.4);       // mg/dL, of grown dogs, as the two that follow
    CHECK(p.value(0, Analyte::protein) < 5.5); // g/dL
    CHECK(p.value(0, Analyte::Hb) < 12.0);     // g/dL
    CHECK(p.value(0, Analyte::USG) > 1.028);   // concentrated
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("two from one shed: the same loss, loud in the dog and all but silent in the cat",
          "[scenario]") {
    const Printed dog = print("two_from_one_shed_dog"), cat = print("two_from_one_shed_cat");
    CHECK(within({Analyte::ALT, Analyte::AST}, dog.high(0)));
    CHECK(within({Analyte::ALT, Analyte::AST}, cat.high(0)));
    CHECK(dog.value(1, Analyte::ALT) > 5 * 100); // U/L
    CHECK(cat.high(1) == Set{Analyte::GLDH});
    CHECK(cat.value(1, Analyte::GLDH) < 0.5 * cat.value(0, Analyte::GLDH));
    CHECK((dog.low(0).empty() && dog.low(1).empty() && cat.low(0).empty() && cat.low(1).empty()));
    const double gap = dog.truth[1].work(Tissue::liver) - cat.truth[1].work(Tissue::liver);
    CHECK(std::abs(gap) < 0.03); // both lost 12 % and differ only in how fast they grow it back
}

TEST_CASE("the sore thigh: muscle is loud at first and only AST stays, the liver is silent",
          "[scenario]") {
    const Printed p = print("the_sore_thigh");
    CHECK(p.high(0) == Set{Analyte::AST, Analyte::CK, Analyte::LDH});
    CHECK(p.high(1) == Set{Analyte::AST});
    CHECK(p.value(0, Analyte::CK) > 4 * 104); // U/L
    CHECK(p.truth[0].work(Tissue::skeletalMuscle) > 0.99);
}

TEST_CASE("the closed gate: nearly shut, then open, with the level following behind",
          "[scenario]") {
    const Printed p = print("the_closed_gate");
    CHECK(within({Analyte::ALP, Analyte::GGT, Analyte::bilirubin, Analyte::ALT}, p.high(0)));
    CHECK(p.low(0).empty());
    for (Analyte held :
         {Analyte::albumin, Analyte::urea, Analyte::glucose, Analyte::PT, Analyte::aPTT})
        CHECK(p.high(0).count(held) + p.high(1).count(held) + p.low(1).count(held) == 0);
    CHECK(std::abs(p.value(0, Analyte::Hct) - p.value(1, Analyte::Hct)) < 3); // %: steady
    CHECK(p.value(0, Analyte::bilirubin) > 2.5); // mg/dL: seen in the gums
    CHECK(p.truth[0].work(Tissue::bileDucts) < 0.1);
    CHECK(within({Analyte::ALP, Analyte::bilirubin}, p.high(1)));
    CHECK(p.value(1, Analyte::ALP) < 0.7 * p.value(0, Analyte::ALP));
    CHECK(p.truth[1].work(Tissue::bileDucts) > 0.95);
    CHECK(p.truth[0].work(Tissue::liver) > 0.9);
}

TEST_CASE("odd after supper: quiet enzymes, little that works, and bile acids that rise with food",
          "[scenario]") {
    const Printed p = print("odd_after_supper");
    CHECK(p.high(0) == Set{Analyte::bileAcids, Analyte::ammonia});
    CHECK(within({Analyte::urea, Analyte::albumin, Analyte::cholesterol}, p.low(0)));
    CHECK(p.value(1, Analyte::bileAcids) > 100); // umol/L
    CHECK(p.value(1, Analyte::bileAcids) > p.value(0, Analyte::bileAcids));
    CHECK(p.value(1, Analyte::ammonia) > p.value(0, Analyte::ammonia));
    CHECK(p.truth[0].work(Tissue::liver) < 0.5);
    CHECK(p.truth[0].leak(Tissue::liver) < 1.5);
}

TEST_CASE("three tubes: ALT falls at the pace of its drain, AST is home before it", "[scenario]") {
    const Printed p = print("three_tubes_in_a_week");
    CHECK(p.value(0, Analyte::ALT) > 5 * 100); // U/L
    CHECK(p.value(1, Analyte::ALT) < 0.6 * p.value(0, Analyte::ALT));
    CHECK(p.high(2) == Set{Analyte::ALT});
    CHECK(p.high(0) == Set{Analyte::ALT, Analyte::AST, Analyte::GLDH});
    for (std::size_t draw = 0; draw < 3; ++draw) CHECK(p.low(draw).empty());
    CHECK(p.truth[2].work(Tissue::liver) > 0.9);
}

TEST_CASE("room to spare: creatinine inside with half of the kidney gone, only SDMA tells",
          "[scenario]") {
    const Printed p = print("room_to_spare");
    CHECK(p.high(0).empty());
    CHECK(p.high(1) == Set{Analyte::SDMA});
    CHECK((p.low(0).empty() && p.low(1).empty()));
    CHECK(p.value(1, Analyte::creatinine) > 1.3 * p.value(0, Analyte::creatinine));
    CHECK(p.value(0, Analyte::USG) > 1.030);
    CHECK(p.value(1, Analyte::USG) < 1.022);
    CHECK(p.truth[1].work(Tissue::kidney) < 0.5);
}

TEST_CASE("one in twenty-five: one flag in twenty-five results, just outside, in a well dog",
          "[scenario]") {
    const Printed p = print("one_in_twenty_five");
    CHECK(p.reports[0].results.size() == 25);
    CHECK(p.high(0) == Set{Analyte::GGT});
    CHECK(p.low(0).empty());
    CHECK(p.value(0, Analyte::GGT) <= 1.25 * 9); // U/L
}
