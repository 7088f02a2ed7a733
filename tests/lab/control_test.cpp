// Control rules against their exact chances under independent Gaussian errors (arithmetic on the
// normal distribution), and charts read on the hand-built bench. Simulated shares may stray from
// the exact ones by four standard errors, which one honest check in sixteen thousand passes.
#include "hand_bench.h"
#include "lab/analyzer.h"
#include "lab/control/chart.h"
#include "lab/control/state.h"
#include "lab/control/tally.h"
#include "lab/report.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <thread>

using namespace cistern;
using body::Analyte;
using lab::Break;
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

/// What the last of these runs breaks.
Rules last(const std::vector<std::vector<double>>& runs,
           lab::RangeRule range = lab::RangeRule::opposite) {
    lab::Watch watch(runs.front().size(), range);
    Rules broken;
    for (const auto& run : runs) broken = watch.next(run);
    return broken;
}
std::vector<Break> breaks(const std::vector<std::vector<double>>& runs) {
    lab::Watch watch(runs.front().size());
    for (const auto& run : runs) watch.next(run);
    return watch.breaks();
}
Rules set(const std::vector<Rule>& rules) {
    Rules all;
    for (const Rule rule : rules) all.add(rule);
    return all;
}

lab::Bench guarded() {
    lab::Bench bench = hand::bench();
    bench.controls.materials = {{"Still Water", 0.5}, {"High Water", 2}};
    bench.tests.push_back({"control chart", {}, "", true});
    return bench;
}

lab::ChartPlan creatinine(std::uint64_t runs, std::uint64_t seed = 1) {
    lab::ChartPlan plan;
    plan.analyte = Analyte::creatinine;
    plan.runs = runs;
    plan.seed = seed;
    return plan;
}

lab::Machine drifting(double by) {
    return {{{lab::MachineFault::drift, Analyte::creatinine, by}}};
}

} // namespace

TEST_CASE("each rule is named on the shortest series that breaks it", "[lab]") {
    CHECK(last({{0.3, -1.2}}).empty());
    CHECK(last({{2.1, 0}}) == set({Rule::warning}));
    CHECK(last({{0, -3.1}}) == set({Rule::warning, Rule::oneThree}));
    CHECK(last({{2.1, 2.2}}) == set({Rule::warning, Rule::twoTwo}));
    CHECK(last({{2.1, 0}, {2.1, 0}}) == set({Rule::warning, Rule::twoTwo}));
    CHECK(last({{2.1, -2.1}}) == set({Rule::warning, Rule::rangeFour}));
    CHECK(last({{1.1, 0}, {1.1, -0.1}, {1.1, 0.1}, {1.1, 0}}) == set({Rule::fourOne}));
    CHECK(last({{-1.1, -1.2}, {-1.3, -1.4}}) == set({Rule::fourOne}));
    std::vector<std::vector<double>> tall(10, {0.1, -0.1});
    tall[4] = {0.1, 0.1};
    tall[6] = {0.2, 0.1};
    CHECK(last(tall) == set({Rule::ten}));
    CHECK(last(std::vector<std::vector<double>>(5, {-0.1, -0.2})) == set({Rule::ten}));
    CHECK(last({{3.1, 3.2}, {3.3, 3.4}}) ==
          set({Rule::warning, Rule::oneThree, Rule::twoTwo, Rule::fourOne}));
}

