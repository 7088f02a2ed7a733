#include "reference/animals.h"
#include "reference/ode.h"

#include <catch2/catch.hpp>

#include <cstdio>

using namespace cistern::body;
using reference::Apart;

// The same body written a second time as plain differential equations and solved by Boost.Odeint's
// dense Dormand-Prince at 1e-10. 1e-4 is the project's error bound: a hundred times below what the
// best assay repeats to. `tests/run --timing` judges 4000 animals.
TEST_CASE("Random animals keep to an independent solver within 1e-4 for fourteen days", "[body]") {
    Apart worst;
    std::uint64_t which = 0;
    for (std::uint64_t number = 0; number < 200; ++number) {
        const Plan plan = reference::randomPlan(reference::ground(), number, 14);
        const Apart apart =
            reference::worstError(plan, simulate(plan), reference::course(plan, 1e-10));
        if (!(apart.worst <= worst.worst)) worst = apart, which = number; // a NaN is kept too
    }
    CAPTURE(which, worst.worst, worst.look, worst.reading);
    CHECK(worst.worst <= 1e-4);
    std::printf("200 animals, 14 days hourly, all readings: worst relative error %.1e (animal %d, "
                "hour %d, reading %d)\n",
                worst.worst, static_cast<int>(which), static_cast<int>(worst.look),
                static_cast<int>(worst.reading));
}
