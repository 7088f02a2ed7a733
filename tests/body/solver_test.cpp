#include "reference/animals.h"
#include "reference/ode.h"
#include "reference/schedule.h"

#include <catch2/catch.hpp>

#include <cstdio>

using namespace cistern::body;

// The same body written a second time as plain differential equations and solved by Boost.Odeint's
// dense Dormand-Prince at 1e-10. 1e-4 is the project's error bound: a hundred times below what the
// best assay repeats to. `tests/run --timing` judges 4000 animals.
TEST_CASE("Random animals keep to an independent solver within 1e-4 for fourteen days", "[body]") {
    double worst = 0;
    std::uint64_t which = 0;
    for (std::uint64_t number = 0; number < 200; ++number) {
        const Plan plan =
            reference::randomPlan(reference::known().dog, reference::known().cat, number, 14);
        const double error = reference::worstError(simulate(plan), reference::course(plan, 1e-10));
        if (!(error <= worst)) worst = error, which = number; // a NaN is kept too
    }
    CAPTURE(which, worst);
    CHECK(worst <= 1e-4);
    std::printf(
        "200 animals, 14 days hourly, all analytes: worst relative error %.1e (animal %d)\n", worst,
        static_cast<int>(which));
}
