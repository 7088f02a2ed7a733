// Control rules against their exact chances under independent Gaussian errors (arithmetic on the
// normal distribution). Simulated shares may stray from the exact ones by four standard errors,
// which one honest check in sixteen thousand passes.
#include "lab/control/tally.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

using namespace cistern;
using lab::Rule;
using lab::Rules;

namespace {

constexpr std::uint64_t few = 200000; // runs; a million are counted by the timing program

double below(double z) {
    return 0.5 * std::erfc(-z / std::sqrt(2.0));
}
/// P(score > limit) of a score shifted by `shift` and spread by `factor`.
double above(double limit, double shift = 0, double factor = 1) {
    return below((shift - limit) / factor);
}
/// P(score < -limit).
double under(double limit, double shift = 0, double factor = 1) {
    return below((-limit - shift) / factor);
}
double outside(double limit, double shift = 0, double factor = 1) {
    return above(limit, shift, factor) + under(limit, shift, factor);
}
/// P(at least one of n).
double anyOf(int n, double p) {
    return 1 - std::pow(1 - p, n);
}
/// P(1-3s, 2-2s or R-4s rejects one run of two controls): all but both within 2 SD, or one within
/// and the other between 2 and 3 SD.
double multirule(double shift = 0, double factor = 1) {
    const double c = 1 - outside(2, shift, factor);
    const double u = above(2, shift, factor) - above(3, shift, factor);
    const double l = under(2, shift, factor) - under(3, shift, factor);
    return 1 - (c * c + 2 * c * (u + l));
}

struct Sample {
    std::size_t materials = 2;
    double shift = 0, factor = 1;
    std::uint64_t window = 1;
    lab::RangeRule range = lab::RangeRule::opposite;
};

lab::Tally count(const Sample& sample, std::uint64_t seed) {
    lab::Trial trial;
    trial.runs = few;
    trial.materials = sample.materials;
    trial.shift = sample.shift;
    trial.factor = sample.factor;
    trial.window = sample.window;
    trial.range = sample.range;
    trial.seed = seed;
    return lab::tally(trial);
}

void near(double simulated, double exact, const lab::Tally& tally) {
    INFO("simulated " << simulated << ", exact " << exact);
    CHECK(std::abs(simulated - exact) <= 4 * tally.standardError(exact));
}
} // namespace

TEST_CASE("false rejection of 1-2s and 1-3s by the number of controls in a run", "[lab]") {
    // Exact values of the normal distribution; quoted as 5, 9, 14 and 18 %, of which the last two
    // come from rounding the first.
    const std::array warned{0.0455, 0.08893, 0.13038, 0.16995};
    const std::array rejected{0.00270, 0.00539, 0.00808, 0.01076};
    for (std::size_t n = 1; n <= 4; ++n) {
        const int controls = static_cast<int>(n);
        const lab::Tally tally = count({n}, 100 + n);
        CHECK(anyOf(controls, outside(2)) == Approx(warned[n - 1]).margin(5e-6)); // last digit
        CHECK(anyOf(controls, outside(3)) == Approx(rejected[n - 1]).margin(5e-6));
        near(tally.share(Rule::warning), anyOf(controls, outside(2)), tally);
        near(tally.share(Rule::oneThree), anyOf(controls, outside(3)), tally);
    }
}

TEST_CASE("false rejection of the rules of one run of two controls", "[lab]") {
    const lab::Tally tally = count({2}, 11);
    CHECK(multirule() == Approx(0.0072).margin(5e-5)); // last digit quoted
    CHECK(2 * above(2) * above(2) == Approx(0.001035).margin(5e-7));
    near(tally.rejection(), multirule(), tally);
    near(tally.share(Rule::twoTwo), 2 * above(2) * above(2), tally);
    near(tally.share(Rule::rangeFour), 2 * above(2) * under(2), tally);

    const double range = 2 * above(4 / std::sqrt(2.0)); // of a difference, whose SD is 2^0.5
    CHECK(range == Approx(0.00468).margin(5e-6));
    const lab::Tally coded = count({2, 0, 1, 1, lab::RangeRule::range}, 12);
    near(coded.share(Rule::rangeFour), range, coded);
    CHECK(range > 4 * 2 * above(2) * under(2)); // 4.5 times as often
}

TEST_CASE("false rejection of 4-1s and 10-x in windows of four and of ten runs", "[lab]") {
    CHECK(2 * std::pow(above(1), 4) == Approx(0.001267).margin(5e-7)); // last digit quoted
    const lab::Tally four = count({1, 0, 1, 4}, 21);
    near(four.share(Rule::fourOne), 2 * std::pow(above(1), 4), four);
    const lab::Tally ten = count({1, 0, 1, 10}, 22);
    near(ten.share(Rule::ten), 2 * std::pow(0.5, 10), ten); // 0.001953
}

