#include "lab/analyzer.h"
#include "lab/assay/kinetic.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using body::Analyte;

namespace {

const lab::Method& method(Analyte analyte) {
    return test::assets().knowledge.bench.method(analyte);
}

const lab::Kinetic& kinetic(Analyte analyte) {
    return std::get<lab::Kinetic>(method(analyte).assay);
}

/// Amounts after `seconds` from the start of a cuvette as laid down, at this rate [mmol/L/s].
lab::Progress after(const lab::Kinetic& assay, double rate, double seconds, double step) {
    lab::Progress now;
    const auto steps = std::lround(seconds / step);
    for (long i = 0; i < steps; ++i)
        now = lab::moved(assay, now, rate, assay.substrate, assay.indicator, step);
    return now;
}

lab::Setting setting(double content) {
    lab::Setting one;
    one.content = content;
    return one;
}

double quiet(const lab::Kinetic& assay, double content) {
    return lab::run(assay, setting(content), lab::Noise()).content;
}

} // namespace

TEST_CASE("The factor of an enzyme follows from absorption and volumes", "[lab]") {
    // Reagent sheets: 1.0 mL with 50 or 100 uL of sample at 6.3 L/mmol/cm give 3333 and 1746, 1 in
    // 51 at 18.8 gives 2712; IFCC ALT 1 in 12 gives 1904.8 (arithmetic).
    CHECK(lab::enzymeFactor(6.3, {100, 1200}) == Approx(1904.8).margin(0.05));
    CHECK(lab::enzymeFactor(6.3, {50, 1050}) == Approx(3333).margin(1));
    CHECK(lab::enzymeFactor(6.3, {100, 1100}) == Approx(1746).margin(1));
    CHECK(lab::enzymeFactor(18.8, {1, 51}) == Approx(2712.8).margin(0.05));
}

TEST_CASE("Enzymes run as fast as their substrates allow", "[lab]") {
    // IFCC ALT 1979, appendix C: alanine 500 and oxoglutarate 15 mmol/L, half rates at 27.7 and
    // 0.725, two substrates by turns: 0.906 of the greatest rate; the document says 0.91.
    CHECK(1 / (1 + 27.7 / 500 + 0.725 / 15) == Approx(0.906).margin(5e-4));
    CHECK(lab::saturation(500, 27.7) == Approx(1 / (1 + 27.7 / 500)).epsilon(1e-12));
    // Arithmetic: 10, 20, 100 times the half-rate amount.
    CHECK(lab::saturation(10, 1) == Approx(0.909).margin(5e-4));
    CHECK(lab::saturation(20, 1) == Approx(0.952).margin(5e-4));
    CHECK(lab::saturation(100, 1) == Approx(0.990).margin(5e-4));
}

TEST_CASE("Substrate is eaten as the integrated law of Michaelis and Menten says", "[lab]") {
    lab::Kinetic assay;
    assay.substrate = 10;
    assay.affinity = 2;
    assay.indicator = 100;
    const double rate = 0.05;                           // at the start [mmol/L/s]
    const double top = rate / lab::saturation(10.0, 2); // V
    double last = 1;
    for (const double step : {4.0, 2.0, 1.0}) {
        const double turned = after(assay, rate, 160, step).turned;
        const double left = 10 - turned;
        // V t = S0 - S + Km ln(S0 / S), textbook: the time that this much takes
        const double time = (turned + 2 * std::log(10 / left)) / top;
        const double error = std::abs(time - 160) / 160;
        CHECK(error < 2e-3);
        CHECK(error < last / 3.5); // second order: a half step, a quarter of the error
        last = error;
    }
    assay.affinity = 1e4; // so little substrate that the law is of first order
    CHECK(after(assay, 0.05, 160, 1).turned ==
          Approx(10 * -std::expm1(-0.05 / 10 * 160)).epsilon(1e-3));
}

