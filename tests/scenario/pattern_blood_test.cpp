// The cases of blood, pancreas, gut and healthy age print the pattern that their own texts speak
// of; each seed was chosen for that.
#include "printed_case.h"

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;
using test::Set;
using test::within;

TEST_CASE("wet ankles: protein in the urine, and a filter that clears as ever", "[scenario]") {
    const Printed p = print("wet_ankles");
    CHECK(p.high(0) == Set{Analyte::cholesterol, Analyte::UPC});
    CHECK(p.low(0) == Set{Analyte::albumin, Analyte::protein, Analyte::Ca});
    CHECK(p.value(0, Analyte::UPC) == Approx(18 * 0.5).margin(0.5)); // eighteen times its limit
    CHECK(p.truth[0].work(Tissue::kidney) > 0.95);
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("the leaking hose: albumin, globulin and cholesterol are low together", "[scenario]") {
    const Printed p = print("the_leaking_hose");
    CHECK(within({Analyte::ALT, Analyte::AST}, p.high(0)));
    // An electrode that thins its sample takes the water in protein's place for salt.
    CHECK(within(p.high(0), {Analyte::ALT, Analyte::AST, Analyte::Na, Analyte::Cl}));
    CHECK(p.low(0) == Set{Analyte::albumin, Analyte::globulin, Analyte::protein,
                          Analyte::cholesterol, Analyte::Ca});
    CHECK(p.value(0, Analyte::UPC) < 0.1);
    CHECK(p.truth[0].work(Tissue::gut) < 0.6);
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("eats for two: only the test that the pancreas alone feeds tells that it is gone",
          "[scenario]") {
    const Printed p = print("eats_for_two");
    CHECK(p.high(0).empty());
    CHECK(p.low(0) == Set{Analyte::TLI});
    CHECK(p.value(0, Analyte::lipase) > 1.5 * 24); // U/L: well above the lower limit
    CHECK(p.truth[0].work(Tissue::pancreas) < 0.1);
}

TEST_CASE("after the feast: a great spill from a pancreas that is whole, home in three days",
          "[scenario]") {
    const Printed p = print("after_the_feast");
    CHECK(within({Analyte::lipase, Analyte::amylase, Analyte::TLI, Analyte::CRP, Analyte::bands,
                  Analyte::urea, Analyte::creatinine, Analyte::USG},
                 p.high(0)));
    CHECK(p.low(0).empty());
    CHECK((p.high(1).empty() && p.low(1).empty()));
    CHECK(p.value(0, Analyte::lipase) > 8 * 108); // U/L: eight times the limit and more
    CHECK(p.value(0, Analyte::TLI) > 8 * 45.2);   // ug/L
    CHECK(p.truth[0].work(Tissue::pancreas) > 0.97);
    CHECK(p.truth[0].leak(Tissue::pancreas) > 20);
}

TEST_CASE("basket on the back seat: sugar and lymphocytes are up, and home after six hours",
          "[scenario]") {
    const Printed p = print("basket_on_the_back_seat");
    CHECK(p.high(0) == Set{Analyte::glucose, Analyte::WBC, Analyte::lymphocytes});
    CHECK((p.low(0).empty() && p.high(1).empty() && p.low(1).empty()));
    CHECK(p.value(0, Analyte::lymphocytes) > 2 * p.value(1, Analyte::lymphocytes));
    CHECK(p.value(0, Analyte::bands) < 0.3); // 10^3/uL: ripe cells only
}

TEST_CASE("still forty-five: the share of cells holds until the water is back", "[scenario]") {
    const Printed p = print("still_forty_five");
    CHECK((p.high(0).empty() && p.low(0).empty()));
    CHECK(p.value(0, Analyte::PCV) == Approx(45).margin(0.5)); // read to a whole percent
    CHECK(within({Analyte::PCV, Analyte::TP}, p.low(1)));
    CHECK(p.value(1, Analyte::PCV) == Approx(34).margin(0.5));
    CHECK(p.value(1, Analyte::TP) < 0.9 * p.value(0, Analyte::TP));
    CHECK(p.high(2) == Set{Analyte::reticulocytes});
    CHECK(p.value(2, Analyte::PCV) > p.value(1, Analyte::PCV));
    CHECK(p.truth[0].work(Tissue::redCells) < 0.8);
}

TEST_CASE("yellow, and pale: half of the red cells are gone and the liver works", "[scenario]") {
    const Printed p = print("yellow_and_pale");
    CHECK(p.high(0) ==
          Set{Analyte::AST, Analyte::LDH, Analyte::bilirubin, Analyte::bands, Analyte::toxic});
    CHECK(p.low(0) == Set{Analyte::RBC, Analyte::Hb, Analyte::Hct});
    CHECK(p.value(0, Analyte::bilirubin) > 2.5); // mg/dL: seen in the gums
    CHECK(p.value(1, Analyte::bilirubin) < 0.4 * p.value(0, Analyte::bilirubin));
    CHECK(p.high(1).count(Analyte::reticulocytes) == 1);
    CHECK(p.truth[0].work(Tissue::redCells) < 0.55);
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("under the itch tablets: bands and toxic cells, which no tablet makes", "[scenario]") {
    const Printed p = print("under_the_itch_tablets");
    CHECK(within({Analyte::ALP, Analyte::neutrophils, Analyte::bands, Analyte::toxic, Analyte::CRP},
                 p.high(0)));
    CHECK(p.low(0) == Set{Analyte::lymphocytes});
    CHECK(p.value(0, Analyte::bands) == Approx(4.1).margin(0.1)); // as the text rounds it
    CHECK(p.value(0, Analyte::ALP) > 5 * 127);                    // U/L: five times the limit
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("an ordinary total: more bands than ripe cells under a total that is inside",
          "[scenario]") {
    const Printed p = print("an_ordinary_total");
    for (std::size_t draw = 0; draw < 2; ++draw) {
        CHECK(p.high(draw).count(Analyte::WBC) + p.low(draw).count(Analyte::WBC) == 0);
        CHECK(p.value(draw, Analyte::bands) > p.value(draw, Analyte::neutrophils));
        CHECK(within({Analyte::bands, Analyte::toxic, Analyte::bilirubin}, p.high(draw)));
        CHECK(p.high(draw).count(Analyte::ALP) + p.high(draw).count(Analyte::creatinine) == 0);
    }
    CHECK(p.low(0) == Set{Analyte::neutrophils});
    CHECK(p.truth[0].work(Tissue::liver) > 0.98);
}

TEST_CASE("just old: forty results and no flag", "[scenario]") {
    const Printed p = print("just_old");
    CHECK(p.reports[0].results.size() == 40);
    CHECK((p.high(0).empty() && p.low(0).empty()));
    CHECK(p.value(0, Analyte::USG) > 1.035); // strong
}

TEST_CASE("eleven weeks: no flag against kittens, but four against grown cats", "[scenario]") {
    const Printed p = print("eleven_weeks");
    CHECK((p.high(0).empty() && p.low(0).empty()));
    CHECK(p.value(0, Analyte::ALP) > 1.9 * 49); // U/L: about twice the limit of grown cats
    CHECK(p.value(0, Analyte::P) > 5.5);        // mg/dL, of grown cats, as the two that follow
    CHECK(p.value(0, Analyte::Hct) < 30);       // %
    CHECK(p.value(0, Analyte::protein) < 6.6);  // g/dL
    CHECK(p.truth[0].work(Tissue::kidney) > 0.98);
}

TEST_CASE("regatta noon: muscle is loud and whole, the kidney silent and half out of work",
          "[scenario]") {
    const Printed p = print("regatta_noon");
    CHECK(p.high(0) ==
          Set{Analyte::AST, Analyte::CK, Analyte::LDH, Analyte::urea, Analyte::creatinine});
    CHECK(p.high(1) == Set{Analyte::AST, Analyte::creatinine});
    CHECK((p.low(0).empty() && p.low(1).empty()));
    CHECK(p.value(0, Analyte::USG) < 1.020); // weak for a dry dog
    CHECK(p.truth[0].work(Tissue::skeletalMuscle) > 0.98);
    CHECK(p.truth[0].work(Tissue::kidney) < 0.55);
}
