#include "lab/control/tally.h"

#include "base/chance.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <stdexcept>
#include <thread>

namespace cistern::lab {

namespace {

// Runs are drawn in blocks, each with a stream and a watch of its own, so that threads may share
// them out. A stream holds 2^25 numbers, twice what a block of the longest windows needs.
constexpr std::uint64_t perBlock = 1u << 16, longestWindow = 64;

void check(const Trial& trial) {
    if (trial.runs == 0 || trial.threads == 0)
        throw std::invalid_argument("a trial of control rules needs runs and threads");
    if (!(trial.factor > 0) || !std::isfinite(trial.factor) || !std::isfinite(trial.shift))
        throw std::invalid_argument("controls need a finite shift and a spread above zero");
    if (trial.window > longestWindow)
        throw std::invalid_argument("a window of control runs holds at most 64");
    Watch(trial.materials, trial.range); // refuses their number
}

void countBlock(const Trial& trial, std::uint64_t block, Tally& into) {
    base::Chance chance(trial.seed, base::Purpose::control, 0, static_cast<std::uint32_t>(block));
    Watch watch(trial.materials, trial.range);
    std::array<double, mostMaterials> scores{};
    const std::span<const double> run(scores.data(), trial.materials);
    const std::uint64_t end = std::min(trial.runs, (block + 1) * perBlock);
    const std::uint64_t each = std::max<std::uint64_t>(trial.window, 1);
    for (std::uint64_t r = block * perBlock; r < end; ++r) {
        if (trial.window > 0) watch.startAnew();
        Rules broken;
        for (std::uint64_t w = 0; w < each; ++w) {
            for (std::size_t m = 0; m < trial.materials; ++m)
                scores[m] = trial.shift + trial.factor * chance.normal();
            broken = watch.next(run);
        }
        for (const Rule rule : rules())
            into.broken[static_cast<std::size_t>(rule)] += broken.has(rule);
        into.rejected += broken.reject();
        ++into.runs;
    }
}

} // namespace

double Tally::share(Rule rule) const {
    return static_cast<double>(broken[static_cast<std::size_t>(rule)]) / static_cast<double>(runs);
}

double Tally::rejection() const {
    return static_cast<double>(rejected) / static_cast<double>(runs);
}

double Tally::standardError(double p) const {
    return std::sqrt(p * (1 - p) / static_cast<double>(runs));
}

Tally tally(const Trial& trial) {
    check(trial);
    const std::uint64_t blocks = (trial.runs + perBlock - 1) / perBlock;
    std::vector<Tally> parts(std::min<std::uint64_t>(trial.threads, blocks));
    std::atomic<std::uint64_t> next{0};
    const auto work = [&](Tally& mine) {
        for (std::uint64_t block; (block = next++) < blocks;) countBlock(trial, block, mine);
    };
    std::vector<std::thread> others;
    for (std::size_t t = 1; t < parts.size(); ++t) others.emplace_back(work, std::ref(parts[t]));
    work(parts[0]);
    for (std::thread& other : others) other.join();
    Tally sum;
    for (const Tally& part : parts) {
        sum.runs += part.runs;
        sum.rejected += part.rejected;
        for (std::size_t i = 0; i < sum.broken.size(); ++i) sum.broken[i] += part.broken[i];
    }
    return sum;
}

} // namespace cistern::lab
