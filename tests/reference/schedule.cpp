#include "reference/schedule.h"

#include "base/chance.h"
#include "reference/ode.h"

#include <map>

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
    std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(even(0, static_cast<double>(count)));
    }
    /// A span of hours on the quarter-hour grid, a quarter at least.
    double hours(double low, double high) { return std::max(0.25, grid(log(low, high))); }
    static double grid(double hours) { return std::round(4 * hours) / 4; }

private:
    cistern::base::Chance chance_;
};

struct Span {
    double least, most; ///< [h]
};

/// How long an insult lasts, where not from half a day to weeks.
Span spanOf(const std::string& insult) {
    static const std::map<std::string, Span> spans{{"hepatocyte necrosis", {1, 48}},
                                                   {"hepatic fibrosis", {100, 2000}},
                                                   {"portosystemic shunt", {24, 3000}},
                                                   {"muscle necrosis", {1, 24}},
                                                   {"intramuscular injection", {0.25, 2}},
                                                   {"myocardial necrosis", {1, 48}},
                                                   {"nephron loss", {1, 500}},
                                                   {"acute kidney injury", {6, 96}},
                                                   {"urinary obstruction", {8, 96}},
                                                   {"dehydration", {6, 96}},
                                                   {"hemorrhage", {0.25, 48}},
                                                   {"hemolysis", {6, 240}},
                                                   {"fright", {0.25, 2}},
                                                   {"thrombocyte destruction", {6, 240}},
                                                   {"acinar atrophy", {24, 1000}},
                                                   {"hypoadrenocorticism", {24, 1000}},
                                                   {"iron deficiency", {100, 2000}}};
    const auto found = spans.find(insult);
    return found == spans.end() ? Span{12, 600} : found->second;
}

double severity(const InsultKind& kind, Dice& dice) {
    const bool wide = kind.least > 0 && kind.most > 50 * kind.least && kind.unit != "1";
    return wide ? dice.log(kind.least, kind.most) : dice.even(kind.least, kind.most);
}

void add(std::vector<Window>& all, const Insult& insult, const Species& species) {
    for (const Window& w : windows(insult, species)) all.push_back(w);
}

} // namespace

Plan randomPlan(const Ground& ground, std::uint64_t number, int days) {
    Dice dice(number);
    const Species& species = dice.happens(0.5) ? ground.dog : ground.cat;
    Signalment who;
    who.kind = species.kind;
    who.seed = number + 1;
    who.age = dice.even(0.5, 14) * 8766;
    Plan plan{};
    plan.animal = individual(species, who);
    const std::size_t insults = 2 + dice.below(3);
    for (std::size_t i = 0; i < insults; ++i) {
        const InsultKind& kind = ground.insults[dice.below(ground.insults.size())];
        const Span span = spanOf(kind.name);
        const double from = Dice::grid(dice.even(0, 0.8 * 24 * days));
        const double to = from + dice.hours(span.least, span.most);
        add(plan.windows, {&kind, severity(kind, dice), from, to}, species);
    }
    if (dice.happens(0.4))
        for (int day = 0; day < days; ++day)
            for (double at : {8.0, 18.0})
                if (dice.happens(0.5)) plan.windows.push_back(meal(24 * day + at, species));
    if (dice.happens(0.2)) {
        const double from = Dice::grid(dice.even(0, 0.9 * 24 * days));
        plan.windows.push_back({Drive::fright, from, from + 0.25, dice.even(0.2, 1)});
    }
    for (int hour = 0; hour <= 24 * days; ++hour) plan.looks.push_back(hour);
    return plan;
}

Plan crowdedPlan(const Ground& ground, std::uint64_t number) {
    constexpr double last = 60 * 24; // [h]
    Dice dice(number);
    const Species& species = dice.happens(0.5) ? ground.dog : ground.cat;
    Signalment who;
    who.kind = species.kind;
    who.seed = number + 1;
    who.age = dice.even(0.02, 18) * 8766;
    Plan plan{};
    plan.animal = individual(species, who);
    const std::size_t kinds = 1 + dice.below(8), insults = 1 + dice.below(8);
    std::vector<const InsultKind*> few;
    for (std::size_t i = 0; i < kinds; ++i)
        few.push_back(&ground.insults[dice.below(ground.insults.size())]);
    const double start = dice.even(0, 0.6 * last);
    std::vector<double>& looks = plan.looks;
    for (double hour = 0; hour <= last; hour += 8) looks.push_back(hour);
    for (std::size_t i = 0; i < insults; ++i) {
        const InsultKind& kind = *few[dice.below(kinds)];
        const double from = dice.happens(0.7) ? start + dice.even(0, 48) : dice.even(0, 0.9 * last);
        const double to = from + (dice.happens(0.2) ? last : dice.log(1.0 / 60, last));
        const double most = dice.happens(0.5) ? kind.most : severity(kind, dice);
        add(plan.windows, {&kind, most, from, to}, species);
        for (double hour : {from, from + 0.1, from + 1, to - 0.01, to, to + 0.1, to + 5})
            if (hour <= last) looks.push_back(hour);
    }
    std::sort(looks.begin(), looks.end());
    return plan;
}

std::vector<double> floors(const Plan& plan) {
    Plan calm = plan;
    calm.windows.clear();
    const Ode ode(calm);
    const Ode::Row healthy = ode.read(ode.healthy());
    std::vector<double> all(healthy.begin(), healthy.end());
    for (double& one : all) one = std::max(0.05 * one, 1e-9);
    const auto least = [&](Analyte which, double floor) {
        double& one = all[static_cast<std::size_t>(reading::analyte + static_cast<int>(which))];
        one = std::max(one, floor);
    };
    least(Analyte::bands, 0.1);  // 10*9/L: one cell in a hundred of a count of 10
    least(Analyte::toxic, 0.01); // one cell in a hundred
    least(Analyte::CRP, 1);      // mg/L
    least(Analyte::SAA, 1);
    return all;
}

namespace {

template<class Value>
Apart compare(const Plan& plan, const Value& value, const std::vector<double>& rows) {
    const std::vector<double> floor = floors(plan);
    Apart apart;
    for (std::size_t look = 0; look * reading::count < rows.size(); ++look)
        for (std::size_t r = 0; r < reading::count; ++r) {
            const double known = rows[look * reading::count + r];
            const double error =
                std::abs(value(look, r) - known) / std::max(std::abs(known), floor[r]);
            if (!(error <= apart.worst)) apart = {error, look, r}; // what is no number counts too
        }
    return apart;
}

} // namespace

Apart worstError(const Plan& plan, const Course& course, const std::vector<double>& rows) {
    return compare(
        plan,
        [&](std::size_t look, std::size_t r) {
            return course.table()(static_cast<Eigen::Index>(look), static_cast<Eigen::Index>(r));
        },
        rows);
}

Apart worstError(const Plan& plan, const std::vector<double>& a, const std::vector<double>& b) {
    return compare(
        plan, [&](std::size_t look, std::size_t r) { return a[look * reading::count + r]; }, b);
}

} // namespace reference
