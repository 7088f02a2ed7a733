#include "lab/assay/kinetic.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

constexpr double perMinute = 60;
constexpr double longestStep = 3;    // [s] of the scheme, see moved()
constexpr std::size_t fewest = 5;    // readings that make a line
constexpr double straight = 0.05;    // halves of a line may differ by this share of its slope,
constexpr double level = 0.004 / 60; // and by this anyway: noise [1/s]. Common practice, fitted

/// What a cuvette holds after pouring.
struct Cuvette {
    double rate, substrate, indicator;
    double start; ///< absorbance of all that does not react
    double blank; ///< [absorbance/s]
};

Cuvette filled(const Kinetic& assay, const Setting& setting, const Noise& noise) {
    const double share = poured(assay.volumes, assay.photometer, setting.taken, noise);
    const double warm = setting.warm + assay.photometer.temperature * noise.normal();
    const double activity = setting.content * assay.turnover * share *
                            std::pow(assay.q10, warm / 10) * (1 + assay.reaction * noise.normal());
    Cuvette cuvette{};
    cuvette.rate = std::max(activity, 0.0) / 1000 / perMinute;
    cuvette.substrate = assay.substrate * setting.lot;
    cuvette.indicator = assay.indicator * setting.lot;
    cuvette.start = assay.tint.of(setting.color) * share * assay.photometer.path;
    if (assay.falls)
        cuvette.start += absorbance(assay.absorption, cuvette.indicator, assay.photometer.path);
    cuvette.blank = (assay.blank + assay.blankSpread * noise.normal()) / perMinute;
    return cuvette;
}

Trace watched(const Kinetic& assay, const Setting& setting, const Noise& noise) {
    const Cuvette cuvette = filled(assay, setting, noise);
    const auto count =
        static_cast<std::size_t>(std::lround((assay.delay + assay.read) / assay.interval)) + 1;
    const int parts = static_cast<int>(std::ceil(assay.interval / longestStep));
    const double step = assay.interval / parts;
    const double sign = assay.falls ? -1 : 1;
    Trace trace;
    trace.wavelength = assay.wavelength;
    trace.seconds.reserve(count);
    trace.absorbance.reserve(count);
    Progress now;
    for (std::size_t i = 0; i < count; ++i) {
        const double seconds = static_cast<double>(i) * assay.interval;
        const double color = absorbance(assay.absorption, now.shown, assay.photometer.path) +
                             cuvette.blank * seconds;
        trace.seconds.push_back(static_cast<float>(seconds));
        trace.absorbance.push_back(static_cast<float>(
            reading(assay.photometer, cuvette.start + sign * color, setting.lamp, noise)));
        for (int k = 0; k < parts; ++k)
            now = moved(assay, now, cuvette.rate, cuvette.substrate, cuvette.indicator, step);
    }
    return trace;
}

bool isStraight(const Trace& trace, std::size_t first, std::size_t last) {
    const std::size_t middle = (first + last) / 2;
    const double early = slope(trace, first, middle + 1), late = slope(trace, middle, last);
    return std::abs(late - early) <= straight * std::abs(slope(trace, first, last)) + level;
}

} // namespace

double enzymeFactor(double absorption, const Volumes& volumes, double path) {
    return 1000 * volumes.total / (absorption * path * volumes.sample);
}

double saturation(double substrate, double affinity) {
    return substrate > 0 ? substrate / (affinity + substrate) : 0;
}

