#include "lab/assay/ligand.h"

#include "lab/assay/assay.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cistern::lab {

double signalOf(const Ligand& assay, double amount) {
    return assay.end +
           (assay.start - assay.end) / (1 + std::pow(amount / assay.middle, assay.steepness));
}

double amountOf(const Ligand& assay, double signal) {
    const double way = (signal - assay.start) / (assay.end - assay.start);
    if (way <= 0) return 0;
    if (way >= 1) return std::numeric_limits<double>::infinity();
    return assay.middle * std::pow(way / (1 - way), 1 / assay.steepness);
}

Signal run(const Ligand& assay, const Setting& setting, const Noise& noise) {
    const double share = poured(assay.volumes, assay.photometer, setting.taken, noise);
    const double amount = std::max(setting.content, 0.0) * share / assay.volumes.fraction();
    const double dark = std::min(assay.start, assay.end); // light without any label bound
    const double bound =
        (signalOf(assay, amount) - dark) * setting.lot *
        (1 + assay.temperature * (setting.warm + assay.photometer.temperature * noise.normal()));
    const double light = (dark + bound) * (1 + assay.washing * noise.normal());
    const double counted = light + std::sqrt(std::max(light, 0.0)) * noise.normal();
    Signal signal;
    signal.content = amountOf(assay, counted);
    return signal;
}

} // namespace cistern::lab
