#include "lab/draw.h"

#include "lab/specimen/spin.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

using body::Analyte;

constexpr std::uint64_t analytesPerDraw = 64; // room in a stream's item beside the draw's number
static_assert(body::analyteCount <= 64);

base::Chance chanceOf(std::uint64_t seed, base::Purpose purpose, std::uint64_t number,
                      std::uint64_t item) {
    return {seed, purpose, 0, static_cast<std::uint32_t>(number * analytesPerDraw + item)};
}

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

/// What the photometer sees of what colors the serum.
Indices seenBy(const Draw& draw, const Indices& color, base::Chance& chance) {
    const Bench& bench = draw.bench;
    if (bench.spectra.indicesAt.empty()) return color;
    constexpr double least = 1e-3; // no lamp is wholly out
    const double lamp = 1 - draw.machine.by(MachineFault::lamp, Analyte::bilirubin);
    return seen(color, bench.spectra, bench.photometer, std::max(lamp, least), Noise(chance));
}

} // namespace

base::Chance Draw::chance(base::Purpose purpose, std::uint64_t item) const {
    return chanceOf(animal.who.seed, purpose, number, item);
}

void checkNumber(std::uint64_t number) {
    if (number >= (std::uint64_t{1} << 32) / analytesPerDraw)
        throw std::invalid_argument("the number of a draw must be below 2^26");
}

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

// The needle's chance belongs to the hour: what is read twice from one tube was drawn once. The
// probe's belongs to the run.
void handle(Draw& draw) {
    base::Chance specimen = draw.chance(base::Purpose::specimen);
    const double clean = cleanHemolysis * std::exp(cleanHemolysisSpread * specimen.normal());
    const auto level = [&](Analyte analyte) {
        // What a day does to platelets is in what it does to potassium already.
        return analyte == Analyte::platelets ? draw.truth.level(analyte) : held(draw, analyte);
    };
    if (draw.bench.specimen) {
        const double minutes = std::round(60 * draw.truth.hour);
        base::Chance needle(draw.animal.who.seed, base::Purpose::needle, 0,
                            static_cast<std::uint32_t>(static_cast<std::int64_t>(minutes)));
        draw.handled = handled(*draw.bench.specimen, draw.animal, level, draw.specimen.handling,
                               clean, needle);
        base::Chance probe = draw.chance(base::Purpose::probe);
        draw.drawn = takenUp(draw.bench.specimen->spin, draw.handled.serum.fibrin, probe);
    } else {
        draw.handled.serum.color = {clean, level(Analyte::bilirubin),
                                    level(Analyte::triglycerides)};
    }
    draw.specimen.seen = seenBy(draw, draw.handled.serum.color, specimen);
}

Cup cup(const Draw& draw, const Method& method) {
    const double level = held(draw, method.analyte);
    if (!draw.bench.specimen) return {level};
    const Prepared& specimen = draw.handled.of(method.specimen);
    const bool serum = &specimen == &draw.handled.serum;
    return {specimen.amount(method.analyte, level), specimen.color, specimen.solids,
            serum ? draw.drawn : 1};
}

double runOf(const Draw& draw, Analyte analyte) {
    const Method* method = draw.bench.find(analyte);
    return method ? runFactorOf(*method, draw.animal.who.seed, draw.number) : 1;
}

double runFactorOf(const Method& method, std::uint64_t seed, std::uint64_t number) {
    base::Chance run = chanceOf(seed, base::Purpose::analyzerRun, number,
                                static_cast<std::uint64_t>(method.analyte));
    return runFactor(method, run);
}

} // namespace cistern::lab
