#include "lab/assay/assay.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

constexpr double interval = 12; // [s] between readings of a cuvette; common practice
constexpr double usedUp = 0.95; // of the reagent: the reading is not believed; common practice

/// What a cuvette holds after pouring.
struct Cuvette {
    double amount, capacity; ///< of the analyte and what the reagent turns over of it
    double pace;             ///< [1/s]
    double serum, other;     ///< absorbance of the serum at the two wavelengths
    double reagent;          ///< absorbance of the reagent
};

Cuvette filled(const EndPoint& assay, const Setting& setting, const Noise& noise) {
    const double share = poured(assay.volumes, assay.photometer, setting.taken, noise);
    const double warm = setting.warm + assay.photometer.temperature * noise.normal();
    const double path = assay.photometer.path;
    Cuvette cuvette{};
    cuvette.amount = std::max(setting.content * share * (1 + assay.reaction * noise.normal()), 0.0);
    cuvette.capacity = assay.capacity * setting.lot;
    cuvette.pace = assay.pace / 60 * setting.lot * std::pow(assay.q10, warm / 10);
    cuvette.serum = assay.tint.of(setting.color) * share * path;
    cuvette.other = assay.second.of(setting.color) * share * path;
    // what falls is the reagent's own color
    cuvette.reagent = assay.falls ? assay.reagent + absorbance(assay.color, cuvette.capacity, path)
                                  : assay.reagent;
    return cuvette;
}

/// Absorbance of the reaction and all around it at a time, without light.
double standing(const EndPoint& assay, const Cuvette& cuvette, double seconds) {
    const double turned =
        std::min(cuvette.amount * -std::expm1(-cuvette.pace * seconds), cuvette.capacity);
    const double color = absorbance(assay.color, turned, assay.photometer.path);
    return cuvette.serum + cuvette.reagent + (assay.falls ? -color : color);
}

} // namespace

Signal run(const EndPoint& assay, const Setting& setting, const Noise& noise) {
    const Cuvette cuvette = filled(assay, setting, noise);
    const auto count = static_cast<std::size_t>(std::lround(assay.to / interval)) + 1;
    Signal signal;
    Trace& trace = signal.trace;
    trace.wavelength = assay.wavelength;
    trace.seconds.reserve(count);
    trace.absorbance.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double seconds = static_cast<double>(i) * interval;
        double seen =
            reading(assay.photometer, standing(assay, cuvette, seconds), setting.lamp, noise);
        if (assay.otherWavelength > 0)
            seen -= reading(assay.photometer, cuvette.other, setting.lamp, noise);
        trace.seconds.push_back(static_cast<float>(seconds));
        trace.absorbance.push_back(static_cast<float>(seen));
    }
    const auto start = static_cast<std::size_t>(std::lround(assay.from / interval));
    trace.from = static_cast<double>(trace.seconds[assay.blanked ? start : count - 1]);
    trace.to = static_cast<double>(trace.seconds.back());

    const double last = static_cast<double>(trace.absorbance.back());
    const double shift = std::hypot(assay.photometer.cuvette, assay.blankSpread) * noise.normal();
    const double before = assay.blanked ? static_cast<double>(trace.absorbance[start])
                          : assay.falls ? assay.reagent + absorbance(assay.color, assay.capacity,
                                                                     assay.photometer.path)
                                        : assay.reagent;
    const double moved = (assay.falls ? before - last : last - before) + shift;
    signal.content = moved * assay.calibration;

    if (!setting.check) return signal;
    const double change = std::abs(last - static_cast<double>(trace.absorbance.front()));
    const double whole = absorbance(assay.color, assay.capacity, assay.photometer.path);
    const bool dark = std::any_of(trace.absorbance.begin(), trace.absorbance.end(), [&](float a) {
        return static_cast<double>(a) >= assay.photometer.highest;
    });
    if (change >= usedUp * whole || dark) {
        signal.bent = true;
        signal.remark = dark ? "too dark to see through" : "the reagent was used up";
    }
    return signal;
}

} // namespace cistern::lab
