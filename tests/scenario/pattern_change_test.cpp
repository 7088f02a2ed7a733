// Cases whose point is what a result does from one draw to the next, or that it does nothing.
#include "lab/change.h"
#include "printed_case.h"

#include <cmath>

using namespace cistern;
using body::Analyte;
using body::Tissue;
using test::print;
using test::Printed;

TEST_CASE("fifteen percent: creatinine is up by a seventh and nothing has moved", "[scenario]") {
    const Printed p = print("fifteen_percent");
    const auto& within = test::assets().knowledge.cat.within;
    CHECK(p.value(0, Analyte::creatinine) == Approx(1.4).margin(0.051)); // mg/dL: about 120 umol/L
    CHECK(p.value(1, Analyte::creatinine) == Approx(1.6).margin(0.051)); // about 138
    for (const std::size_t draw : {0u, 1u}) {
        CHECK(p.high(draw).empty());
        CHECK(p.low(draw).empty());
        CHECK(p.value(draw, Analyte::USG) > 1.035); // strong
        CHECK(p.truth[draw].work(Tissue::kidney) > 0.99);
    }
    for (const lab::Result& then : p.reports[0].results) {
        const lab::Result* now = p.reports[1].find(then.analyte);
        REQUIRE(now != nullptr);
        INFO(body::name(then.analyte));
        CHECK_FALSE(lab::moved(then, *now, within[static_cast<std::size_t>(then.analyte)]));
    }
    CHECK(std::abs(p.value(1, Analyte::SDMA) - p.value(0, Analyte::SDMA)) <= 2); // ug/dL
    // The whole rise is less than a sixth, as the text says.
    CHECK(p.value(1, Analyte::creatinine) / p.value(0, Analyte::creatinine) < 7. / 6);
}
