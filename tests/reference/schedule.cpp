#include "reference/schedule.h"

#include "base/chance.h"

#include <cmath>

namespace reference {

using namespace cistern::body;

namespace {

class Dice {
public:
    explicit Dice(std::uint64_t number) : chance_(20240, cistern::base::Purpose::test, number) {}
    double even(double low, double high) { return low + (high - low) * chance_.uniform(); }
    double log(double low, double high) {
        return low * std::exp(std::log(high / low) * chance_.uniform());
    }
    bool happens(double share) { return chance_.uniform() < share; }
    /// A span of hours on the quarter-hour grid, a quarter at least.
    double hours(double low, double high) { return std::max(0.25, grid(log(low, high))); }
    static double grid(double hours) { return std::round(4 * hours) / 4; }

private:
    cistern::base::Chance chance_;
};

double deathRate(double share, double hours) {
    return -std::log1p(-share) / hours;
}

void addLiver(std::vector<Window>& w, Dice& dice, int which, double from) {
    if (which == 0) { // necrosis
        const double T = dice.hours(1, 48), k = deathRate(dice.even(0.01, 0.8), T);
        w.push_back({Drive::liverDeath, from, from + T, k});
        w.push_back({Drive::liverScar, from, from + T, 0.03 * k});
    } else if (which == 1) { // injury
        w.push_back({Drive::liverLeak, from, from + dice.hours(6, 400), dice.log(0.5, 20)});
    } else if (which == 2) { // fibrosis
        const double T = dice.hours(100, 2000), k = deathRate(dice.even(0.1, 0.85), T);
        w.push_back({Drive::liverDeath, from, from + T, k});
        w.push_back({Drive::liverScar, from, from + T, k});
        w.push_back({Drive::liverLeak, from, from + T, 2});
    } else if (which == 3) {
        const double T = dice.hours(12, 600);
        w.push_back(
            {Drive::bileBlock, from, from + T, dice.happens(0.3) ? 1.0 : dice.even(0.1, 1)});
    } else if (which == 4) {
        const double T = dice.hours(12, 600);
        w.push_back({Drive::canalicularBlock, from, from + T, dice.even(0.1, 0.95)});
    } else if (which == 5) {
        const double T = dice.hours(24, 3000);
        w.push_back({Drive::shunt, from, from + T, dice.even(0.2, 1)});
    } else if (which == 6) {
        const double T = dice.hours(24, 1000);
        w.push_back({Drive::steroidDose, from, from + T, dice.log(0.1, 10)});
    } else {
        const double T = dice.hours(24, 1000);
        w.push_back({Drive::phenobarbitalDose, from, from + T, dice.log(2, 16)});
    }
}

void addOther(std::vector<Window>& w, Dice& dice, int which, double from, const Species& species) {
    if (which == 0) {
        const double T = dice.hours(1, 24);
        w.push_back({Drive::muscleDeath, from, from + T,
                     deathRate(dice.log(0.01, 20) / species.muscle.mass, T)});
    } else if (which == 1) {
        const double T = dice.hours(1, 500);
        w.push_back({Drive::nephronDeath, from, from + T, deathRate(dice.even(0.1, 0.9), T)});
    } else if (which == 2) {
        const double T = dice.hours(6, 96);
        w.push_back({Drive::nephronStun, from, from + T, deathRate(dice.even(0.3, 0.95), T)});
    } else if (which == 3) {
        const double T = dice.hours(6, 96);
        w.push_back({Drive::waterLoss, from, from + T, dice.even(0.03, 0.11) / T});
    } else if (which == 4) {
        const double T = dice.hours(8, 96);
        w.push_back(
            {Drive::outflowBlock, from, from + T, dice.happens(0.3) ? 1.0 : dice.even(0.5, 1)});
    } else {
        w.push_back({Drive::foodMissing, from, from + dice.hours(12, 240), 1});
    }
}

} // namespace

Plan randomPlan(const Species& dog, const Species& cat, std::uint64_t number, int days) {
    Dice dice(number);
    const Species& species = dice.happens(0.5) ? dog : cat;
    Signalment who;
    who.kind = species.kind;
    who.seed = number + 1;
    who.age = dice.even(0.5, 14) * 8766;
    Plan plan{individual(species, who), {}, 0, {}, {}};
    const int insults = 1 + static_cast<int>(dice.even(0, 4));
    for (int i = 0; i < insults; ++i) {
        const double from = Dice::grid(dice.even(0, 0.8 * 24 * days));
        const int which = static_cast<int>(dice.even(0, 14));
        if (which < 8)
            addLiver(plan.windows, dice, which, from);
        else
            addOther(plan.windows, dice, which - 8, from, species);
    }
    if (dice.happens(0.4))
        for (int day = 0; day < days; ++day)
            for (double at : {8.0, 18.0})
                if (dice.happens(0.5)) plan.windows.push_back(meal(24 * day + at, species));
    for (int hour = 0; hour <= 24 * days; ++hour) plan.looks.push_back(hour);
    return plan;
}

namespace {

bool isAnalyte(std::size_t column) {
    return column >= reading::analyte && column < reading::gfr;
}

double apart(double a, double b) {
    return std::abs(a - b) / std::abs(b);
}

} // namespace

double worstError(const Course& course, const std::vector<double>& rows) {
    double worst = 0;
    for (std::size_t look = 0; look < course.size(); ++look)
        for (std::size_t r = reading::analyte; r < reading::gfr; ++r)
            worst = std::max(worst, apart(course.table()(static_cast<Eigen::Index>(look),
                                                         static_cast<Eigen::Index>(r)),
                                          rows[look * reading::gfr + r]));
    return worst;
}

double worstError(const std::vector<double>& a, const std::vector<double>& b) {
    double worst = 0;
    for (std::size_t i = 0; i < b.size(); ++i)
        if (isAnalyte(i % reading::gfr)) worst = std::max(worst, apart(a[i], b[i]));
    return worst;
}

} // namespace reference
