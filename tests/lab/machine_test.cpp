#include "lab/analyzer.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using body::Analyte;
using lab::MachineFault;

namespace {

const lab::Bench& bench() {
    return test::assets().knowledge.bench;
}

/// By how much a machine's fault moves the mean of a method at a tenth of its range, as share.
double moved(const lab::Method& method, const lab::Fault& fault) {
    const double zero = lab::origin(method.analyte);
    const double level = method.least + 0.1 * (method.most - method.least);
    lab::Machine machine;
    machine.faults.push_back(fault);
    constexpr int repeats = 200;
    // the same chance with and without: nearly all of the noise drops out of the difference
    base::Chance with(5, base::Purpose::test), without(5, base::Purpose::test);
    double difference = 0;
    for (int i = 0; i < repeats; ++i)
        difference += lab::read(method, {level}, machine, 1, with).value -
                      lab::read(method, {level}, {}, 1, without).value;
    return difference / repeats / (level - zero);
}

template<class Principle>
const Principle* as(const lab::Method& method) {
    return std::get_if<Principle>(&method.assay);
}

/// Says of every method with physics, and how far the fault moves it.
template<class Say>
void eachMoved(const lab::Fault& fault, Say say) {
    for (const lab::Method& method : bench().methods)
        if (!std::holds_alternative<std::monostate>(method.assay)) {
            const double by = moved(method, fault);
            INFO(body::name(method.analyte) << " by " << by);
            say(method, by);
        }
}

} // namespace

TEST_CASE("Drift moves every method by its share", "[lab]") {
    eachMoved({MachineFault::drift, {}, 0.06}, [](const lab::Method&, double by) {
        CHECK(by == Approx(0.06).margin(0.005)); // clipping at the range's lower end
    });
}

TEST_CASE("A fault of one method leaves the others alone", "[lab]") {
    const lab::Fault fault{MachineFault::drift, Analyte::ALT, 0.1};
    CHECK(moved(bench().method(Analyte::ALT), fault) == Approx(0.1).margin(0.005));
    CHECK(moved(bench().method(Analyte::AST), fault) == 0);
}

TEST_CASE("A dirty aperture of the counter touches nothing but counts", "[lab]") {
    eachMoved({MachineFault::dirtyAperture, {}, 0.3},
              [](const lab::Method&, double by) { CHECK(by == 0); });
}

TEST_CASE("A weak lamp moves only what is read by its light, and that little", "[lab]") {
    eachMoved({MachineFault::lamp, {}, 0.5}, [](const lab::Method& method, double by) {
        if (as<lab::Kinetic>(method) || as<lab::EndPoint>(method))
            CHECK(std::abs(by) < 0.01); // twice the stray light
        else
            CHECK(by == 0);
    });
}

TEST_CASE("A warm block speeds what is read as a rate", "[lab]") {
    eachMoved({MachineFault::wrongTemperature, {}, 2}, [](const lab::Method& method, double by) {
        if (const auto* kinetic = as<lab::Kinetic>(method))
            CHECK(by == Approx(std::pow(kinetic->q10, 0.2) - 1).epsilon(0.05));
        else if (const auto* timer = as<lab::Timer>(method))
            CHECK((timer->atOne > 0 ? by > 0.05 : by < -0.05)); // sooner is more fibrinogen
        else if (method.analyte == Analyte::urea)
            CHECK(by > 0.08);
        else if (as<lab::EndPoint>(method) || as<lab::Electrode>(method))
            CHECK(std::abs(by) < 0.015);
    });
}

TEST_CASE("A short sample lowers all that is pipetted and lengthens clotting", "[lab]") {
    eachMoved({MachineFault::shortSample, {}, 0.1}, [](const lab::Method& method, double by) {
        if (as<lab::Refractometer>(method))
            CHECK(by == 0);
        else if (method.analyte == Analyte::PT || method.analyte == Analyte::aPTT)
            CHECK((by > 0.01 && by < 0.06)); // half the power of the plasma's share
        else
            CHECK((by < -0.03 && by > -0.12));
    });
}

TEST_CASE("A lot without a fifth of its substance touches what needs reagents", "[lab]") {
    eachMoved({MachineFault::badLot, {}, 0.2}, [](const lab::Method& method, double by) {
        if (as<lab::Refractometer>(method))
            CHECK(by == 0);
        else if (const auto* ligand = as<lab::Ligand>(method))
            CHECK((ligand->end > ligand->start ? by < -0.1 : by > 0.1));
        else if (as<lab::Kinetic>(method))
            CHECK((by < 0 && by > -0.12)); // substrate in excess hides most of it
        else if (method.analyte == Analyte::urea)
            CHECK(by < -0.1); // its rate is that of the enzymes in the reagent
    });
}

TEST_CASE("What cannot be in a cup is refused", "[lab]") {
    const lab::Method& alt = bench().method(Analyte::ALT);
    base::Chance chance(1, base::Purpose::test);
    const auto refused = [&](const lab::Cup& cup) {
        CHECK_THROWS_AS(lab::read(alt, cup, {}, 1, chance), std::invalid_argument);
    };
    refused({-1});
    refused({std::nan("")});
    refused({50, {}, 1.2});
    refused({50, {}, 0.07, 0});
}
