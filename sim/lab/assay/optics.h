#pragma once
#include "base/chance.h"
#include "body/parameter.h"

namespace cistern::lab {

/// Absorbance of a dissolved color. Beer and Lambert: molar absorption [L/mmol/cm] x amount
/// [mmol/L] x path [cm].
double absorbance(double molarAbsorption, double amount, double path = 1);

/// Share of light that is let through, 0..1: 10^-A.
double transmittance(double absorbance);

/// Absorbance as it appears when the share `stray` of the light goes round the cuvette: -log10((T +
/// s) / (1 + s)). Never above log10((1 + s) / s).
double withStrayLight(double absorbance, double stray);

/// Spread of an absorbance by noise that does not depend on the light [share of full light].
double constantNoise(double absorbance, double noise);
/// Spread of an absorbance by the counting of photons, of which `photons` would pass a clear
/// cuvette.
double shotNoise(double absorbance, double photons);

/// The light, the pipettes and the warm block that all reactions in cuvettes share. A quiet one has
/// no noise.
struct Photometer {
    double path = 1;           ///< [cm]
    double photons = 1e8;      ///< of a clear cuvette in one reading
    double stray = 1e-4;       ///< share of light that goes round the cuvette
    double electronic = 0;     ///< noise of the detector, share of full light
    double highest = 3;        ///< absorbance: more is not shown
    double cuvette = 0;        ///< spread between the places of a cuvette, absorbance
    double pipetteShare = 0;   ///< spread of a volume, share of it
    double pipetteVolume = 0;  ///< spread of a volume, the part that is the same for all [uL]
    double temperature = 0;    ///< spread of a cuvette's temperature [K]
    double calibrator = 0.25;  ///< its level, as share of a method's upper limit
    double shortSample = 0.85; ///< the probe notices air when it holds less than this share
};
void eachParameter(Photometer& photometer, const body::Visit& visit);

/// Chance that can be switched off, so that a calibrator runs through the same assay without noise.
class Noise {
public:
    Noise() = default; ///< none
    explicit Noise(base::Chance& chance) : chance_(&chance) {}
    double normal() const { return chance_ ? chance_->normal() : 0; }

private:
    base::Chance* chance_ = nullptr;
};

/// One reading: stray light, photons, detector, ceiling. `lamp` is the share of its light that the
/// lamp still gives; what goes round the cuvette stays.
double reading(const Photometer& photometer, double absorbance, double lamp, const Noise& noise);

} // namespace cistern::lab
