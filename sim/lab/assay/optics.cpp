#include "lab/assay/optics.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {
const double ln10 = std::log(10.0);
}

double absorbance(double molarAbsorption, double amount, double path) {
    return molarAbsorption * amount * path;
}

double transmittance(double absorbance) {
    return std::exp(-ln10 * absorbance);
}

double withStrayLight(double absorbance, double stray) {
    return -std::log10((transmittance(absorbance) + stray) / (1 + stray));
}

double constantNoise(double absorbance, double noise) {
    return noise / (ln10 * transmittance(absorbance));
}

double shotNoise(double absorbance, double photons) {
    return 1 / (ln10 * std::sqrt(photons * transmittance(absorbance)));
}

double reading(const Photometer& photometer, double absorbance, double lamp, const Noise& noise) {
    const double stray = photometer.stray / lamp;
    const double light = (transmittance(absorbance) + stray) / (1 + stray);
    const double spread =
        std::sqrt(light / (photometer.photons * lamp) + std::pow(photometer.electronic / lamp, 2));
    const double seen = light + spread * noise.normal();
    const double least = transmittance(photometer.highest);
    return seen > least ? -std::log10(seen) : photometer.highest;
}

void eachParameter(Photometer& p, const body::Visit& visit) {
    visit({"path", "cm", &p.path, 0.1, 5});
    visit({"photons", "1", &p.photons, 1e3, 1e15});
    visit({"stray light", "1", &p.stray, 0, 0.1});
    visit({"electronic noise", "1", &p.electronic, 0, 0.1});
    visit({"highest absorbance", "1", &p.highest, 1, 6});
    visit({"cuvette spread", "1", &p.cuvette, 0, 0.1});
    visit({"pipette.share", "1", &p.pipetteShare, 0, 0.2});
    visit({"pipette.volume", "uL", &p.pipetteVolume, 0, 5});
    visit({"temperature spread", "K", &p.temperature, 0, 2});
    visit({"calibrator", "1", &p.calibrator, 0.01, 1});
    visit({"short sample", "1", &p.shortSample, 0, 1});
}

} // namespace cistern::lab
