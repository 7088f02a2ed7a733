#include "open_data/pools.h"

// The stepping code of the body, in a namespace of its own and one animal wide.
#define CISTERN_LANES 1
#define CISTERN_REAL double
#define CISTERN_UNIT open_data_unit
#include "body/step/lag.h"

#include <algorithm>
#include <cmath>

namespace open_data {

namespace {

using namespace cistern::body::open_data_unit;

/// Runs from hour 0 and calls `step` with equal steps between two looks; gives what `level` shows
/// at each. No step is longer than an eighth of the time constant of the fastest rate [1/h]: the
/// weights are exact for parabolas, and what an exponential differs from one grows with the fourth
/// power of the step.
template<class Step, class Level>
std::vector<double> march(const std::vector<double>& hours, double fastest, const Step& step,
                          const Level& level) {
    std::vector<double> all;
    double now = 0;
    for (const double look : hours) {
        const double parts = std::ceil((look - now) * fastest * 8);
        for (int k = 0; k < static_cast<int>(parts); ++k) step((look - now) / parts);
        now = look;
        all.push_back(level());
    }
    return all;
}

Track times(double factor, const Track& track) {
    return {factor * track.start, factor * track.middle, factor * track.end};
}

} // namespace

Bolus Bolus::decaying(double a1, double rate1, double a2, double rate2) {
    Bolus bolus{};
    bolus.start = a1 + a2;
    bolus.back = (a1 * rate2 + a2 * rate1) / bolus.start;
    bolus.loss = rate1 * rate2 / bolus.back;
    bolus.out = rate1 + rate2 - bolus.back - bolus.loss;
    return bolus;
}

std::vector<double> levels(const Bolus& bolus, const std::vector<double>& hours) {
    // Both pools in units of plasma level, so that they are equal when nothing flows:
    //   plasma' = (loss + out) (share tissue - plasma),  tissue' = back (plasma - tissue)
    const double leaving = bolus.loss + bolus.out, share = bolus.out / leaving;
    Lane plasma = bolus.start, tissue = 0.0;
    const auto step = [&](double hour) {
        const Lag plasmaLag = lag(leaving * hour), tissueLag = lag(bolus.back * hour);
        // Each chases the other: passes, of which each leaves about a hundredth of the last error.
        Track plasmaTrack = still(plasma), tissueTrack = still(tissue);
        for (int pass = 0; pass < 8; ++pass) {
            plasmaTrack = chase(plasma, times(share, tissueTrack), plasmaLag);
            tissueTrack = chase(tissue, plasmaTrack, tissueLag);
        }
        plasma = plasmaTrack.end;
        tissue = tissueTrack.end;
    };
    return march(hours, std::max(leaving, bolus.back), step, [&] { return plasma[0]; });
}

std::vector<double> levels(const Swallowed& swallowed, const std::vector<double>& hours) {
    //   gut' = -uptake gut  [mg/kg],  plasma' = loss (uptake gut / clearance - plasma)  [mg/L]
    Lane gut = swallowed.dose, plasma = 0.0;
    const auto step = [&](double hour) {
        const Track emptying = chase(gut, Lane(0.0), lag(swallowed.uptake * hour));
        const Track target = times(swallowed.uptake / swallowed.clearance, emptying);
        plasma = chase(plasma, target, lag(swallowed.loss * hour)).end;
        gut = emptying.end;
    };
    return march(hours, std::max(swallowed.uptake, swallowed.loss), step,
                 [&] { return plasma[0]; });
}

} // namespace open_data
