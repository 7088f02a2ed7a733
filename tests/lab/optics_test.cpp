#include "lab/assay/spectra.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

using namespace cistern;

namespace {

/// Where a function is least between two ends, by thirds.
double leastAt(double low, double high, const std::function<double(double)>& of) {
    for (int i = 0; i < 200; ++i) {
        const double third = (high - low) / 3;
        if (of(low + third) < of(high - third))
            high -= third;
        else
            low += third;
    }
    return (low + high) / 2;
}

} // namespace

TEST_CASE("A dissolved color absorbs in proportion to amount and path", "[lab]") {
    // Beer and Lambert; NADH 0.18 mmol/L at 339 nm, IFCC (from memory).
    CHECK(lab::absorbance(6.3, 0.18) == Approx(1.134).epsilon(1e-12));
    CHECK(lab::absorbance(6.3, 0.18, 0.5) == Approx(0.567).epsilon(1e-12));
    CHECK(lab::transmittance(2) == Approx(0.01).epsilon(1e-12));
}

TEST_CASE("Stray light lowers high absorbances and sets a ceiling", "[lab]") {
    // Arithmetic of -log10((10^-A + s) / (1 + s)); quoted to four places.
    struct Row {
        double stray, absorbance, seen;
    };
    for (const Row& row :
         {Row{1e-3, 1, 0.9961}, Row{1e-3, 2, 1.9590}, Row{1e-3, 3, 2.6994}, Row{5e-3, 2, 1.8261},
          Row{1e-2, 1, 0.9629}, Row{1e-2, 2, 1.7033}, Row{1e-5, 4, 3.9586}})
        CHECK(lab::withStrayLight(row.absorbance, row.stray) == Approx(row.seen).margin(6e-5));
    CHECK(lab::withStrayLight(50, 1e-3) == Approx(3.000).margin(5e-4));
    CHECK(lab::withStrayLight(50, 5e-3) == Approx(2.303).margin(5e-4));
    CHECK(lab::withStrayLight(50, 1e-2) == Approx(2.0043).margin(5e-5));
}

TEST_CASE("Absorbance is read best where the noise of its light allows", "[lab]") {
    // Minimum of the relative error: 1 / ln 10 for constant noise, 2 / ln 10 for counted photons.
    CHECK(leastAt(0.05, 3, [](double a) { return lab::constantNoise(a, 0.001) / a; }) ==
          Approx(0.4343).margin(5e-5));
    CHECK(leastAt(0.05, 3, [](double a) { return lab::shotNoise(a, 1e6) / a; }) ==
          Approx(0.8686).margin(5e-5));
    // Relative error at a noise of 0.001 of the full light, in %, quoted to two or three digits.
    struct Row {
        double absorbance, percent;
    };
    for (const Row& row : {Row{0.05, 0.98}, Row{0.1, 0.55}, Row{0.4343, 0.272}, Row{1, 0.43},
                           Row{2, 2.17}, Row{3, 14.5}})
        CHECK(100 * lab::constantNoise(row.absorbance, 0.001) / row.absorbance ==
              Approx(row.percent).epsilon(0.015));
}

TEST_CASE("Readings scatter as photons and detector say, and more under a weak lamp", "[lab]") {
    lab::Photometer photometer;
    photometer.photons = 1e6;
    photometer.stray = 0;
    photometer.electronic = 1e-3;
    base::Chance chance(1, base::Purpose::test);
    const double lamp = GENERATE(1.0, 0.5);
    constexpr int n = 10000;
    double sum = 0, squares = 0;
    for (int i = 0; i < n; ++i) {
        const double a = lab::reading(photometer, 0.8, lamp, lab::Noise(chance));
        sum += a;
        squares += a * a;
    }
    const double spread = std::sqrt((squares - sum * sum / n) / (n - 1));
    const double expected =
        std::hypot(lab::constantNoise(0.8, 1e-3 / lamp), lab::shotNoise(0.8, 1e6 * lamp));
    // four standard errors of a standard deviation
    CHECK(spread / expected == Approx(1).margin(4 / std::sqrt(2.0 * n)));
    CHECK(lab::reading(photometer, 9, 1, lab::Noise()) == photometer.highest);
}

TEST_CASE("Spectra of serum hold their published points", "[lab]") {
    const lab::Spectra& spectra = test::assets().knowledge.bench.spectra;
    // 63.4 L/mmol/cm at 460 nm: bilirubin on albumin (Pediatric Research 2019).
    CHECK(spectra.at(460).bilirubin == Approx(0.0634).epsilon(1e-9));
    CHECK(spectra.at(660).bilirubin == 0);
    // Oxygenated hemoglobin: the two bands near 540 and 577 nm, the second the higher, a valley
    // between them, and next to nothing beyond 600 nm (common practice).
    const auto hemoglobin = [&](double nm) { return spectra.at(nm).hemoglobin; };
    CHECK(hemoglobin(577) > hemoglobin(540));
    CHECK(hemoglobin(540) > hemoglobin(560));
    CHECK(hemoglobin(415) > 5 * hemoglobin(540));
    CHECK(hemoglobin(660) < 0.01 * hemoglobin(577));
    CHECK(spectra.at(340).turbidity > spectra.at(700).turbidity);
}

TEST_CASE("Indices are found again from the spectra, each for itself", "[lab]") {
    const lab::Bench& bench = test::assets().knowledge.bench;
    const lab::Noise quiet;
    const auto seen = [&](lab::Indices truth) {
        return lab::seen(truth, bench.spectra, bench.photometer, 1, quiet);
    };
    for (const lab::Indices& truth :
         {lab::Indices{0.5, 5, 0.6}, lab::Indices{3, 5, 0.6}, lab::Indices{0.05, 200, 0.6},
          lab::Indices{0.05, 5, 12}, lab::Indices{2, 150, 8}}) {
        const lab::Indices found = seen(truth);
        // The stray light of 1 in 10,000 costs less than 1 % below absorbance 2.
        CHECK(found.hemolysis == Approx(truth.hemolysis).epsilon(0.01).margin(0.01));
        CHECK(found.icterus == Approx(truth.icterus).epsilon(0.01).margin(1));
        CHECK(found.lipemia == Approx(truth.lipemia).epsilon(0.01).margin(0.1));
    }
    base::Chance chance(2, base::Purpose::test);
    const lab::Indices noisy =
        lab::seen({0.05, 5, 0.6}, bench.spectra, bench.photometer, 1, lab::Noise(chance));
    CHECK(noisy.hemolysis != Approx(0.05).epsilon(1e-6)); // it is measured
    // and far more finely than the eye: 0.3 g/L, 30 umol/L and 3.4 mmol/L show
    CHECK(noisy.hemolysis == Approx(0.05).margin(0.01));
    CHECK(noisy.icterus == Approx(5).margin(1));
    CHECK(noisy.lipemia == Approx(0.6).margin(0.5));
}
