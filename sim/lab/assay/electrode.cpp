#include "lab/assay/electrode.h"

#include "lab/assay/assay.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {
constexpr double block = 37; // [Cel] of the warm block
}

double nernstSlope(double celsius, double charge) {
    constexpr double gas = 8.314462618, faraday = 96485.33212, zero = 273.15, milli = 1000;
    return milli * gas * (celsius + zero) * std::log(10.0) / (charge * faraday);
}

double solids(double protein, double fat) {
    constexpr double perDeciliter = 0.1;
    return (100 - 99.1 + 1.03 * fat * perDeciliter + 0.73 * protein * perDeciliter) / 100;
}

Signal run(const Electrode& assay, const Setting& setting, const Noise& noise) {
    const double nominal = assay.volumes.fraction();
    const double share = poured(assay.volumes, assay.photometer, setting.taken, noise) / nominal;
    // only water carries ions into the diluent
    const double carried = share * (1 - setting.solids) / assay.water;
    const double least = 1e-9; // of the standard: no ion at all has no logarithm
    const double ratio = std::max((setting.content + assay.others + assay.carry * noise.normal()) *
                                      carried / (assay.standard + assay.others),
                                  least);
    const double voltage = assay.slope * setting.lot *
                               nernstSlope(block + setting.warm, assay.charge) * std::log10(ratio) +
                           assay.noise * noise.normal();
    Signal signal;
    signal.content = (assay.standard + assay.others) *
                         std::pow(10, voltage / (assay.slope * nernstSlope(block, assay.charge))) -
                     assay.others;
    return signal;
}

} // namespace cistern::lab
