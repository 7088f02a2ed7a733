#include "lab/report.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/calculated.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr double twoSided95 = 1.96;
constexpr std::uint64_t analytesPerDraw = 64; // room in a stream's item beside the draw's number
static_assert(body::analyteCount <= 64);

// Hemolysis index of a cleanly drawn and spun tube [g/L], log-normal. Common practice: well under
// what the eye sees.
constexpr double cleanHemolysis = 0.05, hemolysisSpread = 0.4;

// What the eye sees (from memory): pink from 0.3 g/L hemoglobin, red above 2 g/L, yellow from about
// 30 umol/L bilirubin, haze from about 3.4 mmol/L triglyceride (300 mg/dL).
constexpr double pinkFrom = 0.3, redFrom = 2, yellowFrom = 30, hazyFrom = 3.4;
constexpr double fedUntil = 8; // [h] since food; common practice is a fast of 8 to 12 h

/// One draw on its way through the analyzer.
struct Draw {
    const Bench& bench;
    const body::Individual& animal;
    const body::Snapshot& truth;
    std::uint64_t number;
    const Machine& machine;
    Specimen specimen;

    base::Chance chance(base::Purpose purpose, std::uint64_t item = 0) const {
        return {animal.who.seed, purpose, 0,
                static_cast<std::uint32_t>(number * analytesPerDraw + item)};
    }
};

/// How far a day moves an analyte. What is made of others moves as they do: red cells by their
/// volume, their size and their filling.
double wobble(const Draw& draw, Analyte analyte) {
    const auto own = [&](Analyte which) {
        return body::wobble(draw.animal, which, draw.truth.hour);
    };
    switch (analyte) {
    case Analyte::PCV:
        return own(Analyte::Hct);
    case Analyte::RBC:
        return own(Analyte::Hct) / own(Analyte::MCV);
    case Analyte::Hb:
        return own(Analyte::Hct) * own(Analyte::MCHC);
    default:
        return own(analyte);
    }
}

/// What the specimen holds.
double held(const Draw& draw, Analyte analyte) {
    if (analyte == Analyte::protein)
        return held(draw, Analyte::albumin) + held(draw, Analyte::globulin);
    if (analyte == Analyte::TP)
        return held(draw, Analyte::protein) + held(draw, Analyte::fibrinogen);
    const double level = draw.truth.level(analyte);
    if (!(level >= 0) || !std::isfinite(level))
        throw std::invalid_argument("the level of " + std::string(body::name(analyte)) +
                                    " is not an amount that could be measured");
    const double zero = origin(analyte);
    return std::min(zero + (level - zero) * wobble(draw, analyte), ceiling(analyte));
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

/// The specimen as it stands on the machine. Urine has nothing of the color of serum.
Cup cup(const Draw& draw, const Method& method) {
    if (method.specimen == "urine") return {held(draw, method.analyte)};
    return {held(draw, method.analyte), draw.specimen.color};
}

Result measured(const Draw& draw, const Method& method) {
    const auto item = static_cast<std::uint64_t>(method.analyte);
    base::Chance run = draw.chance(base::Purpose::analyzerRun, item);
    base::Chance noise = draw.chance(base::Purpose::analyzerReading, item);
    const Reading reading =
        read(method, cup(draw, method), draw.machine, runFactor(method, run), noise);
    return finished(draw, method, reading, spread(method, reading.value, reading.diluted));
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

/// A result from those it is made of; nothing, with the reason, where they do not allow it.
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

/// What colors the serum, and what the photometer sees of it.
void readIndices(Draw& draw) {
    base::Chance chance = draw.chance(base::Purpose::specimen);
    Indices& color = draw.specimen.color;
    color.hemolysis = cleanHemolysis * std::exp(hemolysisSpread * chance.normal());
    color.lipemia = held(draw, Analyte::triglycerides);
    color.icterus = held(draw, Analyte::bilirubin);
    const Bench& bench = draw.bench;
    const double lamp = 1 - draw.machine.by(MachineFault::lamp, Analyte::bilirubin);
    draw.specimen.seen =
        bench.spectra.indicesAt.empty()
            ? color
            : seen(color, bench.spectra, bench.photometer, std::max(lamp, 1e-3), Noise(chance));
}

/// Why a test gives nothing for an animal of this kind; "" if it does.
std::string lack(const Bench& bench, const Test& test, body::Kind kind) {
    if (!test.missing.empty()) return test.missing;
    if (test.analytes.empty()) return "This laboratory does not run " + test.name + ".";
    const auto fits = [&](Analyte one) { return bench.method(one).serves(kind); };
    if (std::any_of(test.analytes.begin(), test.analytes.end(), fits)) return "";
    return "This laboratory does not run " + test.name + " in a " + std::string(name(kind)) + ".";
}

std::vector<std::string> warnings(const Report& report) {
    std::vector<std::string> lines;
    const Specimen& specimen = report.specimen;
    if (specimen.seen.icterus >= yellowFrom)
        lines.push_back("The serum is yellow to the eye: icterus index " +
                        base::rounded(specimen.seen.icterus, 1) + " " + base::shown("umol/L") +
                        ".");
    if (specimen.seen.lipemia >= hazyFrom)
        lines.push_back("The serum is hazy to the eye: lipemia index " +
                        base::rounded(specimen.seen.lipemia, 0.1) + " " + base::shown("mmol/L") +
                        ".");
    const bool fed = specimen.handling.fasted && *specimen.handling.fasted < fedUntil;
    const bool minds = report.find(Analyte::bileAcids) || report.find(Analyte::urea) ||
                       report.find(Analyte::glucose) || report.find(Analyte::triglycerides) ||
                       report.find(Analyte::ammonia);
    if (fed && minds)
        lines.push_back("Drawn " + base::rounded(*specimen.handling.fasted, 1) +
                        " h after food: triglycerides, bile acids, ammonia, urea and glucose can "
                        "stand higher than after a fast.");
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
               std::uint64_t number, const Machine& machine) {
    if (number >= (std::uint64_t{1} << 32) / analytesPerDraw)
        throw std::invalid_argument("the number of a draw must be below 2^26");
    Draw draw{bench, animal, truth, number, machine, specimen};
    readIndices(draw);

    Report report;
    report.specimen = draw.specimen;
    // refuses unknown tests
    const std::vector<Analyte> panel = bench.analytes(tests, animal.who.kind);
    for (const std::string& test : tests)
        if (std::string why = lack(bench, *bench.test(test), animal.who.kind); !why.empty())
            report.notRun.push_back(std::move(why));
    for (const Analyte analyte : panel) {
        const Method& method = bench.method(analyte);
        if (!method.calculated) {
            report.results.push_back(measured(draw, method));
            continue;
        }
        std::string why;
        if (auto result = calculated(draw, method, why))
            report.results.push_back(std::move(*result));
        else
            report.notRun.push_back(why);
    }
    report.warnings = warnings(report);
    return report;
}

std::string hemolysisWord(const Specimen& specimen) {
    return specimen.seen.hemolysis >= redFrom    ? "red"
           : specimen.seen.hemolysis >= pinkFrom ? "pink"
                                                 : "clear";
}
std::string icterusWord(const Specimen& specimen) {
    return specimen.seen.icterus >= yellowFrom ? "yellow" : "clear";
}
std::string lipemiaWord(const Specimen& specimen) {
    return specimen.seen.lipemia >= hazyFrom ? "hazy" : "clear";
}

double chanceOfOneOutside(int k) {
    return -std::expm1(k * std::log(0.95));
}

} // namespace cistern::lab
