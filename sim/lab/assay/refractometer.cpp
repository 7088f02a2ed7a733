#include "lab/assay/assay.h"

#include <cmath>

namespace cistern::lab {

Signal run(const Refractometer& assay, const Setting& setting, const Noise& noise) {
    const double seen =
        setting.content - assay.temperature * setting.warm + assay.eye * noise.normal();
    Signal signal;
    signal.content = std::round(seen / assay.line) * assay.line;
    return signal;
}

} // namespace cistern::lab
