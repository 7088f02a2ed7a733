#include "lab/counter/coincidence.h"
#include "lab/counter/pass.h"
#include "real_bench.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numeric>
#include <thread>

using namespace cistern;
using body::Analyte;
using body::Kind;
using lab::Blood;

namespace {

const lab::Counter& machine() {
    return *real::bench().counter;
}

lab::Count passed(const Blood& blood, std::uint32_t number = 0, const lab::Tuning& setting = {}) {
    base::Chance red(1, base::Purpose::counter, 0, 2 * number);
    base::Chance white(1, base::Purpose::counter, 0, 2 * number + 1);
    return pass(machine(), blood, setting, red, white);
}

/// Means of many passes, and standard deviations.
struct Many {
    static constexpr int passes = 1000;
    lab::Count mean{}, deviation{};

    explicit Many(const Blood& blood, const lab::Tuning& setting = {}) {
        constexpr std::array members{
            &lab::Count::red,       &lab::Count::volume,      &lab::Count::redWidth,
            &lab::Count::platelets, &lab::Count::white,       &lab::Count::neutrophils,
            &lab::Count::monocytes, &lab::Count::eosinophils, &lab::Count::lymphocytes};
        std::vector<lab::Count> all;
        for (std::uint32_t i = 0; i < passes; ++i) all.push_back(passed(blood, i, setting));
        for (const auto member : members) {
            double sum = 0, squares = 0;
            for (const lab::Count& one : all) sum += one.*member;
            mean.*member = sum / passes;
            for (const lab::Count& one : all)
                squares += (one.*member - mean.*member) * (one.*member - mean.*member);
            deviation.*member = std::sqrt(squares / (passes - 1));
        }
    }
};

/// Four standard errors of a mean of so many passes with this coefficient of variation.
double fourErrors(double variation) {
    return 4 * variation / std::sqrt(Many::passes);
}

} // namespace

TEST_CASE("Coincidence follows counting theory", "[lab]") {
    // 20,000 cells/s and 5 us: 18,182 seen by a dead time that does not extend, 18,097 by one that
    // does. Standard counting theory, exact arithmetic.
    const double rate = 20000, crowding = rate * 5e-6;
    CHECK(rate * lab::pulsesNotExtending(crowding) == Approx(18182).margin(0.5));
    CHECK(rate * lab::pulsesExtending(crowding) == Approx(18097).margin(0.5));
    // The first is put right exactly, the second to the second order: 1 - 0.1^2 / 2.
    const double first = rate * lab::pulsesNotExtending(crowding);
    CHECK(lab::correctedCells(first, first * 5e-6) == Approx(rate).epsilon(1e-12));
    const double second = rate * lab::pulsesExtending(crowding);
    CHECK(lab::correctedCells(second, second * 5e-6) / rate == Approx(1 - 0.005).margin(0.0006));
    CHECK_THROWS_AS(lab::correctedCells(1, 1), std::domain_error);
}

TEST_CASE("The classic table's additions are those of its formula", "[lab]") {
    // 2.5 (D/100)^3 (500/V) (n/1000)^2: 40,000 in 500 uL through 100 um, 44,000; through 70 um,
    // 1,372 more. Mattern 1957, Wales and Wilson 1961 (from memory).
    CHECK(lab::classicAddition(40000, 100, 500) == Approx(4000).epsilon(1e-12));
    CHECK(lab::classicAddition(40000, 70, 500) == Approx(1372).margin(0.5));
    // It is the first order of the loss in its sensing volume: n^2 v / V.
    CHECK(40000. * 40000 * lab::sensingVolume(100) / 500 == Approx(4000).epsilon(1e-12));
}

TEST_CASE("A count of healthy blood is unbiased and scatters as counting says", "[lab]") {
    for (const Kind kind : {Kind::dog, Kind::cat}) {
        const Blood blood = real::blood(kind);
        const Many many(blood);
        CAPTURE(body::name(kind));
        // Bounds on the bias as the laboratory wants them: 1 %, of size 0.3 %; and four standard
        // errors of the mean.
        CHECK(many.mean.red == Approx(blood.red).epsilon(0.01));
        CHECK(many.mean.volume == Approx(blood.volume).epsilon(0.003));
        CHECK(many.mean.platelets == Approx(blood.platelets).epsilon(0.01 + fourErrors(0.025)));
        CHECK(many.mean.white == Approx(whiteCells(blood)).epsilon(0.01));
        CHECK(many.mean.lymphocytes == Approx(blood.white[2]).epsilon(0.01 + fourErrors(0.05)));
        CHECK(many.mean.monocytes == Approx(blood.white[3]).epsilon(0.01 + fourErrors(0.12)));
        // Root of the number counted, with the dilution: red cells in 0.005 uL of blood and 0.5 %,
        // white cells in 1 uL and 1 %. A standard deviation of 1000 is known to 2.3 %; 10 % is four
        // of its errors.
        const double red = std::hypot(0.005, 1 / std::sqrt(blood.red * 1e6 * 0.005));
        CHECK(many.deviation.red / many.mean.red == Approx(red).epsilon(0.10));
        const double white = std::hypot(0.01, 1 / std::sqrt(whiteCells(blood) * 1e3));
        CHECK(many.deviation.white / many.mean.white == Approx(white).epsilon(0.10));
    }
}