TEST_CASE("A coupled reaction lags by half rate over speed", "[lab]") {
    lab::Kinetic assay;
    assay.substrate = 500;
    assay.affinity = 1;
    assay.indicator = 100;
    assay.coupling = 1700;
    assay.couplingAffinity = 0.15;
    const double rate = 1e-5; // far below what the coupling enzyme can do
    const double tau = 0.15 / (1.7 / 60);
    CHECK(std::log(100) * tau == Approx(24).margin(0.5)); // 99 %: McClure 1969, from memory
    const double step = 0.1;
    const auto rateAt = [&](double t) {
        return (after(assay, rate, t + step, step).shown - after(assay, rate, t, step).shown) /
               step / rate;
    };
    CHECK(rateAt(24.4) == Approx(0.99).margin(0.002));
    CHECK(rateAt(5.3) == Approx(1 - std::exp(-5.35 / tau)).margin(0.01));
}

TEST_CASE("Much enzyme uses the indicator up in minutes", "[lab]") {
    // Arithmetic: 0.18 mmol/L at U / 12000 mmol/L/min, without lag.
    lab::Kinetic assay = kinetic(Analyte::ALT);
    assay.coupling = 0;
    assay.indicatorAffinity = 0;
    struct Row {
        double activity, minutes;
    };
    for (const Row& row : {Row{300, 7.2}, Row{900, 2.40}, Row{2000, 1.08}, Row{5000, 0.432}}) {
        const double rate = row.activity / 12 / 1000 / 60;
        const double seconds = 60 * row.minutes;
        CHECK(after(assay, rate, 0.98 * seconds, seconds / 1000).shown < 0.18);
        // alanine falls by 0.18 of 500 mmol/L meanwhile, far less than 1 %
        CHECK(after(assay, rate, 1.01 * seconds, seconds / 1000).shown ==
              Approx(0.18).epsilon(1e-9));
    }
}

TEST_CASE("438 U/L of ALT leave an absorbance of 0.1 after delay and reading", "[lab]") {
    // Arithmetic: 90 s and 180 s at 1 in 12, from 1.134, without lag and blank.
    lab::Kinetic assay = kinetic(Analyte::ALT);
    assay.coupling = 0;
    assay.indicatorAffinity = 0;
    assay.blank = 0;
    assay.photometer.stray = 0;
    const lab::Trace trace = lab::run(assay, setting(438), lab::Noise()).trace;
    CHECK(trace.absorbance.front() == Approx(1.134f).epsilon(1e-5));
    CHECK(trace.seconds.back() == 270);
    CHECK(trace.absorbance.back() == Approx(0.1f).margin(0.001f)); // 1 U/L is 0.0024
}

TEST_CASE("A trace is read in its straight part", "[lab]") {
    const lab::Kinetic& assay = kinetic(Analyte::ALT);
    const lab::Signal calm = lab::run(assay, setting(200), lab::Noise());
    CHECK(calm.trace.from == 90);
    CHECK(calm.trace.to == 270);
    CHECK(calm.remark.empty());
    const lab::Signal fast = lab::run(assay, setting(800), lab::Noise());
    CHECK_FALSE(fast.bent);
    CHECK(fast.trace.to < 150);                       // 2.7 min until the indicator is gone
    CHECK(fast.content == Approx(800).epsilon(0.02)); // stray light and the start of the bend
    CHECK(lab::run(assay, setting(3000), lab::Noise()).bent);
}

TEST_CASE("Without the check of the trace very high ALT prints low; with it, right", "[lab]") {
    const double truth = GENERATE(3000.0, 5000.0, 8000.0);
    const lab::Method& alt = method(Analyte::ALT);
    base::Chance chance(1, base::Purpose::test, 0, static_cast<std::uint32_t>(truth));
    lab::Machine careless;
    careless.linearityCheck = false;
    for (int i = 0; i < 20; ++i) {
        const lab::Reading believed = lab::read(alt, {truth}, careless, 1, chance);
        CHECK_FALSE(believed.diluted);
        CHECK(believed.value < 50); // under a healthy dog's upper limit
        const lab::Reading checked = lab::read(alt, {truth}, {}, 1, chance);
        CHECK(checked.diluted);
        CHECK(checked.bound == lab::Bound::exact);
        CHECK_FALSE(checked.remarks.empty());
        // four standard deviations as stated, and the quarter of one that it may be biased
        CHECK(checked.value == Approx(truth).margin(4.25 * lab::spread(alt, truth, true)));
    }
}

