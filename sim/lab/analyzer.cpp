#include "lab/analyzer.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

constexpr double oneSided95 = 1.645; // quantile of the normal distribution, as the limits define it

bool dilutes(const Method& method) {
    return method.dilution > 1;
}

} // namespace

double repeatability(const Method& method, double amount) {
    return std::hypot(method.a, method.b * (amount - origin(method.analyte)));
}

double spread(const Method& method, double amount, bool diluted) {
    const double zero = origin(method.analyte);
    const double times = diluted && dilutes(method) ? method.dilution : 1;
    const double repeat = times * repeatability(method, zero + (amount - zero) / times);
    const double step = times > 1 ? method.dilutionSpread * (amount - zero) : 0;
    return std::hypot(repeat, method.betweenRun * (amount - zero), step);
}

double runFactor(const Method& method, base::Chance& chance) {
    return 1 + method.betweenRun * chance.normal();
}

Reading read(const Method& method, const Cup& cup, const Machine& machine, double runFactor,
             base::Chance& chance) {
    const double zero = origin(method.analyte);
    const double amount = zero + (cup.amount - zero) * cup.drawn;
    runFactor *= 1 + machine.by(MachineFault::drift, method.analyte);
    const auto once = [&](double content) {
        const double seen =
            zero + content * runFactor + repeatability(method, zero + content) * chance.normal();
        return std::min(seen, ceiling(method.analyte));
    };
    const auto timesDilution = [&](double value) {
        return zero + (value - zero) * method.dilution;
    };

    const double first = once(amount - zero);
    if (first < method.least && method.least > zero) return {method.least, Bound::below};
    if (first <= method.most) return {std::max(first, zero), Bound::exact};
    if (!dilutes(method)) return {method.most, Bound::above};

    const double poured = 1 + method.dilutionSpread * chance.normal();
    const double second = once((amount - zero) / method.dilution * poured);
    if (second > method.most) return {timesDilution(method.most), Bound::above, true};
    return {timesDilution(std::max(second, method.least)), Bound::exact, true};
}

double limitOfBlank(double blankMean, double blankSpread) {
    return blankMean + oneSided95 * blankSpread;
}

double limitOfDetection(double blankLimit, double lowSpread) {
    return blankLimit + oneSided95 * lowSpread;
}

} // namespace cistern::lab