TEST_CASE("Crowded blood is counted a little low and sized a little high", "[lab]") {
    Blood blood = real::blood(Kind::dog);
    const Many usual(blood);
    blood.red = 14;
    const Many thick(blood);
    // With e^-x seen and n / (1 - n) put right the loss is x^2 / 2: crowding 14e6 / 50000 * 2.7e-4
    // = 0.076, 0.29 %. Means of 1000 are known to 0.08 %.
    CHECK(thick.mean.red / 14 == Approx(1 - 0.0029).margin(0.0012));
    CHECK(thick.mean.volume > usual.mean.volume * 1.0003); // four errors: 0.05 %; two by formula
    blood = real::blood(Kind::dog);
    blood.white[2] = 290; // 300 in all: crowding 0.38, 7 to 8 % lost in spite of the correction
    CHECK(Many(blood).mean.white / whiteCells(blood) == Approx(0.923).margin(0.005));
}

TEST_CASE("Clumps of a cat's platelets leave their gate and swell the white cells", "[lab]") {
    Blood blood = real::blood(Kind::cat);
    const Many sound(blood);
    blood.wear.clumped = 0.3;
    blood.wear.clumpSize = 20;
    const Many clumped(blood);
    CHECK(clumped.mean.platelets / sound.mean.platelets == Approx(0.7).margin(0.02));
    // 375 * 0.3 / 20 = 5.6 clumps [10*9/L] of 262 fL on average, log-normal by 0.8: 79 % of them
    // are above the threshold of 100 fL; a mean of 1000 is known to 0.01.
    CHECK(clumped.mean.white - sound.mean.white == Approx(5.625 * 0.79).margin(0.1));
    CHECK(clumped.mean.redWidth > 1.03 * sound.mean.redWidth);
    // Nothing else moves beyond four errors of two means.
    const double both = std::sqrt(2.);
    CHECK(clumped.mean.neutrophils ==
          Approx(sound.mean.neutrophils).epsilon(both * fourErrors(0.03)));
    CHECK(clumped.mean.monocytes == Approx(sound.mean.monocytes).epsilon(both * fourErrors(0.16)));
    CHECK(clumped.mean.red == Approx(sound.mean.red).epsilon(0.0015 + both * fourErrors(0.008)));
    CHECK(clumped.mean.volume == Approx(sound.mean.volume).epsilon(0.003));

    int seen = 0, falsely = 0;
    for (std::uint32_t i = 0; i < 200; ++i) {
        seen += passed(blood, i).largeParticles;
        falsely += passed(real::blood(Kind::cat), i).largeParticles;
    }
    CHECK(seen > 100);
    CHECK(falsely <= 2);
}

TEST_CASE("Giant platelets count as red cells and white ones", "[lab]") {
    Blood blood = real::blood(Kind::cat);
    const Many sound(blood);
    blood.large = 0.1;
    const Many giant(blood);
    CHECK(giant.mean.platelets / sound.mean.platelets == Approx(0.905).margin(0.02));
    CHECK(giant.mean.red > sound.mean.red * 1.002);
    CHECK(giant.mean.white > sound.mean.white + 0.5);
}

TEST_CASE("Nucleated red cells count as white ones and sort as lymphocytes", "[lab]") {
    Blood blood = real::blood(Kind::dog);
    const Many sound(blood);
    blood.nucleated = 50;
    const Many many(blood);
    CHECK(many.mean.white / sound.mean.white == Approx(1.5).margin(0.01));
    CHECK(many.mean.lymphocytes - sound.mean.lymphocytes ==
          Approx(0.5 * whiteCells(blood)).epsilon(0.02));
    CHECK(many.mean.neutrophils == Approx(sound.mean.neutrophils).epsilon(2 * fourErrors(0.03)));
    // None in health, some to dozens in strong regeneration. Harvey, from memory.
    CHECK(nucleatedCells(machine(), Kind::dog, 45, 10) == 0);
    CHECK(nucleatedCells(machine(), Kind::dog, 700, 20) == Approx(10));
}