TEST_CASE("Dark serum does not hide that the indicator is gone", "[lab]") {
    const lab::Method& alt = method(Analyte::ALT);
    base::Chance chance(2, base::Purpose::test);
    lab::Cup cup{6000};
    cup.color = {4, 200, 6}; // the flat trace stands at more than the useful absorbance
    const lab::Reading reading = lab::read(alt, cup, {}, 1, chance);
    CHECK(reading.diluted);
    CHECK(reading.value == Approx(6000).margin(4.25 * lab::spread(alt, 6000, true)));
}

TEST_CASE("A healthy trace is read whole", "[lab]") {
    // Noise bends a trace by chance; it must not be taken for a bend more than once in a hundred.
    for (const Analyte analyte :
         {Analyte::ALT, Analyte::AST, Analyte::ALP, Analyte::GGT, Analyte::GLDH, Analyte::CK,
          Analyte::LDH, Analyte::lipase, Analyte::amylase, Analyte::bileAcids}) {
        const lab::Method& one = method(analyte);
        base::Chance chance(4, base::Purpose::test);
        int cut = 0;
        for (int i = 0; i < 500; ++i) {
            const double level = one.least + 0.05 * (one.most - one.least);
            cut += !lab::read(one, {level}, {}, 1, chance).remarks.empty();
        }
        INFO(body::name(analyte));
        CHECK(cut <= 5);
    }
}

TEST_CASE("The same chance gives the same trace", "[lab]") {
    const lab::Kinetic& assay = kinetic(Analyte::CK);
    const auto trace = [&] {
        base::Chance chance(7, base::Purpose::test);
        return lab::run(assay, setting(400), lab::Noise(chance)).trace;
    };
    CHECK(trace().absorbance == trace().absorbance);
    CHECK(trace().absorbance != lab::run(assay, setting(400), lab::Noise()).trace.absorbance);
}

TEST_CASE("Kinetic faults move what they should", "[lab]") {
    const lab::Kinetic& alt = kinetic(Analyte::ALT);
    const auto with = [&](double content, auto change) {
        lab::Setting one = setting(content);
        change(one);
        return lab::run(alt, one, lab::Noise());
    };
    const double sound = quiet(alt, 200);
    CHECK(sound == Approx(200).epsilon(0.002)); // the calibrator stands at 225

    // 1 K: 2^0.1 = 1.072 faster
    CHECK(with(200, [](auto& s) { s.warm = 1; }).content / sound ==
          Approx(std::pow(2, 0.1)).epsilon(0.003));
    // a fifth of the sample lost: 0.8 / (0.8 + 11) of 1 / 12
    CHECK(with(200, [](auto& s) { s.taken = 0.8; }).content / sound ==
          Approx(0.8 / 11.8 * 12).epsilon(0.003));
    // the lamp makes noise, and stray light on top
    CHECK(with(200, [](auto& s) { s.lamp = 0.5; }).content / sound == Approx(1).epsilon(0.005));
    // a lot without half of its substance: nearly the same slope, but sooner used up
    const auto half = [](auto& s) { s.lot = 0.5; };
    CHECK(with(100, half).content / quiet(alt, 100) ==
          Approx(250 / 277.7 / (500 / 527.7)).epsilon(0.01));
    CHECK(with(500, half).trace.to < with(
                                         500, [](auto&) {})
                                         .trace.to);
    // dark serum shifts the whole trace, not its slope
    const lab::Signal red = with(200, [](auto& s) { s.color = {2, 100, 3}; });
    CHECK(red.trace.absorbance.front() > 1.2f);
    CHECK(red.content / sound == Approx(1).epsilon(0.01));
}

TEST_CASE("Broken red cells make creatine kinase read high by their adenylate kinase", "[lab]") {
    lab::Method ck = method(Analyte::CK);
    const auto mean = [&](const lab::Cup& cup) {
        base::Chance chance(3, base::Purpose::test);
        double sum = 0;
        for (int i = 0; i < 400; ++i) sum += lab::read(ck, cup, {}, 1, chance).value;
        return sum / 400;
    };
    lab::Cup clean{100}, red{100};
    red.color.hemolysis = 4;
    // 5 U/L for 1 g/L (3 to 8, assumed); the same chance in both, so little of the noise is left
    CHECK(mean(red) - mean(clean) == Approx(20).margin(0.5));
}