TEST_CASE("power against a shift: rules of one run", "[lab]") {
    CHECK(above(3, 3) == Approx(0.5).margin(1e-9)); // a shift of 3 SD: half of all controls
    struct Row {
        double shift, warned, oneThree, twoTwo, all; // exact values, four decimals
    };
    for (const Row& row :
         {Row{0.5, .1407, .0128, .0045, .0173}, Row{1, .2944, .0450, .0252, .0639},
          Row{2, .7500, .2921, .2500, .4087},
          Row{2.35, .8681, .4492, .4056, .5928}, // sigma 4, less 1.65
          Row{3, .9748, .7500, .7079, .8665}, Row{3.35, .9922, .8681, .8308, .9435}}) { // sigma 5
        const lab::Tally tally = count({2, row.shift}, 31);
        const double two = std::pow(above(2, row.shift), 2) + std::pow(under(2, row.shift), 2);
        CHECK(anyOf(2, outside(2, row.shift)) == Approx(row.warned).margin(5.1e-5));
        CHECK(anyOf(2, outside(3, row.shift)) == Approx(row.oneThree).margin(5.1e-5));
        CHECK(two == Approx(row.twoTwo).margin(5.1e-5));
        CHECK(multirule(row.shift) == Approx(row.all).margin(5.1e-5));
        near(tally.share(Rule::warning), anyOf(2, outside(2, row.shift)), tally);
        near(tally.share(Rule::oneThree), anyOf(2, outside(3, row.shift)), tally);
        near(tally.share(Rule::twoTwo), two, tally);
        near(tally.rejection(), multirule(row.shift), tally);
    }
    for (const auto& [n, exact] : {std::pair<std::size_t, double>{1, .5}, {2, .75}, {4, .9375}}) {
        const lab::Tally tally = count({n, 3}, 32);
        CHECK(anyOf(static_cast<int>(n), outside(3, 3)) == Approx(exact).margin(1e-8));
        near(tally.share(Rule::oneThree), anyOf(static_cast<int>(n), outside(3, 3)), tally);
    }
}

TEST_CASE("power against a shift: rules of several runs", "[lab]") {
    struct Row {
        double shift, four, ten; // exact values, four decimals
    };
    for (const Row& row : {Row{0.5, .0091, .0250}, Row{1, .0625, .1777}, Row{2, .5011, .7944}}) {
        const double four = std::pow(above(1, row.shift), 4) + std::pow(under(1, row.shift), 4);
        const double ten = std::pow(above(0, row.shift), 10) + std::pow(under(0, row.shift), 10);
        CHECK(four == Approx(row.four).margin(5.1e-5));
        CHECK(ten == Approx(row.ten).margin(5.1e-5));
        const lab::Tally fours = count({1, row.shift, 1, 4}, 41);
        const lab::Tally tens = count({1, row.shift, 1, 10}, 42);
        near(fours.share(Rule::fourOne), four, fours);
        near(tens.share(Rule::ten), ten, tens);
    }
}

TEST_CASE("power against a spread that has grown", "[lab]") {
    struct Row {
        double factor, oneThree, twoTwo, range, all; // exact values, four decimals
    };
    for (const Row& row : {Row{1.5, .0889, .0166, .0593, .1077}, Row{2, .2494, .0503, .1573, .2831},
                           Row{3, .5339, .1275, .3458, .5692}}) {
        const double f = row.factor;
        const double two = 2 * above(2, 0, f) * above(2, 0, f);
        const double range = 2 * above(4 / std::sqrt(2.0), 0, f);
        CHECK(anyOf(2, outside(3, 0, f)) == Approx(row.oneThree).margin(5.1e-5));
        CHECK(two == Approx(row.twoTwo).margin(5.1e-5));
        CHECK(range == Approx(row.range).margin(5.1e-5));
        CHECK(multirule(0, f) == Approx(row.all).margin(5.1e-5));
        const lab::Tally tally = count({2, 0, f}, 51);
        near(tally.share(Rule::oneThree), anyOf(2, outside(3, 0, f)), tally);
        near(tally.share(Rule::twoTwo), two, tally);
        near(tally.share(Rule::rangeFour), two, tally);
        near(tally.rejection(), multirule(0, f), tally);
        const lab::Tally coded = count({2, 0, f, 1, lab::RangeRule::range}, 52);
        near(coded.share(Rule::rangeFour), range, coded);
    }
}

TEST_CASE("a tally is the same on one, two and five threads", "[lab]") {
    lab::Trial trial;
    trial.runs = few;
    trial.shift = 0.4;
    const lab::Tally one = lab::tally(trial);
    for (const std::size_t threads : {2u, 5u}) {
        trial.threads = threads;
        const lab::Tally many = lab::tally(trial);
        CHECK(many.runs == few);
        CHECK(many.broken == one.broken);
        CHECK(many.rejected == one.rejected);
    }
}

TEST_CASE("a tally refuses a spread that is no number, and no runs at all", "[lab]") {
    lab::Trial trial;
    trial.factor = std::nan("");
    CHECK_THROWS_AS(lab::tally(trial), std::invalid_argument);
    trial.factor = 1;
    trial.runs = 0;
    CHECK_THROWS_AS(lab::tally(trial), std::invalid_argument);
}