TEST_CASE("a series one short of a rule, or exactly on its limit, does not break it", "[lab]") {
    CHECK(last({{2, -2}}).empty());
    CHECK(last({{3, 0}}) == set({Rule::warning}));
    CHECK(last({{2.1, 0}, {0, 2.1}}) == set({Rule::warning})); // not the same material
    CHECK(last({{0, 2.1}, {2.1, 0}}) == set({Rule::warning}));
    CHECK(last({{2.1, 0}, {-2.1, 0}}) == set({Rule::warning})); // not the same side
    CHECK(last({{2.1, 0}, {0, -2.1}}) == set({Rule::warning})); // not the same run
    CHECK(last({{1.1, 0}, {1.1, 0}, {1.1, 0}}).empty());
    CHECK(last({{1.1, 0}, {1.1, 0}, {0.9, 0}, {1.1, 0}, {1.1, 0}, {1.1, 0}}).empty());
    CHECK(last({{1.1, 1.1}, {1.1, 0.9}}).empty());
    CHECK(last(std::vector<std::vector<double>>(4, {0.5, 0.5})).empty());
    std::vector<std::vector<double>> broken(9, {0.1, -0.1});
    CHECK(last(broken).empty());
    broken.push_back({0, 0}); // on the mean is on neither side
    CHECK(last(broken).empty());
}

TEST_CASE("R-4s in its two codings: opposite sides of 2 SD, or any range of 4 SD", "[lab]") {
    CHECK(last({{2.1, -1.95}}, lab::RangeRule::range) == set({Rule::warning, Rule::rangeFour}));
    CHECK(last({{2.1, -1.95}}, lab::RangeRule::opposite) == set({Rule::warning}));
    CHECK(last({{2.1, -2.1}}, lab::RangeRule::range).has(Rule::rangeFour));
    CHECK_FALSE(last({{4.5, 0.6}}, lab::RangeRule::range).has(Rule::rangeFour));
}

TEST_CASE("a break tells the material, the side and the first run", "[lab]") {
    CHECK(breaks({{0, 0}, {0, 2.1}, {0, 2.2}}) ==
          std::vector<Break>{{Rule::warning, 1, 1, 2}, {Rule::twoTwo, 1, 1, 1}});
    CHECK(breaks({{0, 0}, {-2.1, -2.2}}) == std::vector<Break>{{Rule::warning, 0, -1, 1},
                                                               {Rule::warning, 1, -1, 1},
                                                               {Rule::twoTwo, Break::all, -1, 1}});
    CHECK(breaks({{2.5, -2.5}}) == std::vector<Break>{{Rule::warning, 0, 1, 0},
                                                      {Rule::warning, 1, -1, 0},
                                                      {Rule::rangeFour, Break::all, 0, 0}});
    lab::Watch watch(2);
    CHECK(watch.breaks().empty());
    for (int r = 0; r < 3; ++r) watch.next(std::array{0.4, 0.2});
    CHECK(watch.oneSided(Break::all) == 3);
    watch.next(std::array{0.4, -0.2});
    CHECK(watch.oneSided(0) == 4);
    CHECK(watch.oneSided(1) == 1);
    CHECK(watch.oneSided(Break::all) == 0);
}

TEST_CASE("rules answer to random or to systematic error", "[lab]") { // lessons on multirules
    using lab::ErrorKind;
    CHECK(kind(Rule::warning) == ErrorKind::warning);
    for (const Rule rule : {Rule::oneThree, Rule::rangeFour})
        CHECK(kind(rule) == ErrorKind::random);
    for (const Rule rule : {Rule::twoTwo, Rule::fourOne, Rule::ten})
        CHECK(kind(rule) == ErrorKind::systematic);
    CHECK_FALSE(set({Rule::warning}).reject());
    CHECK(set({Rule::warning, Rule::ten}).reject());
    CHECK(name(Rule::warning) == "1-2s");
    CHECK(name(Rule::ten) == "10-x");
}

TEST_CASE("a watch refuses scores that are no numbers and runs of another size", "[lab]") {
    lab::Watch watch(2);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(watch.next(std::array{0., nan}), std::invalid_argument);
    CHECK_THROWS_AS(watch.next(std::array{0., HUGE_VAL}), std::invalid_argument);
    CHECK_THROWS_AS(watch.next(std::array{0.}), std::invalid_argument);
    CHECK_THROWS_AS(lab::Watch(0), std::invalid_argument);
    CHECK_THROWS_AS(lab::Watch(5), std::invalid_argument);
    lab::Trial trial;
    trial.factor = nan;
    CHECK_THROWS_AS(lab::tally(trial), std::invalid_argument);
    trial.factor = 1;
    trial.runs = 0;
    CHECK_THROWS_AS(lab::tally(trial), std::invalid_argument);
}

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

