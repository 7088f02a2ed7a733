// How fast the body steps, as a ratio against Boost.Odeint's dense Dormand-Prince in the same run:
// same animals, same looks, same error bound, same flags, one core each.
#include "base/file.h"
#include "clock.h"
#include "control.h"
#include "film.h"
#include "reference/ode.h"
#include "reference/schedule.h"
#include "scenario/assets.h"
#include "weigh.h"

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <mutex>
#include <string>
#include <thread>

using namespace cistern;

namespace {

struct Errors {
    double product = 0, odeint = 0;
};

/// Worst relative error of both programs on many animals, against Dormand-Prince at 1e-10. On all
/// cores.
Errors judge(const reference::Ground& ground, int animals, int days, body::Steps steps,
             double tolerance) {
    Errors worst;
    std::mutex lock;
    std::atomic<int> next{0};
    const auto work = [&] {
        for (int i; (i = next++) < animals;) {
            body::Plan plan = reference::randomPlan(ground, static_cast<std::uint64_t>(i), days);
            plan.steps = steps;
            const std::vector<double> exact = reference::course(plan, 1e-10);
            const double a = reference::worstError(plan, body::simulate(plan), exact).worst;
            const double b =
                reference::worstError(plan, reference::course(plan, tolerance), exact).worst;
            const std::lock_guard guard(lock);
            worst.product = std::max(worst.product, a);
            worst.odeint = std::max(worst.odeint, b);
        }
    };
    std::thread other(work);
    work();
    other.join();
    return worst;
}

/// Animals a second and core, both programs in turn on the same animals, in rounds; medians.
struct Speed {
    double product, odeint, ratio;
};
Speed race(const reference::Ground& ground, int animals, int days, body::Steps steps,
           double tolerance) {
    std::vector<body::Plan> plans;
    for (int i = 0; i < animals; ++i) {
        plans.push_back(reference::randomPlan(ground, static_cast<std::uint64_t>(i), days));
        plans.back().steps = steps;
    }
    std::vector<double> product, odeint, ratio;
    double sum = 0; // keeps results in use
    for (int round = 0; round < 5; ++round) {
        const double start = timing::threadSeconds();
        body::simulate(
            plans.size(), [&](std::size_t i) { return plans[i]; },
            [&](std::size_t, const body::Course& course) { sum += course.table()(1, 10); }, 1);
        const double middle = timing::threadSeconds();
        for (const body::Plan& plan : plans) sum += reference::course(plan, tolerance)[10];
        const double end = timing::threadSeconds();
        product.push_back(animals / (middle - start));
        odeint.push_back(animals / (end - middle));
        ratio.push_back(product.back() / odeint.back());
    }
    const auto median = [](std::vector<double> v) {
        std::sort(v.begin(), v.end());
        return v[v.size() / 2];
    };
    if (!(sum > 0)) std::puts("no result");
    return {median(product), median(odeint), median(ratio)};
}

double peakMegabytes() {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);)
        if (line.rfind("VmHWM:", 0) == 0) return std::atof(line.c_str() + 6) / 1024;
    return 0;
}

void compare(const reference::Ground& ground, int days, int judged, int raced, body::Steps steps,
             double tolerance, double bound) {
    const Errors error = judge(ground, judged, days, steps, tolerance);
    const Speed speed = race(ground, raced, days, steps, tolerance);
    std::printf("%4d %8.0e %9.1e %9.1e %6d %10.0f %10.0f %7.1f%s\n", days, bound, error.product,
                error.odeint, judged, speed.product, speed.odeint, speed.ratio,
                error.product <= bound && error.odeint <= bound ? "" : "  (bound not met)");
    std::fflush(stdout);
}

} // namespace

/// cistern_timing [ANIMALS]: judges the 14-day error bound on so many animals (4000 if not said).
int main(int argc, char** argv) {
    const int judged = argc > 1 ? std::max(20, std::atoi(argv[1])) : 4000;
    timing::controlRuns();
    timing::films();
    timing::weighing();
    const base::Disk disk;
    const scenario::Assets assets = scenario::loadAssets(disk, CISTERN_SOURCE "/assets");
    const reference::Ground ground{assets.knowledge.dog, assets.knowledge.cat,
                                   assets.knowledge.insults};
    const body::Steps usual;
    body::Steps fine;
    fine.longest = 1.0 / 16;
    fine.shortest = 1.0 / 128;
    fine.afterGentle = 1.0 / 16;
    fine.ofTimeSince = 1.0 / 16;
    fine.ofDeath = 1.0 / 64;

    std::printf(
        "Course of the whole body with hourly looks at all readings, random insults, one core.\n"
        "Against Boost.Odeint dense Dormand-Prince, same flags; vector unit of %d doubles.\n"
        "Errors: worst relative, all readings and hours, against 1e-10, small readings against 5 "
        "%% "
        "of health. CPU time, median of 5 "
        "rounds.\n\n",
        body::lanesInUse());
    std::printf("days    bound   cistern    odeint judged  cistern/s   odeint/s   ratio\n");
    compare(ground, 14, judged, 400, usual, 1e-7, 1e-4);
    compare(ground, 7, judged / 4, 400, usual, 1e-7, 1e-4);
    compare(ground, 90, judged / 20, 60, usual, 1e-7, 1e-4);
    compare(ground, 14, judged / 10, 100, fine, 2e-9, 1e-6);

    std::printf(
        "\nLinear in days and animals (animals a second and core, days x animals a second):\n");
    for (int days : {7, 14, 28, 56}) {
        const Speed speed = race(ground, 100, days, usual, 1e-3);
        std::printf("%4d days %9.0f animals/s %12.0f animal-days/s\n", days, speed.product,
                    speed.product * days);
    }
    const double start = timing::wallSeconds();
    std::atomic<std::size_t> done{0};
    body::simulate(
        100000,
        [&](std::size_t i) {
            body::Plan plan = reference::randomPlan(ground, i % 1000, 14);
            plan.looks = {336};
            return plan;
        },
        [&](std::size_t, const body::Course&) { ++done; }, 2);
    std::printf("\n%zu animals for 14 days on two threads: %.1f s wall, peak memory of this "
                "program %.0f MB\n",
                done.load(), timing::wallSeconds() - start, peakMegabytes());
    return 0;
}
