#include "lab/report.h"

#include "base/text.h"
#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr double twoSided95 = 1.96;
constexpr std::uint64_t analytesPerDraw = 64; // room in a stream's item beside the draw's number
static_assert(body::analyteCount <= 64);

// Indices of a cleanly drawn and spun tube, log-normal. Common practice: well under what the eye
// sees. Triglyceride of a fasted dog or cat, 0.3 to 1.2 mmol/L: Cornell and Merck tables.
struct Clean {
    double median, spread;
};
constexpr Clean cleanHemolysis{0.05, 0.4}; // [g/L]
constexpr Clean cleanLipemia{0.6, 0.3};    // [mmol/L]

// What the eye sees (from memory): pink from 0.3 g/L hemoglobin, red above 2 g/L, yellow from about
// 30 umol/L bilirubin, haze from about 3.4 mmol/L triglyceride (300 mg/dL).
constexpr double pinkFrom = 0.3, redFrom = 2, yellowFrom = 30, hazyFrom = 3.4;
constexpr double fedUntil = 8; // [h] since food; common practice is a fast of 8 to 12 h

/// One draw on its way through the analyzer.
struct Tube {
    const Bench& bench;
    const body::Individual& animal;
    const body::Snapshot& truth;
    std::uint64_t number;
    Specimen specimen;

    base::Chance chance(base::Purpose purpose, std::uint64_t item = 0) const {
        return {animal.who.seed, purpose, 0,
                static_cast<std::uint32_t>(number * analytesPerDraw + item)};
    }
};

double held(const Tube& tube, Analyte analyte) {
    if (analyte == Analyte::protein)
        return held(tube, Analyte::albumin) + held(tube, Analyte::globulin);
    const double level = tube.truth.level(analyte);
    if (!(level >= 0) || !std::isfinite(level))
        throw std::invalid_argument("the level of " + std::string(body::name(analyte)) +
                                    " is not an amount that could be measured");
    const double zero = origin(analyte);
    return zero + (level - zero) * body::wobble(tube.animal, analyte, tube.truth.hour);
}

