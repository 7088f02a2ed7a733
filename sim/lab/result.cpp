#include "base/text.h"
#include "lab/calculated.h"
#include "lab/draw.h"

#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr double twoSided95 = 1.96;

/// To the step that is printed. A limit is moved outward, so that it stays true.
double toStep(double amount, Bound bound, const Writing& writing) {
    constexpr double slack = 1e-9; // of a step
    const double steps = amount * writing.factor / writing.step;
    const double whole = bound == Bound::below   ? std::ceil(steps - slack)
                         : bound == Bound::above ? std::floor(steps + slack)
                                                 : std::round(steps);
    return whole * writing.step / writing.factor;
}

void noteBound(Result& result, const Reading& reading, const Method& method) {
    const std::string factor = "1:" + base::rounded(method.dilution, 1);
    if (reading.bound == Bound::below)
        result.notes.push_back(reading.diluted ? "below the measuring range when diluted " + factor
                                               : "below the measuring range");
    else if (reading.bound == Bound::above)
        result.notes.push_back(reading.diluted
                                   ? "above the measuring range even when diluted " + factor
                                   : "above the measuring range");
    else if (reading.diluted)
        result.notes.push_back("diluted " + factor + " and run again");
}

/// Everything but the reading: rounded, against its interval, flagged.
Result finished(const Draw& draw, const Method& method, const Reading& reading, double deviation) {
    Result result;
    result.analyte = method.analyte;
    result.bound = reading.bound;
    result.value = toStep(reading.value, reading.bound, method.conventional);
    result.halfWidth = twoSided95 * deviation;
    if (const Interval* interval =
            draw.bench.interval(draw.animal.who, draw.truth.hour, method.analyte))
        result.interval = *interval;
    result.flag = judged(result, method.conventional);
    noteBound(result, reading, method);
    result.notes.insert(result.notes.end(), reading.remarks.begin(), reading.remarks.end());
    result.trace = reading.trace;
    return result;
}

/// A value against the method's range.
Reading within(const Method& method, double value) {
    if (value < method.least && method.least > origin(method.analyte))
        return {method.least, Bound::below};
    if (value > method.most) return {method.most, Bound::above};
    return {value, Bound::exact};
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

} // namespace

Result measured(const Draw& draw, const Method& method) {
    if (const auto value = counted(draw, method.analyte)) {
        const Reading reading = within(method, *value);
        Result result = finished(draw, method, reading, spread(method, reading.value));
        if (draw.blood)
            for (std::string& note : draw.blood->notes(method.analyte))
                result.notes.push_back(std::move(note));
        return result;
    }
    const auto item = static_cast<std::uint64_t>(method.analyte);
    base::Chance noise = draw.chance(base::Purpose::analyzerReading, item);
    const Reading reading =
        read(method, cup(draw, method), draw.machine, runOf(draw, method.analyte), noise);
    return finished(draw, method, reading, spread(method, reading.value, reading.diluted));
}

std::optional<Result> calculated(const Draw& draw, const Method& method, std::string& why) {
    const Recipe* recipe = lab::recipe(method.analyte);
    if (!recipe)
        throw std::invalid_argument(std::string(body::name(method.analyte)) +
                                    " is said to be calculated, but it can only be measured");
    const std::string failed =
        capital(method.words.empty() ? std::string(name(method.analyte)) : method.words) +
        " was not calculated: ";
    std::vector<Result> parts;
    for (const Recipe::Part& part : recipe->parts) {
        parts.push_back(measured(draw, draw.bench.method(part.analyte)));
        if (parts.back().bound == Bound::exact) continue;
        why = failed + std::string(name(part.analyte)) + " lies outside the measuring range.";
        return std::nullopt;
    }
    const Calculation made = calculate(*recipe, parts);
    if (made.value < 0) {
        why = failed + std::string(recipe->words) + " came out below zero.";
        return std::nullopt;
    }
    Result result = finished(draw, method, {made.value, Bound::exact, false}, made.deviation);
    result.notes.push_back("calculated as " + std::string(recipe->words));
    return result;
}

Flag judged(const Result& result, const Writing& writing) {
    if (!result.interval) return Flag::none;
    const auto steps = [&](double amount) {
        return std::round(amount * writing.factor / writing.step);
    };
    const double value = steps(result.value);
    const double low = steps(result.interval->low), high = steps(result.interval->high);
    if (result.bound == Bound::below) return value <= low ? Flag::low : Flag::none;
    if (result.bound == Bound::above) return value >= high ? Flag::high : Flag::none;
    return value < low ? Flag::low : value > high ? Flag::high : Flag::none;
}

} // namespace cistern::lab
