#include "reader/sheet.h"

#include "lab/analyzer.h"
#include "lab/assay/kinetic.h"
#include "lab/calculated.h"
#include "lab/counter/blood.h"
#include "reader/passage.h"

#include <algorithm>
#include <cmath>
#include <variant>

namespace cistern::reader {

namespace {

using body::Analyte;

constexpr double twoSided95 = 1.96; // what half-widths are made with

/// Error of a result whose controls were out of control, or for which the sample ran short, as
/// share of it. Assumed: the drifts and bad lots that rules catch, and what fibrin takes, are of
/// this order.
constexpr double uncontrolled = 0.25;

double step(const lab::Method& method) {
    return method.conventional.step / method.conventional.factor;
}
double rounding(const lab::Method& method) {
    return step(method) / std::sqrt(12.); // standard deviation of an even spread over a step
}

/// Whether the trace of a reaction was read where it is not straight, or has ended.
bool bent(const lab::Method& method, const lab::Trace& trace) {
    const auto* assay = std::get_if<lab::Kinetic>(&method.assay);
    if (!assay || trace.seconds.empty() || trace.from == trace.to) return false;
    const auto place = [&](double seconds) {
        const auto at = std::find_if(trace.seconds.begin(), trace.seconds.end(),
                                     [&](float s) { return static_cast<double>(s) >= seconds; });
        return static_cast<std::size_t>(at - trace.seconds.begin());
    };
    return straightEnd(*assay, trace, place(trace.from)) <= place(trace.to);
}

/// Whether platelets hung together: seen on the film, or as particles too large for the counter.
bool clumped(const lab::Report& report) {
    if (!report.blood) return false;
    const bool filmRead = report.find(Analyte::bands) || report.find(Analyte::toxic);
    return filmRead ? report.blood->film.clumps : report.blood->count.largeParticles;
}

/// Whether the sheet tells that there was more than was counted: platelets in clumps, cells in a
/// clot, blood that ran too slowly.
bool heldBack(const lab::Report& report, Analyte analyte) {
    const bool platelets = analyte == Analyte::platelets;
    const bool white =
        analyte == Analyte::WBC ||
        std::find(lab::whiteKinds.begin(), lab::whiteKinds.end(), analyte) != lab::whiteKinds.end();
    const bool red = analyte == Analyte::RBC || analyte == Analyte::reticulocytes;
    return (platelets && clumped(report)) || ((platelets || white) && report.clotted) ||
           ((platelets || white || red) && report.blood && report.blood->count.slow);
}

/// Whether the machine said that it had too little of the sample.
bool tooLittle(const lab::Report& report, const lab::Result& result, const lab::Method& method) {
    return std::find(result.notes.begin(), result.notes.end(), lab::shortSample) !=
               result.notes.end() ||
           (method.specimen == "serum" && report.shortSample);
}

bool outOfControl(const lab::Report& report, Analyte analyte) {
    if (!report.controls) return false;
    const auto& notes = report.controls->notes;
    return std::any_of(notes.begin(), notes.end(),
                       [&](const lab::ControlNote& note) { return note.analyte == analyte; });
}

/// What a cup of this color held that was printed so. The reading is close to the amount, so that
/// a few corrections by what is missing find it.
double heldIn(const lab::Method& method, const lab::Report& report, double printed) {
    if (method.specimen == "urine" || std::holds_alternative<std::monostate>(method.assay))
        return printed;
    lab::Cup cup;
    cup.color = report.specimen.seen;
    const double least = lab::origin(method.analyte);
    cup.amount = std::max(printed, least);
    constexpr int corrections = 4;
    for (int i = 0; i < corrections; ++i) {
        const lab::Reading reading = lab::readQuietly(method, cup);
        if (reading.bound != lab::Bound::exact) return printed;
        cup.amount = std::max(least, cup.amount + printed - reading.value);
    }
    return cup.amount;
}

/// The limit of the method behind a printed one, which was rounded outward.
double limitBehind(const lab::Method& method, double printed, lab::Bound bound) {
    const double limit = bound == lab::Bound::below ? method.least : method.most;
    const double zero = lab::origin(method.analyte);
    for (const double times : {1., method.dilution}) {
        const double there = zero + (limit - zero) * times;
        if (std::abs(printed - there) <= step(method)) return there;
    }
    return printed;
}

void want(std::vector<Analyte>& all, Analyte one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
}

} // namespace

Recipe madeOf(Analyte analyte) {
    switch (analyte) {
    case Analyte::RBC:
        return {false, {{Analyte::Hct}, {Analyte::MCV, -1}}};
    case Analyte::Hb:
        return {false, {{Analyte::Hct}, {Analyte::MCHC}}};
    case Analyte::PCV:
        return {false, {{Analyte::Hct}}};
    case Analyte::reticulocytes: // more cells, more young ones
        return {false, {{analyte}}, {{Analyte::Hct}, {Analyte::MCV, -1}}};
    case Analyte::MCH:
        return {false, {{Analyte::MCV}, {Analyte::MCHC}}};
    case Analyte::protein:
        return {true, {{Analyte::albumin}, {Analyte::globulin}}};
    case Analyte::TP:
        return {true, {{Analyte::albumin}, {Analyte::globulin}, {Analyte::fibrinogen}}};
    case Analyte::anionGap:
        return {true, {{Analyte::Na}, {Analyte::K}, {Analyte::Cl, -1}, {Analyte::tCO2, -1}}};
    case Analyte::WBC: {
        Recipe recipe{true, {}};
        for (const Analyte kind : lab::whiteKinds) recipe.parts.push_back({kind});
        return recipe;
    }
    default:
        return {false, {{analyte}}};
    }
}

bool follows(const lab::Report& report, Analyte analyte, const lab::Bench& bench) {
    if (analyte == Analyte::WBC) // bands are told apart from neutrophils, and few
        return std::all_of(lab::whiteKinds.begin(), lab::whiteKinds.end(), [&](Analyte kind) {
            return kind == Analyte::bands || report.find(kind);
        });
    if (!bench.method(analyte).calculated) return false;
    const lab::Recipe* recipe = lab::recipe(analyte);
    return recipe && std::all_of(recipe->parts.begin(), recipe->parts.end(),
                                 [&](const auto& part) { return report.find(part.analyte); });
}

std::vector<Analyte> neededFor(const Question& question, const lab::Bench& bench) {
    std::vector<Analyte> all;
    for (const Sample& sample : question.samples)
        for (const lab::Result& result : sample.report.results) {
            want(all, result.analyte);
            const Recipe recipe = madeOf(result.analyte);
            for (const Ingredient& part : recipe.parts) want(all, part.analyte);
            for (const Ingredient& part : recipe.along) want(all, part.analyte);
        }
    const auto touched = [](const Sample& sample) {
        lab::Handling usual;
        usual.fasted = sample.handling.fasted; // changes the animal, not the sample
        return sample.handedIn || !(sample.handling == usual) ||
               sample.report.specimen.seen.hemolysis >= brokenFrom;
    };
    if (std::find(all.begin(), all.end(), Analyte::bands) != all.end())
        for (const Analyte kind : lab::whiteKinds) want(all, kind);
    const auto asked = [&](Analyte one) {
        return std::find(all.begin(), all.end(), one) != all.end();
    };
    if (asked(Analyte::K)) want(all, Analyte::platelets);
    if (asked(Analyte::K) || asked(Analyte::Na) || asked(Analyte::Cl)) {
        want(all, Analyte::protein);
        want(all, Analyte::triglycerides);
    }
    if (bench.specimen && std::any_of(question.samples.begin(), question.samples.end(), touched))
        for (const Analyte one :
             {Analyte::Hct, Analyte::MCHC, Analyte::WBC, Analyte::platelets, Analyte::protein,
              Analyte::fibrinogen, Analyte::triglycerides, Analyte::bilirubin, Analyte::glucose})
            want(all, one);
    return all;
}

double Scale::of(double x) const {
    return std::asinh((x - zero) / floor);
}

double Scale::slope(double x) const {
    return 1 / std::hypot(x - zero, floor);
}

double healthySpread(const lab::Method& method, const body::Species& species) {
    const auto item = static_cast<std::size_t>(method.analyte);
    return std::hypot(std::hypot(species.between[item], species.within[item]), method.b,
                      method.betweenRun);
}

Scale scaleOf(const lab::Method& method, const body::Species& species) {
    const double share = healthySpread(method, species);
    const double constant = std::hypot(method.a, rounding(method));
    Scale scale;
    scale.zero = lab::origin(method.analyte);
    if (constant > 0 && share > 0) scale.floor = constant / share;
    return scale;
}

Reading readingOf(const lab::Report& report, const lab::Result& result, const lab::Bench& bench) {
    const lab::Method& method = bench.method(result.analyte);
    Reading reading;
    reading.bound = result.bound;
    const bool exact = result.bound == lab::Bound::exact;
    reading.held = exact ? heldIn(method, report, result.value)
                         : limitBehind(method, result.value, result.bound);
    reading.deviation = std::hypot(result.halfWidth / twoSided95, rounding(method));
    if (exact && !(result.value > lab::origin(result.analyte))) {
        // Of a count that found none it is known that there was less than half a step.
        reading.bound = lab::Bound::below;
        reading.held = lab::origin(result.analyte) + step(method) / 2;
    }
    if (outOfControl(report, result.analyte) || tooLittle(report, result, method)) {
        reading.doubtful = true;
        reading.deviation = std::hypot(reading.deviation,
                                       uncontrolled * (result.value - lab::origin(result.analyte)));
    }
    if (heldBack(report, result.analyte) || bent(method, result.trace)) {
        reading.doubtful = true;
        reading.bound = lab::Bound::above; // at least so many
    }
    return reading;
}

} // namespace cistern::reader
