#include "lab/assay/assay.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

Signal run(const Timer& assay, const Setting& setting, const Noise& noise) {
    const double share =
        poured(assay.volumes, assay.photometer, setting.taken, noise) / assay.volumes.fraction();
    const double warm = setting.warm + assay.photometer.temperature * noise.normal();
    const bool amount = assay.atOne > 0;
    const double pure =
        amount ? assay.atOne * std::pow(setting.content, -assay.power) : setting.content;
    const double clotted = pure * std::pow(share, -assay.thinning) *
                           std::pow(setting.lot, -assay.reagent) * std::pow(assay.q10, -warm / 10) *
                           (1 + assay.reaction * noise.normal());
    const double seconds = std::max(clotted + assay.detection * noise.normal(), 0.0);
    Signal signal;
    signal.content = amount ? std::pow(assay.atOne / seconds, 1 / assay.power) : seconds;
    return signal;
}

} // namespace cistern::lab