// Both reactions by the exponential Euler scheme of Rosenbrock's kind: exact for a rate that falls
// in proportion to what is left, second order otherwise, and steady where a reagent runs out.
Progress moved(const Kinetic& assay, Progress now, double rate, double substrate, double indicator,
               double step) {
    const auto advance = [&](double value, double speed, double slowing) {
        const double z = slowing * step; // <= 0
        return value + speed * (z < -1e-9 ? std::expm1(z) / slowing : step);
    };
    const double kn = assay.indicatorAffinity;
    const double nominal = saturation(assay.substrate, assay.affinity) *
                           (kn > 0 ? saturation(assay.indicator, kn) : 1);
    const double rest = std::max(indicator - now.shown, 0.0); // of the indicator
    const double ready = kn > 0 ? saturation(rest, kn) : rest > 0 ? 1 : 0;
    const double fading = kn > 0 ? kn / ((kn + rest) * (kn + rest)) : 0;
    const bool coupled = assay.coupling > 0;

    const double left = std::max(substrate - now.turned, 0.0);
    const double half = assay.affinity + left;
    const double top = rate / nominal; // with all of everything
    const double first = top * saturation(left, assay.affinity) *
                         (coupled ? (kn > 0 ? saturation(assay.indicator, kn) : 1) : ready);
    double slowing = -top * assay.affinity / (half * half) * (coupled ? 1 : ready);
    if (!coupled) slowing -= top * saturation(left, assay.affinity) * fading;

    Progress next;
    next.turned = std::min(advance(now.turned, first, slowing), substrate);
    if (!coupled) {
        next.turned = std::min(next.turned, indicator);
        next.shown = next.turned;
        return next;
    }
    const double between = std::max((now.turned + next.turned) / 2 - now.shown, 0.0);
    const double speed = assay.coupling / 1000 / perMinute;
    const double km = assay.couplingAffinity;
    const double second = speed * saturation(between, km) * ready;
    const double braking = -speed * (km / ((km + between) * (km + between)) * ready +
                                     saturation(between, km) * fading);
    next.shown = std::min({advance(now.shown, second, braking), next.turned, indicator});
    return next;
}

double slope(const Trace& trace, std::size_t first, std::size_t last) {
    const auto n = static_cast<double>(last - first);
    if (!(n >= 2)) return 0;
    double times = 0, values = 0;
    for (std::size_t i = first; i < last; ++i) {
        times += static_cast<double>(trace.seconds[i]);
        values += static_cast<double>(trace.absorbance[i]);
    }
    times /= n;
    values /= n;
    double with = 0, of = 0;
    for (std::size_t i = first; i < last; ++i) {
        const double t = static_cast<double>(trace.seconds[i]) - times;
        with += t * (static_cast<double>(trace.absorbance[i]) - values);
        of += t * t;
    }
    return with / of;
}

std::size_t straightEnd(const Kinetic& assay, const Trace& trace, std::size_t first) {
    std::size_t last = first;
    const double begun = static_cast<double>(trace.absorbance.front());
    const double serum =
        std::max(begun - absorbance(assay.absorption, assay.indicator, assay.photometer.path), 0.0);
    const auto useful = [&](float seen) {
        const double a = static_cast<double>(seen);
        return assay.falls ? a - serum >= assay.limit : a <= assay.limit;
    };
    while (last < trace.absorbance.size() && useful(trace.absorbance[last])) ++last;
    while (last >= first + fewest && !isStraight(trace, first, last)) --last;
    return last >= first + fewest ? last : first;
}

Signal run(const Kinetic& assay, const Setting& setting, const Noise& noise) {
    Signal signal;
    signal.trace = watched(assay, setting, noise);
    Trace& trace = signal.trace;
    const auto first = static_cast<std::size_t>(std::lround(assay.delay / assay.interval));
    const std::size_t all = trace.absorbance.size();
    const std::size_t last = setting.check ? straightEnd(assay, trace, first) : all;
    trace.from = static_cast<double>(trace.seconds[first]);
    trace.to = static_cast<double>(trace.seconds[last > first ? last - 1 : first]);
    if (last == first) {
        signal.bent = true;
        signal.remark = assay.falls ? "the indicator was used up before there was a straight trace"
                                    : "the trace left the readable range before it was straight";
        return signal;
    }
    const double rising = slope(trace, first, last) * perMinute * (assay.falls ? -1 : 1);
    signal.content = (rising - assay.blank) *
                     enzymeFactor(assay.absorption, assay.volumes, assay.photometer.path) *
                     assay.calibration / assay.turnover;
    if (last < all) signal.remark = "read from the first, straight part of the trace";
    return signal;
}

} // namespace cistern::lab
