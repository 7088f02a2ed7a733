#include "reference/animals.h"

#include <catch2/catch.hpp>

using namespace cistern::body;
using namespace reference;

namespace {

/// Whether a tissue can do more than it does in health: what answers to a call grows, and a thyroid
/// may run wild.
bool mayExceed(Tissue tissue) {
    return tissue == Tissue::redCells || tissue == Tissue::whiteCells ||
           tissue == Tissue::platelets || tissue == Tissue::thyroid;
}

bool within(const Course& c) {
    bool all = c.table().isFinite().all() && c.table().minCoeff() >= 0;
    for (Tissue tissue : tissues()) // work: at most all of it
        if (!mayExceed(tissue))
            all = all && c.column(reading::work + static_cast<int>(tissue)).maxCoeff() <= 1 + 1e-9;
    return all;
}

} // namespace

TEST_CASE("No reading of a random animal is ever negative or endless", "[body]") {
    for (std::uint64_t number = 0; number < 300; ++number) {
        CAPTURE(number);
        CHECK(within(simulate(randomPlan(ground(), number, 14))));
    }
}

TEST_CASE("Insults that crowd upon one another leave readings that a body can have", "[body]") {
    for (std::uint64_t number = 0; number < 500; ++number) {
        CAPTURE(number);
        CHECK(within(simulate(crowdedPlan(ground(), number))));
    }
}

TEST_CASE("Every insult at its greatest leaves readings that a body can have", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat})
        for (const InsultKind& insult : known().insults)
            for (double hours : {6.0, 400.0}) {
                const Individual animal = adult(kind);
                const Insult worst{&insult, insult.most, 0, hours};
                CAPTURE(name(kind), insult.name, hours);
                CHECK(within(course(animal, windows(worst, animal.own), every(1, 800))));
            }
}

TEST_CASE("All insults together, each at its greatest, are survived by the equations", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Individual animal = adult(kind);
        std::vector<Window> all;
        for (const InsultKind& insult : known().insults)
            for (const Window& w : windows({&insult, insult.most, 0, 300}, animal.own))
                all.push_back(w);
        CAPTURE(name(kind));
        CHECK(within(course(animal, all, every(1, 800))));
    }
}

// Nothing is lost by urine for a year: what gathers must still be what a body can have. Chloride
// closes the balance of charge and is the first to be used up.
TEST_CASE("A block of all urine for a year leaves every reading above nothing", "[body]") {
    for (Kind kind : {Kind::dog, Kind::cat}) {
        const Individual animal = adult(kind);
        std::vector<Window> all;
        for (const InsultKind& insult : known().insults)
            if (insult.name == "urinary obstruction" || insult.name == "hypoadrenocorticism" ||
                insult.name == "diabetes mellitus")
                for (const Window& w : windows({&insult, insult.most, 0, 8766}, animal.own))
                    all.push_back(w);
        const Course c = course(animal, all, every(24, 8766));
        CAPTURE(name(kind));
        CHECK(all.size() >= 3);
        CHECK(within(c));
        CHECK(c.column(reading::analyte + static_cast<int>(Analyte::Cl)).minCoeff() > 50); // mmol/L
        CHECK(c.column(reading::analyte + static_cast<int>(Analyte::K)).maxCoeff() < 40);  // mmol/L
        CHECK(c.column(reading::analyte + static_cast<int>(Analyte::UPC)).maxCoeff() <
              1); // healthy filters
    }
}