TEST_CASE("controls hold what the law gives them, clear of both ends of the range", "[lab]") {
    const lab::Bench bench = guarded();
    const auto& [middle, high] =
        std::pair(bench.controls.materials[0], bench.controls.materials[1]);
    // Dog 0.5 to 1.4 mg/dL: its middle, and one width above it.
    CHECK(lab::amount(bench, middle, Analyte::creatinine) / hand::creatininePerMg == Approx(0.95));
    CHECK(lab::amount(bench, high, Analyte::creatinine) / hand::creatininePerMg == Approx(2.3));
    // Bilirubin is measured from 1 umol/L on, with 0.5 umol/L of spread there: 4 of them above it.
    CHECK(lab::amount(bench, middle, Analyte::bilirubin) == Approx(3.0).margin(0.01));
    for (const lab::Method& method : bench.methods) {
        CHECK(lab::controlled(bench, method.analyte) != method.calculated);
        if (method.calculated || method.analyte == Analyte::USG)
            continue; // it has no interval here
        CHECK(lab::amount(bench, high, method.analyte) <= 0.8 * method.most * (1 + 1e-12));
        CHECK(lab::amount(bench, middle, method.analyte) >
              method.least + 3.9 * lab::spread(method, method.least));
    }
    CHECK_THROWS_AS(lab::amount(bench, high, Analyte::USG), std::out_of_range);
    CHECK_THROWS_AS(lab::chart(bench, {Analyte::globulin}), std::out_of_range);
}

TEST_CASE("controls are read as patients are: scores of sound runs have mean 0 and SD 1", "[lab]") {
    const lab::Chart chart = lab::chart(guarded(), creatinine(4000));
    for (std::size_t m = 0; m < 2; ++m) {
        double sum = 0, squares = 0;
        for (const lab::ControlRun& run : chart.runs) {
            sum += run.scores[m];
            squares += run.scores[m] * run.scores[m];
        }
        const double n = 4000, mean = sum / n;
        CHECK(std::abs(mean) < 4 / std::sqrt(n)); // four standard errors
        CHECK(std::abs(squares / n - mean * mean - 1) < 4 * std::sqrt(2 / n)); // of a variance
    }
}

TEST_CASE("a learning period gives nearly the mean and spread that the method states", "[lab]") {
    lab::ChartPlan plan = creatinine(2);
    const lab::Chart stated = lab::chart(guarded(), plan);
    plan.learning = 20; // runs, common practice
    const lab::Chart learned = lab::chart(guarded(), plan);
    for (std::size_t m = 0; m < 2; ++m) {
        const lab::Target a = stated.levels[m].target, b = learned.levels[m].target;
        CHECK(std::abs(b.mean - a.mean) < 4 * a.deviation / std::sqrt(20.0));
        CHECK(b.mean != a.mean);
        CHECK(std::abs(b.deviation / a.deviation - 1) < 4 / std::sqrt(2.0 * 19)); // of an SD
        CHECK(learned.runs[1].values == stated.runs[1].values);
    }
    CHECK(lab::learned({1, 2, 3}).mean == Approx(2));
    CHECK(lab::learned({1, 2, 3}).deviation == Approx(1));
    CHECK_THROWS_AS(lab::learned({1}), std::invalid_argument);
    CHECK_THROWS_AS(lab::learned({1, 1, 1}), std::invalid_argument);
}