TEST_CASE("A clogged hole sizes high and, when patience ends, counts low", "[lab]") {
    const Blood blood = real::blood(Kind::dog);
    const Many sound(blood);
    lab::Tuning slight, bad;
    slight.redClogged = 0.03;
    bad.redClogged = 0.10;
    const Many little(blood, slight), much(blood, bad);
    // Coulter's principle: pulses as the inverse square of the area.
    CHECK(little.mean.volume / sound.mean.volume == Approx(1 / (0.97 * 0.97)).epsilon(0.005));
    CHECK(little.mean.red / sound.mean.red == Approx(1).margin(0.004));
    CHECK(much.mean.red / sound.mean.red == Approx(1.05 * 0.9).margin(0.006)); // patience 1.05
    CHECK(much.mean.redWidth > sound.mean.redWidth);
    CHECK(much.mean.white == sound.mean.white);
    CHECK(passed(blood, 0, bad).slow);
    CHECK_FALSE(passed(blood, 0, slight).slow);
    bad.redClogged = 1;
    CHECK_THROWS_AS(passed(blood, 0, bad), std::invalid_argument);
}

TEST_CASE("Sizes lie in channels, and the gate in the valley between them", "[lab]") {
    const lab::Count count = passed(real::blood(Kind::cat));
    // Every pulse of the gates is in the picture.
    const auto& all = count.sizes.counts();
    const double sum = std::accumulate(all.begin(), all.end(), 0.);
    CHECK(count.sizes.pulses(0, lab::Sizes::channels) == sum);
    const double divide = lab::Sizes::edge(count.divide);
    CHECK(divide > 20); // platelets of 12 fL, red cells of 46 fL
    CHECK(divide < 33);
    CHECK(lab::Sizes::edge(lab::Sizes::nearest(64)) == Approx(64).epsilon(1e-12));
    // A log-normal of 13.5 % about 69 fL keeps its mean and width: channels are 6 % wide.
    lab::Sizes red;
    const double spread = std::sqrt(std::log1p(0.135 * 0.135));
    red.expect(1, 69 * std::exp(-spread * spread / 2), spread);
    CHECK(red.mean(0, lab::Sizes::channels) == Approx(69).epsilon(0.001));
    CHECK(red.variation(0, lab::Sizes::channels) == Approx(0.135).margin(0.002));
}

TEST_CASE("Empty blood is counted as none, impossible blood is refused", "[lab]") {
    const lab::Count none = passed(Blood{});
    CHECK(none.red < 0.01);
    CHECK(none.white == 0);
    CHECK(none.platelets < 5); // dust, about its mean
    for (const double wrong :
         {-1., std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        Blood blood = real::blood(Kind::dog);
        blood.red = wrong;
        CHECK_THROWS_AS(passed(blood), std::invalid_argument);
        blood = real::blood(Kind::dog);
        blood.wear.clumped = wrong;
        CHECK_THROWS_AS(passed(blood), std::invalid_argument);
        blood = real::blood(Kind::dog);
        blood.white[4] = wrong;
        CHECK_THROWS_AS(passed(blood), std::invalid_argument);
    }
    Blood flat = real::blood(Kind::dog);
    flat.volume = 0;
    CHECK_THROWS_AS(passed(flat), std::invalid_argument);
}

TEST_CASE("The same tube gives the same count on one thread and on two", "[lab]") {
    constexpr std::uint32_t n = 200;
    const Blood blood = real::blood(Kind::cat);
    std::vector<lab::Count> alone(n), shared(n);
    for (std::uint32_t i = 0; i < n; ++i) alone[i] = passed(blood, i);
    const auto half = [&](std::uint32_t from, std::uint32_t to) {
        for (std::uint32_t i = from; i < to; ++i) shared[i] = passed(blood, i);
    };
    std::thread other(half, 0, n / 2);
    half(n / 2, n);
    other.join();
    bool same = true;
    for (std::uint32_t i = 0; i < n; ++i)
        same = same && alone[i].red == shared[i].red && alone[i].volume == shared[i].volume &&
               alone[i].white == shared[i].white && alone[i].platelets == shared[i].platelets &&
               alone[i].reticulocytes == shared[i].reticulocytes &&
               alone[i].sizes.counts() == shared[i].sizes.counts();
    CHECK(same);
    CHECK(alone[0].red != alone[1].red); // counting twice gives two numbers
}
