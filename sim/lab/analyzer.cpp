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
    return std::hypot(method.a, method.b * amount);
}

double spread(const Method& method, double amount, bool diluted) {
    const double times = diluted && dilutes(method) ? method.dilution : 1;
    const double repeat = times * repeatability(method, amount / times);
    const double step = times > 1 ? method.dilutionSpread * amount : 0;
    return std::hypot(repeat, method.betweenRun * amount, step);
}

double runFactor(const Method& method, base::Chance& chance) {
    return 1 + method.betweenRun * chance.normal();
}

Reading read(const Method& method, double amount, double runFactor, base::Chance& chance) {
    const auto once = [&](double held) {
        return held * runFactor + repeatability(method, held) * chance.normal();
    };
    const double first = once(amount);
    if (first < method.least) return {method.least, Bound::below, false};
    if (first <= method.most) return {std::max(first, 0.0), Bound::exact, false};
    if (!dilutes(method)) return {method.most, Bound::above, false};

    const double poured = 1 + method.dilutionSpread * chance.normal();
    const double second = once(amount / method.dilution * poured);
    if (second > method.most) return {method.most * method.dilution, Bound::above, true};
    return {std::max(second, method.least) * method.dilution, Bound::exact, true};
}

double limitOfBlank(double blankMean, double blankSpread) {
    return blankMean + oneSided95 * blankSpread;
}

double limitOfDetection(double blankLimit, double lowSpread) {
    return blankLimit + oneSided95 * lowSpread;
}

} // namespace cistern::lab
