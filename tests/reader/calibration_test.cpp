// Is the reader right as often as it says? Animals are drawn from its own priors, whole: with
// healthy levels of their own, through the real laboratory.
#include "base/file.h"
#include "scenario/assets.h"
#include "trial.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iostream>

using namespace cistern;

namespace {

const lesson::Knowledge& knowledge() {
    static const base::Disk files;
    static const scenario::Assets assets =
        scenario::loadAssets(files, std::string(CISTERN_SOURCE) + "/assets");
    return assets.knowledge;
}

/// Weights in bands of a tenth: how often what was said was right.
struct Band {
    double said = 0, right = 0, spread = 0; ///< sums: of weights, of what was right, of variances
    int count = 0;
};

std::vector<Band> bands(const std::vector<tests::Calibration::Said>& said) {
    std::vector<Band> all(10);
    for (const auto& one : said) {
        Band& band = all[static_cast<std::size_t>(std::min(9., one.weight * 10))];
        ++band.count;
        band.said += one.weight;
        band.right += one.right;
        band.spread += one.weight * (1 - one.weight);
    }
    return all;
}

void print(const tests::Calibration& found) {
    std::printf("%zu animals; -log2 of the weight on what was true: %.2f bits on average\n",
                found.worth.size(), found.bits);
    auto worth = found.worth;
    std::sort(worth.begin(), worth.end());
    std::printf("effective stories: 5 %% of animals below %.0f, half below %.0f\n",
                worth[worth.size() / 20], worth[worth.size() / 2]);
    std::printf("%-16s %10s %10s   places of the truth, by tenths\n", "organ", "P work", "P leak");
    for (const auto& organ : found.organs) {
        std::printf("%-16s %10.4f %10.4f  ", std::string(body::name(organ.organ)).c_str(),
                    tests::uniformity(organ.work), tests::uniformity(organ.leak));
        for (const auto* places : {&organ.work, &organ.leak}) {
            std::vector<int> tenths(10);
            for (const double place : *places)
                ++tenths[static_cast<std::size_t>(std::clamp(place * 10, 0., 9.))];
            for (const int count : tenths) std::printf(" %3d", count);
            std::printf(places == &organ.work ? " |" : "\n");
        }
    }
    std::printf("%12s %12s %12s %8s\n", "said [%]", "right [%]", "error [%]", "times");
    for (const Band& band : bands(found.said))
        if (band.count)
            std::printf("%12.1f %12.1f %12.1f %8d\n", 100 * band.said / band.count,
                        100 * band.right / band.count, 100 * std::sqrt(band.spread) / band.count,
                        band.count);
}

} // namespace

// Talts and others 2018, arXiv 1804.06788: if data and truth are drawn from the prior, the truth
// lies anywhere in the posterior with equal chance.
TEST_CASE("calibration in full", "[.calibration]") {
    const auto found = tests::calibrate(knowledge(), {"chemistry", "blood count"}, 1000, 40000);
    print(found);
    REQUIRE(found.worth.size() >= 990);
}

TEST_CASE("calibration of a few", "[.few]") {
    print(tests::calibrate(knowledge(), {"chemistry", "blood count"}, 240, 20000));
}

TEST_CASE("The reader is right about as often as it says", "[reader]") {
    // Few animals, each weighed by few stories: enough to see a reader that is off by a tenth.
    const auto found = tests::calibrate(knowledge(), {"chemistry", "blood count"}, 150, 8000);
    REQUIRE(found.worth.size() > 140);
    constexpr double improbable = 1e-3; // of 14 places of the truth that are told to be even
    for (const auto& organ : found.organs) {
        INFO(body::name(organ.organ));
        CHECK(tests::uniformity(organ.work) > improbable);
        CHECK(tests::uniformity(organ.leak) > improbable);
    }
    Band likely, unlikely;
    for (const auto& one : found.said) {
        Band& band = one.weight > 0.5 ? likely : unlikely;
        ++band.count;
        band.said += one.weight;
        band.right += one.right;
        band.spread += one.weight * (1 - one.weight);
    }
    // To three standard errors; and with so few stories a tenth too sure, and what it holds to be
    // unlikely comes up to three times as often.
    CAPTURE(likely.said, likely.spread, unlikely.said, unlikely.spread);
    CHECK(likely.right ==
          Approx(likely.said).margin(3 * std::sqrt(likely.spread) + likely.said / 10));
    CHECK(unlikely.right < 3 * unlikely.said);
    CHECK(unlikely.right > unlikely.said - 3 * std::sqrt(unlikely.spread));
    CHECK(found.bits < 2); // of log2 of 30 explanations, 4.9
}
