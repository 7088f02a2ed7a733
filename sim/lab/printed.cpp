#include "base/text.h"
#include "lab/report.h"

#include <cmath>

namespace cistern::lab {

namespace {

constexpr double slack = 1e-9; // of a step: what arithmetic leaves over, far below any reading

} // namespace

std::string printed(double amount, body::Analyte analyte, const Bench& bench, Units units) {
    const Writing& writing = bench.method(analyte).writing(units);
    return base::rounded(amount * writing.factor, writing.step);
}

std::string printedNumber(const Result& result, const Bench& bench, Units units) {
    const Writing& writing = bench.method(result.analyte).writing(units);
    const double steps = result.value * writing.factor / writing.step;
    switch (result.bound) {
    case Bound::below:
        return base::rounded(std::ceil(steps - slack) * writing.step, writing.step);
    case Bound::above:
        return base::rounded(std::floor(steps + slack) * writing.step, writing.step);
    case Bound::exact:
        break;
    }
    return base::rounded(steps * writing.step, writing.step);
}

std::string printed(const Result& result, const Bench& bench, Units units) {
    const std::string number = printedNumber(result, bench, units);
    switch (result.bound) {
    case Bound::below:
        return "< " + number;
    case Bound::above:
        return "> " + number;
    case Bound::exact:
        break;
    }
    return number;
}

std::string printedInterval(const Result& result, const Bench& bench, Units units) {
    if (!result.interval) return "";
    return printed(result.interval->low, result.analyte, bench, units) + " - " +
           printed(result.interval->high, result.analyte, bench, units);
}

std::string printedHalfWidth(const Result& result, const Bench& bench, Units units) {
    if (result.bound != Bound::exact) return "";
    constexpr double fewSteps = 10;
    const Writing& writing = bench.method(result.analyte).writing(units);
    const double width = result.halfWidth * writing.factor;
    const bool few = width < fewSteps * writing.step;
    return base::rounded(width, few ? writing.step / 10 : writing.step);
}

} // namespace cistern::lab
