#include "lab/analyzer.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>

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

namespace {

/// The cup as it is poured, and the machine as it stands, for one method.
Setting settingOf(const Method& method, const Cup& cup, const Machine& machine) {
    const auto by = [&](MachineFault kind) { return machine.by(kind, method.analyte); };
    constexpr double least = 1e-3; // nothing is lost wholly
    const auto left = [&](MachineFault kind) { return std::max(1 - by(kind), least); };
    const Interference& chemistry = method.interference;
    Setting setting;
    setting.color = cup.color;
    setting.solids = cup.solids;
    setting.taken = cup.drawn * left(MachineFault::shortSample);
    setting.lot = left(MachineFault::badLot);
    setting.lamp = left(MachineFault::lamp);
    setting.warm = by(MachineFault::wrongTemperature);
    setting.check = machine.linearityCheck;
    const double share = 1 + chemistry.hemolysisShare * cup.color.hemolysis +
                         chemistry.icterusShare * cup.color.icterus +
                         chemistry.lipemiaShare * cup.color.lipemia;
    setting.content = (cup.amount - origin(method.analyte)) * std::max(share, 0.0) +
                      chemistry.hemolysisAdds * cup.color.hemolysis;
    return setting;
}

/// A cup thinned before it is read.
Setting thinned(Setting setting, double factor) {
    setting.content /= factor;
    setting.color.hemolysis /= factor;
    setting.color.icterus /= factor;
    setting.color.lipemia /= factor;
    setting.solids /= factor;
    return setting;
}

/// Volume of sample under which the probe notices that it holds air; none: it has no probe.
double noticed(const Assay& assay) {
    return std::visit(
        [](const auto& one) {
            if constexpr (requires { one.photometer; })
                return one.photometer.shortSample;
            else
                return 0.0;
        },
        assay);
}

} // namespace

namespace {

Reading readWith(const Method& method, const Cup& cup, const Machine& machine, double runFactor,
                 const Noise& noise) {
    if (!(cup.amount >= 0) || !(cup.drawn > 0) || !(cup.solids >= 0 && cup.solids < 1))
        throw std::invalid_argument("the cup of " + std::string(body::name(method.analyte)) +
                                    " holds what cannot be");
    runFactor *= 1 + machine.by(MachineFault::drift, method.analyte);
    const double zero = origin(method.analyte);
    const Setting setting = settingOf(method, cup, machine);
    const auto once = [&](const Setting& pouring) {
        Signal signal = std::visit(
            [&](const auto& assay) -> Signal {
                if constexpr (std::is_same_v<std::decay_t<decltype(assay)>, std::monostate>) {
                    const double content = pouring.content * pouring.taken;
                    const double spread = repeatability(method, zero + content);
                    return {content * runFactor + spread * noise.normal()};
                } else {
                    Signal seen = run(assay, pouring, noise);
                    seen.content *= runFactor;
                    return seen;
                }
            },
            method.assay);
        signal.content = std::min(zero + signal.content, ceiling(method.analyte));
        return signal;
    };
    const auto timesDilution = [&](double value) {
        return zero + (value - zero) * method.dilution;
    };
    Reading reading;
    if (setting.taken < noticed(method.assay)) reading.remarks.emplace_back(shortSample);
    const auto ended = [&](double value, Bound bound, Signal&& signal) -> Reading&& {
        reading.value = value;
        reading.bound = bound;
        reading.trace = std::move(signal.trace);
        if (!signal.remark.empty()) reading.remarks.push_back(std::move(signal.remark));
        return std::move(reading);
    };

    Signal first = once(setting);
    if (!first.bent) {
        if (first.content < method.least && method.least > zero)
            return ended(method.least, Bound::below, std::move(first));
        if (first.content <= method.most)
            return ended(std::max(first.content, zero), Bound::exact, std::move(first));
    }
    if (!dilutes(method)) return ended(method.most, Bound::above, std::move(first));

    if (!first.remark.empty()) reading.remarks.push_back(first.remark);
    reading.diluted = true;
    const double pour = 1 + method.dilutionSpread * noise.normal();
    Signal second = once(thinned(setting, method.dilution / pour));
    if (second.bent || second.content > method.most)
        return ended(timesDilution(method.most), Bound::above, std::move(second));
    if (second.content < method.least && method.least > zero)
        return ended(timesDilution(method.least), Bound::below, std::move(second));
    return ended(timesDilution(std::max(second.content, zero)), Bound::exact, std::move(second));
}

} // namespace

Reading read(const Method& method, const Cup& cup, const Machine& machine, double runFactor,
             base::Chance& chance) {
    return readWith(method, cup, machine, runFactor, Noise(chance));
}

Reading readQuietly(const Method& method, const Cup& cup) {
    return readWith(method, cup, {}, 1, {});
}

double limitOfBlank(double blankMean, double blankSpread) {
    return blankMean + oneSided95 * blankSpread;
}

double limitOfDetection(double blankLimit, double lowSpread) {
    return blankLimit + oneSided95 * lowSpread;
}

} // namespace cistern::lab