TEST_CASE("the same seed gives the same chart on any thread, and a longer one begins with it",
          "[lab]") {
    const lab::Bench bench = guarded();
    const lab::Chart one = lab::chart(bench, creatinine(30, 9));
    lab::Chart other, longer;
    std::thread a([&] { other = lab::chart(bench, creatinine(30, 9)); });
    std::thread b([&] { longer = lab::chart(bench, creatinine(60, 9)); });
    a.join();
    b.join();
    for (std::size_t r = 0; r < 30; ++r) {
        CHECK(other.runs[r].values == one.runs[r].values);
        CHECK(other.runs[r].breaks == one.runs[r].breaks);
        CHECK(longer.runs[r].values == one.runs[r].values);
    }
    CHECK(lab::chart(bench, creatinine(30, 10)).runs[0].values != one.runs[0].values);
    lab::ChartPlan late = creatinine(20, 9); // runs keep their number on another chart
    late.first = 10;
    CHECK(lab::chart(bench, late).runs[0].values == one.runs[10].values);
}

TEST_CASE("a drift shows from its run on, and nowhere before it", "[lab]") {
    lab::ChartPlan plan = creatinine(30);
    const lab::Chart sound = lab::chart(guarded(), plan);
    plan.machine = drifting(0.2);
    plan.faultFrom = 24;
    const lab::Chart chart = lab::chart(guarded(), plan);
    for (std::size_t r = 0; r < 24; ++r) CHECK(chart.runs[r].values == sound.runs[r].values);
    for (std::size_t r = 24; r < 30; ++r)
        for (std::size_t m = 0; m < 2; ++m) {
            const double more = chart.runs[r].values[m] / sound.runs[r].values[m];
            CHECK(more > 1.15); // 20 % of the amount, less the repeat's own share of the reading
            CHECK(more < 1.25);
        }
    // Two runs of two controls beyond 1 SD: 4-1s from the second on.
    CHECK(chart.runs[25].broken.has(Rule::fourOne));
    CHECK(chart.runs[29].broken.has(Rule::twoTwo));
    CHECK(chart.runs[29].broken.has(Rule::ten));
    CHECK(chart.oneSided >= 6);
}

TEST_CASE("a report tells of the charts only where they are asked for", "[lab]") {
    const lab::Bench bench = guarded();
    const auto measure = [&](const std::vector<std::string>& tests, const lab::Machine& machine) {
        return lab::measure(bench, hand::dog(), hand::healthyLevels(), hand::specimen(), tests, 0,
                            machine);
    };
    CHECK_FALSE(measure({"chemistry"}, drifting(0.2)).controls);
    const lab::Report plain = measure({"chemistry"}, {});
    const lab::Report asked = measure({"chemistry", "control chart"}, {});
    REQUIRE(asked.controls);
    CHECK(asked.notRun.empty());
    REQUIRE(asked.results.size() == plain.results.size());
    for (std::size_t i = 0; i < plain.results.size(); ++i)
        CHECK(asked.results[i].value == plain.results[i].value); // asking changes no result
    const lab::ControlState& sound = *asked.controls;
    CHECK(sound.notes.size() + sound.warned.size() + sound.inControl == 9); // all but globulin

    const lab::Report drifted = measure({"chemistry", "control chart"}, drifting(0.2));
    REQUIRE(drifted.controls);
    const auto& notes = drifted.controls->notes;
    const auto note = std::find_if(notes.begin(), notes.end(), [](const lab::ControlNote& one) {
        return one.analyte == Analyte::creatinine;
    });
    REQUIRE(note != notes.end());
    CHECK(note->broken.has(Rule::fourOne));
    CHECK(note->oneSided >= bench.controls.faultFor);
    CHECK(note->side == 1);
    CHECK(note->since >= bench.controls.faultFor);
    // Creatinine alone has moved.
    const std::size_t before = static_cast<std::size_t>(
        std::count_if(sound.notes.begin(), sound.notes.end(), [](const lab::ControlNote& one) {
            return one.analyte != Analyte::creatinine;
        }));
    CHECK(notes.size() == before + 1);
}