/// To the step that is printed. A limit is moved outward, so that it stays true.
double toStep(double amount, Bound bound, const Writing& writing) {
    constexpr double slack = 1e-9; // of a step
    const double steps = amount * writing.factor / writing.step;
    const double whole = bound == Bound::below   ? std::ceil(steps - slack)
                         : bound == Bound::above ? std::floor(steps + slack)
                                                 : std::round(steps);
    return whole * writing.step / writing.factor;
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

void noteBound(Result& result, const Reading& reading, const Method& method) {
    const std::string factor = "1:" + base::rounded(method.dilution, 1);
    if (reading.bound == Bound::below)
        result.notes.push_back("below the measuring range");
    else if (reading.bound == Bound::above)
        result.notes.push_back(reading.diluted
                                   ? "above the measuring range even when diluted " + factor
                                   : "above the measuring range");
    else if (reading.diluted)
        result.notes.push_back("diluted " + factor + " and run again");
}

/// Everything but the reading: rounded, against its interval, flagged.
Result finished(const Tube& tube, const Method& method, const Reading& reading, double deviation) {
    Result result;
    result.analyte = method.analyte;
    result.bound = reading.bound;
    result.value = toStep(reading.value, reading.bound, method.conventional);
    result.halfWidth = twoSided95 * deviation;
    if (const Interval* interval =
            tube.bench.interval(tube.animal.who, tube.truth.hour, method.analyte))
        result.interval = *interval;
    result.flag = judged(result, method.conventional);
    noteBound(result, reading, method);
    return result;
}

Result measured(const Tube& tube, const Method& method) {
    const auto item = static_cast<std::uint64_t>(method.analyte);
    base::Chance run = tube.chance(base::Purpose::analyzerRun, item);
    base::Chance noise = tube.chance(base::Purpose::analyzerReading, item);
    const Reading reading = read(method, held(tube, method.analyte), runFactor(method, run), noise);
    return finished(tube, method, reading, spread(method, reading.value, reading.diluted));
}

/// Globulin from the two results it is made of; nothing, with the reason, where they do not allow.
std::optional<Result> calculated(const Tube& tube, const Method& method, std::string& why) {
    if (method.analyte != Analyte::globulin)
        throw std::invalid_argument(std::string(body::name(method.analyte)) +
                                    " is said to be calculated, but only globulin can be");
    const Result protein = measured(tube, tube.bench.method(Analyte::protein));
    const Result albumin = measured(tube, tube.bench.method(Analyte::albumin));
    for (const Result* part : {&protein, &albumin})
        if (part->bound != Bound::exact) {
            why = "Globulin was not calculated: " + std::string(body::name(part->analyte)) +
                  " lies outside the measuring range.";
            return std::nullopt;
        }
    const double difference = protein.value - albumin.value;
    if (difference < 0) {
        why = "Globulin was not calculated: albumin came out above protein.";
        return std::nullopt;
    }
    Result result = finished(tube, method, {difference, Bound::exact, false},
                             std::hypot(protein.halfWidth, albumin.halfWidth) / twoSided95);
    result.notes.push_back("calculated as protein less albumin");
    return result;
}

double cleanIndex(base::Chance& chance, Clean clean) {
    return clean.median * std::exp(clean.spread * chance.normal());
}

/// What the photometer sees of the serum itself.
void readIndices(Tube& tube) {
    base::Chance chance = tube.chance(base::Purpose::specimen);
    tube.specimen.hemolysis = cleanIndex(chance, cleanHemolysis);
    tube.specimen.lipemia = cleanIndex(chance, cleanLipemia);
    tube.specimen.icterus = held(tube, Analyte::bilirubin);
}

std::string sentence(const Test& test) {
    return test.missing.empty() ? "This laboratory does not run " + test.name + "." : test.missing;
}

std::vector<std::string> warnings(const Report& report) {
    std::vector<std::string> lines;
    const Specimen& specimen = report.specimen;
    if (specimen.icterus >= yellowFrom)
        lines.push_back("The serum is yellow to the eye: icterus index " +
                        base::rounded(specimen.icterus, 1) + " " + base::shown("umol/L") + ".");
    const bool fed = specimen.fasted && *specimen.fasted < fedUntil;
    const bool minds = report.find(Analyte::bileAcids) || report.find(Analyte::urea) ||
                       report.find(Analyte::glucose);
    if (fed && minds)
        lines.push_back("Drawn " + base::rounded(*specimen.fasted, 1) +
                        " h after food: bile acids, urea and glucose can stand higher than after "
                        "a fast.");
    return lines;
}

} // namespace

const Result* Report::find(body::Analyte analyte) const {
    const auto found = std::find_if(results.begin(), results.end(),
                                    [&](const Result& r) { return r.analyte == analyte; });
    return found == results.end() ? nullptr : &*found;
}

Report measure(const Bench& bench, const body::Individual& animal, const body::Snapshot& truth,
               const Specimen& specimen, const std::vector<std::string>& tests,
               std::uint64_t number) {
    if (number >= (std::uint64_t{1} << 32) / analytesPerDraw)
        throw std::invalid_argument("the number of a draw must be below 2^26");
    Tube tube{bench, animal, truth, number, specimen};
    readIndices(tube);

    Report report;
    report.specimen = tube.specimen;
    const std::vector<Analyte> panel = bench.analytes(tests); // refuses unknown tests
    for (const std::string& name : tests) {
        const Test& test = *bench.test(name);
        if (test.analytes.empty() || !test.missing.empty()) report.notRun.push_back(sentence(test));
    }
    for (const Analyte analyte : panel) {
        const Method& method = bench.method(analyte);
        if (!method.calculated) {
            report.results.push_back(measured(tube, method));
            continue;
        }
        std::string why;
        if (auto result = calculated(tube, method, why))
            report.results.push_back(std::move(*result));
        else
            report.notRun.push_back(why);
    }
    report.warnings = warnings(report);
    return report;
}

std::string hemolysisWord(const Specimen& specimen) {
    return specimen.hemolysis >= redFrom    ? "red"
           : specimen.hemolysis >= pinkFrom ? "pink"
                                            : "clear";
}
std::string icterusWord(const Specimen& specimen) {
    return specimen.icterus >= yellowFrom ? "yellow" : "clear";
}
std::string lipemiaWord(const Specimen& specimen) {
    return specimen.lipemia >= hazyFrom ? "hazy" : "clear";
}

double chanceOfOneOutside(int k) {
    return -std::expm1(k * std::log(0.95));
}

} // namespace cistern::lab
