#include "control.h"

#include "base/chance.h"
#include "clock.h"
#include "lab/control/tally.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <utility>
#include <vector>

namespace cistern::timing {

namespace {

using lab::Rule;
using lab::Rules;

constexpr std::size_t runs = 1000000, levels = 2;

/// The rules as one would first write them: every score is kept, and each rule looks back.
class Histories {
public:
    Histories() : scores_(levels) {}

    Rules next(const double* run) {
        for (std::size_t m = 0; m < levels; ++m) scores_[m].push_back(run[m]);
        Rules broken;
        double lowest = run[0], highest = run[0];
        for (std::size_t m = 0; m < levels; ++m) {
            if (std::abs(run[m]) > 2) broken.add(Rule::warning);
            if (std::abs(run[m]) > 3) broken.add(Rule::oneThree);
            lowest = std::min(lowest, run[m]);
            highest = std::max(highest, run[m]);
        }
        if (highest > 2 && lowest < -2) broken.add(Rule::rangeFour);
        for (const auto& [rule, limit, count] :
             {Row{Rule::twoTwo, 2, 2}, Row{Rule::fourOne, 1, 4}, Row{Rule::ten, 0, 10}}) {
            bool found = inARow(count / levels, limit, 0, levels);
            for (std::size_t m = 0; m < levels; ++m) found |= inARow(count, limit, m, m + 1);
            if (found) broken.add(rule);
        }
        return broken;
    }

private:
    struct Row {
        Rule rule;
        double limit;
        std::size_t count;
    };
    std::vector<std::vector<double>> scores_;

    bool inARow(std::size_t count, double limit, std::size_t from, std::size_t to) const {
        bool above = true, below = true;
        for (std::size_t m = from; m < to; ++m) {
            const std::vector<double>& all = scores_[m];
            if (all.size() < count) return false;
            for (std::size_t i = all.size() - count; i < all.size(); ++i) {
                above &= all[i] > limit;
                below &= all[i] < -limit;
            }
        }
        return above || below;
    }
};

std::vector<double> scores() {
    base::Chance chance(1, base::Purpose::control);
    std::vector<double> all(runs * levels);
    for (double& score : all) score = chance.normal();
    return all;
}

/// Seconds of one pass over all runs, and how many were rejected.
template<class Judge>
std::pair<double, std::size_t> timed(const std::vector<double>& all, Judge&& judge) {
    const double start = threadSeconds();
    std::size_t rejected = 0;
    for (std::size_t r = 0; r < runs; ++r) rejected += judge(&all[r * levels]);
    return {threadSeconds() - start, rejected};
}

double median(std::vector<double> v) {
    std::sort(v.begin(), v.end());
    return v[v.size() / 2];
}

} // namespace

void controlRuns() {
    std::vector<double> whole, ours, plain, warning;
    const std::vector<double> all = scores();
    bool same = true;
    std::size_t warned = 0;
    for (int round = 0; round < 5; ++round) {
        const double start = threadSeconds();
        const lab::Tally tally = lab::tally({});
        whole.push_back(threadSeconds() - start);
        same &= tally.runs == runs;

        lab::Watch watch(levels);
        const auto watched = timed(all, [&](const double* run) {
            return watch.next({run, levels}).reject();
        });
        Histories histories;
        const auto looked =
            timed(all, [&](const double* run) { return histories.next(run).reject(); });
        const auto alone = timed(
            all, [&](const double* run) { return std::abs(run[0]) > 2 || std::abs(run[1]) > 2; });
        same &= watched.second == looked.second;
        warned = alone.second;
        ours.push_back(watched.first);
        plain.push_back(looked.first);
        warning.push_back(alone.first);
    }
    std::printf("%zu control runs of %zu levels, one core, median of 5 rounds:\n", runs, levels);
    std::printf("drawn and judged by all rules %.3f s; judged alone %.4f s\n", median(whole),
                median(ours));
    std::printf("the same rules with whole histories %.4f s (ratio %.1f), verdicts %s\n",
                median(plain), median(plain) / median(ours), same ? "the same" : "DIFFER");
    std::printf("1-2s alone %.4f s (ratio %.2f), %.1f %% of runs\n\n", median(warning),
                median(warning) / median(ours),
                100 * static_cast<double>(warned) / static_cast<double>(runs));
    std::fflush(stdout);
}

} // namespace cistern::timing
